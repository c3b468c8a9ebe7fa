// From the text of a note to its ledger.
#pragma once

#include <memory>
#include <string_view>

#include "ledger/ledger.h"
#include "lexicon/lexicon.h"

namespace jointledger {

/// Working memory of one reader on one thread. Reused from note to note, it stops allocating once warm.
/// Not thread-safe; holds nothing of a note that another one could see.
class ReadingScratch {
 public:
  ReadingScratch();
  ~ReadingScratch();
  ReadingScratch(ReadingScratch&&) noexcept;
  ReadingScratch& operator=(ReadingScratch&&) noexcept;

  struct Memory;
  Memory& memory() { return *memory_; }

 private:
  std::unique_ptr<Memory> memory_;
};

/// Reads one note. `note` is valid UTF-8 shorter than 4 GiB; spans in the ledger are byte offsets into it.
/// Pure but for `scratch`: the same note gives the same ledger, whatever was read before. Thread-safe as long as each
/// thread has its own scratch. The ledger's string_views live as long as `lexicon`. Never throws but for lack of
/// memory.
Ledger read_note(const Lexicon& lexicon, std::string_view note, ReadingScratch& scratch);

}  // namespace jointledger
