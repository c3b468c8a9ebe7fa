// Ledgers and audits as the JSON that the command line writes: one for each note.
#pragma once

#include <nanobind/nanobind.h>

#include "engine.h"

namespace jointledger::python {

/// For each of `notes` (str or bytes) a `bytes` with its JSON, or a Failure; `ids` (str) are their ids, as many.
nanobind::list results(Engine& engine, nanobind::tuple notes, const std::vector<std::string>& ids, const Wish& wish,
                       std::size_t threads);

}  // namespace jointledger::python
