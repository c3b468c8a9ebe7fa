#include "note_text.h"

#include "access/detoast.h"
#include "catalog/namespace.h"
#include "fmgr.h"
#include "jointledger.h"
#include "mb/pg_wchar.h"

enum { kStep = 512 };

static uint32 characters_in(const char* text, size_t size) {
  uint32 count = 0;

  for (size_t i = 0; i < size; ++i) count += ((unsigned char)text[i] & 0xC0U) != 0x80U;
  return count;
}

static const uint32* marks_of(const char* text, size_t size) {
  uint32* marks = palloc(sizeof(uint32) * (size / kStep + 1));
  uint32 count = 0;
  size_t mark = 0;

  for (size_t at = 0; at <= size; at += kStep) {
    marks[mark++] = count;
    count += characters_in(text + at, Min((size_t)kStep, size - at));
  }
  if (count < size) return marks;
  pfree(marks);
  return NULL;
}

uint32 characters_before(const NoteText* note, uint32 at) {
  const uint32 mark = at / kStep;

  if (note->marks == NULL) return at;
  return note->marks[mark] + characters_in(note->utf8 + (size_t)mark * kStep, at - mark * kStep);
}

/* From the encoding of the database. The server's own conversion would quote what it cannot convert. */
static bool to_utf8(NoteText* note) {
  const int encoding = GetDatabaseEncoding();
  const size_t room = note->size * MAX_CONVERSION_GROWTH + 1;
  unsigned char* utf8;
  Oid conversion;

  /* A database without an encoding has bytes of any; the library will see. */
  if (note->size == 0 || encoding == PG_UTF8 || encoding == PG_SQL_ASCII) return true;
  conversion = FindDefaultConversionProc(encoding, PG_UTF8);
  if (!OidIsValid(conversion)) return false;
  utf8 = palloc(room);
  if (pg_do_encoding_conversion_buf(conversion, encoding, PG_UTF8, (unsigned char*)unconstify(char*, note->utf8),
                                    (int)note->size, utf8, (int)room, true) != (int)note->size) {
    return false;
  }
  note->utf8 = (const char*)utf8;
  note->size = strlen(note->utf8);
  return true;
}

bool take_note(Datum value, NoteText* note, NoteFault* fault) {
  text* whole;

  /* Asked before it is unpacked: a value of the database may have a gigabyte. */
  if (toast_raw_datum_size(value) - VARHDRSZ > JOINTLEDGER_LONGEST_NOTE) {
    fault->sqlstate = ERRCODE_PROGRAM_LIMIT_EXCEEDED;
    fault->reason = "the note is longer than 64 MiB";
    return false;
  }
  whole = DatumGetTextPP(value);
  note->utf8 = VARDATA_ANY(whole);
  note->size = VARSIZE_ANY_EXHDR(whole);
  if (!to_utf8(note)) {
    fault->sqlstate = ERRCODE_UNTRANSLATABLE_CHARACTER;
    fault->reason = "the note has a character that UTF-8 has not";
    return false;
  }
  note->marks = marks_of(note->utf8, note->size);
  return true;
}
