// Tables of entries and gaps from a column of notes, by blocks of rows.
#pragma once

#include <vector>

#include "column.h"
#include "engine.h"
#include "texts.h"

namespace jointledger::python {

/// The columns of each block, in the order of the notes. Called with the interpreter's lock, which is let go meanwhile;
/// see run_crew() for what is thrown. The first column counts the rows of `texts` from 0.
std::vector<std::vector<Column>> entry_blocks(Engine& engine, const ArrowTexts& texts, std::size_t threads);

/// Likewise; the profile is one that the engine has.
std::vector<std::vector<Column>> gap_blocks(Engine& engine, const ArrowTexts& texts, const Wish& wish,
                                            std::size_t threads);

}  // namespace jointledger::python
