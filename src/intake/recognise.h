// What an input is, told by how it starts.
#pragma once

#include <string_view>

#include "intake/intake_options.h"

namespace jointledger {

enum class Looks : unsigned char { unclear, text, json, csv, tsv, omop, hl7, ccda };

/// At most this much of an input is looked at.
inline constexpr std::size_t kLookedAt = std::size_t{64} << 10;

/// `start` is how the input begins, `all` whether no more follows or no more is looked at; until then the answer may be
/// `unclear`. `path` tells by its extension what an input without any content was meant to be, and a table whose header
/// row has other columns than the options name. Thread-safe.
///
/// JSON starts with a brace and a quote; HL7 with MSH, FHS or BHS and a separator, framed or not; C-CDA is XML whose
/// root is called ClinicalDocument; a table has the columns of the options in its first line, that of OMOP note_id and
/// note_text. All else is text, also where it starts with markup.
Looks looks_like(std::string_view start, bool all, std::string_view path, const IntakeOptions& options);

}  // namespace jointledger
