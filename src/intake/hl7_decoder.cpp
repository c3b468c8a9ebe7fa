#include "intake/hl7_decoder.h"

#include <algorithm>
#include <initializer_list>
#include <map>
#include <span>
#include <utility>
#include <vector>

#include "intake/ascii.h"
#include "intake/charset.h"
#include "intake/hl7_date.h"
#include "intake/hl7_message.h"
#include "intake/hl7_observation.h"
#include "intake/hl7_text.h"
#include "intake/metadata.h"
#include "intake/note_text.h"

namespace jointledger {
namespace {

/// No real message has more; what is said of all reports is repeated with each.
constexpr std::size_t kMostReports = 1000;
constexpr std::size_t kLongestHead = std::size_t{1} << 20;

/// A part of a message that may be a note: its segments are `message.segments[first, last)`.
struct Part {
  std::size_t first = 0;
  std::size_t last = 0;
  std::size_t number = 0;  // among the reports of the message, from 1; 0 for a document
};

class Hl7Decoder final : public Decoder {
 public:
  void open(const Record& record) override {
    record_ = &record;
    parts_.clear();
    latest_.clear();
    next_ = 0;
    looked_at_ = 0;
    reason_ = read_message(record.bytes);
    if (!reason_) reason_ = list_parts();
  }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    if (reason_) return fault({}, *std::exchange(reason_, std::nullopt));
    while (next_ < parts_.size()) {
      if (auto incoming = read(parts_[next_++])) return std::move(*incoming);
    }
    record_ = nullptr;
    return EndOfNotes{};
  }

 private:
  std::optional<std::string> read_message(std::string_view bytes) {
    message_.segments.clear();
    // The header is read once before its character set is known: it is in ASCII as far as that is named.
    if (auto reason = read_hl7(bytes.substr(0, bytes.find_first_of("\r\n")), message_)) return reason;
    const std::string_view field = hl7_field(message_.segments.front(), 18, message_.delimiters);
    charset_ = hl7_charset(trimmed(hl7_piece(field, 1, message_.delimiters.repetition)));
    if (charset_.empty()) return "its character set (MSH-18) is not one that is read";
    if (auto reason = to_utf8(bytes, charset_, bytes_)) {
      return field.empty() ? *reason + ", and MSH-18 names no character set" : *reason;
    }
    return read_hl7(bytes_, message_);
  }

  /// Why there are none, if that is a fault.
  std::optional<std::string> list_parts() {
    const std::string_view type = message_type(1);
    const std::size_t size = message_.segments.size();
    if (type == "MDM") parts_.push_back({0, size, 0});
    if (type != "ORU") return std::nullopt;
    for (std::size_t i = 0; i < size; ++i) {
      if (hl7_name(message_.segments[i]) != "OBR") continue;
      if (!parts_.empty()) parts_.back().last = i;
      parts_.push_back({i, size, parts_.size() + 1});
    }
    if (parts_.size() <= kMostReports) return std::nullopt;
    parts_.clear();
    return "it has more than " + std::to_string(kMostReports) + " reports (OBR)";
  }

  /// A component of MSH-9: the type, the trigger.
  std::string_view message_type(std::size_t component) const {
    return hl7_piece(hl7_field(message_.segments.front(), 9, message_.delimiters), component,
                     message_.delimiters.component);
  }

  /// Nothing if the part is no note.
  std::optional<Incoming> read(const Part& part) {
    const std::span<const std::string_view> segments(message_.segments);
    auto reason =
        observation_text(segments.subspan(part.first, part.last - part.first), message_.delimiters, charset_, text_);
    look_at_head(part);
    id_ = id_of(part);
    if (!reason && text_.empty() && !must_have_text(part)) return std::nullopt;
    if (reason) return fault(id_, std::move(*reason));
    if (id_.empty()) return fault({}, "it has neither a number of its own nor a control id (MSH-10)");
    if (auto wrong = fault_in_text(id_)) return fault({}, "in its id: " + wrong->reason);
    if (auto wrong = fault_in_text(text_)) return fault(id_, std::move(wrong->reason));
    if (!take_metadata(part)) return fault(id_, "what stands before its text is longer than 1 MiB");
    return Note{.id = id_, .id_is_number = false, .text = text_, .metadata = metadata_.members()};
  }

