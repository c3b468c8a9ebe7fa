#include "engine.h"

namespace jointledger::python {
namespace {

std::vector<const char*> pointers(const std::vector<std::string>& texts) {
  std::vector<const char*> out;
  out.reserve(texts.size());
  for (const std::string& text : texts) out.push_back(text.c_str());
  return out;
}

struct TextFree {
  void operator()(char* text) const noexcept { jointledger_text_free(text); }
};

}  // namespace

Scratch Engine::borrow() {
  {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      Scratch scratch = std::move(idle_.back());
      idle_.pop_back();
      return scratch;
    }
  }
  jointledger_scratch* made = nullptr;
  if (jointledger_scratch_new(&made) != JOINTLEDGER_OK) throw std::bad_alloc();
  return Scratch(made);
}

void Engine::give_back(Scratch scratch) {
  jointledger_scratch_resume(scratch.get());
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(scratch));
}

std::variant<std::shared_ptr<Engine>, Failure> open_engine(const DataFolders& folders) {
  const std::vector<const char*> lexicon = pointers(folders.lexicon);
  const std::vector<const char*> rules = pointers(folders.rules);
  jointledger_engine_options options = {};
  options.size = sizeof options;
  options.data = folders.data.empty() ? nullptr : folders.data.c_str();
  options.lexicon = lexicon.data();
  options.lexicon_count = lexicon.size();
  options.rules = rules.data();
  options.rules_count = rules.size();
  options.flags = (folders.own_lexicon_only ? unsigned{JOINTLEDGER_OWN_LEXICON_ONLY} : 0U) |
                  (folders.own_rules_only ? unsigned{JOINTLEDGER_OWN_RULES_ONLY} : 0U);

  jointledger_engine* opened = nullptr;
  char* told = nullptr;
  const int code = jointledger_engine_open(&options, &opened, &told);
  EngineHandle handle(opened);
  const std::unique_ptr<char, TextFree> faults(told);
  std::string text = faults ? faults.get() : "";
  if (code != JOINTLEDGER_OK) return Failure{code, text.empty() ? jointledger_code_text(code) : std::move(text)};
  return std::make_shared<Engine>(std::move(handle), std::move(text));
}

int fulfil(Engine& engine, jointledger_scratch* scratch, const Wish& wish, std::string_view text,
           const jointledger_ledger** ledger, const jointledger_audit** audit) {
  const int code = jointledger_read(engine.handle(), scratch, text.data(), text.size(), ledger);
  if (code != JOINTLEDGER_OK || !wish.audit) return code;
  jointledger_audit_options options = {};
  options.size = sizeof options;
  options.least_certainty = wish.least_certainty;
  return jointledger_audit_ledger(scratch, wish.profile.data(), wish.profile.size(), &options, audit);
}

}  // namespace jointledger::python
