#include "intake/charset.h"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <memory>

#include "intake/ascii.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

constexpr std::size_t kLongestName = 40;

/// Names of character sets are letters, digits and a few marks; anything else is not passed on, to iconv (where "//"
/// has a meaning) or to a person.
bool is_name(std::string_view name) {
  return !name.empty() && name.size() <= kLongestName && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           c == '.' || c == ':';
  });
}

bool is_utf8(std::string_view name) {
  constexpr std::string_view kNames[] = {"utf-8", "utf8", "us-ascii", "ascii"};
  return std::ranges::any_of(kNames, [&](std::string_view known) { return same_but_for_case(name, known); });
}

struct Close {
  using pointer = iconv_t;
  void operator()(iconv_t handle) const { iconv_close(handle); }
};

}  // namespace

std::optional<std::string> to_utf8(std::string_view bytes, std::string_view charset, std::string& out) {
  out.clear();
  if (is_utf8(charset)) {
    if (const auto at = first_invalid_utf8(bytes)) return "not UTF-8 from byte " + std::to_string(*at) + " of the text";
    out = bytes;
    return std::nullopt;
  }
  if (!is_name(charset)) return "its character set has no proper name";
  const std::string name(charset);
  const iconv_t opened = iconv_open("UTF-8", name.c_str());
  if (opened == reinterpret_cast<iconv_t>(-1)) {  // NOLINT(performance-no-int-to-ptr): POSIX defines it so
    return "its character set, " + name + ", is not known";
  }
  const std::unique_ptr<iconv_t, Close> handle(opened);
  std::array<char, 4096> piece;
  char* from = const_cast<char*>(bytes.data());  // iconv does not write to it
  std::size_t left = bytes.size();
  while (true) {
    char* to = piece.data();
    std::size_t room = piece.size();
    const bool flush = left == 0;
    const std::size_t result =
        flush ? iconv(opened, nullptr, nullptr, &to, &room) : iconv(opened, &from, &left, &to, &room);
    out.append(piece.data(), piece.size() - room);
    if (result == static_cast<std::size_t>(-1) && errno != E2BIG) {
      return "not " + name + " from byte " + std::to_string(bytes.size() - left) + " of the text";
    }
    if (flush && result != static_cast<std::size_t>(-1)) return std::nullopt;
  }
}

}  // namespace jointledger
