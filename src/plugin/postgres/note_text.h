/*
 * A note as the database has it, and as the library reads it: UTF-8. The library counts bytes of that; SQL counts
 * characters, whatever the encoding of the database.
 */
#ifndef JOINTLEDGER_POSTGRES_NOTE_TEXT_H
#define JOINTLEDGER_POSTGRES_NOTE_TEXT_H

#include "postgres.h"

/* Why a note cannot be read: an SQLSTATE, as errcode() takes it, and a sentence without any words of the note. */
typedef struct NoteFault {
  int sqlstate;
  const char* reason;
} NoteFault;

/* Lives in the memory context in which it was made. */
typedef struct NoteText {
  const char* utf8; /* without a NUL at its end */
  size_t size;
  const uint32* marks; /* how many characters begin before every 512th byte; NULL where each is one byte */
} NoteText;

/* Takes a value of type text. False if it cannot be a note, with the reason in `fault`. */
extern bool take_note(Datum value, NoteText* note, NoteFault* fault);

/* How many characters (code points) begin before byte `at`, which is at most the size. */
extern uint32 characters_before(const NoteText* note, uint32 at);

#endif
