// Threads that work on numbered jobs while the interpreter is free for others.
#pragma once

#include <cstddef>
#include <functional>

#include "engine.h"

namespace jointledger::python {

/// Calls work(job, scratch) for every job from 0 to `jobs` on up to `threads` threads, in any order, each thread with a
/// scratch of its own. Called with the interpreter's lock, which is let go meanwhile; work() must not touch Python.
///
/// Returns when all is done. Signals are asked for every tenth of a second: where one has raised a Python exception
/// (Ctrl-C), the threads stop and nanobind::python_error is thrown. What work() throws ends the others and is thrown.
void run_crew(Engine& engine, std::size_t jobs, std::size_t threads,
              const std::function<void(std::size_t job, jointledger_scratch* scratch)>& work);

}  // namespace jointledger::python
