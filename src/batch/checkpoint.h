// How far an interrupted run came: what is needed to go on with it, in a small file beside the output.
//
// It holds numbers only, no note and no id. What the finder of copied exams remembered is not in it either: that is
// read again from the notes it came from.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "report/tally.h"

namespace jointledger {

/// What came of a batch so far. Every note or record that was read is in one of the next two.
struct BatchCounts {
  std::uint64_t read = 0;       ///< notes, and records that could not be read as notes
  std::uint64_t answered = 0;   ///< notes whose ledger or audit is in the output
  std::uint64_t set_aside = 0;  ///< records, or whole inputs, that could not be read
  std::uint64_t with_gaps = 0;  ///< of those answered, how many lack something
  std::uint64_t bytes = 0;      ///< of the records
  bool lacks_required = false;  ///< a note lacks something that is required
  bool operator==(const BatchCounts&) const = default;
};

/// All that decides what a run makes of the same records: checksums, so that one run can be told from another.
struct RunMark {
  std::uint32_t program = 0;  ///< the program itself
  std::uint32_t options = 0;
  std::uint32_t inputs = 0;  ///< their names as given
  std::uint32_t lexicon = 0;
  std::uint32_t rules = 0;
  bool operator==(const RunMark&) const = default;
};

/// What tells two runs apart, in words: "another lexicon". Empty if nothing does.
std::string_view difference(const RunMark& a, const RunMark& b);

struct Checkpoint {
  RunMark run;
  std::uint64_t records = 0;          ///< that are done, over all inputs in their order
  std::uint32_t input_sum = 0;        ///< checksum of those records and the names of their inputs
  std::uint64_t remembered_from = 0;  ///< the first record that the finder of copied exams must be shown again
  std::uint64_t output_bytes = 0;
  std::uint64_t set_aside_bytes = 0;
  BatchCounts counts;
  ReportTally tally;      ///< of the notes in the output
  bool finished = false;  ///< the output is complete, and was about to be put in its place
  bool operator==(const Checkpoint&) const = default;
};

/// Writes it whole or not at all, and durably. Why it cannot, if so.
std::optional<std::string> save(const Checkpoint& checkpoint, const std::string& path);

/// Nothing if there is none; or why it cannot be used: "is damaged".
std::variant<std::optional<Checkpoint>, std::string> load_checkpoint(const std::string& path);

}  // namespace jointledger
