#include "intake/line_splitter.h"

#include <algorithm>
#include <cstring>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "intake/refusals.h"

namespace jointledger {
namespace {

constexpr std::size_t kChunk = std::size_t{256} << 10;

class LineSplitter final : public Splitter {
 public:
  LineSplitter(std::unique_ptr<ByteStream> bytes, std::size_t longest)
      : bytes_(std::move(bytes)), longest_(longest), chunk_(kChunk) {}

  Split next(Record& record) override {
    record.bytes.clear();
    record.place = {++line_, offset_};
    bool too_long = false;
    bool ended = false;
    while (!ended) {
      if (rest_.empty() && !fill()) {
        if (trouble_) return give_up(record);
        if (offset_ == record.place.offset) return EndOfInput{};  // nothing after the last line break
        break;
      }
      const std::size_t length = std::min(rest_.find('\n'), rest_.size());
      ended = length < rest_.size();
      too_long = too_long || record.bytes.size() + length > longest_;
      if (!too_long) record.bytes.append(rest_.substr(0, length));
      rest_.remove_prefix(length + (ended ? 1 : 0));
      offset_ += length + (ended ? 1 : 0);
    }
    if (too_long) {
      record.bytes.clear();
      return RecordFault{name_of(record), record.place, too_long_reason("line", longest_)};
    }
    if (record.bytes.ends_with('\r')) record.bytes.pop_back();
    record.bytes.reserve(record.bytes.size() + kRecordPadding);
    return RecordReady{};
  }

 private:
  /// Reads the next chunk. False at the end of the input, and where it cannot be read.
  bool fill() {
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

  /// A line of which only a part could be read is not a line: it is reported, and the input ends.
  RecordFault give_up(Record& record) {
    record.bytes.clear();
    RecordFault fault{name_of(record), {line_, offset_}, unreadable_reason(*trouble_)};
    trouble_.reset();
    offset_ = record.place.offset;
    return fault;
  }

  std::unique_ptr<ByteStream> bytes_;
  std::size_t longest_;
  std::vector<char> chunk_;
  std::string_view rest_;  // of the chunk, not yet given out
  std::uint64_t line_ = 0;
  std::uint64_t offset_ = 0;
  bool done_ = false;
  std::optional<std::string> trouble_;
};

}  // namespace

std::unique_ptr<Splitter> split_into_lines(std::unique_ptr<ByteStream> bytes, std::size_t longest) {
  return std::make_unique<LineSplitter>(std::move(bytes), longest);
}

}  // namespace jointledger
