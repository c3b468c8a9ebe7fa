// Runs the program as a user would, and keeps what it says.
#pragma once

#include <string>
#include <vector>

namespace jointledger::testing {

struct Outcome {
  int status = -1;  ///< exit status; 128 + the signal if one ended it
  std::string out;
  std::string err;
};

struct RunOptions {
  std::string input = {};                     ///< what the standard input holds
  std::vector<std::string> environment = {};  ///< "NAME=value", added to a bare one
  bool terminal = false;                      ///< the standard output is a terminal
};

/// Runs the program under test with these arguments, to its end.
Outcome run_program(const std::vector<std::string>& arguments, const RunOptions& options = {});

}  // namespace jointledger::testing
