#include "intake/line_reader.h"

#include <algorithm>
#include <utility>

namespace jointledger {
namespace {

constexpr std::size_t kChunk = std::size_t{256} << 10;

}  // namespace

LineReader::LineReader(std::unique_ptr<ByteStream> bytes, std::string_view breaks)
    : bytes_(std::move(bytes)), breaks_(breaks), chunk_(kChunk) {}

std::string_view LineReader::next_piece() {
  if (rest_.empty() && !fill()) return {};
  const std::size_t at = breaks_.size() == 1 ? rest_.find(breaks_.front()) : rest_.find_first_of(breaks_);
  at_line_start_ = at != std::string_view::npos;
  const std::string_view piece = rest_.substr(0, at_line_start_ ? at + 1 : rest_.size());
  if (at_line_start_ && !(piece == "\n" && after_cr_)) ++line_;
  after_cr_ = piece.back() == '\r';
  rest_.remove_prefix(piece.size());
  offset_ += piece.size();
  return piece;
}

bool LineReader::next(std::string& out, std::size_t most) {
  cut_ = false;
  std::string_view piece = next_piece();
  if (piece.empty()) return false;
  while (!piece.empty()) {
    const std::size_t room = most - std::min(most, out.size());
    out.append(piece.substr(0, room));
    cut_ = cut_ || piece.size() > room;
    if (at_line_start_) break;
    piece = next_piece();
  }
  return true;
}

bool LineReader::fill() {
  if (done_) return false;
  const auto result = bytes_->read(chunk_);
  if (const auto* trouble = std::get_if<std::string>(&result)) {
    trouble_ = *trouble;
  } else {
    rest_ = std::string_view(chunk_.data(), std::get<std::size_t>(result));
  }
  done_ = rest_.empty();
  return !done_;
}

}  // namespace jointledger
