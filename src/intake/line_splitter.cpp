#include "intake/line_splitter.h"

#include <utility>

#include "intake/line_reader.h"
#include "intake/refusals.h"

namespace jointledger {
namespace {

class LineSplitter final : public Splitter {
 public:
  LineSplitter(std::unique_ptr<ByteStream> bytes, std::size_t longest)
      : lines_(std::move(bytes), "\n"), longest_(longest) {}

  Split next(Record& record) override {
    record.bytes.clear();
    record.place = {lines_.line(), lines_.offset()};
    const bool any = lines_.next(record.bytes, longest_ + 1);  // the break is no part of the line
    if (lines_.trouble()) return give_up(record);
    if (!any) return EndOfInput{};
    if (record.bytes.ends_with('\n')) record.bytes.pop_back();
    if (lines_.cut() || record.bytes.size() > longest_) {
      record.bytes.clear();
      return RecordFault{name_of(record), record.place, too_long_reason("line", longest_)};
    }
    if (record.bytes.ends_with('\r')) record.bytes.pop_back();
    record.bytes.reserve(record.bytes.size() + kRecordPadding);
    return RecordReady{};
  }

 private:
  /// A line of which only a part could be read is not a line: it is reported, and the input ends.
  Split give_up(Record& record) {
    record.bytes.clear();
    if (std::exchange(gave_up_, true)) return EndOfInput{};
    return RecordFault{name_of(record), {record.place.line, lines_.offset()}, unreadable_reason(*lines_.trouble())};
  }

  LineReader lines_;
  std::size_t longest_;
  bool gave_up_ = false;
};

}  // namespace

std::unique_ptr<Splitter> split_into_lines(std::unique_ptr<ByteStream> bytes, std::size_t longest) {
  return std::make_unique<LineSplitter>(std::move(bytes), longest);
}

}  // namespace jointledger
