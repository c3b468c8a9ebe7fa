// What the header of a CDA document says, as members of a note.
#pragma once

#include <libxml/tree.h>

#include <string>

#include "intake/metadata.h"

namespace jointledger {

/// The id of a document: the root of its <id>, and its extension after a "^" where it has one (the form in which IHE
/// XDS names documents). Empty where it has none.
std::string ccda_id(const xmlNode* document);

/// Adds every attribute and text of the header, which is all but the <component> elements at the top. The key is the
/// way there, in the names of the source: "recordTarget/patientRole/id/@extension"; what comes a second time under the
/// same parent has "[2]" after its name. "author", "patient" (their ids) and "date" are added under these names, too.
void add_ccda_header(const xmlNode* document, Metadata& metadata);

}  // namespace jointledger
