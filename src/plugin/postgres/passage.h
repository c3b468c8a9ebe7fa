/*
 * Passages of a note, in bytes, for the columns of NOTE_NLP, which are limited to so many characters: as passage_of()
 * and surroundings_of() in src/report/passage.h have them for the command line.
 */
#ifndef JOINTLEDGER_POSTGRES_PASSAGE_H
#define JOINTLEDGER_POSTGRES_PASSAGE_H

#include "note_text.h"

/* note_text.h brings postgres.h, which goes first. */
#include "jointledger.h"

/* The stretch of at most `longest` characters that holds the most of the evidence (not empty, ascending), from the
 * start of one piece to the end of another. Of several the first. A single piece that is longer is cut. */
extern jointledger_span passage_of(const NoteText* note, const jointledger_span* evidence, size_t count,
                                   uint32 longest);

/* The passage and what stands around it, `longest` characters at most, both ends between words. */
extern jointledger_span surroundings_of(const NoteText* note, jointledger_span passage, uint32 longest);

#endif
