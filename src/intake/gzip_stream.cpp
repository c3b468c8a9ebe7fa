#include "intake/gzip_stream.h"

#include <zlib.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace jointledger {
namespace {

constexpr std::size_t kChunk = std::size_t{64} << 10;
constexpr int kGzipOnly = 16 + MAX_WBITS;
constexpr char kFirstMagic = '\x1f';
constexpr char kSecondMagic = '\x8b';

/// Inflates gzip members. Invariant: `state_` is initialised for as long as the object lives.
class Inflater final {
 public:
  explicit Inflater(ByteStream& bytes) : bytes_(bytes), chunk_(kChunk) { ready_ = inflateInit2(&state_, kGzipOnly); }
  Inflater(const Inflater&) = delete;
  Inflater& operator=(const Inflater&) = delete;
  ~Inflater() { inflateEnd(&state_); }

  /// Bytes that were read before they were known to be gzip.
  void prime(std::string_view start) {
    chunk_.resize(std::max(chunk_.size(), start.size()));
    std::ranges::copy(start, chunk_.begin());
    point_to(start.size());
  }

  std::variant<std::size_t, std::string> read(std::span<char> out) {
    if (ready_ != Z_OK) return "no memory to decompress with";
    while (!ended_) {
      if (state_.avail_in == 0) {
        const auto result = bytes_.read(chunk_);
        if (const auto* trouble = std::get_if<std::string>(&result)) return *trouble;
        const std::size_t count = std::get<std::size_t>(result);
        if (count == 0 && !between_members_) return "the gzip data ends before it is complete";
        ended_ = count == 0;
        if (ended_) break;
        point_to(count);
      }
      if (between_members_ && !next_member()) continue;
      state_.next_out = reinterpret_cast<Bytef*>(out.data());
      state_.avail_out = static_cast<uInt>(std::min<std::size_t>(out.size(), kChunk * 16));
      const uInt room = state_.avail_out;
      const int status = inflate(&state_, Z_NO_FLUSH);
      const std::size_t written = room - state_.avail_out;
      out_total_ += written;
      if (status == Z_STREAM_END) {
        between_members_ = true;
        inflateReset(&state_);
      } else if (status != Z_OK && status != Z_BUF_ERROR) {
        return "the gzip data is damaged";
      }
      if (out_total_ > kGrowthAllowance && out_total_ / kMostGrowth > in_total_ - state_.avail_in) {
        return "the gzip data grows more than " + std::to_string(kMostGrowth) + "-fold";
      }
      if (written > 0) return written;
    }
    return std::size_t{0};
  }

 private:
  void point_to(std::size_t count) {
    state_.next_in = reinterpret_cast<Bytef*>(chunk_.data());
    state_.avail_in = static_cast<uInt>(count);
    in_total_ += count;
  }

  /// Passes over zeros, which tapes and block devices leave. False if nothing else is there yet.
  bool next_member() {
    while (state_.avail_in > 0 && *state_.next_in == 0) {
      ++state_.next_in;
      --state_.avail_in;
    }
    between_members_ = state_.avail_in == 0;
    return !between_members_;
  }

  ByteStream& bytes_;
  std::vector<char> chunk_;
  z_stream state_ = {};
  int ready_ = Z_OK;
  std::uint64_t in_total_ = 0;
  std::uint64_t out_total_ = 0;
  bool between_members_ = false;
  bool ended_ = false;
};

class MaybeGzip final : public ByteStream {
 public:
  explicit MaybeGzip(std::unique_ptr<ByteStream> bytes) : bytes_(std::move(bytes)) {}

  std::variant<std::size_t, std::string> read(std::span<char> out) override {
    if (trouble_) return *trouble_;
    if (!looked_) {
      looked_ = true;
      auto first = look(out);
      if (!inflater_) return first;
    }
    if (!inflater_) return bytes_->read(out);
    auto result = inflater_->read(out);
    if (const auto* trouble = std::get_if<std::string>(&result)) trouble_ = *trouble;
    return result;
  }

 private:
  /// The first bytes, which are in `out` already if they are not gzip.
  std::variant<std::size_t, std::string> look(std::span<char> out) {
    auto first = bytes_->read(out);
    const auto* count = std::get_if<std::size_t>(&first);
    if (count == nullptr || *count == 0 || out[0] != kFirstMagic) return first;
    std::string start(out.data(), *count);
    if (start.size() == 1) {
      char second = 0;
      const auto more = bytes_->read({&second, 1});
      if (const auto* got = std::get_if<std::size_t>(&more); got != nullptr && *got == 1) start.push_back(second);
    }
    // No text starts with the control character 1F, so what follows it is damaged gzip rather than a note.
    inflater_.emplace(*bytes_);
    inflater_->prime(start);
    return std::size_t{0};
  }

  std::unique_ptr<ByteStream> bytes_;
  std::optional<Inflater> inflater_;
  std::optional<std::string> trouble_;
  bool looked_ = false;
};

}  // namespace

std::unique_ptr<ByteStream> without_gzip(std::unique_ptr<ByteStream> bytes) {
  return std::make_unique<MaybeGzip>(std::move(bytes));
}

}  // namespace jointledger
