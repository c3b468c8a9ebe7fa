// The options that say how notes are to be read.
#pragma once

#include <optional>

#include "app/options.h"
#include "intake/format.h"
#include "intake/intake_options.h"

namespace jointledger {

struct Intake {
  const Format* from = nullptr;
  IntakeOptions options;
};

/// Adds --from, and what it can be refined with.
void add_intake_options(po::options_description& options);

/// What the options ask for; nothing if they make no sense, which has been said then.
std::optional<Intake> intake_of(const po::variables_map& options, Console& console);

}  // namespace jointledger
