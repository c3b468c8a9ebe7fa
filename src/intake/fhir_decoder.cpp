#include "intake/fhir_decoder.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "intake/fhir_bundle.h"
#include "intake/fhir_text.h"
#include "intake/metadata.h"
#include "intake/note_text.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

namespace ondemand = simdjson::ondemand;
namespace dom = simdjson::dom;

/// What a Reference says: the resource that it leads to, or else the identifier or the name of it.
std::string_view reference_in(dom::element reference) {
  std::string_view text = string_at(reference, "reference");
  dom::element identifier;
  if (text.empty() && reference["identifier"].get(identifier) == simdjson::SUCCESS) {
    text = string_at(identifier, "value");
  }
  return text.empty() ? string_at(reference, "display") : text;
}

/// The same of the member under that key, or of the first one of a list there.
std::string_view reference_at(dom::element resource, std::string_view key) {
  dom::element reference;
  if (resource[key].get(reference) != simdjson::SUCCESS) return {};
  dom::array list;
  if (reference.get(list) == simdjson::SUCCESS && (list.size() == 0 || list.at(0).get(reference))) return {};
  return reference_in(reference);
}

class FhirDecoder final : public Decoder {
 public:
  void open(const Record& record) override {
    record_ = &record;
    next_ = 0;
    counted_ = 0;
    place_ = record.place;
    place_.line = std::max<std::uint64_t>(place_.line, 1);
    fault_ = list_resources(record, parsers_, resources_);
  }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    if (fault_) return *std::exchange(fault_, std::nullopt);
    while (next_ < resources_.size()) {
      if (auto incoming = read(resources_[next_++])) return std::move(*incoming);
    }
    record_ = nullptr;
    return EndOfNotes{};
  }

 private:
  /// Nothing if the resource is no note.
  std::optional<Incoming> read(const FhirResource& resource) {
    dom::element root;
    id_.clear();
    if (parsers_.checking.parse(resource.json.data(), resource.json.size(), false).get(root) != simdjson::SUCCESS) {
      return fault(resource, {}, "not JSON");
    }
    const std::string_view type = string_at(root, "resourceType");
    FhirText made = fhir_text(root, type, text_);
    if (!made.is_note) return std::nullopt;
    id_ = string_at(root, "id");
    if (id_.empty()) id_ = resource.full_url;
    if (first_invalid_utf8(id_)) {
      id_.clear();
      return fault(resource, type, "its id has half a surrogate pair");
    }
    if (made.reason) return fault(resource, type, std::move(*made.reason));
    if (id_.empty()) return fault(resource, type, "it has no id");
    if (auto wrong = fault_in_text(text_)) return fault(resource, type, std::move(wrong->reason));
    if (auto reason = carry(resource.json, type)) return fault(resource, type, std::move(*reason));
    const bool is_report = type == "DiagnosticReport";
    metadata_.add_shared(kPatientKey, reference_at(root, "subject"));
    if (is_report) {
      metadata_.add_shared(kAuthorKey, reference_at(root, "performer"));
      metadata_.add_shared(kDateKey, string_at(root, "effectiveDateTime"));
      metadata_.add_shared(kDateKey, string_at(root, "issued"));
    }
    return Note{.id = id_, .id_is_number = false, .text = text_, .metadata = metadata_.members()};
  }

  /// The other members as they came in, which a value that is parsed and written again may not be (1.50).
  std::optional<std::string> carry(std::string_view json, std::string_view type) {
    metadata_.clear();
    ondemand::document document;
    ondemand::object object;
    if (parsers_.walking.iterate(json.data(), json.size(), json.size() + simdjson::SIMDJSON_PADDING).get(document) !=
            simdjson::SUCCESS ||
        document.get_object().get(object) != simdjson::SUCCESS) {
      return "not JSON";
    }
    for (auto result : object) {
      ondemand::field field;
      std::string_view key;
      if (std::move(result).get(field) != simdjson::SUCCESS || field.unescaped_key().get(key) != simdjson::SUCCESS) {
        return "not JSON";
      }
      if (first_invalid_utf8(key)) return "a key has half a surrogate pair";
      const std::string_view raw = raw_json(field.value());
      if (key == "id" || key == "text" || holds_text(type, key)) continue;
      minified_.resize(raw.size() + simdjson::SIMDJSON_PADDING);
      std::size_t size = 0;
      if (simdjson::minify(raw.data(), raw.size(), minified_.data(), size) != simdjson::SUCCESS) return "not JSON";
      metadata_.add_json(key, std::string_view(minified_).substr(0, size));
    }
    if (metadata_.has_twins()) return "it has a key twice";
    return std::nullopt;
  }

  RecordFault fault(const FhirResource& resource, std::string_view type, std::string reason) {
    return {name_of(*record_, id_, type), place_of(resource), std::move(reason)};
  }

  /// Counts on from the last one, since a Bundle may have many.
  Place place_of(const FhirResource& resource) {
    const std::string_view bytes = record_->bytes;
    const auto at = static_cast<std::size_t>(resource.json.data() - bytes.data());
    const std::string_view between = bytes.substr(counted_, at - counted_);
    place_.line += static_cast<std::uint64_t>(std::ranges::count(between, '\n'));
    counted_ = at;
    return {place_.line, record_->place.offset + at};
  }

  const Record* record_ = nullptr;
  std::optional<RecordFault> fault_;
  std::vector<FhirResource> resources_;
  std::size_t next_ = 0;
  std::size_t counted_ = 0;  // of the record's bytes, up to place_
  Place place_;
  FhirParsers parsers_;
  std::string id_;
  std::string text_;
  std::string minified_;
  Metadata metadata_;
};

}  // namespace

std::unique_ptr<Decoder> make_fhir_decoder() { return std::make_unique<FhirDecoder>(); }

}  // namespace jointledger
