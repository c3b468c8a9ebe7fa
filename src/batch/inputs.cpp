#include "batch/inputs.h"

#include <glob.h>
#include <locale.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

namespace jointledger {
namespace {

namespace fs = std::filesystem;

bool is_folder(const std::string& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

std::string canonical(const std::string& path) {
  std::error_code error;
  const fs::path result = fs::weakly_canonical(path, error);
  return error ? path : result.string();
}

/// Names are UTF-8 for this thread while it lives: in a pattern ? stands for a character, not for a byte of one, and
/// does so whatever the locale of the machine is.
class Utf8Names {
 public:
  Utf8Names() : locale_(::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr)) {
    if (locale_ != nullptr) before_ = ::uselocale(locale_);
  }
  Utf8Names(const Utf8Names&) = delete;
  Utf8Names& operator=(const Utf8Names&) = delete;
  ~Utf8Names() {
    if (locale_ == nullptr) return;
    ::uselocale(before_);
    ::freelocale(locale_);
  }

 private:
  locale_t locale_;
  locale_t before_ = nullptr;
};

/// Paths that match, by their bytes.
std::vector<std::string> matches(const std::string& pattern) {
  const Utf8Names names;
  glob_t found = {};
  std::vector<std::string> paths;
  if (::glob(pattern.c_str(), GLOB_NOSORT, nullptr, &found) == 0) {
    paths.assign(found.gl_pathv, found.gl_pathv + found.gl_pathc);
  }
  ::globfree(&found);
  std::ranges::sort(paths);
  return paths;
}

bool is_pattern(const std::string& name) {
  std::error_code error;
  return name.find_first_of("*?[") != std::string::npos && !fs::exists(fs::symlink_status(name, error));
}

enum class Sort { file, folder, other };

Sort sort_of(const fs::directory_entry& entry) {
  std::error_code error;
  const fs::file_type type = entry.status(error).type();
  if (type == fs::file_type::directory) return entry.is_symlink(error) ? Sort::other : Sort::folder;
  // A link to nowhere, and what cannot be looked at, stand for a note all the same: reading them names the trouble.
  const bool note = type == fs::file_type::regular || type == fs::file_type::not_found || type == fs::file_type::none;
  return note ? Sort::file : Sort::other;
}

}  // namespace

Inputs::Inputs(const std::vector<std::string>& names, const std::vector<std::string>& outputs)
    : rest_(names.begin(), names.end()) {
  for (const std::string& output : outputs) outputs_.push_back(canonical(output));
}

std::optional<Inputs::Next> Inputs::next() {
  while (true) {
    while (!folders_.empty()) {
      Folder& folder = folders_.back();
      if (folder.starts.empty()) {
        folders_.pop_back();
        continue;
      }
      std::string path = folder.path;
      path.append(folder.name_at(folder.starts.back()));
      folder.starts.pop_back();
      if (!path.ends_with('/')) return Next{std::move(path), {}};
      if (auto trouble = enter(std::move(path))) return trouble;
    }
    if (rest_.empty()) return std::nullopt;
    const std::string name = std::move(rest_.front());
    rest_.pop_front();
    if (auto found = begin(name)) return found;
  }
}

std::optional<Inputs::Next> Inputs::begin(const std::string& name) {
  if (name == "-") return Next{name, {}};
  if (is_folder(name)) return enter(name);
  if (!is_pattern(name)) return Next{name, {}};
  std::vector<std::string> paths = matches(name);
  std::erase_if(paths, [&](const std::string& path) { return is_output(canonical(path)); });
  if (paths.empty()) return Next{name, "no file matches"};
  rest_.insert(rest_.begin(), paths.begin(), paths.end());
  return std::nullopt;
}

std::optional<Inputs::Next> Inputs::enter(std::string path) {
  if (!path.ends_with('/')) path.push_back('/');
  Folder folder{std::move(path), {}, {}};
  const fs::path real = canonical(folder.path);
  std::error_code error;
  fs::directory_iterator at(folder.path, error);
  for (; !error && at != fs::directory_iterator(); at.increment(error)) {
    const std::string name = at->path().filename().string();
    const Sort sort = sort_of(*at);
    if (name.starts_with('.') || sort == Sort::other || is_output((real / name).string())) continue;
    folder.starts.push_back(folder.names.size());
    folder.names.append(name).append(sort == Sort::folder ? "/" : "").push_back('\0');
  }
  if (error) {
    folder.path.pop_back();
    return Next{std::move(folder.path), "cannot be opened: " + error.message()};
  }
  std::ranges::sort(folder.starts, [&](std::size_t a, std::size_t b) { return folder.name_at(a) > folder.name_at(b); });
  folders_.push_back(std::move(folder));
  return std::nullopt;
}

bool Inputs::is_output(const std::string& path) const { return std::ranges::find(outputs_, path) != outputs_.end(); }

std::uint64_t bytes_in(const std::vector<std::string>& names, const std::vector<std::string>& outputs) {
  Inputs inputs(names, outputs);
  std::uint64_t bytes = 0;
  while (const auto input = inputs.next()) {
    std::error_code error;
    if (input->path == "-" || input->path.ends_with(".gz")) return 0;
    if (const auto size = fs::file_size(input->path, error); !error) bytes += size;
  }
  return bytes;
}

}  // namespace jointledger
