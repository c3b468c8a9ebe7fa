// The words and rules, with the working memories that its threads use in turn.
#pragma once

#include <jointledger.h>

#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace jointledger::python {

/// Why something could not be done. Never quotes a note.
struct Failure {
  int code = JOINTLEDGER_OK;  ///< enum jointledger_code
  std::string message;
};

struct ScratchFree {
  void operator()(jointledger_scratch* scratch) const noexcept { jointledger_scratch_free(scratch); }
};
using Scratch = std::unique_ptr<jointledger_scratch, ScratchFree>;

struct EngineRelease {
  void operator()(jointledger_engine* engine) const noexcept { jointledger_engine_release(engine); }
};
using EngineHandle = std::unique_ptr<jointledger_engine, EngineRelease>;

/// What is wanted of each note.
struct Wish {
  bool audit = false;         ///< of an audit; else the ledger alone
  std::string profile;        ///< of an audit
  float least_certainty = 0;  ///< of an audit
};

/// Thread-safe: all that changes is the store of scratches, behind a lock.
class Engine {
 public:
  Engine(EngineHandle handle, std::string warnings) : handle_(std::move(handle)), warnings_(std::move(warnings)) {}

  jointledger_engine* handle() const { return handle_.get(); }
  /// Rows of the tables that have no effect, a line each.
  const std::string& warnings() const { return warnings_; }

  /// A scratch that nobody else uses until it is given back. Throws std::bad_alloc.
  Scratch borrow();
  void give_back(Scratch scratch);

 private:
  EngineHandle handle_;
  std::string warnings_;
  std::mutex mutex_;
  std::vector<Scratch> idle_;
};

/// A scratch for as long as this lives.
class Borrowed {
 public:
  explicit Borrowed(Engine& engine) : engine_(engine), scratch_(engine.borrow()) {}
  ~Borrowed() { engine_.give_back(std::move(scratch_)); }
  Borrowed(const Borrowed&) = delete;
  Borrowed& operator=(const Borrowed&) = delete;

  jointledger_scratch* get() const { return scratch_.get(); }

 private:
  Engine& engine_;
  Scratch scratch_;
};

/// Where the data lies; empty `data` is what was installed with the module.
struct DataFolders {
  std::string data;
  std::vector<std::string> lexicon;
  std::vector<std::string> rules;
  bool own_lexicon_only = false;
  bool own_rules_only = false;
};

/// As jointledger_engine_open().
std::variant<std::shared_ptr<Engine>, Failure> open_engine(const DataFolders& folders);

/// Reads the text, and audits it if that is wished, in `scratch`; the structures that are not wanted are left out.
/// Returns the code of what failed, whose message the scratch has.
int fulfil(Engine& engine, jointledger_scratch* scratch, const Wish& wish, std::string_view text,
           const jointledger_ledger** ledger, const jointledger_audit** audit);

}  // namespace jointledger::python
