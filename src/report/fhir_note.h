// A note in FHIR: references to it and to its patient.
#pragma once

#include <span>

#include "intake/note.h"
#include "ledger/span.h"
#include "report/fhir_terms.h"

namespace jointledger::fhir {

/// A Reference to the document that the note is, with what the source knew of it unless that is the resource itself.
void source_reference(Writer& w, const Note& note);

/// A Reference to it with the places of the evidence.
void evidence_reference(Writer& w, const Note& note, std::span<const Span> evidence);

/// A Reference to another note, of which only the id is known.
void other_note_reference(Writer& w, std::string_view id);

/// The member "patient" of a resource; nothing where the source does not tell.
void patient_member(Writer& w, const Note& note);

}  // namespace jointledger::fhir
