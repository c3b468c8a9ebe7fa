#include "intake/xml_document.h"

#include <libxml/parser.h>
#include <libxml/xmlerror.h>

#include <algorithm>
#include <climits>

#include "intake/libxml_start.h"

namespace jointledger {
namespace {

/// The library's callback for document types, whose first argument is the parser.
void refuse_document_type(void* parser, const xmlChar*, const xmlChar*, const xmlChar*) {
  auto* const context = static_cast<xmlParserCtxt*>(parser);
  context->_private = parser;  // the mark for parse_xml()
  xmlStopParser(context);
}

std::string words_for(const xmlError& error) {
  switch (error.code) {
    case XML_ERR_DOCUMENT_EMPTY:
      return "it is empty";
    case XML_ERR_TAG_NAME_MISMATCH:
      return "a tag is closed by another";
    case XML_ERR_TAG_NOT_FINISHED:
    case XML_ERR_GT_REQUIRED:
      return "a tag is not finished, or the document ends too soon";
    case XML_ERR_INVALID_CHAR:
      return "it has a character that XML does not allow";
    case XML_ERR_INVALID_ENCODING:
    case XML_ERR_UNKNOWN_ENCODING:
    case XML_ERR_UNSUPPORTED_ENCODING:
    case XML_I18N_CONV_FAILED:
      return "its bytes do not fit its encoding";
    case XML_ERR_UNDECLARED_ENTITY:
    case XML_WAR_UNDECLARED_ENTITY:
      return "it names an entity that is not one of XML's own";
    case XML_ERR_INTERNAL_ERROR:
      return "it is nested too deeply, or a text in it is too long";
    default:
      return "a name, quote, bracket or attribute is missing or misplaced";
  }
}

std::string_view text_of(const xmlChar* text) {
  return text == nullptr ? std::string_view() : std::string_view(reinterpret_cast<const char*>(text));
}

}  // namespace

std::variant<XmlDocument, XmlFault> parse_xml(std::string_view bytes) {
  start_libxml();
  if (bytes.size() > INT_MAX) return XmlFault{"it is too long", 0};
  const std::unique_ptr<xmlParserCtxt, void (*)(xmlParserCtxt*)> parser(xmlNewParserCtxt(), xmlFreeParserCtxt);
  if (!parser) return XmlFault{"there is not enough memory to read it", 0};
  parser->sax->internalSubset = refuse_document_type;
  constexpr int kOptions = XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING | XML_PARSE_BIG_LINES;
  XmlDocument document(
      xmlCtxtReadMemory(parser.get(), bytes.data(), static_cast<int>(bytes.size()), nullptr, nullptr, kOptions),
      xmlFreeDoc);
  if (parser->_private == nullptr && document) return document;
  if (parser->_private != nullptr) return XmlFault{"it has a document type (DTD), which is refused", 0};
  XmlFault fault{"not XML: " + words_for(parser->lastError), 0};
  for (int line = 1; line < parser->lastError.line && fault.at < bytes.size(); ++line) {
    fault.at = std::min(bytes.find('\n', fault.at), bytes.size() - 1) + 1;
  }
  return fault;
}

std::string_view local_name(const xmlNode& node) { return text_of(node.name); }

const xmlNode* child(const xmlNode* parent, std::string_view name) {
  if (parent == nullptr) return nullptr;
  for (const xmlNode* node = parent->children; node != nullptr; node = node->next) {
    const bool same_space = node->ns == parent->ns || (node->ns != nullptr && parent->ns != nullptr &&
                                                       text_of(node->ns->href) == text_of(parent->ns->href));
    if (node->type == XML_ELEMENT_NODE && same_space && local_name(*node) == name) return node;
  }
  return nullptr;
}

const xmlNode* descend(const xmlNode* node, std::initializer_list<std::string_view> names) {
  for (const std::string_view name : names) node = child(node, name);
  return node;
}

std::string value_of(const xmlAttr& attribute) {
  xmlChar* const value = xmlNodeListGetString(attribute.doc, attribute.children, 1);
  const std::unique_ptr<xmlChar, void (*)(void*)> owned(value, xmlFree);
  return std::string(text_of(value));
}

std::string attribute(const xmlNode* node, const char* name) {
  for (const xmlAttr* at = node == nullptr ? nullptr : node->properties; at != nullptr; at = at->next) {
    if (at->ns == nullptr && text_of(at->name) == name) return value_of(*at);
  }
  return {};
}

}  // namespace jointledger
