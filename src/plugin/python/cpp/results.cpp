#include "results.h"

#include "crew.h"
#include "texts.h"

namespace jointledger::python {
namespace nb = nanobind;
namespace {

/// A note as long as this takes so long that the interpreter should be free, and asked for signals, meanwhile.
constexpr std::size_t kLong = 1 << 16;

using Outcome = std::variant<std::string, Failure>;

Outcome outcome(Engine& engine, jointledger_scratch* scratch, const Wish& wish, const Text& text,
                const std::string& id) {
  if (text.fault != nullptr) return Failure{JOINTLEDGER_BAD_TEXT, text.fault};
  int code = fulfil(engine, scratch, wish, text.bytes, nullptr, nullptr);
  const char* json = nullptr;
  std::size_t size = 0;
  if (code == JOINTLEDGER_OK) {
    const auto write = wish.audit ? jointledger_audit_json : jointledger_ledger_json;
    code = write(scratch, id.data(), id.size(), &json, &size);
  }
  if (code != JOINTLEDGER_OK) return Failure{code, jointledger_scratch_message(scratch)};
  return std::string(json, size);
}

nb::object as_python(Outcome&& outcome) {
  if (const auto* json = std::get_if<std::string>(&outcome)) return nb::bytes(json->data(), json->size());
  return nb::cast(std::get<Failure>(std::move(outcome)));
}

}  // namespace

nb::list results(Engine& engine, nb::tuple notes, const std::vector<std::string>& ids, const Wish& wish,
                 std::size_t threads) {
  const TupleTexts held(std::move(notes));
  const std::vector<Text>& texts = held.texts();
  if (texts.size() != ids.size()) throw nb::value_error("as many ids as notes are wanted");
  std::vector<Outcome> outcomes(texts.size());
  if (texts.size() == 1 && texts.front().bytes.size() < kLong) {  // not worth a thread
    const Borrowed scratch(engine);
    const nb::gil_scoped_release unlocked;
    outcomes.front() = outcome(engine, scratch.get(), wish, texts.front(), ids.front());
  } else {
    run_crew(engine, texts.size(), threads, [&](std::size_t n, jointledger_scratch* scratch) {
      outcomes[n] = outcome(engine, scratch, wish, texts[n], ids[n]);
    });
  }
  nb::list out;
  for (Outcome& o : outcomes) out.append(as_python(std::move(o)));
  return out;
}

}  // namespace jointledger::python
