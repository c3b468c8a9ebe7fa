#include "app/run_mark.h"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <system_error>

#include "batch/checksum.h"

namespace jointledger {
namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The files of that kind in the folders, by their names and bytes. Where the folders lie makes no difference.
std::uint32_t sum_of(std::span<const fs::path> folders, std::string_view extension) {
  std::uint32_t sum = 0;
  for (const fs::path& folder : folders) {
    std::vector<fs::path> files;
    std::error_code error;
    for (fs::directory_iterator at(folder, error); !error && at != fs::directory_iterator(); at.increment(error)) {
      if (at->path().extension() == extension) files.push_back(at->path());
    }
    std::ranges::sort(files);
    for (const fs::path& file : files) sum = checksum(bytes_of(file), checksum(file.filename().string(), sum));
    sum = checksum("", sum);  // where a folder ends
  }
  return sum;
}

}  // namespace

RunMark mark_of(const std::string& options, std::span<const std::string> inputs, std::span<const fs::path> lexicon,
                std::span<const fs::path> rules) {
  RunMark mark;
  // The version alone would not do: two builds of one may read a note differently.
  mark.program = checksum(bytes_of("/proc/self/exe"));
  mark.options = checksum(options);
  for (const std::string& input : inputs) mark.inputs = checksum(input, mark.inputs);
  mark.lexicon = sum_of(lexicon, ".tsv");
  mark.rules = sum_of(rules, ".toml");
  return mark;
}

}  // namespace jointledger
