// The lexicon: everything the reader knows about how people write, loaded from a folder of tab-separated tables.
//
// Loaded once, immutable afterwards, shared by all threads. Tables are UTF-8, a header line with the column names,
// a line a concept; the forms of a phrase are separated by " | "; '-' is an empty cell; lines that begin with # are
// comments. A later folder adds to the earlier ones, and its phrases win over theirs, whichever tables they stand in;
// so do its weights and ranges, and its patterns of figures are tried first.
#pragma once

#include <cstdint>
#include <deque>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "ledger/motion_limits.h"
#include "lexicon/concepts.h"
#include "lexicon/layers.h"
#include "lexicon/measures.h"
#include "lexicon/phrases.h"
#include "lexicon/remark_words.h"
#include "lexicon/spelling.h"
#include "lexicon/weights.h"

namespace jointledger {

/// One thing wrong with a table, or worth a second look.
struct LexiconFault {
  enum class Severity : std::uint8_t {
    error,    ///< the lexicon cannot be used
    warning,  ///< a row or form without effect
  };
  Severity severity = Severity::error;
  std::string file;
  std::uint32_t line = 0;  ///< counts from 1; 0 for the file as a whole
  std::string message;
};

class Lexicon {
 public:
  /// Loads the tables of `folders`, layered in that order. Warnings go to `warnings` if it is given, and what a later
  /// folder gives otherwise than an earlier one to `overrides`.
  /// Returns the lexicon, or every error found. Never throws but for lack of memory.
  static std::variant<std::unique_ptr<const Lexicon>, std::vector<LexiconFault>> load(
      std::span<const std::filesystem::path> folders, std::vector<LexiconFault>* warnings = nullptr,
      std::vector<LexiconOverride>* overrides = nullptr);

  /// The key of a token: its folded word looked up, misspellings of long words forgiven.
  /// `scratch` is reused memory.
  TokenKey key(std::string_view token_text, const Token& token, std::string& scratch) const;

  const PhraseTable& phrases() const { return phrases_; }
  const PhraseTable& heading_phrases() const { return heading_phrases_; }
  const Concept& meaning(std::uint32_t value) const { return concepts_[value]; }
  const PhraseTable& complaint_phrases() const { return complaint_phrases_; }
  const ComplaintCue& complaint_cue(std::uint32_t value) const { return complaint_cues_[value]; }
  const Heading& heading(std::uint32_t value) const { return headings_[value]; }
  const PhraseTable& remark_phrases() const { return remark_phrases_; }
  const RemarkWord& remark_word(std::uint32_t value) const { return remark_words_[value]; }
  const PhraseTable& joint_state_phrases() const { return joint_state_phrases_; }
  const JointStateWord& joint_state_word(std::uint32_t value) const { return joint_state_words_[value]; }
  const MotionLimits& motion_limits() const { return motion_limits_; }
  const CertaintyWeights& certainty_weights() const { return certainty_; }
  const Measures& measures() const { return measures_; }
  const Vocabulary& vocabulary() const { return vocabulary_; }

  /// Whether a full stop after this word ends no sentence ("Dr.").
  bool is_abbreviation(WordId word) const;

  std::size_t phrase_count() const { return phrase_count_; }
  std::size_t concept_count() const { return concepts_.size() + headings_.size(); }
  /// All structure ids, sorted; for checking profiles.
  std::span<const std::string> structure_ids() const { return structure_ids_; }

 private:
  friend class LexiconLoader;
  Lexicon() = default;

  Vocabulary vocabulary_;
  PhraseTable phrases_;
  PhraseTable heading_phrases_;
  std::deque<Concept> concepts_;
  std::deque<Heading> headings_;
  PhraseTable complaint_phrases_;
  std::deque<ComplaintCue> complaint_cues_;
  PhraseTable remark_phrases_;
  std::deque<RemarkWord> remark_words_;
  PhraseTable joint_state_phrases_;
  std::deque<JointStateWord> joint_state_words_;
  MotionLimits motion_limits_;
  Measures measures_;
  CertaintyWeights certainty_;
  Spelling spelling_;
  std::vector<bool> abbreviations_;  // by word id
  std::vector<std::string> structure_ids_;
  std::size_t phrase_count_ = 0;
};

}  // namespace jointledger
