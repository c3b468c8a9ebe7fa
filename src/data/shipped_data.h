// Where the lexicon and the profiles lie that came with this build.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>

namespace jointledger {

/// The folder that holds lexicon/ and rules/ for the program or shared library at `binary`: ../share/jointledger beside
/// its folder, so that a moved installation finds its own; else the source tree that it was built from; else where it
/// was to be installed. Nothing if there is none. Thread-safe.
std::optional<std::filesystem::path> shipped_data(const std::filesystem::path& binary);

/// The data folder to use: the one that the environment variable JOINTLEDGER_DATA names, else shipped_data(binary). Or
/// why there is none, for people. Thread-safe as long as no thread changes the environment.
std::variant<std::filesystem::path, std::string> data_in_force(const std::filesystem::path& binary);

/// Whether `path` is a folder. Never throws for what the file system says.
bool is_folder(const std::filesystem::path& path);

}  // namespace jointledger
