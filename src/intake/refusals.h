// The words for what a splitter has to refuse, so that every format says the same.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace jointledger {

/// "the line is longer than 64 MiB, the most that is read". `what` is a line, a file.
inline std::string too_long_reason(std::string_view what, std::size_t longest) {
  const bool round = longest % (std::size_t{1} << 20) == 0;
  const std::string most = round ? std::to_string(longest >> 20) + " MiB" : std::to_string(longest) + " bytes";
  return "the " + std::string(what) + " is longer than " + most + ", the most that is read";
}

/// "cannot be read: Is a directory". `why` is the system's word for it.
inline std::string unreadable_reason(std::string_view why) { return "cannot be read: " + std::string(why); }

}  // namespace jointledger
