// FHIR R4: NDJSON as bulk exports write it, single resources and Bundles.
//
// A note each: of a DocumentReference (content.attachment) and a DiagnosticReport (presentedForm) the best attachment
// with data, text/plain before text/html (application/xhtml+xml), from base64 and its charset to UTF-8; of a
// Composition the narratives of its sections, each under its title. RTF and other types are refused. Resources of other
// types, and reports without a presented form, are no notes.
//
// The note's id is that of the resource, else the fullUrl of its entry in a Bundle. Its members, but for the id, the
// narrative about it and what became the text, are carried through as they are, without white space between tokens.
// "patient" is added from the subject; of a DiagnosticReport also "author" (the first performer) and "date" (effective,
// or else issued). Evidence counts bytes of the decoded text, not of the JSON, the base64 or the markup.
#pragma once

#include <memory>

#include "intake/decoder.h"

namespace jointledger {

std::unique_ptr<Decoder> make_fhir_decoder();

}  // namespace jointledger
