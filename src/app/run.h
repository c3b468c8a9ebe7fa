// The command line: finds the command that is meant and runs it.
#pragma once

#include "app/command.h"

namespace jointledger {

/// `arguments` without the name of the program. Writes to the standard output and the standard error, reads the
/// standard input; returns the exit status. Never throws.
int run(const Arguments& arguments) noexcept;

}  // namespace jointledger
