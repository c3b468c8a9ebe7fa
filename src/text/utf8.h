// Is this text UTF-8? Asked once, when a note comes in; everything after that relies on the answer.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace jointledger {

/// The offset of the first byte that does not begin a well-formed UTF-8 sequence, or nothing when all of `text` is
/// valid. Overlong forms, surrogates, values past U+10FFFF and a sequence cut short by the end are not well formed;
/// the offset is that of their first byte. NUL is a character like any other. Thread-safe; never throws.
std::optional<std::size_t> first_invalid_utf8(std::string_view text) noexcept;

}  // namespace jointledger
