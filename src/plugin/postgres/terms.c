/*
 * The functions for the table NOTE_NLP of OMOP CDM v5.4: a row for each entry, then for each complaint, as the command
 * line writes them with --to omop. What the columns mean is said in src/report/omop_report.h. The command line's code
 * knows C++ only, so what it does stands here once more, and a test holds the two equal row for row.
 */
#include "postgres.h"

/* postgres.h goes first, since it sets what the headers of the system and of the server depend on. */
#include "fmgr.h"
#include "lib/stringinfo.h"
#include "passage.h"
#include "rows.h"
#include "session.h"
#include "values.h"

PG_FUNCTION_INFO_V1(jointledger_pg_terms);
PG_FUNCTION_INFO_V1(jointledger_pg_try_terms);

enum { kLongestPassage = 250, kLongestModifiers = 2000, kColumns = 7 };

/* "key=item,item;key=item": whole items, until they are too long; of a key without items nothing. */
typedef struct Modifiers {
  StringInfoData text;
  const char* key;
  bool begun; /* the key stands there */
  bool full;
} Modifiers;

static Modifiers no_modifiers(void) {
  Modifiers none = {0};

  initStringInfo(&none.text);
  return none;
}

static void begin_modifier(Modifiers* to, const char* key) {
  to->key = key;
  to->begun = false;
}

static void add_item(Modifiers* to, const char* item) {
  const char* lead = to->text.len == 0 ? "" : ";";
  const char* separator = to->begun ? "," : psprintf("%s%s=", lead, to->key);

  if (to->full || (size_t)to->text.len + strlen(separator) + strlen(item) > kLongestModifiers) {
    to->full = true;
    return;
  }
  appendStringInfoString(&to->text, separator);
  appendStringInfoString(&to->text, item);
  to->begun = true;
}

static void add_modifier(Modifiers* to, const char* key, const char* value) {
  begin_modifier(to, key);
  add_item(to, value);
}

static void add_evidence(Modifiers* to, const NoteText* note, const jointledger_span* evidence, size_t count) {
  begin_modifier(to, "evidence");
  for (size_t i = 0; i < count; ++i) {
    add_item(to,
             psprintf("%u-%u", characters_before(note, evidence[i].start), characters_before(note, evidence[i].end)));
  }
}

/* In as few decimals as tell it apart, three at most. */
static const char* certainty_text(float certainty) {
  char* text = psprintf("%.3f", (double)certainty);
  char* end = text + strlen(text);

  while (end[-1] == '0') --end;
  if (end[-1] == '.') --end;
  *end = '\0';
  return text;
}

static const char* degrees_text(const jointledger_degrees* d) {
  StringInfoData text;

  initStringInfo(&text);
  if (d->motion != JOINTLEDGER_NONE) appendStringInfo(&text, "%s ", jointledger_motion_name(d->motion));
  if (d->lacking != 0) appendStringInfoString(&text, "lacking ");
  if (d->has_from != 0) appendStringInfo(&text, "%d..", d->from);
  appendStringInfo(&text, "%d %s", d->to, jointledger_side_name(d->side));
  return text.data;
}

static const char* modifiers_of_entry(const jointledger_entry* e, const NoteText* note) {
  Modifiers to = no_modifiers();
  const char* motion;

  add_modifier(&to, "region", jointledger_region_name(e->region));
  add_modifier(&to, "component", jointledger_component_name(e->component));
  add_modifier(&to, "side", jointledger_side_name(e->side));
  add_modifier(&to, "outcome", jointledger_outcome_name(e->outcome));
  begin_modifier(&to, "motions");
  for (int i = 0; (motion = jointledger_motion_name(i)) != NULL; ++i) {
    if ((e->motions >> i) & 1U) add_item(&to, motion);
  }
  begin_modifier(&to, "degrees");
  for (size_t i = 0; i < e->degrees_count; ++i) add_item(&to, degrees_text(&e->degrees[i]));
  begin_modifier(&to, "grades");
  for (size_t i = 0; i < e->grade_count; ++i) {
    const jointledger_grade* g = &e->grades[i];

    add_item(&to, psprintf("%s/%d %s", g->value, g->scale, jointledger_side_name(g->side)));
  }
  begin_modifier(&to, "structures");
  for (size_t i = 0; i < e->structure_count; ++i) add_item(&to, e->structures[i]);
  begin_modifier(&to, "tests");
  for (size_t i = 0; i < e->test_count; ++i) add_item(&to, e->tests[i]);
  add_modifier(&to, "certainty", certainty_text(e->certainty));
  add_evidence(&to, note, e->evidence, e->evidence_count);
  return to.text.data;
}

static const char* modifiers_of_complaint(const jointledger_complaint* c, const NoteText* note) {
  Modifiers to = no_modifiers();

  add_modifier(&to, "complaint", "true");
  add_modifier(&to, "region", jointledger_region_name(c->region));
  add_modifier(&to, "side", jointledger_side_name(c->side));
  add_modifier(&to, "injury", c->injury != 0 ? "true" : "false");
  add_evidence(&to, note, &c->evidence, 1);
  return to.text.data;
}

static Datum words_value(const NoteText* note, jointledger_span span) {
  return utf8_value(note->utf8 + span.start, span.end - span.start);
}

static void put_term(const Rows* rows, const NoteText* note, const jointledger_span* evidence, size_t count,
                     bool exists, const char* modifiers) {
  const jointledger_span passage = passage_of(note, evidence, count, kLongestPassage);
  const Datum values[kColumns] = {words_value(note, surroundings_of(note, passage, kLongestPassage)),
                                  Int32GetDatum((int32)characters_before(note, passage.start)),
                                  words_value(note, passage),
                                  text_value(psprintf("Jointledger %s", jointledger_version())),
                                  text_value(exists ? "Y" : "N"),
                                  text_value("present"),
                                  text_value(modifiers)};

  put_row(rows, values);
}

static Datum terms(FunctionCallInfo fcinfo, bool faults_as_rows) {
  const Rows rows = begin_rows(fcinfo, kColumns, faults_as_rows);
  NoteText note = {0};
  const jointledger_ledger* ledger = read_argument(fcinfo, &rows, &note);

  for (size_t i = 0; ledger != NULL && i < ledger->entry_count; ++i) {
    const jointledger_entry* e = &ledger->entries[i];

    put_term(&rows, &note, e->evidence, e->evidence_count, e->outcome != JOINTLEDGER_OUTCOME_NOT_DONE,
             modifiers_of_entry(e, &note));
  }
  for (size_t i = 0; ledger != NULL && i < ledger->complaint_count; ++i) {
    const jointledger_complaint* c = &ledger->complaints[i];

    put_term(&rows, &note, &c->evidence, 1, true, modifiers_of_complaint(c, &note));
  }
  end_note();
  return (Datum)0;
}

Datum jointledger_pg_terms(PG_FUNCTION_ARGS) { return terms(fcinfo, false); }
Datum jointledger_pg_try_terms(PG_FUNCTION_ARGS) { return terms(fcinfo, true); }
