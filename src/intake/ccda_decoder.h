// C-CDA (HL7 CDA R2): a document is a note, made of its Physical Exam sections.
//
// The sections are those whose LOINC code the options name (29545-1 for the physical exam), wherever they stand, in
// the order of the document: each with its title, its narrative text and the sections within it. Coded entries are not
// read. A document without such a section is refused, and so are documents whose body is not XML (nonXMLBody), and any
// with a document type (DTD).
//
// The header is carried through (ccda_header.h). Evidence counts bytes of the text, not of the XML.
#pragma once

#include <memory>

#include "intake/decoder.h"
#include "intake/intake_options.h"

namespace jointledger {

/// For records that are whole documents.
std::unique_ptr<Decoder> make_ccda_decoder(const IntakeOptions& options);

}  // namespace jointledger
