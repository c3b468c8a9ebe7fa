#include "entry_columns.h"

#include <span>

namespace jointledger::python {
namespace {

constexpr int kCertaintyPlaces = 3;  // as in the JSON

}  // namespace

void EntryColumns::Degrees::add(const jointledger_degrees& degrees) {
  if (degrees.motion == JOINTLEDGER_NONE) {
    motion_.add_null();
  } else {
    motion_.add(jointledger_motion_name(degrees.motion));
  }
  side_.add(jointledger_side_name(degrees.side));
  if (degrees.has_from != 0) {
    from_.add(degrees.from);
  } else {
    from_.add_null();
  }
  to_.add(degrees.to);
  lacking_.add(degrees.lacking != 0);
  evidence_.add(degrees.evidence);
}

Column EntryColumns::Degrees::take() { return struct_column(taken(motion_, side_, from_, to_, lacking_, evidence_)); }

void EntryColumns::Grades::add(const jointledger_grade& grade) {
  value_.add(grade.value);
  scale_.add(grade.scale);
  side_.add(jointledger_side_name(grade.side));
  evidence_.add(grade.evidence);
}

Column EntryColumns::Grades::take() { return struct_column(taken(value_, scale_, side_, evidence_)); }

void EntryColumns::add_ledger(std::int64_t row, const jointledger_ledger& ledger) {
  for (const jointledger_entry& entry : std::span(ledger.entries, ledger.entry_count)) {
    row_.add(row);
    region_.add(jointledger_region_name(entry.region));
    component_.add(jointledger_component_name(entry.component));
    side_.add(jointledger_side_name(entry.side));
    outcome_.add(jointledger_outcome_name(entry.outcome));
    add_motions(motions_, entry.motions);
    degrees_.add(std::span(entry.degrees, entry.degrees_count),
                 [](Degrees& items, const jointledger_degrees& degrees) { items.add(degrees); });
    grade_.add(std::span(entry.grades, entry.grade_count),
               [](Grades& items, const jointledger_grade& grade) { items.add(grade); });
    add_names(structures_, entry.structures, entry.structure_count);
    add_names(tests_, entry.tests, entry.test_count);
    certainty_.add(rounded(static_cast<double>(entry.certainty), kCertaintyPlaces));
    add_spans(evidence_, entry.evidence, entry.evidence_count);
    error_.add_null();
  }
}

void EntryColumns::add_error(std::int64_t row, std::string_view error) {
  row_.add(row);
  for (Strings* column : {&region_, &component_, &side_, &outcome_}) column->add_null();
  for (Lists<Strings>* column : {&motions_, &structures_, &tests_}) column->add_null();
  degrees_.add_null();
  grade_.add_null();
  certainty_.add_null();
  evidence_.add_null();
  error_.add(error);
}

std::vector<Column> EntryColumns::take() {
  return taken(row_, region_, component_, side_, outcome_, motions_, degrees_, grade_, structures_, tests_, certainty_,
               evidence_, error_);
}

}  // namespace jointledger::python
