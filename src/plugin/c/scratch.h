// The handle of one thread: working memory, and what its last calls have found.
#pragma once

#include <atomic>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "audit/audit.h"
#include "batch/repeats.h"
#include "intake/decoder.h"
#include "ledger/ledger.h"
#include "plugin/c/arena.h"
#include "plugin/c/boundary.h"
#include "plugin/c/loaded_data.h"
#include "reading/reader.h"

/// Not thread-safe, but for the two flags.
struct jointledger_scratch {
  jointledger_scratch();

  std::atomic<bool> busy = false;
  std::atomic<bool> interrupted = false;
  int (*stop)(void* context) = nullptr;
  void* stop_context = nullptr;
  bool stopped = false;  ///< the reading under way has been told to

  int code = JOINTLEDGER_OK;  ///< of the last call
  std::string message;        ///< what there is to say of it beyond the code
  jointledger::ReadingScratch reading;

  // The note in hand, if it came as a record. It points into the record and the decoder.
  jointledger::Record record;
  std::unique_ptr<jointledger::Decoder> decoder;
  std::optional<jointledger::Note> note;

  // What was read. The strings point into `data`, which therefore goes last.
  std::shared_ptr<const jointledger::plugin::LoadedData> data;  ///< null: nothing is read
  jointledger::Ledger ledger;
  jointledger_ledger ledger_view = {};
  jointledger::plugin::Arena ledger_arena;

  // What the ledger was held against.
  std::optional<jointledger::Audit> audit;
  jointledger_audit audit_view = {};
  jointledger::plugin::Arena audit_arena;

  std::optional<jointledger::RepeatFinder> repeats;
  bool compared = false;  ///< the note in hand is among them
  std::optional<jointledger::Repeat> repeat;

  std::string json;
  std::shared_ptr<const jointledger::plugin::LoadedData> listed;  ///< what the last listing points into

  /// Forgets what was read.
  void clear() noexcept;
  /// Whether the caller has asked to stop.
  bool stop_asked();
};

namespace jointledger::plugin {

/// Fails a call with a reason for people. Throws for lack of memory.
inline int fail(jointledger_scratch& scratch, int code, std::string_view reason) {
  scratch.message = reason;
  return code;
}

/// Runs `work` as the one call that uses the scratch.
template <class Work>
int with_scratch(jointledger_scratch* scratch, const Work& work) noexcept {
  if (scratch == nullptr) return JOINTLEDGER_BAD_ARGUMENT;
  if (scratch->busy.exchange(true, std::memory_order_acquire)) return JOINTLEDGER_BUSY;
  scratch->message.clear();
  const int code = guarded([&] { return work(*scratch); });
  scratch->code = code;
  scratch->busy.store(false, std::memory_order_release);
  return code;
}

}  // namespace jointledger::plugin
