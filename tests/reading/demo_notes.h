// The demo notes of fixtures/, and how they were coded by hand.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "cells.h"

namespace jointledger::testing {

struct DemoNote {
  std::string id;
  std::string text;
};

/// In the order of the file. Throws if it is not what it should be.
std::vector<DemoNote> demo_notes();

/// The hand coding by id, without blanket remarks, which name no component to compare.
std::map<std::string, Cells> demo_codings();

}  // namespace jointledger::testing
