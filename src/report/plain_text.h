// Setting words on a terminal: what a note's text looks like there, how wide it is, where its lines break.
//
// Texts are valid UTF-8. Widths are columns of a terminal: wide East Asian characters count two, marks none.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace jointledger {

inline constexpr std::size_t kLineWidth = 80;

/// The text on one line: runs of white space and control characters become one space, as do characters that cannot be
/// seen (direction marks and the like); none at either end.
std::string on_one_line(std::string_view text);

/// Columns that a text without control characters takes.
std::size_t width_of(std::string_view text);

/// As much of the text as fits `columns`, with " ..." at the end if that is not all of it.
std::string cut_to_width(std::string text, std::size_t columns);

/// Appends the text, broken between words so that no line passes kLineWidth if words allow it; ends the last line.
/// The first line begins with `first`, the others with `others`.
void append_wrapped(std::string_view text, std::string_view first, std::string_view others, std::string& out);

}  // namespace jointledger
