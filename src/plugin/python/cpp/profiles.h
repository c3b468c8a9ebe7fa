// The profiles that an engine has in force, for Python.
#pragma once

#include <nanobind/nanobind.h>

#include "engine.h"

namespace jointledger::python {

/// A dict for each: name, title, purpose, caution, and `expectations`, a dict each with the members of the C structure.
nanobind::list profiles(Engine& engine);

}  // namespace jointledger::python
