#include "values.h"

#include <math.h>

#include "access/htup_details.h"
#include "catalog/pg_type.h"
#include "funcapi.h"
#include "mb/pg_wchar.h"
#include "utils/array.h"
#include "utils/builtins.h"
#include "utils/lsyscache.h"
#include "utils/rangetypes.h"
#include "utils/typcache.h"

Datum utf8_value(const char* utf8, size_t size) {
  const char* words = pg_any_to_server(utf8, (int)size, PG_UTF8);

  /* Where nothing was to be converted, it ends in no NUL. */
  return PointerGetDatum(words == utf8 ? cstring_to_text_with_len(utf8, (int)size) : cstring_to_text(words));
}

Datum text_value(const char* words) { return utf8_value(words, strlen(words)); }

static Datum array_of_text(Datum* texts, size_t count) {
  return PointerGetDatum(construct_array(texts, (int)count, TEXTOID, -1, false, TYPALIGN_INT));
}

Datum text_array(const char* const* words, size_t count) {
  Datum* texts = palloc(sizeof(Datum) * (count + 1));

  for (size_t i = 0; i < count; ++i) texts[i] = text_value(words[i]);
  return array_of_text(texts, count);
}

Datum motion_array(uint32 motions) {
  Datum texts[32];
  size_t count = 0;

  for (int motion = 0; motion < 32; ++motion) {
    const char* name = (motions >> motion) & 1U ? jointledger_motion_name(motion) : NULL;

    /* A motion that a later version of the library has added would be without a name. */
    if (name != NULL) texts[count++] = text_value(name);
  }
  return array_of_text(texts, count);
}

Datum component_array(const int32_t* components, size_t count) {
  Datum* texts = palloc(sizeof(Datum) * (count + 1));

  for (size_t i = 0; i < count; ++i) texts[i] = text_value(jointledger_component_name(components[i]));
  return array_of_text(texts, count);
}

static Datum make_int4range(jointledger_span span, const NoteText* note, TypeCacheEntry* type) {
  RangeBound from = {
      .val = Int32GetDatum((int32)characters_before(note, span.start)), .inclusive = true, .lower = true};
  RangeBound to = {.val = Int32GetDatum((int32)characters_before(note, span.end))};

  return RangeTypePGetDatum(make_range(type, &from, &to, false));
}

static TypeCacheEntry* int4range(void) { return lookup_type_cache(INT4RANGEOID, TYPECACHE_RANGE_INFO); }

Datum range_value(jointledger_span span, const NoteText* note) { return make_int4range(span, note, int4range()); }

Datum range_array(const jointledger_span* spans, size_t count, const NoteText* note) {
  TypeCacheEntry* type = int4range();
  Datum* ranges = palloc(sizeof(Datum) * (count + 1));

  for (size_t i = 0; i < count; ++i) ranges[i] = make_int4range(spans[i], note, type);
  return PointerGetDatum(
      construct_array(ranges, (int)count, INT4RANGEOID, type->typlen, type->typbyval, type->typalign));
}

/* Rows, of a composite type, as an array. */
static Datum array_of_rows(Datum* rows, size_t count, Oid type) {
  return PointerGetDatum(construct_array(rows, (int)count, type, -1, false, TYPALIGN_DOUBLE));
}

Datum degrees_array(const jointledger_degrees* degrees, size_t count, const NoteText* note, Oid array_type) {
  const Oid type = get_element_type(array_type);
  TupleDesc columns;
  Datum* rows;

  if (count == 0) return PointerGetDatum(construct_empty_array(type));
  columns = lookup_rowtype_tupdesc(type, -1);
  rows = palloc(sizeof(Datum) * count);
  for (size_t i = 0; i < count; ++i) {
    const jointledger_degrees* d = &degrees[i];
    const bool named = d->motion != JOINTLEDGER_NONE;
    Datum values[] = {named ? text_value(jointledger_motion_name(d->motion)) : (Datum)0,
                      text_value(jointledger_side_name(d->side)),
                      Int32GetDatum(d->from),
                      Int32GetDatum(d->to),
                      BoolGetDatum(d->lacking != 0),
                      range_value(d->evidence, note)};
    bool nulls[] = {!named, false, d->has_from == 0, false, false, false};

    rows[i] = HeapTupleGetDatum(heap_form_tuple(columns, values, nulls));
  }
  ReleaseTupleDesc(columns);
  return array_of_rows(rows, count, type);
}

Datum grade_array(const jointledger_grade* grades, size_t count, const NoteText* note, Oid array_type) {
  const Oid type = get_element_type(array_type);
  TupleDesc columns;
  Datum* rows;

  if (count == 0) return PointerGetDatum(construct_empty_array(type));
  columns = lookup_rowtype_tupdesc(type, -1);
  rows = palloc(sizeof(Datum) * count);
  for (size_t i = 0; i < count; ++i) {
    Datum values[] = {text_value(grades[i].value), Int32GetDatum(grades[i].scale),
                      text_value(jointledger_side_name(grades[i].side)), range_value(grades[i].evidence, note)};
    bool nulls[] = {false, false, false, false};

    rows[i] = HeapTupleGetDatum(heap_form_tuple(columns, values, nulls));
  }
  ReleaseTupleDesc(columns);
  return array_of_rows(rows, count, type);
}

Datum certainty_value(float certainty) { return Float4GetDatum((float4)(round((double)certainty * 1e3) / 1e3)); }

Datum credit_value(double credit) { return Float8GetDatum(round(credit * 1e4) / 1e4); }
