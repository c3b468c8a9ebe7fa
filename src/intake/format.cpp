#include "intake/format.h"

#include <algorithm>
#include <array>

#include "intake/auto_format.h"
#include "intake/ccda_decoder.h"
#include "intake/csv_decoder.h"
#include "intake/csv_splitter.h"
#include "intake/fhir_decoder.h"
#include "intake/hl7_decoder.h"
#include "intake/hl7_splitter.h"
#include "intake/json_splitter.h"
#include "intake/line_splitter.h"
#include "intake/ndjson_decoder.h"
#include "intake/text_decoder.h"
#include "intake/whole_splitter.h"

namespace jointledger {
namespace {

using Bytes = std::unique_ptr<ByteStream>;
using Options = IntakeOptions;

constexpr std::array<Format, 9> kFormats = {{
    {"auto", "told by the content", split_recognised, make_recognised_decoder},
    {"text", "a file is a note", [](Bytes bytes, const Options&) { return take_whole(std::move(bytes)); },
     [](const Options&) { return make_text_decoder(); }},
    {"ndjson", "a line is a note, {\"id\", \"text\", ...}",
     [](Bytes bytes, const Options&) { return split_into_lines(std::move(bytes)); },
     [](const Options&) { return make_ndjson_decoder(); }},
    {"csv", "a table with a header row, separated by commas (RFC 4180)",
     [](Bytes bytes, const Options& o) { return split_into_rows(std::move(bytes), CsvSeparator::comma, csv_names(o)); },
     [](const Options& o) { return make_csv_decoder(csv_names(o), CsvIds::strings); }},
    {"tsv", "the same, separated by tabs",
     [](Bytes bytes, const Options& o) { return split_into_rows(std::move(bytes), CsvSeparator::tab, csv_names(o)); },
     [](const Options& o) { return make_csv_decoder(csv_names(o), CsvIds::strings); }},
    {"fhir", "FHIR R4, NDJSON or Bundles: DocumentReference, DiagnosticReport, Composition",
     [](Bytes bytes, const Options&) { return split_json(std::move(bytes)); },
     [](const Options&) { return make_fhir_decoder(); }},
    {"hl7", "HL7 v2, MDM and ORU messages or batch files",
     [](Bytes bytes, const Options&) { return split_into_messages(std::move(bytes)); },
     [](const Options&) { return make_hl7_decoder(); }},
    {"ccda", "C-CDA, the Physical Exam sections of a document",
     [](Bytes bytes, const Options&) { return take_whole(std::move(bytes)); }, make_ccda_decoder},
    {"omop", "the NOTE table of the OMOP CDM 5.4 as CSV",
     [](Bytes bytes, const Options&) { return split_into_rows(std::move(bytes), CsvSeparator::either, omop_names()); },
     [](const Options&) { return make_csv_decoder(omop_names(), CsvIds::numbers); }},
}};

}  // namespace

std::span<const Format> formats() { return kFormats; }

const Format* format_named(std::string_view name) {
  const auto* const found = std::ranges::find(kFormats, name, &Format::name);
  return found == kFormats.end() ? nullptr : &*found;
}

}  // namespace jointledger
