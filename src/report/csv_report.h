// CSV (RFC 4180) with a header: of ledgers a row an entry, of audits a row a gap.
//
// The columns are those of kEntryColumns and kGapColumns, in that order, whatever the notes hold. A column is named as
// the member of the JSON forms that holds the same; lists are JSON as there, and no value is an empty field. What is
// new:
//   id        of the note; see below
//   words     a JSON array: the evidence (of a gap: the nearest words), quoted from the note
//   metadata  a JSON object: the members that the source knew of the note, as they came in
// A note without entries or gaps has no row; complaints, credits and inconsistencies are in the JSON forms only.
//
// Formulas: a spreadsheet runs a cell that begins with = + - @, a tab or a line break. Only ids could: all other cells
// begin with a letter, a digit, a bracket or a brace. An id that begins so, be it behind apostrophes, gets an
// apostrophe in front; whoever reads the file takes one away from an id that begins with an apostrophe and goes on so.
// An id of one character ("-", the standard input) is no formula and stays.
#pragma once

#include <array>
#include <string_view>

#include "report/report.h"

namespace jointledger {

inline constexpr std::array<std::string_view, 14> kEntryColumns = {
    "id",    "region",     "component", "side",      "outcome",  "motions", "degrees",
    "grade", "structures", "tests",     "certainty", "evidence", "words",   "metadata"};
inline constexpr std::array<std::string_view, 16> kGapColumns = {
    "id",      "profile",    "score",  "expectation", "kind",  "region", "side",   "components",
    "motions", "structures", "reason", "nearest",     "words", "credit", "prompt", "metadata"};

void open_csv(const ReportRun& run, std::string& out);
void add_csv(const ReportRun& run, const ReportItem& item, std::string& out);
void close_csv(const ReportRun& run, const ReportTally& tally, std::string& out);

inline constexpr ReportFormat kCsvReport = {
    .name = "csv", .open = open_csv, .add = add_csv, .between = "", .close = close_csv};

}  // namespace jointledger
