// From the text of a note to its ledger.
#pragma once

#include <memory>
#include <string_view>

#include "ledger/ledger.h"
#include "lexicon/lexicon.h"

namespace jointledger {

/// How a caller asks a long reading to stop. `asked` is called about once a sentence, on the thread that reads.
struct StopRequest {
  bool (*asked)(void* context) = nullptr;  ///< null: nobody asks
  void* context = nullptr;
  bool made() const { return asked != nullptr && asked(context); }
};

/// Working memory of one reader on one thread. Reused from note to note, it stops allocating once warm.
/// Not thread-safe; holds nothing of a note that another one could see.
class ReadingScratch {
 public:
  ReadingScratch();
  ~ReadingScratch();
  ReadingScratch(ReadingScratch&&) noexcept;
  ReadingScratch& operator=(ReadingScratch&&) noexcept;

  /// Asked from the next reading on.
  void watch(StopRequest stop);

  struct Memory;
  Memory& memory() { return *memory_; }

 private:
  std::unique_ptr<Memory> memory_;
};

/// Reads one note. `note` is valid UTF-8 shorter than 4 GiB; spans in the ledger are byte offsets into it.
/// Pure but for `scratch`: the same note gives the same ledger, whatever was read before. Thread-safe as long as each
/// thread has its own scratch. The ledger's string_views live as long as `lexicon`. Once the scratch's stop
/// request is made, the rest of the note is left unread, and what is returned is no ledger of it. Never throws but for
/// lack of memory, or what the request throws.
Ledger read_note(const Lexicon& lexicon, std::string_view note, ReadingScratch& scratch);

}  // namespace jointledger
