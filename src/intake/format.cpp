#include "intake/format.h"

#include <algorithm>
#include <array>

#include "intake/line_splitter.h"
#include "intake/ndjson_decoder.h"
#include "intake/text_decoder.h"
#include "intake/whole_splitter.h"

namespace jointledger {
namespace {

std::unique_ptr<Splitter> by_line(std::unique_ptr<ByteStream> bytes) { return split_into_lines(std::move(bytes)); }
std::unique_ptr<Splitter> whole(std::unique_ptr<ByteStream> bytes) { return take_whole(std::move(bytes)); }

constexpr std::array<Format, 2> kFormats = {{
    {"text", "", whole, make_text_decoder},
    {"ndjson", ".ndjson", by_line, make_ndjson_decoder},
}};

}  // namespace

std::span<const Format> formats() { return kFormats; }

const Format* format_named(std::string_view name) {
  const auto* const found = std::ranges::find(kFormats, name, &Format::name);
  return found == kFormats.end() ? nullptr : &*found;
}

const Format& format_of(std::string_view path) {
  const auto* const found = std::ranges::find_if(
      kFormats, [&](const Format& f) { return !f.extension.empty() && path.ends_with(f.extension); });
  return found == kFormats.end() ? kFormats.front() : *found;
}

}  // namespace jointledger
