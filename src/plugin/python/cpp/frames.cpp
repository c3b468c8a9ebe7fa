#include "frames.h"

#include <algorithm>

#include "crew.h"
#include "entry_columns.h"
#include "gap_columns.h"

namespace jointledger::python {
namespace {

/// Small enough that no thread is left alone with the last block for long, large enough that columns are worth it.
std::size_t rows_of_a_block(std::size_t rows, std::size_t threads) {
  return std::clamp<std::size_t>(rows / (16 * std::max<std::size_t>(threads, 1)), 16, 1024);
}

template <class Columns, class Add>
std::vector<std::vector<Column>> blocks_of(Engine& engine, const ArrowTexts& texts, std::size_t threads, Add add) {
  const std::size_t size = rows_of_a_block(texts.size(), threads);
  std::vector<std::vector<Column>> out((texts.size() + size - 1) / size);
  run_crew(engine, out.size(), threads, [&](std::size_t block, jointledger_scratch* scratch) {
    Columns columns;
    const std::size_t end = std::min((block + 1) * size, texts.size());
    for (std::size_t row = block * size; row < end; ++row) {
      const auto number = static_cast<std::int64_t>(row);
      const Text text = texts.text(row);
      if (text.fault != nullptr) {
        columns.add_error(number, text.fault);
      } else if (!add(columns, number, scratch, text.bytes)) {
        columns.add_error(number, jointledger_scratch_message(scratch));
      }
    }
    out[block] = columns.take();
  });
  return out;
}

}  // namespace

std::vector<std::vector<Column>> entry_blocks(Engine& engine, const ArrowTexts& texts, std::size_t threads) {
  const auto add = [&](EntryColumns& columns, std::int64_t row, jointledger_scratch* scratch, std::string_view text) {
    const jointledger_ledger* ledger = nullptr;
    if (fulfil(engine, scratch, {}, text, &ledger, nullptr) != JOINTLEDGER_OK) return false;
    columns.add_ledger(row, *ledger);
    return true;
  };
  return blocks_of<EntryColumns>(engine, texts, threads, add);
}

std::vector<std::vector<Column>> gap_blocks(Engine& engine, const ArrowTexts& texts, const Wish& wish,
                                            std::size_t threads) {
  const auto add = [&](GapColumns& columns, std::int64_t row, jointledger_scratch* scratch, std::string_view text) {
    const jointledger_audit* audit = nullptr;
    if (fulfil(engine, scratch, wish, text, nullptr, &audit) != JOINTLEDGER_OK) return false;
    columns.add_audit(row, *audit);
    return true;
  };
  return blocks_of<GapColumns>(engine, texts, threads, add);
}

}  // namespace jointledger::python
