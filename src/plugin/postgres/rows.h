/*
 * What the functions of the extension have in common. Each reads a note into the scratch of the process and puts its
 * rows into the tuplestore of the query. A function whose name begins with try_ has two columns more, sqlstate and
 * fault, and says there what is wrong with a note, in a row of its own, where the others raise an error.
 */
#ifndef JOINTLEDGER_POSTGRES_ROWS_H
#define JOINTLEDGER_POSTGRES_ROWS_H

#include "postgres.h"

/* postgres.h goes first, since it sets what the headers of the system and of the server depend on. */
#include "funcapi.h"
#include "jointledger.h"
#include "note_text.h"

/* What the rows of a call are put with. */
typedef struct Rows {
  ReturnSetInfo* into;
  int columns; /* without those for a fault */
  bool faults_as_rows;
} Rows;

extern Rows begin_rows(FunctionCallInfo fcinfo, int columns, bool faults_as_rows);

/* The ledger of the first argument, until the next call; NULL if that cannot be read, which was told then. */
extern const jointledger_ledger* read_argument(FunctionCallInfo fcinfo, const Rows* rows, NoteText* note);

/* As many values as there are columns, none of them NULL. */
extern void put_row(const Rows* rows, const Datum* values);

#endif
