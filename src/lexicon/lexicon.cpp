#include "lexicon/lexicon.h"

#include <algorithm>

#include "text/tokens.h"

namespace jointledger {

TokenKey Lexicon::key(std::string_view token_text, const Token& token, std::string& scratch) const {
  TokenKey key;
  if (token.kind == TokenKind::word) {
    fold(token_text, scratch);
    key.word = vocabulary_.find(scratch);
    if (key.word == 0 && scratch.size() >= Spelling::kShortest) {
      thread_local std::string remainder;
      key.word = spelling_.nearest(scratch, remainder);
    }
    key.capitals = std::ranges::none_of(token_text, [](char c) { return c >= 'a' && c <= 'z'; });
  } else {
    key.word = vocabulary_.find(token_text);
    key.joiner = token_text == "-" || token_text == "/";
    key.capitals = true;
  }
  return key;
}

bool Lexicon::is_abbreviation(WordId word) const { return word < abbreviations_.size() && abbreviations_[word]; }

}  // namespace jointledger
