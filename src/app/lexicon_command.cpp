// jointledger lexicon check: is the lexicon sound?
#include <algorithm>
#include <iterator>
#include <variant>

#include "app/data_folders.h"
#include "app/options.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger lexicon",
    "check [--lexicon DIR]",
    "Loads the word tables and says what is wrong with them: duplicates, phrases that\n"
    "nothing can reach, unknown concepts; each with file and line. Errors make the\n"
    "lexicon unusable, warnings point at rows without effect. Folders of your own are\n"
    "layered over the one that ships, and everything that they override is listed:\n"
    "phrases, headings, ranges, weights, patterns.\n"
    "\n"
    "Exit status: 0 no errors; 2 errors.\n",
    "  jointledger lexicon check\n"
    "  jointledger lexicon check --lexicon ./our-words\n"
    "  jointledger lexicon check --lexicon ./all-our-own --own-lexicon-only\n",
};

int check(const po::variables_map& values, Console& console) {
  const auto layers = lexicon_folders(values, console);
  if (layers.empty()) return kTrouble;
  std::vector<LexiconFault> faults;
  std::vector<LexiconOverride> overrides;
  auto loaded = Lexicon::load(layers, &faults, &overrides);
  const auto* lexicon = std::get_if<std::unique_ptr<const Lexicon>>(&loaded);
  if (lexicon == nullptr) std::ranges::copy(std::get<std::vector<LexiconFault>>(loaded), std::back_inserter(faults));
  std::size_t errors = 0;
  for (const LexiconFault& fault : faults) {
    const bool is_error = fault.severity == LexiconFault::Severity::error;
    errors += is_error ? 1 : 0;
    LexiconFault marked = fault;
    marked.message.insert(0, is_error ? "error: " : "warning: ");
    console.out.write(in_words(marked) + "\n");
  }
  for (const LexiconOverride& override : overrides) console.out.write(in_words(override) + "\n");
  if (lexicon != nullptr) {
    console.out.write(std::to_string((*lexicon)->phrase_count()) + " phrases for " +
                      std::to_string((*lexicon)->concept_count()) + " concepts\n");
  }
  console.out.write(std::to_string(errors) + " errors, " + std::to_string(faults.size() - errors) + " warnings, " +
                    std::to_string(overrides.size()) + " overrides\n");
  return lexicon != nullptr && errors == 0 ? kComplete : kTrouble;
}

}  // namespace

int lexicon_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  add_lexicon_option(options);
  int status = kComplete;
  const auto values = read_options(arguments, options, "action", kHelp, console, status);
  if (!values) return status;
  const Arguments actions = values_of(*values, "action");
  if (actions.size() == 1 && actions.front() == "check") return check(*values, console);
  console.log.error("what about the lexicon? see: jointledger lexicon --help");
  return kTrouble;
}

}  // namespace jointledger
