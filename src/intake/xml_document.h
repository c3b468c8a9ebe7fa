// XML documents of strangers, on top of libxml2.
#pragma once

#include <libxml/tree.h>

#include <cstddef>
#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>
#include <variant>

namespace jointledger {

using XmlDocument = std::unique_ptr<xmlDoc, void (*)(xmlDoc*)>;

/// Why a document could not be read.
struct XmlFault {
  std::string reason;  ///< as in RecordFault
  std::size_t at = 0;  ///< the byte of the document where the line begins that has the trouble; 0 if that is not known
};

/// Parses a document in any encoding that it names. What has a document type (DTD) is refused, and so there are no
/// entities but the five of XML itself; nothing is fetched; nesting is bounded by the library. Thread-safe.
std::variant<XmlDocument, XmlFault> parse_xml(std::string_view bytes);

/// The name without its prefix.
std::string_view local_name(const xmlNode& node);

/// The first child element of that name, in the same namespace as its parent; or null. Null has no children.
const xmlNode* child(const xmlNode* parent, std::string_view name);
/// The same a few steps down.
const xmlNode* descend(const xmlNode* node, std::initializer_list<std::string_view> names);

/// What an attribute says.
std::string value_of(const xmlAttr& attribute);

/// The value of an attribute without a namespace; empty if it is not there, or if the element is null.
std::string attribute(const xmlNode* node, const char* name);

}  // namespace jointledger
