#include "data/shipped_data.h"

#include <cstdlib>
#include <system_error>

namespace jointledger {

namespace fs = std::filesystem;

bool is_folder(const fs::path& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

std::optional<fs::path> shipped_data(const fs::path& binary) {
  const fs::path folder = binary.parent_path();
  // A library may lie one folder deeper than a program: lib/x86_64-linux-gnu.
  for (const fs::path& path : {folder / ".." / "share" / "jointledger", folder / ".." / ".." / "share" / "jointledger",
                               fs::path(JOINTLEDGER_SOURCE_DATA), fs::path(JOINTLEDGER_INSTALL_DATA)}) {
    if (is_folder(path / "lexicon") && is_folder(path / "rules")) return path.lexically_normal();
  }
  return std::nullopt;
}

std::variant<fs::path, std::string> data_in_force(const fs::path& binary) {
  const char* named = std::getenv("JOINTLEDGER_DATA");  // NOLINT(concurrency-mt-unsafe): the caller's to see to
  if (named != nullptr && *named != '\0') {
    if (is_folder(named)) return fs::path(named);
    return std::string("JOINTLEDGER_DATA names no folder: ") + named;
  }
  if (auto data = shipped_data(binary)) return *std::move(data);
  return std::string(
      "cannot find the lexicon and the rules; set JOINTLEDGER_DATA to the folder that holds lexicon/ and rules/");
}

}  // namespace jointledger
