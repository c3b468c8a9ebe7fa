// The formats that notes come in. A format is a way to cut an input into records and a way to make notes of them.
//
// To add one: a file that makes its Decoder (and a Splitter, if none here will do), a line in format.cpp, and the bytes
// by which it is told apart in recognise.cpp.
#pragma once

#include <memory>
#include <span>
#include <string_view>
#include <utility>

#include "intake/byte_stream.h"
#include "intake/decoder.h"
#include "intake/intake_options.h"
#include "intake/splitter.h"

namespace jointledger {

struct Format {
  std::string_view name;   ///< as given to --from
  std::string_view about;  ///< what it is, in a few words for people
  std::unique_ptr<Splitter> (*make_splitter)(std::unique_ptr<ByteStream> bytes, const IntakeOptions& options);
  std::unique_ptr<Decoder> (*make_decoder)(const IntakeOptions& options);

  /// Splitter and decoder of an input must be made with the same options.
  std::unique_ptr<Splitter> split(std::unique_ptr<ByteStream> bytes, const IntakeOptions& options = {}) const {
    return make_splitter(std::move(bytes), options);
  }
  std::unique_ptr<Decoder> decoder(const IntakeOptions& options = {}) const { return make_decoder(options); }
};

/// All formats, `auto` first: it tells the others apart by content. Static storage.
std::span<const Format> formats();

/// The format of that name, or null.
const Format* format_named(std::string_view name);

}  // namespace jointledger
