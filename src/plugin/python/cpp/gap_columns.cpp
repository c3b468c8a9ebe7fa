#include "gap_columns.h"

#include <span>

namespace jointledger::python {
namespace {

constexpr int kCreditPlaces = 4;  // as in the JSON, of scores, too

}  // namespace

void GapColumns::add_audit(std::int64_t row, const jointledger_audit& audit) {
  for (const jointledger_gap& gap : std::span(audit.gaps, audit.gap_count)) {
    row_.add(row);
    profile_.add(audit.profile);
    score_.add(rounded(audit.score, kCreditPlaces));
    expectation_.add(gap.expectation);
    kind_.add(jointledger_kind_name(gap.kind));
    region_.add(jointledger_region_name(gap.region));
    side_.add(jointledger_side_name(gap.side));
    components_.add(std::span(gap.components, gap.component_count),
                    [](Strings& items, int component) { items.add(jointledger_component_name(component)); });
    add_motions(motions_, gap.motions);
    add_names(structures_, gap.structures, gap.structure_count);
    reason_.add(jointledger_reason_name(gap.reason));
    add_spans(nearest_, gap.nearest, gap.nearest_count);
    credit_.add(rounded(gap.credit, kCreditPlaces));
    prompt_.add(gap.prompt);
    error_.add_null();
  }
}

void GapColumns::add_error(std::int64_t row, std::string_view error) {
  row_.add(row);
  for (Strings* column : {&profile_, &expectation_, &kind_, &region_, &side_, &reason_, &prompt_}) column->add_null();
  for (Lists<Strings>* column : {&components_, &motions_, &structures_}) column->add_null();
  score_.add_null();
  credit_.add_null();
  nearest_.add_null();
  error_.add(error);
}

std::vector<Column> GapColumns::take() {
  return taken(row_, profile_, score_, expectation_, kind_, region_, side_, components_, motions_, structures_, reason_,
               nearest_, credit_, prompt_, error_);
}

}  // namespace jointledger::python
