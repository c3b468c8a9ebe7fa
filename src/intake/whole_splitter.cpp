#include "intake/whole_splitter.h"

#include <algorithm>
#include <utility>

#include "intake/refusals.h"

namespace jointledger {
namespace {

constexpr std::size_t kFirstRead = std::size_t{16} << 10;  // most notes are shorter

class WholeSplitter final : public Splitter {
 public:
  WholeSplitter(std::unique_ptr<ByteStream> bytes, std::size_t longest) : bytes_(std::move(bytes)), longest_(longest) {}

  Split next(Record& record) override {
    if (done_) return EndOfInput{};
    done_ = true;
    record.place = {};
    std::string& bytes = record.bytes;
    std::size_t size = 0;
    while (true) {
      // The string doubles when full; what is past `size` is cut off at the end.
      if (size == bytes.size()) bytes.resize(std::min(std::max(2 * size, kFirstRead), longest_ + 1));
      const auto result = bytes_->read(std::span(bytes).subspan(size));
      if (const auto* trouble = std::get_if<std::string>(&result)) {
        return refuse(record, unreadable_reason(*trouble));
      }
      const std::size_t count = std::get<std::size_t>(result);
      size += count;
      if (size > longest_) return refuse(record, too_long_reason("file", longest_));
      if (count == 0) break;
    }
    bytes.resize(size);
    bytes.reserve(size + kRecordPadding);
    return RecordReady{};
  }

 private:
  static RecordFault refuse(Record& record, std::string reason) {
    record.bytes.clear();
    return {name_of(record), record.place, std::move(reason)};
  }

  std::unique_ptr<ByteStream> bytes_;
  std::size_t longest_;
  bool done_ = false;
};

}  // namespace

std::unique_ptr<Splitter> take_whole(std::unique_ptr<ByteStream> bytes, std::size_t longest) {
  return std::make_unique<WholeSplitter>(std::move(bytes), longest);
}

}  // namespace jointledger
