// The text of marked-up documents: HTML, XHTML narratives (FHIR), narrative blocks (C-CDA).
//
// Paragraphs, list items, table rows and headings become lines; table cells of a row are separated by " | "; runs of
// white space become one space, as a browser shows them, except where they are preformatted. Scripts, styles and page
// heads are left out. No markup is ever executed or fetched.
#pragma once

#include <optional>
#include <string>
#include <string_view>

struct _xmlNode;

namespace jointledger {

/// Appends the text of a UTF-8 HTML document or fragment. As in a browser little is an error. Nothing if it went well,
/// else why not, e.g. "its markup is nested too deeply".
std::optional<std::string> append_html_text(std::string_view html, std::string& out);

/// Appends the text of a parsed element and all in it, ending in a line break if there was any.
void append_node_text(const _xmlNode* node, std::string& out);

/// Appends the title of a section as a line of its own that ends in a colon, if it is not empty.
void append_title(std::string_view title, std::string& out);

}  // namespace jointledger
