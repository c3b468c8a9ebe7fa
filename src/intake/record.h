// A record: the piece of an input that is read, kept or set aside as a whole. A line of NDJSON, a text file.
//
// Plain data, to be handed from the thread that cuts an input into records to one that decodes them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace jointledger {

/// Where in an input something is.
struct Place {
  std::uint64_t line = 0;    ///< counts from 1; 0 where the input as a whole is meant
  std::uint64_t offset = 0;  ///< in bytes from the start of the input
  bool operator==(const Place&) const = default;
};

/// A longer record is refused. One record is in memory at a time, so this bounds the memory.
inline constexpr std::size_t kLongestRecord = std::size_t{64} << 20;  // 64 MiB

/// Decoders may read (never write) this many bytes past the end of a record; what stands there is of no account.
inline constexpr std::size_t kRecordPadding = 64;

struct Format;

/// What a splitter learnt at the head of an input and every record of it needs. Immutable, shared by the records.
struct InputHead {
  const Format* format = nullptr;  ///< what the input was recognised as; null where nothing had to be recognised
  std::string columns;             ///< of a table: its header row as it came in, without byte order mark; else empty
  char separator = ',';            ///< of a table: what stands between its fields
};

/// Owns its bytes. Used again for the next record, it stops allocating.
struct Record {
  std::string input;  ///< the name of the input: a path, or "-"
  Place place;        ///< of its first byte
  /// As they came in, without the line break that ends them. Its capacity exceeds its size by kRecordPadding.
  std::string bytes;
  std::shared_ptr<const InputHead> head;  ///< null where the format needs none
};

/// Why a record (or a whole input) could not be read. Never holds text of the note.
struct RecordFault {
  std::string record;  ///< what to call it: "notes.ndjson:7", and its id if that much is known
  Place place;         ///< of the trouble if that is known, else of the record
  std::string reason;  ///< for people, e.g. "not UTF-8"; no capital, no full stop
};

/// The name of a record for a RecordFault: its input, with the line if the input holds several.
std::string name_of(const Record& record);

/// The same with what identifies the note in it: "notes.ndjson:7 (id FW-12)". An id that is empty, longer than most or
/// has white space in it is left out: what stands in its place may be a note.
std::string name_of(const Record& record, std::string_view id, std::string_view kind = "id");

/// The place of byte `at` of a record.
Place place_in(const Record& record, std::size_t at);

}  // namespace jointledger
