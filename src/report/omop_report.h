// The table NOTE_NLP of the OMOP Common Data Model v5.4, as CSV with a header: a row an entry of the ledger, and a row
// a complaint behind those of its note.
//
// The term of a row is a part of the examination ("the left knee was moved"), as a laboratory test would be; what came
// of it is a modifier, as a laboratory value would be. So:
//   term_exists      Y where the note documents that part as examined, whatever the outcome, and of a complaint; N
//   where
//                    it says that it was not done. It does not say that a finding is there: that is `outcome`.
//   term_temporal    present: only what the note tells of this visit gets into the ledger
//   term_modifiers   key=value, separated by semicolons, lists by commas: region, component, side, outcome, motions,
//                    degrees ("flexion 0..120 right", "extension lacking 10 left"), grades ("4+/5 right"), structures,
//                    tests, certainty, evidence; of a complaint complaint=true, region, side, injury, evidence. Whole
//                    modifiers, and of the evidence whole pieces, as far as 2000 characters reach
//   lexical_variant  the stretch of the note, word for word, that holds the most of the evidence in 250 characters
//   offset           where that begins. Here and in `evidence` these are characters (code points), as databases count
//                    the text of a note; the other formats count bytes
//   snippet          the same and what stands around it, 250 characters at most
//   note_nlp_concept_id, note_nlp_source_concept_id
//                    0, no matching concept: the vocabulary of the ledger is not part of OMOP's
//   nlp_date         the day of the run, which must be given: the clock is not asked, so that the same notes give the
//                    same bytes
//   note_nlp_id      note_id x 10000 + the number of the row in its note (a ledger has fewer cells than that), so it
//                    depends on nothing but the note and never clashes with another run; it outgrows 32 bits where
//                    note_id has more than five digits, so load it into a BIGINT then
//   section_concept_id, nlp_datetime
//                    no value
// note_id is the note's id, which must be a whole number, as in the table NOTE. Audits give the same rows: what is not
// in a note is no term of it. Metadata has no place here; it is in NOTE under the same note_id.
//
// Columns, types and lengths: the published DDL of v5.4. The meaning of term_exists, term_temporal and term_modifiers:
// from memory of the OHDSI documentation of NOTE_NLP.
#pragma once

#include <array>
#include <string_view>

#include "report/report.h"

namespace jointledger {

inline constexpr std::array<std::string_view, 14> kNoteNlpColumns = {
    "note_nlp_id",   "note_id",         "section_concept_id",  "snippet",
    "offset",        "lexical_variant", "note_nlp_concept_id", "note_nlp_source_concept_id",
    "nlp_system",    "nlp_date",        "nlp_datetime",        "term_exists",
    "term_temporal", "term_modifiers"};

void open_omop(const ReportRun& run, std::string& out);
/// Writes nothing of a note that refusal_of_omop() refuses.
void add_omop(const ReportRun& run, const ReportItem& item, std::string& out);
void close_omop(const ReportRun& run, const ReportTally& tally, std::string& out);
std::string_view refusal_of_omop(const Note& note);

inline constexpr ReportFormat kOmopReport = {.name = "omop",
                                             .open = open_omop,
                                             .add = add_omop,
                                             .between = "",
                                             .close = close_omop,
                                             .dated = true,
                                             .refusal = refusal_of_omop};

}  // namespace jointledger
