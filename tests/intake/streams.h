// Byte streams out of a test's own strings.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "intake/byte_stream.h"

namespace jointledger::testing {

/// Gives `bytes` in pieces of at most `piece`, then ends; or fails, if `trouble` is not empty.
class StringStream final : public ByteStream {
 public:
  explicit StringStream(std::string bytes, std::size_t piece = 7, std::string trouble = {})
      : bytes_(std::move(bytes)), piece_(piece), trouble_(std::move(trouble)) {}

  std::variant<std::size_t, std::string> read(std::span<char> out) override {
    if (at_ == bytes_.size() && !trouble_.empty()) return trouble_;
    const std::size_t count = std::min({piece_, out.size(), bytes_.size() - at_});
    std::copy_n(bytes_.data() + at_, count, out.data());
    at_ += count;
    return count;
  }

 private:
  std::string bytes_;
  std::size_t piece_;
  std::string trouble_;
  std::size_t at_ = 0;
};

inline std::unique_ptr<ByteStream> stream_of(std::string bytes, std::size_t piece = 7, std::string trouble = {}) {
  return std::make_unique<StringStream>(std::move(bytes), piece, std::move(trouble));
}

}  // namespace jointledger::testing
