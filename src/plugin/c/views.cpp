#include "plugin/c/views.h"

#include <cstring>
#include <string_view>

#include "report/grade_text.h"
#include "report/notice.h"

namespace jointledger::plugin {
namespace {

template <class Value>
std::int32_t number(Value value) {
  return static_cast<std::int32_t>(value);
}

std::uint32_t bits_of(MotionSet set) {
  std::uint32_t bits = 0;
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    if (set.contains(static_cast<Motion>(i))) bits |= std::uint32_t{1} << i;
  }
  return bits;
}

jointledger_span view_of(Span span) { return {.start = span.start, .end = span.end}; }

/// A list of them, each made by `make`.
template <class View, class List, class Make>
void put(const List& list, Arena& arena, const View*& items, std::size_t& count, const Make& make) {
  auto* array = arena.array<View>(list.size());
  std::size_t i = 0;
  for (const auto& value : list) array[i++] = make(value);
  items = array;
  count = list.size();
}

template <class List>
void put_spans(const List& list, Arena& arena, const jointledger_span*& items, std::size_t& count) {
  put(list, arena, items, count, [](Span span) { return view_of(span); });
}

/// With a NUL behind it, which a view need not have.
const char* text_of(std::string_view text, Arena& arena) {
  char* copy = arena.array<char>(text.size() + 1);
  std::memcpy(copy, text.data(), text.size());
  return copy;
}

template <class List>
void put_ids(const List& list, Arena& arena, const char* const*& items, std::size_t& count) {
  put(list, arena, items, count, [&](std::string_view id) { return text_of(id, arena); });
}

jointledger_degrees view_of(const Degrees& d) {
  return {.motion = d.motion ? number(*d.motion) : JOINTLEDGER_NONE,
          .side = number(d.side),
          .has_from = d.from ? 1 : 0,
          .from = d.from.value_or(0),
          .to = d.to,
          .lacking = d.lacking ? 1 : 0,
          .evidence = view_of(d.evidence)};
}

jointledger_entry view_of(const Entry& e, Arena& arena) {
  jointledger_entry view = {};
  view.region = number(e.region);
  view.component = number(e.component);
  view.side = number(e.side);
  view.outcome = number(e.outcome);
  view.motions = bits_of(e.motions);
  view.certainty = e.certainty;
  put_spans(e.evidence, arena, view.evidence, view.evidence_count);
  put(e.degrees, arena, view.degrees, view.degrees_count, [](const Degrees& d) { return view_of(d); });
  put(e.grades, arena, view.grades, view.grade_count, [&](const Grade& g) {
    return jointledger_grade{.value = text_of(grade_text(g), arena),
                             .tenths = g.tenths,
                             .scale = g.scale,
                             .side = number(g.side),
                             .evidence = view_of(g.evidence)};
  });
  put_ids(e.structures, arena, view.structures, view.structure_count);
  put_ids(e.tests, arena, view.tests, view.test_count);
  return view;
}

jointledger_gap view_of(const Gap& g, Arena& arena) {
  jointledger_gap view = {};
  view.expectation = g.expectation->id.c_str();
  view.kind = number(g.expectation->kind);
  view.region = number(g.region);
  view.side = number(g.side);
  view.reason = number(g.reason);
  view.motions = bits_of(g.motions);
  view.credit = g.credit;
  view.prompt = g.prompt.c_str();
  put(g.components, arena, view.components, view.component_count, [](Component c) { return number(c); });
  put_ids(g.structures, arena, view.structures, view.structure_count);
  put_spans(g.nearest, arena, view.nearest, view.nearest_count);
  return view;
}

jointledger_credit view_of(const Credit& c) {
  return {.expectation = c.expectation->id.c_str(),
          .region = number(c.region),
          .side = number(c.side),
          .entries = c.entries.data(),
          .entry_count = c.entries.size()};
}

jointledger_inconsistency view_of(const Inconsistency& i, Arena& arena) {
  jointledger_inconsistency view = {};
  view.check = number(i.check);
  view.region = number(i.region);
  view.side = number(i.side);
  view.component = i.component ? number(*i.component) : JOINTLEDGER_NONE;
  put_spans(i.first, arena, view.first, view.first_count);
  put_spans(i.second, arena, view.second, view.second_count);
  view.message = i.message.c_str();
  if (i.check == Check::copied_exam) {
    view.other_note = i.other_note.c_str();
    view.share = i.share;
  }
  return view;
}

}  // namespace

jointledger_ledger view_of(const Ledger& ledger, Arena& arena) {
  jointledger_ledger view = {};
  put(ledger.entries, arena, view.entries, view.entry_count, [&](const Entry& e) { return view_of(e, arena); });
  put(ledger.complaints, arena, view.complaints, view.complaint_count, [](const Complaint& c) {
    return jointledger_complaint{.region = number(c.region),
                                 .side = number(c.side),
                                 .injury = c.injury ? 1 : 0,
                                 .evidence = view_of(c.evidence)};
  });
  return view;
}

jointledger_audit view_of(const Audit& audit, Arena& arena) {
  jointledger_audit view = {};
  view.profile = audit.profile->name.c_str();
  view.score = audit.score;
  view.applicable = audit.applicable;
  view.met = audit.met;
  view.lacks_required = audit.lacks_required() ? 1 : 0;
  put(audit.gaps, arena, view.gaps, view.gap_count, [&](const Gap& g) { return view_of(g, arena); });
  put(audit.credits, arena, view.credits, view.credit_count, [](const Credit& c) { return view_of(c); });
  put(audit.inconsistencies, arena, view.inconsistencies, view.inconsistency_count,
      [&](const Inconsistency& i) { return view_of(i, arena); });
  view.doubtful = audit.doubtful.data();
  view.doubtful_count = audit.doubtful.size();
  view.notice = kNotice.data();  // a literal
  return view;
}

}  // namespace jointledger::plugin
