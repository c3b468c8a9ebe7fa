// HL7 version 2: the documents in messages of type MDM and ORU (MDM^T02 and ORU^R01 among them).
//
// An MDM message is a note, named by its document number (TXA-12). Of an ORU message each report (OBR) that has text is
// a note, named by its filler's order number (OBR-3), or else its placer's (OBR-2). Without these a note has the
// message's control id (MSH-10), and its place among the reports where there are several: "1234-2". The text is that of
// the OBX segments (hl7_observation.h); evidence counts its bytes, in UTF-8. Messages of other types, reports without
// text, and MDM messages that only tell of a status (odd triggers: T01, T03 ...) are no notes.
//
// Carried through are the fields of all segments but OBX and NTE that stand before the text, each as it came in with
// its escapes, under its name in the standard ("PID-3"); of segments that repeat, the last. "patient" (PID-3), "author"
// (TXA-9 or TXA-5; OBR-32) and "date" (TXA-4, TXA-6; OBR-7, OBR-22; MSH-7; as ISO 8601) are added under these names.
//
// The message is in the character set of MSH-18, its first repetition; without one in UTF-8, of which ASCII is part.
#pragma once

#include <memory>

#include "intake/decoder.h"

namespace jointledger {

/// For records of split_into_messages().
std::unique_ptr<Decoder> make_hl7_decoder();

}  // namespace jointledger
