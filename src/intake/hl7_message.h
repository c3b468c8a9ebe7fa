// A message of HL7 version 2 as segments and fields (HL7 v2.5.1, chapter 2).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

/// The characters that a message says it is written with, in MSH-1 and MSH-2; a NUL stands for none.
struct Hl7Delimiters {
  char field = '|';
  char component = '^';
  char repetition = '~';
  char escape = '\\';
  char subcomponent = '&';
};

/// Views of the bytes it was made of. A segment is a line: one that does not start with a name of three capitals or
/// digits and the field separator goes on with the segment before it, since some senders leave raw line breaks in text.
struct Hl7Message {
  Hl7Delimiters delimiters;
  std::vector<std::string_view> segments;  ///< the first is MSH
};

/// Whether a line starts a message: MSH and then a field separator.
bool starts_message(std::string_view line);

/// Whether a line is of the batch around messages: FHS, BHS, BTS, FTS.
bool is_batch_segment(std::string_view line);

/// Replaces `message`. Nothing if it went well, else why not. `bytes` is one message; its segments end in CR, LF or
/// both.
std::optional<std::string> read_hl7(std::string_view bytes, Hl7Message& message);

/// The first three characters of a segment.
std::string_view hl7_name(std::string_view segment);

/// Field `number` of a segment, counted as the standard does (MSH-1 is the separator itself), with escapes; empty
/// where it is not.
std::string_view hl7_field(std::string_view segment, std::size_t number, const Hl7Delimiters& delimiters);

/// Piece `number` (from 1) of `text` cut at `separator`: a repetition, a component. Empty where it is not.
std::string_view hl7_piece(std::string_view text, std::size_t number, char separator);

/// The IANA name of the character set that MSH-18 names, "utf-8" if it names none (ASCII is part of it); empty if it is
/// one that is not read. HL7 table 0211.
std::string_view hl7_charset(std::string_view msh_18);

}  // namespace jointledger
