// Reading the command line, on top of Boost.Program_options.
#pragma once

#include <boost/program_options.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "app/command.h"

namespace jointledger {

namespace po = boost::program_options;

/// A command's help, in parts.
struct Help {
  std::string_view command;   ///< "jointledger read"
  std::string_view usage;     ///< what follows that: "[NOTE...]"
  std::string_view about;     ///< paragraphs, wrapped already
  std::string_view examples;  ///< indented lines
};

/// Reads `arguments`; those that are no options become `positional`, if that is not empty. Adds --help.
/// Nothing if the command is done: help was asked for, or something is wrong and has been said; then `status` is what
/// to exit with.
std::optional<po::variables_map> read_options(const Arguments& arguments, po::options_description options,
                                              std::string_view positional, const Help& help, Console& console,
                                              int& status);

/// ", did you mean 'ndjson'?", or nothing if no known name is near.
std::string did_you_mean(std::string_view typed, std::span<const std::string_view> known);

/// "text, json, ndjson"
std::string listed(std::span<const std::string_view> names);

/// All values of an option that may be given several times.
Arguments values_of(const po::variables_map& options, const char* name);

}  // namespace jointledger
