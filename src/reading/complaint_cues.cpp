#include "reading/complaint_cues.h"

#include <algorithm>

namespace jointledger {
namespace {

using Use = ComplaintCue::Use;

bool between(const std::vector<FoundCue>& cues, std::uint32_t from, std::uint32_t to, auto accepts) {
  return std::ranges::any_of(cues, [&](const FoundCue& f) { return f.first >= from && f.last <= to && accepts(f); });
}

// Whether "and" or a comma leads to the token, with no more than small words ("and she") between.
bool is_joined(const ToldSentence& s, std::uint32_t token) {
  bool joined = false;
  for (const Item& item : s.parts.items) {
    if (item.last > token) break;
    joined = item.kind == ItemKind::comma || item.has(kAnd) || (joined && is_filler(item));
  }
  return joined;
}

bool brings_back(const ToldSentence& s, std::uint32_t from, std::uint32_t to) {
  return between(s.cues, from, to, [](const FoundCue& f) { return f.is(Use::now) || f.is(Use::turn); });
}

// "With flexion of the spine", "uses her arms": something done with the place stands between.
bool is_moved(const ToldSentence& s, std::uint32_t from, std::uint32_t to) {
  return std::ranges::any_of(s.parts.items, [&](const Item& item) {
    return item.first >= from && item.last <= to &&
           (item.is(ConceptKind::motion) || item.kind == ItemKind::semicolon || item.is(Cue::but));
  });
}

bool is_one_side(const PlaceGroup& group) {
  const Side side = group.members.front().place.side;
  return side == Side::left || side == Side::right;
}

}  // namespace

void find_cues(const Document& document, const Sentence& sentence, std::vector<FoundCue>& out) {
  out.clear();
  const Lexicon& lexicon = document.lexicon();
  for (std::uint32_t i = sentence.first; i < sentence.last;) {
    const auto match = lexicon.complaint_phrases().longest(document.keys(), i);
    if (match.length == 0) {
      ++i;
      continue;
    }
    out.push_back({&lexicon.complaint_cue(match.value), i, i + match.length});
    i += match.length;
  }
}

bool has(const std::vector<FoundCue>& cues, Use use) {
  return std::ranges::any_of(cues, [&](const FoundCue& f) { return f.is(use); });
}

bool is_separated(const ToldSentence& s, std::uint32_t from, std::uint32_t to) {
  // "... and reports": the patient's words begin anew.
  const auto ends = [&](const FoundCue& f) {
    const bool anew = f.is(Use::tells) && f.first > from && is_joined(s, f.first);
    return f.is_visit() || f.is(Use::turn) || anew;
  };
  if (between(s.cues, from, to, ends)) return true;
  return std::ranges::any_of(s.parts.items, [&](const Item& item) {
    return item.first >= from && item.first < to &&
           (item.is(Cue::but) || item.is(Cue::except) || item.kind == ItemKind::semicolon);
  });
}

bool is_excluded(const ToldSentence& s, std::uint32_t token) {
  for (const FoundCue& found : s.cues) {
    switch (found.cue->use) {
      case Use::denial:
        if (found.last <= token && !is_separated(s, found.last, token)) return true;
        // "Hip pain: none."
        if (found.first > token && found.first <= token + 4 && s.document.text(found.first - 1) == ":") return true;
        break;
      case Use::past:
        if (!s.reason && found.last <= token && !is_separated(s, found.last, token) &&
            !brings_back(s, found.last, token))
          return true;
        break;
      case Use::then:
        if (!s.reason && found.first <= token + 7 &&
            !brings_back(s, std::min(found.last, token), std::max(found.first, token)))
          return true;
        break;
      case Use::gone:
      case Use::ended:
        if (!s.reason && found.last >= token && !is_separated(s, token, found.first)) return true;
        break;
      case Use::spread:
        // "... into the arm, with numbness of the hand": a symptom of its own.
        if (found.last <= token &&
            !between(s.cues, found.last, token, [](const FoundCue& f) { return f.is_symptom(); }))
          return true;
        break;
      default:
        break;
    }
  }
  return false;
}

bool is_told(const ToldSentence& s, const PlaceGroup& group, std::uint32_t first, std::uint32_t last) {
  for (const FoundCue& found : s.cues) {
    const bool symptom = found.is_symptom();
    const bool visit = found.is_visit();
    // "Back and neck pain": what carries its own place ends the list.
    if (found.is(Use::named) && found.first > first && found.first < last &&
        !between(s.cues, first - std::min(first, 4U), first, [](const FoundCue& f) { return f.is_symptom(); }))
      return true;
    // "Left leg swelling": of one leg it is that leg's.
    if (found.is(Use::general) && found.first <= first && found.last >= last && is_one_side(group)) return true;
    if (!symptom && !visit) continue;
    // Swelling of the legs is more often of the heart than of the joints.
    const Region region = group.members.front().place.region;
    if (symptom && !is_one_side(group) && covers(region, Region::knee) && is_group(region) &&
        s.document.text(found.first).starts_with("swell"))
      continue;
    if (found.first >= last) {
      // "Knee pain", "the knee has been swollen", but not "the knee has no swelling".
      if (symptom && found.first - last <= 6 && !is_moved(s, last, found.first) &&
          !between(s.cues, last, found.first, [](const FoundCue& f) { return f.is(Use::denial); }))
        return true;
    } else if (found.last <= first) {
      const std::uint32_t gap = first - found.last;
      const auto& d = s.document;
      if (visit && gap <= 8) return true;
      if (symptom && !is_separated(s, found.last, first) &&
          (gap <= 4 ||
           (group.at_before && gap <= (d.text(first - 1) == "over" || d.text(first - 2) == "over" ? 9U : 20U))))
        return true;
    } else {
      return symptom;
    }
  }
  return false;
}

bool is_general(const ToldSentence& s, const PlaceGroup& group, std::uint32_t first, std::uint32_t last) {
  const auto symptom = [](const FoundCue& f) { return f.is_symptom(); };
  return std::ranges::any_of(s.cues, [&](const FoundCue& f) {
    if (!f.is(Use::general)) return false;
    if (f.first <= first && f.last >= last) return !is_one_side(group);
    if (f.last <= first) {
      if (between(s.cues, last, last + 6, [&](const FoundCue& o) { return symptom(o) && o.first <= last + 1; }))
        return false;  // "body aches and right knee pain"
      return first - f.last <= 4 && !between(s.cues, f.last, first, symptom);
    }
    return f.first >= last && f.first <= last + 1 && s.document.text(last) != ",";
  });
}

bool is_organ(const ToldSentence& s, const Item& item) {
  return std::ranges::any_of(
      s.cues, [&](const FoundCue& f) { return f.is(Use::organ) && f.first <= item.first && f.last >= item.last; });
}

}  // namespace jointledger
