#include "intake/csv_decoder.h"

#include <algorithm>
#include <utility>

#include "intake/csv_columns.h"
#include "intake/csv_row.h"
#include "intake/metadata.h"
#include "intake/note_text.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

/// A whole number as JSON writes it (RFC 8259): no plus sign, no zeros in front.
bool is_json_integer(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const bool digits = !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
  return digits && (text.size() == 1 || text.front() != '0');
}

class CsvDecoder final : public Decoder {
 public:
  CsvDecoder(CsvNames names, CsvIds ids) : row_(','), names_(std::move(names)), ids_(ids) {}

  void open(const Record& record) override { record_ = &record; }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    const Record& record = *std::exchange(record_, nullptr);
    if (record.head != head_) {
      if (auto reason = read_head(record)) return fault(record, std::move(*reason));
    }
    take_row(record.bytes);
    if (row_.malformed()) return fault(record, "a quoted field goes on after its closing quote");
    if (row_.open()) return fault(record, "a quote in the row is never closed");
    if (row_.rows() > 1) return fault(record, "a carriage return stands outside quotes");
    if (row_.size() != columns_.names.size()) {
      return fault(record, "the row has " + std::to_string(row_.size()) + " fields, the header row " +
                               std::to_string(columns_.names.size()));
    }
    const std::string_view id = row_[columns_.id];
    if (first_invalid_utf8(id)) return fault(record, "its id is not UTF-8");
    if (id.empty()) return fault(record, "its id is empty");
    const std::string_view text = row_[columns_.text];
    if (auto wrong = fault_in_text(text)) return fault(record, std::move(wrong->reason), id);
    if (!take_metadata()) return fault(record, "a field of the row is not UTF-8", id);
    const bool is_number = ids_ == CsvIds::numbers && is_json_integer(id);
    return Note{.id = id, .id_is_number = is_number, .text = text, .metadata = metadata_.members()};
  }

 private:
  std::optional<std::string> read_head(const Record& record) {
    head_ = record.head;
    if (!head_) return "the row comes without a header row";
    row_.set_separator(head_->separator);
    take_row(head_->columns);
    auto columns = columns_of(row_, names_);
    if (auto* reason = std::get_if<std::string>(&columns)) {
      head_.reset();
      return std::move(*reason);
    }
    columns_ = std::move(std::get<CsvColumns>(columns));
    return std::nullopt;
  }

  void take_row(std::string_view bytes) {
    row_.clear();
    row_.take(bytes);
    row_.finish();
  }

  /// False if a field is not UTF-8.
  bool take_metadata() {
    metadata_.clear();
    for (std::size_t i = 0; i < row_.size(); ++i) {
      if (i == columns_.id || i == columns_.text) continue;
      if (first_invalid_utf8(row_[i])) return false;
      metadata_.add_string(columns_.names[i], row_[i]);
    }
    if (columns_.author) metadata_.add_shared(kAuthorKey, row_[*columns_.author]);
    if (columns_.patient) metadata_.add_shared(kPatientKey, row_[*columns_.patient]);
    const auto date = std::ranges::find_if(columns_.dates, [&](std::size_t at) { return !row_[at].empty(); });
    if (date != columns_.dates.end()) metadata_.add_shared(kDateKey, row_[*date]);
    return true;
  }

  static RecordFault fault(const Record& record, std::string reason, std::string_view id = {}) {
    return {name_of(record, id), record.place, std::move(reason)};
  }

  CsvRow row_;
  CsvNames names_;
  CsvIds ids_;
  const Record* record_ = nullptr;
  std::shared_ptr<const InputHead> head_;  // of which columns_ are
  CsvColumns columns_;
  Metadata metadata_;
};

}  // namespace

std::unique_ptr<Decoder> make_csv_decoder(CsvNames names, CsvIds ids) {
  return std::make_unique<CsvDecoder>(std::move(names), ids);
}

}  // namespace jointledger
