#include "intake/ndjson_decoder.h"

#include <simdjson.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "intake/json_words.h"
#include "intake/note_text.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

namespace ondemand = simdjson::ondemand;

static_assert(kRecordPadding >= simdjson::SIMDJSON_PADDING);

constexpr std::string_view kWhiteSpace = " \t\r\n";
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Reads a value to its end. simdjson checks what it is asked for and no more, so everything is asked for: what is
/// carried through must be JSON, or the output would not be. `depth` bounds the recursion.
simdjson::error_code check(ondemand::value value, std::size_t depth) {
  if (depth > kDeepestJson) return simdjson::DEPTH_ERROR;
  ondemand::json_type type{};
  if (const auto error = value.type().get(type)) return error;
  switch (type) {
    case ondemand::json_type::object: {
      ondemand::object object;
      if (const auto error = value.get_object().get(object)) return error;
      for (auto result : object) {
        ondemand::field field;
        if (const auto error = std::move(result).get(field)) return error;
        if (const auto error = field.unescaped_key().error()) return error;
        if (const auto error = check(field.value(), depth + 1)) return error;
      }
      return simdjson::SUCCESS;
    }
    case ondemand::json_type::array: {
      ondemand::array array;
      if (const auto error = value.get_array().get(array)) return error;
      for (auto result : array) {
        ondemand::value element;
        // get() takes rvalues only.
        if (const auto error = std::move(result).get(element)) return error;  // NOLINT(performance-move-const-arg)
        if (const auto error = check(element, depth + 1)) return error;
      }
      return simdjson::SUCCESS;
    }
    case ondemand::json_type::string:
      return value.get_string().error();
    case ondemand::json_type::number:
      return value.get_double().error();  // takes integers of any length
    case ondemand::json_type::boolean:
      return value.get_bool().error();
    case ondemand::json_type::null: {
      bool is_null = false;
      if (const auto error = value.is_null().get(is_null)) return error;
      return is_null ? simdjson::SUCCESS : simdjson::N_ATOM_ERROR;
    }
  }
  return simdjson::TAPE_ERROR;
}

class NdjsonDecoder final : public Decoder {
 public:
  void open(const Record& record) override { record_ = &record; }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    const Record& record = *std::exchange(record_, nullptr);
    id_.reset();
    text_.reset();
    id_is_number_ = false;
    not_an_object_ = false;
    members_.clear();

    std::string_view line = record.bytes;
    if (record.place.offset == 0 && line.starts_with(kByteOrderMark)) line.remove_prefix(kByteOrderMark.size());
    if (line.find_first_not_of(kWhiteSpace) == std::string_view::npos) return EndOfNotes{};

