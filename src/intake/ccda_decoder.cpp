#include "intake/ccda_decoder.h"

#include <algorithm>
#include <utility>

#include "intake/ccda_header.h"
#include "intake/markup_text.h"
#include "intake/metadata.h"
#include "intake/note_text.h"
#include "intake/xml_document.h"

namespace jointledger {
namespace {

constexpr std::string_view kLoinc = "2.16.840.1.113883.6.1";
constexpr std::string_view kCda = "urn:hl7-org:v3";

bool is_cda(const xmlNode* root) {
  return root != nullptr && local_name(*root) == "ClinicalDocument" && root->ns != nullptr &&
         root->ns->href != nullptr && reinterpret_cast<const char*>(root->ns->href) == kCda;
}

class CcdaDecoder final : public Decoder {
 public:
  explicit CcdaDecoder(IntakeOptions options) : options_(std::move(options)) {}

  void open(const Record& record) override { record_ = &record; }

  Incoming next() override {
    if (record_ == nullptr) return EndOfNotes{};
    const Record& record = *std::exchange(record_, nullptr);
    id_.clear();
    text_.clear();
    metadata_.clear();
    auto parsed = parse_xml(record.bytes);
    if (auto* wrong = std::get_if<XmlFault>(&parsed)) {
      RecordFault refused = fault(record, std::move(wrong->reason));
      refused.place = place_in(record, wrong->at);
      return refused;
    }
    const xmlNode* const root = xmlDocGetRootElement(std::get<XmlDocument>(parsed).get());
    if (!is_cda(root)) return fault(record, "not C-CDA: its root element is no ClinicalDocument of HL7 v3");
    id_ = ccda_id(root);
    if (id_.empty()) return fault(record, "it has no id");
    const xmlNode* const component = child(root, "component");
    if (child(component, "nonXMLBody") != nullptr) return fault(record, "its body is not XML (nonXMLBody)");
    if (!take_sections(child(component, "structuredBody"))) return fault(record, "it has no section " + wanted());
    if (auto wrong = fault_in_text(text_)) return fault(record, std::move(wrong->reason));
    add_ccda_header(root, metadata_);
    if (metadata_.has_twins()) return fault(record, "its header has the same attribute twice");
    return Note{.id = id_, .id_is_number = false, .text = text_, .metadata = metadata_.members()};
  }

 private:
  /// Takes the sections of `parent` that are wanted, and those within sections that are not. The library bounds the
  /// depth of the recursion. Whether there was one.
  bool take_sections(const xmlNode* parent) {
    bool any = false;
    for (const xmlNode* node = parent == nullptr ? nullptr : parent->children; node != nullptr; node = node->next) {
      const xmlNode* const section = section_in(node);
      if (section == nullptr) continue;
      if (is_wanted(child(section, "code"))) {
        take(section);
        any = true;
      } else {
        any = take_sections(section) || any;
      }
    }
    return any;
  }

  void take(const xmlNode* section) {
    std::string title;
    if (const xmlNode* const node = child(section, "title")) append_node_text(node, title);
    append_title(title, text_);
    if (const xmlNode* const narrative = child(section, "text")) append_node_text(narrative, text_);
    for (const xmlNode* node = section->children; node != nullptr; node = node->next) {
      if (const xmlNode* const within = section_in(node)) take(within);
    }
    if (!text_.empty() && !text_.ends_with("\n\n")) text_.push_back('\n');
  }

  static const xmlNode* section_in(const xmlNode* component) {
    const bool is_component = component->type == XML_ELEMENT_NODE && local_name(*component) == "component";
    return is_component ? child(component, "section") : nullptr;
  }

  bool is_wanted(const xmlNode* code) const {
    const std::string system = attribute(code, "codeSystem");
    return (system.empty() || system == kLoinc) &&
           std::ranges::find(options_.sections, attribute(code, "code")) != options_.sections.end();
  }

  std::string wanted() const {
    std::string codes = options_.sections.size() == 1 ? "with the LOINC code" : "with any of the LOINC codes";
    for (const std::string& code : options_.sections) codes.append(" ").append(code);
    return codes;
  }

  RecordFault fault(const Record& record, std::string reason) const {
    return {name_of(record, id_), record.place, std::move(reason)};
  }

  IntakeOptions options_;
  const Record* record_ = nullptr;
  std::string id_;
  std::string text_;
  Metadata metadata_;
};

}  // namespace

std::unique_ptr<Decoder> make_ccda_decoder(const IntakeOptions& options) {
  return std::make_unique<CcdaDecoder>(options);
}

}  // namespace jointledger
