#include "rows.h"

#include "session.h"
#include "values.h"

enum { kMostColumns = 11, kFaultColumns = 2 };

Rows begin_rows(FunctionCallInfo fcinfo, int columns, bool faults_as_rows) {
  Rows rows = {(ReturnSetInfo*)fcinfo->resultinfo, columns, faults_as_rows};

  /* To find out the columns anew would leave memory behind until the end of the query, at every call. */
  InitMaterializedSRF(fcinfo, MAT_SRF_USE_EXPECTED_DESC);
  /* The script that made the function could be of another version than this module. */
  if (rows.into->setDesc->natts != columns + (faults_as_rows ? kFaultColumns : 0)) {
    ereport(ERROR, (errcode(ERRCODE_DATATYPE_MISMATCH),
                    errmsg("the functions of jointledger in this database are of another version than its library"),
                    errhint("ALTER EXTENSION jointledger UPDATE")));
  }
  return rows;
}

void put_row(const Rows* rows, const Datum* values) {
  Datum all[kMostColumns + kFaultColumns] = {0};
  bool nulls[kMostColumns + kFaultColumns] = {false};

  for (int i = 0; i < rows->columns; ++i) all[i] = values[i];
  nulls[rows->columns] = nulls[rows->columns + 1] = true;
  tuplestore_putvalues(rows->into->setResult, rows->into->setDesc, all, nulls);
}

static void put_fault(const Rows* rows, const NoteFault* fault) {
  Datum all[kMostColumns + kFaultColumns] = {0};
  bool nulls[kMostColumns + kFaultColumns] = {false};

  if (!rows->faults_as_rows) {
    ereport(ERROR, (errcode(fault->sqlstate), errmsg("jointledger: %s", fault->reason)));
  }
  for (int i = 0; i < rows->columns; ++i) nulls[i] = true;
  all[rows->columns] = text_value(unpack_sql_state(fault->sqlstate));
  all[rows->columns + 1] = text_value(fault->reason);
  tuplestore_putvalues(rows->into->setResult, rows->into->setDesc, all, nulls);
}

const jointledger_ledger* read_argument(FunctionCallInfo fcinfo, const Rows* rows, NoteText* note) {
  const jointledger_ledger* ledger = NULL;
  NoteFault fault = {0};

  if (take_note(PG_GETARG_DATUM(0), note, &fault)) ledger = read_note(note, &fault);
  if (ledger == NULL) put_fault(rows, &fault);
  return ledger;
}
