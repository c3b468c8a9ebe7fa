// Figures of an exam: grades, reflex and pulse grades, pairs, degrees, spinal levels. Patterns in lexicon/measures.tsv.
#pragma once

#include <re2/re2.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

enum class FigureKind : std::uint8_t {
  ratio,       ///< two numbers with a slash: right and left degrees of a motion, or a blood pressure
  skip,        ///< a date, blood pressure, murmur grade or score
  grade,       ///< power out of 5
  plus_grade,  ///< a reflex, pulse or edema grade: 2+
  pair,        ///< right and left values side by side: 4/4-
  range,       ///< from-to: 0-140
  degrees,     ///< 120 degrees
};

/// A figure as read. Values are tenths, with a plus or minus sign counting 3: "4+" is 43, "5-" is 47, "trace" is 5.
struct Figure {
  FigureKind kind = FigureKind::skip;
  std::uint32_t length = 0;  ///< in bytes
  int first = 0;             ///< tenths; degrees: whole degrees
  int second = 0;            ///< the pair's or range's second value; the lower of a grade range is `first`
};

class Measures {
 public:
  /// Adds a pattern; a message if RE2 rejects it.
  std::optional<std::string> add(FigureKind kind, std::string_view pattern);

  /// The figure that begins at the start of `text`, by the first pattern that matches there. Linear in its length.
  std::optional<Figure> read(std::string_view text) const;

 private:
  struct Pattern {
    FigureKind kind;
    std::unique_ptr<re2::RE2> expression;
  };
  std::vector<Pattern> patterns_;
};

}  // namespace jointledger
