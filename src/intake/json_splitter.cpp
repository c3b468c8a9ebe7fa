#include "intake/json_splitter.h"

#include <string_view>
#include <utility>

#include "intake/line_reader.h"
#include "intake/refusals.h"

namespace jointledger {
namespace {

constexpr std::string_view kWhiteSpace = " \t\r\n";
constexpr std::string_view kGoesOn = "{[,";

class JsonSplitter final : public Splitter {
 public:
  JsonSplitter(std::unique_ptr<ByteStream> bytes, std::size_t longest)
      : lines_(std::move(bytes), "\n"), longest_(longest) {}

  Split next(Record& record) override {
    record.bytes.clear();
    if (gave_up_) return EndOfInput{};
    do {
      record.bytes.clear();
      record.place = {lines_.line(), lines_.offset()};
      if (!lines_.next(record.bytes, longest_ + 1)) return lines_.trouble() ? give_up(record) : EndOfInput{};
    } while (!lines_.cut() && record.bytes.find_first_not_of(kWhiteSpace) == std::string::npos);

    bool cut = lines_.cut();
    bool document = false;
    if (std::exchange(first_, false) && !cut) {
      document = kGoesOn.find(record.bytes[record.bytes.find_last_not_of(kWhiteSpace)]) != std::string_view::npos;
      while (document && lines_.next(record.bytes, longest_ + 1)) cut = cut || lines_.cut();
    }
    if (lines_.trouble()) return give_up(record);
    if (!cut) record.bytes.resize(record.bytes.find_last_not_of(kWhiteSpace) + 1);
    if (cut || record.bytes.size() > longest_) {
      record.bytes.clear();
      return RecordFault{name_of(record), record.place, too_long_reason(document ? "file" : "line", longest_)};
    }
    record.bytes.reserve(record.bytes.size() + kRecordPadding);
    return RecordReady{};
  }

 private:
  Split give_up(Record& record) {
    gave_up_ = true;
    record.bytes.clear();
    return RecordFault{name_of(record), {record.place.line, lines_.offset()}, unreadable_reason(*lines_.trouble())};
  }

  LineReader lines_;
  std::size_t longest_;
  bool first_ = true;
  bool gave_up_ = false;
};

}  // namespace

std::unique_ptr<Splitter> split_json(std::unique_ptr<ByteStream> bytes, std::size_t longest) {
  return std::make_unique<JsonSplitter>(std::move(bytes), longest);
}

}  // namespace jointledger
