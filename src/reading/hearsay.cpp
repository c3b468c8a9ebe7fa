#include "reading/hearsay.h"

#include <algorithm>
#include <span>

namespace jointledger {
namespace {

bool begins_part(const Item& item) { return item.is(Cue::but) || item.kind == ItemKind::semicolon; }

// Whether what the patient tells of was brought on by examining: pressing, moving a joint, moving it against
// resistance, tenderness where the heading says that it was pressed.
bool is_brought_on(const Context& context, std::span<const Item> part) {
  bool pain = false;
  bool motion = false;
  for (const Item& item : part) {
    if (item.is(Cue::palpating) || item.is(Cue::resisted)) return true;
    if (item.is(Cue::pain)) pain = true;
    if (item.is(ConceptKind::motion)) motion = true;
    if (!item.is(ConceptKind::finding)) continue;
    if (context.component == Component::palpation && item.meaning->component == Component::palpation) return true;
  }
  return pain && motion;
}

bool is_hearsay(const Context& context, std::span<const Item> part) {
  bool says = false;
  bool told = false;
  for (const Item& item : part) {
    if (item.is(ConceptKind::other_source) && !told) return true;
    if (item.is(ConceptKind::finding) || item.is(ConceptKind::component)) told = true;
    if (item.is(Cue::says)) says = true;
  }
  return says && !is_brought_on(context, part);
}

}  // namespace

void strike_hearsay(const Context& context, std::vector<Item>& items) {
  auto kept = items.begin();
  for (auto begin = items.begin(); begin != items.end();) {
    const auto end = std::find_if(begin + 1, items.end(), begins_part);
    if (!is_hearsay(context, std::span(begin, end))) kept = std::move(begin, end, kept);
    begin = end;
  }
  items.erase(kept, items.end());
}

}  // namespace jointledger
