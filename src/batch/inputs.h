// Which inputs a batch has: files, and what lies in folders or matches a pattern, in an order that never changes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

/// Walks over inputs as they are needed, so that the list of a large tree is never in memory: only the names in the
/// folders that lead to the present file are. Not thread-safe. Paths are bytes, as the system has them.
///
/// A folder stands for the files in it and its subfolders, in the order of the bytes of their paths; passed over are
/// names that begin with a dot, what is neither file nor folder (pipes, devices), and folders behind symbolic links.
/// A name that is not there but has *, ? or [ in it is a pattern, as a shell has them (glob(7)), and stands for the
/// files and folders that match, in the order of their bytes.
class Inputs {
 public:
  /// `names` as given, "-" for the standard input. `outputs` are paths that this run writes: no folder holds them and
  /// no pattern matches them.
  explicit Inputs(const std::vector<std::string>& names, const std::vector<std::string>& outputs = {});

  struct Next {
    std::string path;
    std::string trouble;  ///< why it cannot be had, e.g. "no file matches"; empty if nothing is wrong so far
  };
  /// Nothing at the end.
  std::optional<Next> next();

 private:
  /// The names in a folder, end to end: there may be a million. Those of subfolders end in a slash.
  struct Folder {
    std::string path;
    std::string names;
    std::vector<std::size_t> starts;  // in `names`, sorted downwards: the next one is the last
    std::string_view name_at(std::size_t start) const { return names.c_str() + start; }
  };

  std::optional<Next> enter(std::string folder);
  std::optional<Next> begin(const std::string& name);
  bool is_output(const std::string& path) const;

  std::deque<std::string> rest_;
  std::vector<std::string> outputs_;
  std::vector<Folder> folders_;  // from the one named to the innermost
};

/// How many bytes the inputs hold, for an estimate of the time left; 0 if that cannot be told (the standard input,
/// compressed files). Looks at every file.
std::uint64_t bytes_in(const std::vector<std::string>& names, const std::vector<std::string>& outputs);

}  // namespace jointledger
