#include "intake/text_decoder.h"

#include <utility>

#include "intake/note_text.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

class TextDecoder final : public Decoder {
 public:
  void open(const Record& record) override { record_ = &record; }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    const Record& record = *std::exchange(record_, nullptr);
    // The path becomes the id, and ids are text.
    if (first_invalid_utf8(record.input)) return RecordFault{"a file", record.place, "its name is not UTF-8"};
    if (record.bytes.starts_with("{\\rtf"))
      return RecordFault{name_of(record), record.place, "it is RTF, which is not read"};
    if (auto fault = fault_in_text(record.bytes)) {
      return RecordFault{name_of(record), place_in(record, fault->at), std::move(fault->reason)};
    }
    return Note{.id = record.input, .id_is_number = false, .text = record.bytes, .metadata = {}};
  }

 private:
  const Record* record_ = nullptr;
};

}  // namespace

std::unique_ptr<Decoder> make_text_decoder() { return std::make_unique<TextDecoder>(); }

}  // namespace jointledger
