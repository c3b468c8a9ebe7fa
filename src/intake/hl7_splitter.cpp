#include "intake/hl7_splitter.h"

#include <optional>
#include <string_view>
#include <utility>

#include "intake/hl7_message.h"
#include "intake/line_reader.h"
#include "intake/refusals.h"

namespace jointledger {
namespace {

constexpr std::string_view kBreaks = "\r\n";
constexpr std::string_view kFrame = "\v\x1c";  // MLLP: start block, end block

class Hl7Splitter final : public Splitter {
 public:
  Hl7Splitter(std::unique_ptr<ByteStream> bytes, std::size_t longest)
      : lines_(std::move(bytes), kBreaks), longest_(longest) {}

  Split next(Record& record) override {
    record.bytes.clear();
    bool too_long = false;
    while (true) {
      if (!line_) read_line();
      if (!line_) break;
      const std::string_view text = line_->bytes;
      const bool begun = !record.bytes.empty() || too_long;
      if (begun && (line_->framed || starts_message(text))) break;
      if (text.find_first_not_of(kBreaks) == std::string_view::npos && !begun) {
        line_.reset();
        continue;
      }
      if (is_batch_segment(text)) {
        line_.reset();
        if (begun) break;
        continue;
      }
      if (!begun) record.place = line_->place;
      too_long = too_long || lines_.cut() || record.bytes.size() + text.size() > longest_;
      if (!too_long) record.bytes.append(text);
      const bool ends = line_->ends;
      line_.reset();
      if (ends) break;
    }
    if (lines_.trouble()) return give_up(record);
    if (too_long) {
      record.bytes.clear();
      return RecordFault{name_of(record), record.place, too_long_reason("message", longest_)};
    }
    if (record.bytes.empty()) return EndOfInput{};
    record.bytes.reserve(record.bytes.size() + kRecordPadding);
    return RecordReady{};
  }

 private:
  struct Line {
    std::string bytes;  // with its break, without framing
    Place place;
    bool framed = false;  // a block starts or ended before it
    bool ends = false;    // a block ends with it
  };

  /// Sets line_ if there is a line.
  void read_line() {
    line_.emplace();
    line_->place = {lines_.line(), lines_.offset()};
    if (!lines_.next(line_->bytes, longest_ + 1)) {
      line_.reset();
      return;
    }
    const std::size_t start = line_->bytes.find_first_not_of(kFrame);
    line_->framed = start > 0;
    line_->place.offset += start == std::string::npos ? 0 : start;
    line_->bytes.erase(0, start);
    const std::size_t end = line_->bytes.find_last_not_of(kBreaks);
    if (end != std::string::npos && line_->bytes[end] == kFrame.back()) {
      line_->ends = true;
      line_->bytes.resize(line_->bytes.find_last_not_of(kFrame, end) + 1);
    }
  }

  Split give_up(Record& record) {
    record.bytes.clear();
    line_.reset();
    if (std::exchange(gave_up_, true)) return EndOfInput{};
    return RecordFault{name_of(record), {lines_.line(), lines_.offset()}, unreadable_reason(*lines_.trouble())};
  }

  LineReader lines_;
  std::size_t longest_;
  std::optional<Line> line_;  // read, but of the next record
  bool gave_up_ = false;
};

}  // namespace

std::unique_ptr<Splitter> split_into_messages(std::unique_ptr<ByteStream> bytes, std::size_t longest) {
  return std::make_unique<Hl7Splitter>(std::move(bytes), longest);
}

}  // namespace jointledger
