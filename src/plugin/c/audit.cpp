// Ledgers held against profiles, and the profiles there are.
#include "audit/audit.h"

#include <algorithm>

#include "batch/repeats.h"
#include "plugin/c/engine.h"
#include "plugin/c/scratch.h"
#include "plugin/c/views.h"

namespace jointledger::plugin {
namespace {

std::string names_of(const std::vector<Profile>& profiles) {
  std::string names;
  for (const Profile& profile : profiles) names.append(names.empty() ? "" : ", ").append(profile.name);
  return names;
}

/// What the record says under that key, as raw JSON; empty where it says nothing.
std::string_view member_of(const Note& note, std::string_view key) {
  const auto at = std::ranges::find(note.metadata, key, &Member::key);
  if (at == note.metadata.end() || at->json == "null" || at->json == "\"\"") return {};
  return at->json;
}

/// Adds the exam of the record in hand to those remembered, once, and says which of them it repeats.
void compare(jointledger_scratch& scratch) {
  if (scratch.compared) return;
  const Note& note = *scratch.note;
  scratch.repeat = scratch.repeats->add(note.id, member_of(note, "author"), member_of(note, "patient"),
                                        print_of(note.text, scratch.ledger.exam));
  scratch.compared = true;
}

}  // namespace
}  // namespace jointledger::plugin

using namespace jointledger;
using namespace jointledger::plugin;

int jointledger_audit_ledger(jointledger_scratch* scratch, const char* profile, size_t profile_size,
                             const jointledger_audit_options* options, const jointledger_audit** audit_out) noexcept {
  hand_out<const jointledger_audit*>(audit_out, nullptr);
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    s.audit.reset();
    s.audit_view = {};
    s.audit_arena.clear();
    if (profile == nullptr) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "no name of a profile");
    jointledger_audit_options given;
    if (!take_sized(options, given)) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "options of an unknown size or kind");
    if (!(given.least_certainty >= 0.0F && given.least_certainty <= 1.0F)) {
      return fail(s, JOINTLEDGER_BAD_ARGUMENT, "a certainty is a share from 0 to 1");
    }
    if (!s.data) return fail(s, JOINTLEDGER_NOT_READ, "nothing has been read with this scratch");
    const Profile* const found = s.data->profile_named({profile, profile_size});
    if (found == nullptr) {
      // The name is not quoted: it could be anything, a note mistaken for it included.
      return fail(s, JOINTLEDGER_NO_PROFILE, "no profile of that name (there are: " + names_of(s.data->profiles) + ")");
    }
    s.stopped = false;
    if (s.stop_asked()) return JOINTLEDGER_INTERRUPTED;
    Audit result = audit(*found, s.ledger, s.data->lexicon->motion_limits(), given.least_certainty);
    if (s.repeats && s.note && !found->checks_off.contains(Check::copied_exam)) {
      compare(s);
      if (s.repeat) result.inconsistencies.push_back(copied_exam(s.ledger.exam, s.repeat->note, s.repeat->share));
    }
    s.audit = std::move(result);
    if (audit_out != nullptr) {
      s.audit_view = view_of(*s.audit, s.audit_arena);
      *audit_out = &s.audit_view;
    }
    return JOINTLEDGER_OK;
  });
}

int jointledger_profiles(jointledger_engine* engine, jointledger_scratch* scratch, const jointledger_profile** profiles,
                         size_t* count) noexcept {
  hand_out<const jointledger_profile*>(profiles, nullptr);
  hand_out<size_t>(count, 0);
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    if (engine == nullptr) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "no engine");
    s.listed = engine->data();
    hand_out(profiles, s.listed->listing.data());
    hand_out(count, s.listed->listing.size());
    return JOINTLEDGER_OK;
  });
}
