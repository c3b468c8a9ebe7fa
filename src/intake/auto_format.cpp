#include "intake/auto_format.h"

#include <simdjson.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "intake/format.h"
#include "intake/json_splitter.h"
#include "intake/recognise.h"

namespace jointledger {
namespace {

/// Null for JSON, which its records tell apart.
const Format* format_that(Looks looks) {
  switch (looks) {
    case Looks::csv:
      return format_named("csv");
    case Looks::tsv:
      return format_named("tsv");
    case Looks::omop:
      return format_named("omop");
    case Looks::hl7:
      return format_named("hl7");
    case Looks::ccda:
      return format_named("ccda");
    case Looks::json:
      return nullptr;
    case Looks::unclear:
    case Looks::text:
      break;
  }
  return format_named("text");
}

/// Gives bytes once more that were read to look at them, then goes on.
class StartedStream final : public ByteStream {
 public:
  StartedStream(std::string start, std::unique_ptr<ByteStream> rest)
      : start_(std::move(start)), rest_(std::move(rest)) {}

  std::variant<std::size_t, std::string> read(std::span<char> out) override {
    if (at_ == start_.size()) return rest_->read(out);
    const std::size_t count = std::min(out.size(), start_.size() - at_);
    std::copy_n(start_.data() + at_, count, out.data());
    at_ += count;
    return count;
  }

 private:
  std::string start_;
  std::size_t at_ = 0;
  std::unique_ptr<ByteStream> rest_;
};

class RecognisingSplitter final : public Splitter {
 public:
  RecognisingSplitter(std::unique_ptr<ByteStream> bytes, IntakeOptions options)
      : bytes_(std::move(bytes)), options_(std::move(options)) {}

  Split next(Record& record) override {
    if (!splitter_) recognise(record.input);
    record.head.reset();
    Split split = splitter_->next(record);
    if (record.head != inner_ || !head_) {
      inner_ = record.head;
      InputHead head = inner_ ? *inner_ : InputHead{};
      head.format = format_;
      head_ = std::make_shared<const InputHead>(std::move(head));
    }
    record.head = head_;
    return split;
  }

 private:
  /// Makes the splitter. If the input cannot be read, the splitter comes upon that again.
  void recognise(const std::string& path) {
    std::string start;
    Looks looks = Looks::unclear;
    std::size_t size = 0;
    while (looks == Looks::unclear) {
      start.resize(kLookedAt);
      const auto result = bytes_->read(std::span(start).subspan(size));
      const auto* const count = std::get_if<std::size_t>(&result);
      size += count == nullptr ? 0 : *count;
      const bool all = count == nullptr || *count == 0 || size == kLookedAt;
      looks = looks_like(std::string_view(start).substr(0, size), all, path, options_);
    }
    start.resize(size);
    auto bytes = std::make_unique<StartedStream>(std::move(start), std::move(bytes_));
    format_ = format_that(looks);
    splitter_ = format_ == nullptr ? split_json(std::move(bytes)) : format_->split(std::move(bytes), options_);
  }

  std::unique_ptr<ByteStream> bytes_;
  IntakeOptions options_;
  std::unique_ptr<Splitter> splitter_;  // null until the input is recognised
  const Format* format_ = nullptr;
  std::shared_ptr<const InputHead> inner_;  // as the splitter made it
  std::shared_ptr<const InputHead> head_;   // the same with the format
};

class RecognisedDecoder final : public Decoder {
 public:
  explicit RecognisedDecoder(IntakeOptions options) : options_(std::move(options)) {}

  void open(const Record& record) override {
    const Format* format = record.head ? record.head->format : nullptr;
    if (format == nullptr) format = format_named(is_fhir(record) ? "fhir" : "ndjson");
    std::unique_ptr<Decoder>& decoder = decoders_[format];
    if (!decoder) decoder = format->decoder(options_);
    decoder_ = decoder.get();
    decoder_->open(record);
  }

  Incoming next() override { return decoder_ == nullptr ? Incoming(EndOfNotes{}) : decoder_->next(); }

 private:
  bool is_fhir(const Record& record) {
    // Within a string the quotes have escapes, so that most records are told by this search alone.
    if (record.bytes.find("\"resourceType\"") == std::string::npos) return false;
    namespace ondemand = simdjson::ondemand;
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    std::string_view json = record.bytes;
    if (json.starts_with(kByteOrderMark)) json.remove_prefix(kByteOrderMark.size());
    ondemand::document document;
    if (parser_.iterate(json.data(), json.size(), json.size() + simdjson::SIMDJSON_PADDING).get(document)) return true;
    std::string_view string;
    if (document.find_field_unordered("resourceType").get_string().get(string)) return false;
    document.rewind();
    return document.find_field_unordered("text").get_string().get(string) != simdjson::SUCCESS;
  }

  IntakeOptions options_;
  std::map<const Format*, std::unique_ptr<Decoder>> decoders_;
  Decoder* decoder_ = nullptr;
  simdjson::ondemand::parser parser_;
};

}  // namespace

std::unique_ptr<Splitter> split_recognised(std::unique_ptr<ByteStream> bytes, const IntakeOptions& options) {
  return std::make_unique<RecognisingSplitter>(std::move(bytes), options);
}

std::unique_ptr<Decoder> make_recognised_decoder(const IntakeOptions& options) {
  return std::make_unique<RecognisedDecoder>(options);
}

}  // namespace jointledger
