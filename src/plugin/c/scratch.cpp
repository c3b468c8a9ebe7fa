#include "plugin/c/scratch.h"

#include "intake/ndjson_decoder.h"

jointledger_scratch::jointledger_scratch() : decoder(jointledger::make_ndjson_decoder()) {
  reading.watch({[](void* self) { return static_cast<jointledger_scratch*>(self)->stop_asked(); }, this});
}

void jointledger_scratch::clear() noexcept {
  audit.reset();
  compared = false;
  note.reset();
  ledger_view = {};
  audit_view = {};
  ledger = {};
  json.clear();
  data.reset();
}

bool jointledger_scratch::stop_asked() {
  stopped = stopped || interrupted.load(std::memory_order_relaxed) || (stop != nullptr && stop(stop_context) != 0);
  return stopped;
}

using namespace jointledger;
using namespace jointledger::plugin;

int jointledger_scratch_new(jointledger_scratch** scratch) noexcept {
  if (scratch == nullptr) return JOINTLEDGER_BAD_ARGUMENT;
  *scratch = nullptr;
  return guarded([&] {
    *scratch = std::make_unique<jointledger_scratch>().release();
    return JOINTLEDGER_OK;
  });
}

void jointledger_scratch_free(jointledger_scratch* scratch) noexcept { delete scratch; }

const char* jointledger_scratch_message(const jointledger_scratch* scratch) noexcept {
  if (scratch == nullptr || scratch->code == JOINTLEDGER_OK) return "";
  return scratch->message.empty() ? jointledger_code_text(scratch->code) : scratch->message.c_str();
}

void jointledger_scratch_interrupt(jointledger_scratch* scratch) noexcept {
  static_assert(std::atomic<bool>::is_always_lock_free);  // a signal handler may come here
  if (scratch != nullptr) scratch->interrupted.store(true, std::memory_order_relaxed);
}

void jointledger_scratch_resume(jointledger_scratch* scratch) noexcept {
  if (scratch != nullptr) scratch->interrupted.store(false, std::memory_order_relaxed);
}

int jointledger_scratch_watch(jointledger_scratch* scratch, int (*stop)(void* context), void* context) noexcept {
  return with_scratch(scratch, [&](jointledger_scratch& s) {
    s.stop = stop;
    s.stop_context = context;
    return JOINTLEDGER_OK;
  });
}

int jointledger_scratch_remember(jointledger_scratch* scratch, size_t records) noexcept {
  constexpr std::size_t kMost = std::size_t{1} << 20;
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    if (records > kMost) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "more records than can be remembered");
    s.repeats.reset();
    s.compared = false;
    if (records > 0) s.repeats.emplace(records);
    return JOINTLEDGER_OK;
  });
}
