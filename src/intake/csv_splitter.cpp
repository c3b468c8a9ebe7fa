#include "intake/csv_splitter.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "intake/csv_columns.h"
#include "intake/csv_row.h"
#include "intake/line_reader.h"
#include "intake/refusals.h"

namespace jointledger {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_blank(std::string_view line) { return line == "\n" || line == "\r\n"; }

class CsvSplitter final : public Splitter {
 public:
  CsvSplitter(std::unique_ptr<ByteStream> bytes, CsvSeparator separator, CsvNames names, std::size_t longest)
      : lines_(std::move(bytes), "\n"), row_(','), separator_(separator), names_(std::move(names)), longest_(longest) {}

  Split next(Record& record) override {
    if (ended_) return EndOfInput{};
    if (!head_) {
      Split split = next_row(record);
      if (std::holds_alternative<RecordReady>(split)) split = take_head(record);
      if (!head_) {
        ended_ = true;  // rows without names are of no use
        return split;
      }
    }
    record.head = head_;
    return next_row(record);
  }

 private:
  Split next_row(Record& record) {
    do {
      record.bytes.clear();
      record.place = {lines_.line(), lines_.offset()};
      if (!first_line(record.bytes)) return end_of(record);
    } while (is_blank(record.bytes));

    row_.clear();
    row_.take(record.bytes);
    bool too_long = lines_.cut();
    // A row ends with the line that the parser says it ends with: the others are inside quotes.
    while (row_.rows() == 0) {
      const std::string_view piece = lines_.next_piece();
      if (piece.empty()) break;
      row_.take(piece);
      too_long = too_long || record.bytes.size() + piece.size() > longest_;
      if (too_long) {
        record.bytes.clear();
        if (row_.rows() == 0) row_.shed();
      } else {
        record.bytes.append(piece);
      }
    }
    if (lines_.trouble()) return end_of(record);
    if (too_long) return RecordFault{name_of(record), record.place, too_long_reason("row", longest_)};
    record.bytes.reserve(record.bytes.size() + kRecordPadding);
    return RecordReady{};
  }

  Split take_head(Record& record) {
    row_.finish();
    const auto columns = columns_of(row_, names_);
    if (const auto* reason = std::get_if<std::string>(&columns)) {
      record.bytes.clear();
      return RecordFault{name_of(record), record.place, *reason};
    }
    head_ = std::make_shared<const InputHead>(InputHead{nullptr, record.bytes, row_separator_});
    return RecordReady{};
  }

  /// The first piece of a row; that of the header row as a whole line, since it tells what separates the fields.
  bool first_line(std::string& line) {
    if (head_) {
      line = lines_.next_piece();
      return !line.empty();
    }
    const bool at_start = lines_.offset() == 0;
    if (!lines_.next(line, longest_)) return false;
    if (at_start && line.starts_with(kByteOrderMark)) line.erase(0, kByteOrderMark.size());
    row_separator_ = separator_ == CsvSeparator::either ? likely_separator(line) : static_cast<char>(separator_);
    row_.set_separator(row_separator_);
    return true;
  }

  /// No more is to be had. Half a row at the end of the input is for the decoder to refuse.
  Split end_of(Record& record) {
    if (!std::exchange(ended_, true) && lines_.trouble()) {
      record.bytes.clear();
      return RecordFault{name_of(record), {record.place.line, lines_.offset()}, unreadable_reason(*lines_.trouble())};
    }
    return EndOfInput{};
  }

  LineReader lines_;
  CsvRow row_;
  CsvSeparator separator_;
  CsvNames names_;
  char row_separator_ = ',';
  std::size_t longest_;
  std::shared_ptr<const InputHead> head_;
  bool ended_ = false;
};

}  // namespace

char likely_separator(std::string_view header) {
  return std::ranges::count(header, '\t') > std::ranges::count(header, ',') ? '\t' : ',';
}

std::unique_ptr<Splitter> split_into_rows(std::unique_ptr<ByteStream> bytes, CsvSeparator separator, CsvNames names,
                                          std::size_t longest) {
  return std::make_unique<CsvSplitter>(std::move(bytes), separator, std::move(names), longest);
}

}  // namespace jointledger
