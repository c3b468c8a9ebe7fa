/*
 * Values of the library as values of SQL, made in the current memory context. Texts are ids of the library's, and
 * ASCII.
 */
#ifndef JOINTLEDGER_POSTGRES_VALUES_H
#define JOINTLEDGER_POSTGRES_VALUES_H

#include "postgres.h"

/* postgres.h goes first, since it sets what the headers of the system and of the server depend on. */
#include "jointledger.h"
#include "note_text.h"
/* text, in the encoding of the database, of `size` bytes of UTF-8. A character that the database cannot have is an SQL
 * error; a note has none, as it came from there. */
extern Datum utf8_value(const char* utf8, size_t size);

/* The same of what ends in a NUL, and is not NULL. */
extern Datum text_value(const char* words);

/* text[]; of none the empty one, as of all arrays here */
extern Datum text_array(const char* const* words, size_t count);
extern Datum motion_array(uint32 motions);
extern Datum component_array(const int32_t* components, size_t count);

/* int4range and int4range[]: characters of the note, counted from 0 */
extern Datum range_value(jointledger_span span, const NoteText* note);
extern Datum range_array(const jointledger_span* spans, size_t count, const NoteText* note);

/* Arrays of the types exam_degrees and exam_grade; `array_type` is the array's. */
extern Datum degrees_array(const jointledger_degrees* degrees, size_t count, const NoteText* note, Oid array_type);
extern Datum grade_array(const jointledger_grade* grades, size_t count, const NoteText* note, Oid array_type);

/* float4 and float8 with as many decimals as the JSON output writes of certainties and credits */
extern Datum certainty_value(float certainty);
extern Datum credit_value(double credit);

#endif
