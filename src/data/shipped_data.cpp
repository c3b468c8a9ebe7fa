#include "data/shipped_data.h"

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

}  // namespace jointledger
