#include "app/batch_options.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <thread>
#include <utility>

#include "report/plain_text.h"

namespace jointledger {
namespace {

constexpr int kMostThreads = 1024;
constexpr double kLongestInterval = 86'400;  // a day

using NamedKind = std::pair<std::string_view, std::optional<ProgressKind>>;
constexpr std::array<NamedKind, 4> kKinds = {{
    {"auto", std::nullopt},
    {"line", ProgressKind::line},
    {"json", ProgressKind::json},
    {"none", ProgressKind::none},
}};

}  // namespace

void add_batch_options(po::options_description& options) {
  options.add_options()("threads", po::value<int>()->value_name("N"),
                        "read and audit N notes at a time, by default as many as there are processors; the output is "
                        "the same for any number");
  options.add_options()("set-aside", po::value<std::string>()->value_name("FILE"),
                        "keep records that cannot be read there, whole, each with its place and the reason; "
                        "see: jointledger set-aside --help");
  options.add_options()("resume",
                        "go on with an interrupted run of the same command; begins at the start if there is none");
  options.add_options()("checkpoint", po::value<double>()->value_name("SECONDS"),
                        "how often a run that writes to a file notes how far it came, for --resume (10)");
  options.add_options()("progress", po::value<std::string>()->value_name("KIND"),
                        "on the standard error: line, json (an object a line, for a scheduler), none, or auto: a line "
                        "if that is a terminal");
}

std::optional<BatchOptions> batch_options_of(const po::variables_map& options, Console& console) {
  BatchOptions batch;
  batch.threads = std::max(1U, std::thread::hardware_concurrency());
  if (options.count("threads") > 0) {
    const int threads = options["threads"].as<int>();
    if (threads < 1 || threads > kMostThreads) {
      console.log.error("--threads: a number from 1 to {} is needed", kMostThreads);
      return std::nullopt;
    }
    batch.threads = static_cast<std::size_t>(threads);
  }
  if (options.count("set-aside") > 0) batch.set_aside = options["set-aside"].as<std::string>();
  batch.resume = options.count("resume") > 0;
  if (options.count("checkpoint") > 0) {
    const auto seconds = options["checkpoint"].as<double>();
    if (!(seconds >= 0 && seconds <= kLongestInterval)) {
      console.log.error("--checkpoint: a number of seconds from 0 to {} is needed", kLongestInterval);
      return std::nullopt;
    }
    batch.checkpoint = std::chrono::duration<double>(seconds);
  }
  if (options.count("progress") > 0) {
    const auto& value = options["progress"].as<std::string>();
    const auto* const kind = std::ranges::find(kKinds, value, &NamedKind::first);
    if (kind == kKinds.end()) {
      std::array<std::string_view, kKinds.size()> names;
      std::ranges::transform(kKinds, names.begin(), &NamedKind::first);
      console.log.error("--progress: no kind '{}'{} (there are: {})", on_one_line(value), did_you_mean(value, names),
                        listed(names));
      return std::nullopt;
    }
    batch.progress = kind->second;
  }
  return batch;
}

}  // namespace jointledger
