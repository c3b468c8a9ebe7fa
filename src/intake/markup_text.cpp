#include "intake/markup_text.h"

#include <libxml/HTMLparser.h>
#include <libxml/tree.h>

#include <algorithm>
#include <array>
#include <climits>
#include <memory>

#include "intake/ascii.h"
#include "intake/libxml_start.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

// HTML 4.01 and the narrative block of CDA R2 (paragraph, list, item, caption ...).
constexpr std::array kBlocks = {
    "address"sv, "article"sv, "blockquote"sv, "caption"sv, "dd"sv,    "div"sv,   "dl"sv, "dt"sv,        "footer"sv,
    "form"sv,    "h1"sv,      "h2"sv,         "h3"sv,      "h4"sv,    "h5"sv,    "h6"sv, "header"sv,    "hr"sv,
    "item"sv,    "li"sv,      "list"sv,       "main"sv,    "nav"sv,   "ol"sv,    "p"sv,  "paragraph"sv, "pre"sv,
    "section"sv, "table"sv,   "tbody"sv,      "tfoot"sv,   "thead"sv, "title"sv, "tr"sv, "ul"sv};
constexpr std::array kHidden = {"script"sv, "style"sv, "head"sv, "template"sv};

std::string_view name_of(const xmlNode& node) {
  return node.name == nullptr ? ""sv : std::string_view(reinterpret_cast<const char*>(node.name));
}

bool is_white(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\f'; }

/// Puts words and breaks together, so that no line is empty but those of preformatted text.
class TextWriter {
 public:
  explicit TextWriter(std::string& out) : out_(out), start_(out.size()) {}

  void text(std::string_view text) {
    for (const char c : text) {
      if (is_white(c)) {
        space_ = true;
      } else {
        put(c);
      }
    }
  }
  void preformatted(std::string_view text) {
    if (!text.empty()) flush();
    out_.append(text);
  }
  /// The next words start a line.
  void line() { break_ = true; }
  void cell() { cell_ = true; }
  void row() { cell_ = false; }
  void finish() {
    if (out_.size() > start_ && out_.back() != '\n') out_.push_back('\n');
  }

 private:
  bool at_line_start() const { return out_.size() == start_ || out_.back() == '\n'; }
  void flush() {
    if (break_ && !at_line_start()) out_.push_back('\n');
    if (!at_line_start()) out_.append(cell_ ? " | " : space_ ? " " : "");
    break_ = cell_ = space_ = false;
  }
  void put(char c) {
    if (break_ || cell_ || space_) flush();
    out_.push_back(c);
  }

  std::string& out_;
  std::size_t start_;
  bool break_ = false;
  bool cell_ = false;
  bool space_ = false;
};

bool is_in(std::string_view name, const auto& list) { return std::ranges::find(list, name) != list.end(); }

bool is_cell(std::string_view name) { return name == "td" || name == "th"; }

/// Walks without recursion: the depth is the document's to choose.
class Walk {
 public:
  Walk(const xmlNode* top, TextWriter& writer) : top_(top), writer_(writer) {}

  void run() {
    const xmlNode* node = top_;
    while (node != nullptr) {
      if (enter(*node) && node->children != nullptr) {
        node = node->children;
        continue;
      }
      while (node != nullptr) {
        leave(*node);
        if (node == top_) return;
        if (node->next != nullptr) {
          node = node->next;
          break;
        }
        node = node->parent;
      }
    }
  }

 private:
  /// Whether to go into its children.
  bool enter(const xmlNode& node) {
    if (node.type == XML_TEXT_NODE || node.type == XML_CDATA_SECTION_NODE) {
      if (node.content == nullptr) return false;
      const std::string_view text(reinterpret_cast<const char*>(node.content));
      if (preformatted_ > 0) {
        writer_.preformatted(text);
      } else {
        writer_.text(text);
      }
      return false;
    }
    if (node.type == XML_HTML_DOCUMENT_NODE || node.type == XML_DOCUMENT_NODE) return true;
    if (node.type != XML_ELEMENT_NODE) return false;
    const std::string_view name = name_of(node);
    if (is_in(name, kHidden)) return false;
    if (name == "br" || is_in(name, kBlocks)) writer_.line();
    if (name == "tr") writer_.row();
    preformatted_ += name == "pre" ? 1 : 0;
    return true;
  }

  void leave(const xmlNode& node) {
    if (node.type != XML_ELEMENT_NODE) return;
    const std::string_view name = name_of(node);
    if (is_in(name, kHidden)) return;
    preformatted_ -= name == "pre" ? 1 : 0;
    if (is_cell(name)) writer_.cell();
    if (name == "tr") writer_.row();
    if (is_in(name, kBlocks)) writer_.line();
  }

  const xmlNode* top_;
  TextWriter& writer_;
  int preformatted_ = 0;
};

}  // namespace

void append_node_text(const _xmlNode* node, std::string& out) {
  TextWriter writer(out);
  Walk(node, writer).run();
  writer.finish();
}

void append_title(std::string_view title, std::string& out) {
  title = trimmed(title);
  if (!title.empty()) out.append(title).append(title.ends_with(':') ? "\n" : ":\n");
}

std::optional<std::string> append_html_text(std::string_view html, std::string& out) {
  if (html.find('\0') != std::string_view::npos) return "its markup has a NUL byte";
  if (html.empty() || html.size() > INT_MAX) return std::nullopt;  // a record is shorter
  start_libxml();
  const std::unique_ptr<htmlParserCtxt, void (*)(htmlParserCtxt*)> parser(htmlNewParserCtxt(), htmlFreeParserCtxt);
  if (!parser) return "there is not enough memory to read it";
  constexpr int kOptions = HTML_PARSE_RECOVER | HTML_PARSE_NOERROR | HTML_PARSE_NOWARNING | HTML_PARSE_NONET;
  const std::unique_ptr<xmlDoc, void (*)(xmlDoc*)> document(
      htmlCtxtReadMemory(parser.get(), html.data(), static_cast<int>(html.size()), nullptr, "UTF-8", kOptions),
      xmlFreeDoc);
  if (parser->disableSAX != 0) return "its markup is nested too deeply";  // the one thing that this parser gives up on
  if (document) append_node_text(reinterpret_cast<const xmlNode*>(document.get()), out);
  return std::nullopt;
}

}  // namespace jointledger
