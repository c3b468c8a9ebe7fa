// A note laid out for reading: its tokens with their phrase keys, and the stretches of text between headings.
//
// Buffers are reused from note to note. Nothing here judges what a sentence says.
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.h"
#include "lexicon/lexicon.h"
#include "text/lines.h"
#include "text/tokens.h"

namespace jointledger {

/// A region that a heading or phrase names, with its side.
struct PlaceRef {
  Region region = Region::whole_body;
  Side side = Side::unstated;
  bool joints = false;  ///< "all joints"
  bool back = false;    ///< "back"
};

/// What a heading puts in force for the text below it.
struct Scope {
  boost::container::small_vector<PlaceRef, 4>
      places;                          ///< of a label such as "Right knee:" or a heading such as Extremities
  std::optional<Component> component;  ///< of a part heading such as "Strength:"
  std::optional<Side> side;            ///< of a label that is a side alone: "Left:"
  Admits admits = Admits::all;
  bool fresh = true;   ///< the region in force before it no longer counts
  bool label = false;  ///< names places in the note's own words rather than a system
  bool is_system = false;
};

/// Text between two headings.
struct Stretch {
  std::uint32_t first = 0;  ///< tokens [first, last)
  std::uint32_t last = 0;
  SectionKind section = SectionKind::none;
  Scope scope;
  bool same_line = false;  ///< its heading does not begin a line
  Span heading;            ///< the heading's own words, for evidence; empty if there is none
};

/// Tokens [first, last) of one sentence.
struct Sentence {
  std::uint32_t first = 0;
  std::uint32_t last = 0;
};

class Document {
 public:
  /// Lays out `note`; `lexicon` and `note` must outlive the use of the document.
  void lay_out(const Lexicon& lexicon, std::string_view note);

  const Lexicon& lexicon() const { return *lexicon_; }
  std::string_view note() const { return note_; }
  const std::vector<Token>& tokens() const { return tokens_; }
  const std::vector<TokenKey>& keys() const { return keys_; }
  const std::vector<Stretch>& stretches() const { return stretches_; }

  std::string_view text(std::uint32_t token) const {
    return note_.substr(tokens_[token].start, tokens_[token].end - tokens_[token].start);
  }
  Span span(std::uint32_t first, std::uint32_t last) const { return {tokens_[first].start, tokens_[last - 1].end}; }
  bool is(std::uint32_t token, std::string_view text_) const { return token < tokens_.size() && text(token) == text_; }

  /// The sentences of a stretch. Replaces the contents of `out`.
  void sentences(const Stretch& stretch, std::vector<Sentence>& out) const;

 private:
  bool goes_on_with_exam(std::uint32_t at) const;
  bool under_label_line(const Stretch& current, std::uint32_t at, std::uint32_t words_end) const;

  const Lexicon* lexicon_ = nullptr;
  std::string_view note_;
  std::vector<Token> tokens_;
  std::vector<TokenKey> keys_;
  std::vector<Line> lines_;
  std::vector<std::uint8_t> bulleted_;    // by token: the body of a bulleted line begins
  std::vector<std::uint8_t> line_start_;  // by token: 1 the body of a line begins, 2 its bullet does
  std::vector<Stretch> stretches_;
  std::string folded_;
};

}  // namespace jointledger
