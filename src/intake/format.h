// The formats that notes come in. A format is a way to cut an input into records and a way to make notes of them.
//
// To add one: a file that makes its Decoder (and a Splitter, if none here will do), and a line in format.cpp.
#pragma once

#include <memory>
#include <span>
#include <string_view>

#include "intake/byte_stream.h"
#include "intake/decoder.h"
#include "intake/splitter.h"

namespace jointledger {

struct Format {
  std::string_view name;       ///< as given to --from
  std::string_view extension;  ///< of files that are taken for it, with the dot; empty for none
  std::unique_ptr<Splitter> (*split)(std::unique_ptr<ByteStream> bytes);
  std::unique_ptr<Decoder> (*decoder)();
};

/// All formats, the one for anything not recognised first. Static storage.
std::span<const Format> formats();

/// The format of that name, or null.
const Format* format_named(std::string_view name);

/// The format for a path by its extension, else text; text for "-" as well.
const Format& format_of(std::string_view path);

}  // namespace jointledger
