// A file that is written beside its place, and put there whole.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

namespace jointledger {

/// Writes to PATH.part and, when all is well, renames that to PATH: whoever looks at PATH sees the old file or the
/// whole new one, never a part, even after a loss of power. Not thread-safe.
class FileAside {
 public:
  /// Opens PATH.part with what it holds from an interrupted run, and locks it against a second run. A new file has the
  /// permissions of the one at PATH, or else those of `mode` that the umask leaves. Or says in `reason` why not.
  static std::unique_ptr<FileAside> open(const std::string& path, mode_t mode, std::string& reason);
  FileAside(const FileAside&) = delete;
  FileAside& operator=(const FileAside&) = delete;
  /// Leaves PATH.part as it is, for a later run to go on with; but takes it away if there is nothing in it.
  ~FileAside();

  int descriptor() const { return descriptor_; }
  /// What PATH.part held when it was opened, in bytes.
  std::uint64_t size() const { return size_; }

  /// Cuts the part to `size` bytes; what is written next follows. Why it cannot, if so; the same holds of those below.
  std::optional<std::string> cut(std::uint64_t size);
  /// Returns once everything written so far would survive a loss of power.
  std::optional<std::string> sync();
  /// Puts the file in its place, for good.
  std::optional<std::string> show();

 private:
  FileAside(std::string path, int descriptor, std::uint64_t size);

  std::string path_;
  int descriptor_;
  std::uint64_t size_;
  bool shown_ = false;
};

/// "PATH.part".
std::string part_of(const std::string& path);

/// The file that is meant by `path`: where a symbolic link leads, else `path` itself.
std::string behind_links(const std::string& path);

/// Whether the file at `path` can be written aside: there is none yet, or a regular one (not a device or a pipe).
bool can_be_replaced(const std::string& path);

/// Puts PATH.part, which a run completed before it was interrupted, in its place, unless that is done already. Why it
/// cannot, if so.
std::optional<std::string> show_part(const std::string& path);

/// Writes all of `bytes` to PATH by way of PATH.new, as above. Why it cannot, if so.
std::optional<std::string> replace_file(const std::string& path, const std::string& bytes);

/// Takes the file away, for good, if it is there. Why it cannot, if so.
std::optional<std::string> remove_file(const std::string& path);

}  // namespace jointledger