    ondemand::document document;
    simdjson::error_code error =
        parser_.iterate(line.data(), line.size(), line.size() + simdjson::SIMDJSON_PADDING).get(document);
    if (error == simdjson::UTF8_ERROR) {
      const std::size_t at = first_invalid_utf8(record.bytes).value_or(0);
      return fault(record, at, "not UTF-8 from byte " + std::to_string(at) + " of the line");
    }
    if (error != simdjson::SUCCESS) return not_json(record, record.bytes.size(), error);
    error = read(document);
    if (not_an_object_) return fault(record, 0, "not a JSON object");
    if (error != simdjson::SUCCESS) {
      const char* location = nullptr;
      const bool known = document.current_location().get(location) == simdjson::SUCCESS;
      const std::size_t end = record.bytes.size();
      return not_json(record, known ? static_cast<std::size_t>(location - record.bytes.data()) : end, error);
    }
    return checked_note(record);
  }

 private:
  /// Takes id, text and the members out of a line. What is missing or of the wrong type is left unset.
  simdjson::error_code read(ondemand::document& document) {
    ondemand::object object;
    const simdjson::error_code opened = document.get_object().get(object);
    not_an_object_ = opened == simdjson::INCORRECT_TYPE;
    if (opened != simdjson::SUCCESS) return opened;
    for (auto result : object) {
      ondemand::field field;
      if (const auto error = std::move(result).get(field)) return error;
      Member member;
      if (const auto error = field.unescaped_key().get(member.key)) return error;
      ondemand::value value = field.value();
      ondemand::json_type type{};
      if (const auto error = value.type().get(type)) return error;
      const char* const start = value.raw_json_token().data();
      const bool is_string = type == ondemand::json_type::string;
      std::string_view string;
      if (const auto error = is_string ? value.get_string().get(string) : check(value, 1)) return error;

      const char* end = nullptr;
      if (const auto error = document.current_location().get(end)) return error;
      member.json = std::string_view(start, static_cast<std::size_t>(end - start));
      member.json.remove_suffix(member.json.size() - 1 - member.json.find_last_not_of(kWhiteSpace));
      members_.push_back(member);

      if (member.key == "text" && is_string) text_ = string;
      if (member.key == "id" && is_string) id_ = string;
      if (member.key == "id" && type == ondemand::json_type::number) {
        id_ = member.json;
        id_is_number_ = true;
      }
    }
    const char* beyond = nullptr;
    const bool at_end = document.current_location().get(beyond) == simdjson::OUT_OF_BOUNDS;
    return at_end ? simdjson::SUCCESS : simdjson::TRAILING_CONTENT;
  }

  Incoming checked_note(const Record& record) {
    if (id_ && first_invalid_utf8(*id_)) return fault(record, 0, "its id has half a surrogate pair");
    if (auto reason = fault_in_keys()) return fault(record, 0, std::move(*reason));
    if (!id_) return fault(record, 0, has("id") ? "its id is neither a string nor a number" : "it has no id");
    if (id_->empty()) return fault(record, 0, "its id is empty");
    if (!text_) return fault(record, 0, has("text") ? "its text is not a string" : "it has no text");
    if (auto wrong = fault_in_text(*text_)) return fault(record, 0, std::move(wrong->reason));
    std::erase_if(members_, [](const Member& m) { return m.key == "id" || m.key == "text"; });
    return Note{.id = *id_, .id_is_number = id_is_number_, .text = *text_, .metadata = members_};
  }

  bool has(std::string_view key) const { return std::ranges::find(members_, key, &Member::key) != members_.end(); }

  /// Which of two values was meant nobody can tell. Sorted, since a hostile line may have a million keys.
  std::optional<std::string> fault_in_keys() {
    keys_.clear();
    for (const Member& member : members_) keys_.push_back(member.key);
    std::ranges::sort(keys_);
    if (std::ranges::any_of(keys_, [](std::string_view key) { return first_invalid_utf8(key).has_value(); })) {
      return "a key has half a surrogate pair";
    }
    const auto twin = std::ranges::adjacent_find(keys_);
    if (twin == keys_.end()) return std::nullopt;
    // A key is quoted only where it is known to be no part of a note.
    if (*twin == "id" || *twin == "text") return "it has two of the key " + std::string(*twin);
    return "it has a key twice";
  }

  RecordFault fault(const Record& record, std::size_t at, std::string reason) const {
    return {name_of(record, id_.value_or("")), {record.place.line, record.place.offset + at}, std::move(reason)};
  }

  RecordFault not_json(const Record& record, std::size_t at, simdjson::error_code error) const {
    return fault(record, at, std::string("not JSON: ").append(words_for(error)));
  }

  const Record* record_ = nullptr;
  ondemand::parser parser_;
  std::optional<std::string_view> id_;
  std::optional<std::string_view> text_;
  bool id_is_number_ = false;
  bool not_an_object_ = false;
  std::vector<Member> members_;
  std::vector<std::string_view> keys_;
};

}  // namespace

std::unique_ptr<Decoder> make_ndjson_decoder() { return std::make_unique<NdjsonDecoder>(); }

}  // namespace jointledger
