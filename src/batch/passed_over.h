// Records that were too long or too damaged to be held: their bytes are read once more, a chunk at a time.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include "intake/record.h"

namespace jointledger {

/// Where the bytes of a record lie that a splitter passed over.
struct PassedOver {
  static constexpr std::uint64_t kToTheEnd = std::numeric_limits<std::uint64_t>::max();
  std::string input;              ///< a path
  std::uint64_t from = 0;         ///< bytes from the start of the input, as Place::offset counts them
  std::uint64_t to = kToTheEnd;   ///< where the next record begins
  bool ends_with_a_break = true;  ///< a line break before `to` is not part of the record
};

/// The place of `record`, which was passed over, up to `next` if another one follows. Nothing if the bytes cannot be
/// had again: the standard input, a pipe.
std::optional<PassedOver> passed_over(const Record& record, const Record* next);

/// Hands the bytes to `each`, in chunks, as far as they can be read. Memory: some hundred KiB.
void read_again(const PassedOver& place, const std::function<void(std::string_view)>& each);

}  // namespace jointledger
