/*
 * The module, and the functions for what a note says and lacks. Those for NOTE_NLP are in terms.c.
 */
#include "postgres.h"

/* postgres.h goes first, since it sets what the headers of the system and of the server depend on. */
#include "fmgr.h"
#include "miscadmin.h"
#include "rows.h"
#include "session.h"
#include "values.h"

PG_MODULE_MAGIC;

PG_FUNCTION_INFO_V1(jointledger_pg_entries);
PG_FUNCTION_INFO_V1(jointledger_pg_try_entries);
PG_FUNCTION_INFO_V1(jointledger_pg_complaints);
PG_FUNCTION_INFO_V1(jointledger_pg_try_complaints);
PG_FUNCTION_INFO_V1(jointledger_pg_gaps);
PG_FUNCTION_INFO_V1(jointledger_pg_try_gaps);

/* The name is the server's. */
void _PG_init(void);  // NOLINT(bugprone-reserved-identifier)

void _PG_init(void) {
  declare_settings();
  if (process_shared_preload_libraries_in_progress) load_ahead();
}

static Datum entries(FunctionCallInfo fcinfo, bool faults_as_rows) {
  enum { kDegrees = 5, kGrades = 6, kColumns = 11 };
  const Rows rows = begin_rows(fcinfo, kColumns, faults_as_rows);
  NoteText note = {0};
  const jointledger_ledger* ledger = read_argument(fcinfo, &rows, &note);

  for (size_t i = 0; ledger != NULL && i < ledger->entry_count; ++i) {
    const jointledger_entry* e = &ledger->entries[i];
    const TupleDesc columns = rows.into->setDesc;
    const Datum values[kColumns] = {
        text_value(jointledger_region_name(e->region)),
        text_value(jointledger_component_name(e->component)),
        text_value(jointledger_side_name(e->side)),
        text_value(jointledger_outcome_name(e->outcome)),
        motion_array(e->motions),
        degrees_array(e->degrees, e->degrees_count, &note, TupleDescAttr(columns, kDegrees)->atttypid),
        grade_array(e->grades, e->grade_count, &note, TupleDescAttr(columns, kGrades)->atttypid),
        text_array(e->structures, e->structure_count),
        text_array(e->tests, e->test_count),
        certainty_value(e->certainty),
        range_array(e->evidence, e->evidence_count, &note)};

    put_row(&rows, values);
  }
  end_note();
  return (Datum)0;
}

static Datum complaints(FunctionCallInfo fcinfo, bool faults_as_rows) {
  enum { kColumns = 4 };
  const Rows rows = begin_rows(fcinfo, kColumns, faults_as_rows);
  NoteText note = {0};
  const jointledger_ledger* ledger = read_argument(fcinfo, &rows, &note);

  for (size_t i = 0; ledger != NULL && i < ledger->complaint_count; ++i) {
    const jointledger_complaint* c = &ledger->complaints[i];
    const Datum values[kColumns] = {text_value(jointledger_region_name(c->region)),
                                    text_value(jointledger_side_name(c->side)), BoolGetDatum(c->injury != 0),
                                    range_value(c->evidence, &note)};

    put_row(&rows, values);
  }
  end_note();
  return (Datum)0;
}

static Datum gaps(FunctionCallInfo fcinfo, bool faults_as_rows) {
  enum { kColumns = 11 };
  const Rows rows = begin_rows(fcinfo, kColumns, faults_as_rows);
  const text* profile = PG_GETARG_TEXT_PP(1);
  NoteText note = {0};
  const jointledger_audit* audit = NULL;

  if (read_argument(fcinfo, &rows, &note) != NULL) {
    audit = audit_note(VARDATA_ANY(profile), VARSIZE_ANY_EXHDR(profile));
  }
  for (size_t i = 0; audit != NULL && i < audit->gap_count; ++i) {
    const jointledger_gap* g = &audit->gaps[i];
    const Datum values[kColumns] = {text_value(g->expectation),
                                    text_value(jointledger_kind_name(g->kind)),
                                    text_value(jointledger_region_name(g->region)),
                                    text_value(jointledger_side_name(g->side)),
                                    component_array(g->components, g->component_count),
                                    motion_array(g->motions),
                                    text_array(g->structures, g->structure_count),
                                    text_value(jointledger_reason_name(g->reason)),
                                    range_array(g->nearest, g->nearest_count, &note),
                                    credit_value(g->credit),
                                    text_value(g->prompt)};

    put_row(&rows, values);
  }
  end_note();
  return (Datum)0;
}

Datum jointledger_pg_entries(PG_FUNCTION_ARGS) { return entries(fcinfo, false); }
Datum jointledger_pg_try_entries(PG_FUNCTION_ARGS) { return entries(fcinfo, true); }
Datum jointledger_pg_complaints(PG_FUNCTION_ARGS) { return complaints(fcinfo, false); }
Datum jointledger_pg_try_complaints(PG_FUNCTION_ARGS) { return complaints(fcinfo, true); }
Datum jointledger_pg_gaps(PG_FUNCTION_ARGS) { return gaps(fcinfo, false); }
Datum jointledger_pg_try_gaps(PG_FUNCTION_ARGS) { return gaps(fcinfo, true); }