  /// Triggers with even numbers carry the document, those with odd numbers tell of it.
  bool must_have_text(const Part& part) const {
    const std::string_view trigger = message_type(2);
    return part.number == 0 && !trigger.empty() && (trigger.back() - '0') % 2 == 0;
  }

  /// Notes the segments up to the part's first OBX, or its end. Parts are looked at in their order.
  void look_at_head(const Part& part) {
    bool in_head = true;
    for (; looked_at_ < part.last; ++looked_at_) {
      const std::string_view name = hl7_name(message_.segments[looked_at_]);
      in_head = in_head && (looked_at_ < part.first || name != "OBX");
      if (in_head && name != "OBX" && name != "NTE") latest_[name] = looked_at_;
    }
  }

  /// A component of the first repetition of a field, with its escapes undone: of the last segment of that name so far.
  std::string text_of(std::string_view segment, std::size_t number, std::size_t component = 1) const {
    const auto at = latest_.find(segment);
    if (at == latest_.end()) return {};
    const std::string_view field = hl7_field(message_.segments[at->second], number, message_.delimiters);
    const std::string_view first = hl7_piece(field, 1, message_.delimiters.repetition);
    const std::string_view raw = hl7_piece(first, component, message_.delimiters.component);
    std::string out;
    return append_hl7_text(raw, message_.delimiters, charset_, out) ? std::string(raw) : out;
  }

  std::string id_of(const Part& part) const {
    std::string id = part.number == 0 ? text_of("TXA", 12) : text_of("OBR", 3);
    if (id.empty() && part.number > 0) id = text_of("OBR", 2);
    if (!id.empty()) return id;
    id = text_of("MSH", 10);
    return id.empty() || parts_.size() == 1 ? id : id + "-" + std::to_string(part.number);
  }

  /// False if there is too much.
  bool take_metadata(const Part& part) {
    metadata_.clear();
    in_order_.clear();
    std::size_t size = 0;
    for (const auto& [name, at] : latest_) {
      in_order_.push_back(at);
      size += message_.segments[at].size();
    }
    if (size > kLongestHead) return false;
    std::ranges::sort(in_order_);
    for (const std::size_t at : in_order_) take_segment(message_.segments[at]);

    using Field = std::pair<std::string_view, std::size_t>;
    const bool is_report = part.number > 0;
    const auto add = [&](std::string_view key, std::initializer_list<Field> fields) {
      for (const auto& [segment, number] : fields) {
        const std::string value = text_of(segment, number);
        if (!value.empty()) return metadata_.add_shared(key, key == kDateKey ? iso_date(value) : value);
      }
    };
    add(kPatientKey, {{"PID", 3}});
    if (is_report) {
      add(kAuthorKey, {{"OBR", 32}});
      add(kDateKey, {{"OBR", 7}, {"OBR", 22}, {"MSH", 7}});
    } else {
      add(kAuthorKey, {{"TXA", 9}, {"TXA", 5}});
      add(kDateKey, {{"TXA", 4}, {"TXA", 6}, {"MSH", 7}});
    }
    return true;
  }

  void take_segment(std::string_view segment) {
    const std::string name(hl7_name(segment));
    std::size_t number = name == "MSH" ? 2 : 1;
    std::string_view rest = segment.substr(std::min<std::size_t>(name.size() + 1, segment.size()));
    while (!rest.empty()) {
      const std::string_view value = hl7_piece(rest, 1, message_.delimiters.field);
      rest.remove_prefix(std::min(value.size() + 1, rest.size()));
      if (!value.empty()) metadata_.add_string(name + "-" + std::to_string(number), value);
      ++number;
    }
  }

  RecordFault fault(std::string_view id, std::string reason) const {
    return {name_of(*record_, id), record_->place, std::move(reason)};
  }

  const Record* record_ = nullptr;
  std::optional<std::string> reason_;
  std::string charset_;
  std::string bytes_;  // of the record, in UTF-8
  Hl7Message message_;
  std::vector<Part> parts_;
  std::size_t next_ = 0;
  std::map<std::string_view, std::size_t> latest_;  // of the segments that are about the notes, the last of each name
  std::size_t looked_at_ = 0;
  std::vector<std::size_t> in_order_;
  std::string id_;
  std::string text_;
  Metadata metadata_;
};

}  // namespace

std::unique_ptr<Decoder> make_hl7_decoder() { return std::make_unique<Hl7Decoder>(); }

}  // namespace jointledger
