#include "app/options.h"

#include <sstream>

#include "audit/suggest.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

/// Whole names only: a prefix that is clear today is ambiguous with the next option.
constexpr int kStyle = po::command_line_style::unix_style & ~po::command_line_style::allow_guessing;

void print_help(const Help& help, const po::options_description& options, Console& console) {
  std::ostringstream text;
  text << "Usage: " << help.command << " " << help.usage << "\n\n"
       << help.about << "\n"
       << options << "\nExamples:\n"
       << help.examples;
  console.out.write(text.str());
}

}  // namespace

std::optional<po::variables_map> read_options(const Arguments& arguments, po::options_description options,
                                              std::string_view positional, const Help& help, Console& console,
                                              int& status) {
  options.add_options()("help,h", "show this help");
  po::options_description all = options;
  po::positional_options_description places;
  const std::string name(positional);
  if (!name.empty()) {
    all.add_options()(name.c_str(), po::value<Arguments>());
    places.add(name.c_str(), -1);
  }
  try {
    po::variables_map values;
    po::store(po::command_line_parser(arguments).options(all).positional(places).style(kStyle).run(), values);
    po::notify(values);
    if (values.count("help") == 0) return values;
    print_help(help, options, console);
    status = kComplete;
  } catch (const po::error& error) {
    // Boost's messages quote the command line and nothing else.
    console.log.error("{}; see: {} --help", on_one_line(error.what()), help.command);
    status = kTrouble;
  }
  return std::nullopt;
}

std::string did_you_mean(std::string_view typed, std::span<const std::string_view> known) {
  const auto near = nearest_name(typed, known);
  return near ? ", did you mean '" + std::string(*near) + "'?" : std::string();
}

std::string listed(std::span<const std::string_view> names) {
  std::string list;
  for (const std::string_view name : names) list.append(list.empty() ? "" : ", ").append(name);
  return list;
}

Arguments values_of(const po::variables_map& options, const char* name) {
  return options.count(name) > 0 ? options[name].as<Arguments>() : Arguments();
}

}  // namespace jointledger
