#include "shipped.h"

#include <array>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "reading/reader.h"

namespace jointledger::testing {
namespace {

std::unique_ptr<const Lexicon> load() {
  const std::array folders = {std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "lexicon"};
  auto loaded = Lexicon::load(folders);
  if (auto* faults = std::get_if<std::vector<LexiconFault>>(&loaded)) {
    for (const LexiconFault& f : *faults) std::cerr << f.file << ':' << f.line << ": " << f.message << '\n';
    std::exit(EXIT_FAILURE);
  }
  return std::get<std::unique_ptr<const Lexicon>>(std::move(loaded));
}

}  // namespace

const Lexicon& shipped_lexicon() {
  static const std::unique_ptr<const Lexicon> kLexicon = load();
  return *kLexicon;
}

Ledger read(std::string_view note) {
  ReadingScratch scratch;
  return read_note(shipped_lexicon(), note, scratch);
}

Ledger read_exam(std::string_view text) { return read("PHYSICAL EXAM:\n" + std::string(text)); }

}  // namespace jointledger::testing
