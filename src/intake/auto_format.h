// Input of a format that nobody named: its start tells which one it is.
#pragma once

#include <memory>

#include "intake/byte_stream.h"
#include "intake/decoder.h"
#include "intake/intake_options.h"
#include "intake/splitter.h"

namespace jointledger {

/// Cuts an input into the records of the format that it looks like (recognise.h). It waits for no more of the input
/// than telling takes: of NDJSON the first bytes.
std::unique_ptr<Splitter> split_recognised(std::unique_ptr<ByteStream> bytes, const IntakeOptions& options);

/// For records of split_recognised(), of any mix of formats. JSON is told apart record by record: FHIR has a
/// "resourceType", and no string under "text".
std::unique_ptr<Decoder> make_recognised_decoder(const IntakeOptions& options);

}  // namespace jointledger
