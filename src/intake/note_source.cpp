#include "intake/note_source.h"

#include <utility>

namespace jointledger {

NoteSource::NoteSource(std::string input, const Format& format, const IntakeOptions& options)
    : decoder_(format.decoder(options)) {
  record_.input = std::move(input);
  auto opened = open_bytes(record_.input);
  if (auto* reason = std::get_if<std::string>(&opened)) {
    unopened_ = "cannot be opened: " + *reason;
  } else {
    splitter_ = format.split(std::move(std::get<std::unique_ptr<ByteStream>>(opened)), options);
  }
}

NoteSource::NoteSource(std::string input, const Format& format, std::unique_ptr<ByteStream> bytes,
                       const IntakeOptions& options)
    : splitter_(format.split(std::move(bytes), options)), decoder_(format.decoder(options)) {
  record_.input = std::move(input);
}

Incoming NoteSource::next() {
  if (!unopened_.empty()) return RecordFault{name_of(record_), {}, std::exchange(unopened_, {})};
  if (!splitter_) return EndOfNotes{};
  while (true) {
    if (in_record_) {
      Incoming incoming = decoder_->next();
      if (!std::holds_alternative<EndOfNotes>(incoming)) return incoming;
      in_record_ = false;
    }
    Split split = splitter_->next(record_);
    if (std::holds_alternative<EndOfInput>(split)) return EndOfNotes{};
    if (auto* fault = std::get_if<RecordFault>(&split)) return std::move(*fault);
    decoder_->open(record_);
    in_record_ = true;
  }
}

}  // namespace jointledger
