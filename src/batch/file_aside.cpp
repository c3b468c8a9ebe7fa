#include "batch/file_aside.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

namespace jointledger {
namespace {

namespace fs = std::filesystem;

constexpr mode_t kPermissions = 0777;

std::string reason_of(int error) { return std::generic_category().message(error); }

/// A renamed file is there for good once its folder is on the disk.
std::optional<std::string> sync_folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  const int descriptor = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return reason_of(errno);
  // Some file systems cannot, and say EINVAL; then there is nothing more to be done.
  const int error = ::fsync(descriptor) == 0 || errno == EINVAL ? 0 : errno;
  ::close(descriptor);
  return error == 0 ? std::nullopt : std::optional(reason_of(error));
}

std::optional<std::string> move_into_place(const std::string& from, const std::string& to) {
  if (std::rename(from.c_str(), to.c_str()) != 0) return reason_of(errno);
  return sync_folder_of(to);
}

/// Whether the descriptor is still what stands at `path`. Between opening and locking, another run may have put its
/// part in its place: then the lock is on the finished file.
bool stands_at(int descriptor, const std::string& path) {
  struct stat opened = {};
  struct stat standing = {};
  return ::fstat(descriptor, &opened) == 0 && ::stat(path.c_str(), &standing) == 0 &&
         opened.st_dev == standing.st_dev && opened.st_ino == standing.st_ino;
}

/// A file that is replaced every night keeps who may read it.
void keep_permissions(int descriptor, const std::string& path) {
  struct stat status = {};
  if (::stat(path.c_str(), &status) == 0 && S_ISREG(status.st_mode))
    ::fchmod(descriptor, status.st_mode & kPermissions);
}

}  // namespace

FileAside::FileAside(std::string path, int descriptor, std::uint64_t size)
    : path_(std::move(path)), descriptor_(descriptor), size_(size) {}

FileAside::~FileAside() {
  struct stat status = {};
  if (!shown_ && ::fstat(descriptor_, &status) == 0 && status.st_size == 0) ::unlink(part_of(path_).c_str());
  ::close(descriptor_);
}

std::unique_ptr<FileAside> FileAside::open(const std::string& path, mode_t mode, std::string& reason) {
  const std::string place = behind_links(path);
  const std::string part = part_of(place);
  while (true) {
    const int descriptor = ::open(part.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW, mode);
    if (descriptor < 0) {
      reason = reason_of(errno);
      return nullptr;
    }
    struct stat status = {};
    int error = 0;
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0 || ::fstat(descriptor, &status) != 0) error = errno;
    if (error == 0 && stands_at(descriptor, part)) {
      if (status.st_size == 0) keep_permissions(descriptor, place);
      return std::unique_ptr<FileAside>(new FileAside(place, descriptor, static_cast<std::uint64_t>(status.st_size)));
    }
    ::close(descriptor);
    if (error == 0) continue;
    reason = error == EWOULDBLOCK ? "another run is writing it" : reason_of(error);
    return nullptr;
  }
}

std::optional<std::string> FileAside::cut(std::uint64_t size) {
  const auto length = static_cast<off_t>(size);
  if (::ftruncate(descriptor_, length) != 0 || ::lseek(descriptor_, length, SEEK_SET) < 0) return reason_of(errno);
  return std::nullopt;
}

std::optional<std::string> FileAside::sync() {
  if (::fdatasync(descriptor_) != 0) return reason_of(errno);
  return std::nullopt;
}

std::optional<std::string> FileAside::show() {
  if (::fsync(descriptor_) != 0) return reason_of(errno);
  shown_ = true;
  return move_into_place(part_of(path_), path_);
}

std::string part_of(const std::string& path) { return path + ".part"; }

std::string behind_links(const std::string& path) {
  std::error_code error;
  if (!fs::is_symlink(path, error)) return path;
  const fs::path target = fs::weakly_canonical(path, error);
  return error ? path : target.string();
}

bool can_be_replaced(const std::string& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  return status.type() == fs::file_type::not_found || status.type() == fs::file_type::regular;
}

std::optional<std::string> show_part(const std::string& path) {
  const std::string place = behind_links(path);
  std::error_code error;
  if (fs::exists(part_of(place), error)) return move_into_place(part_of(place), place);
  return fs::exists(place, error) ? std::nullopt : std::optional<std::string>("it is gone");
}

std::optional<std::string> replace_file(const std::string& path, const std::string& bytes) {
  const std::string aside = path + ".new";
  const int descriptor = ::open(aside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666);
  if (descriptor < 0) return reason_of(errno);
  int error = 0;
  std::string_view rest = bytes;
  while (error == 0 && !rest.empty()) {
    const ssize_t count = ::write(descriptor, rest.data(), rest.size());
    if (count >= 0) {
      rest.remove_prefix(static_cast<std::size_t>(count));
    } else if (errno != EINTR) {
      error = errno;
    }
  }
  if (error == 0 && ::fsync(descriptor) != 0) error = errno;
  ::close(descriptor);
  if (error == 0) return move_into_place(aside, path);
  ::unlink(aside.c_str());
  return reason_of(error);
}

std::optional<std::string> remove_file(const std::string& path) {
  if (::unlink(path.c_str()) == 0) return sync_folder_of(path);
  return errno == ENOENT ? std::nullopt : std::optional(reason_of(errno));
}

}  // namespace jointledger
