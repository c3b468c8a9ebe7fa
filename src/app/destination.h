// A file that a run writes: aside, to be put in its place whole, or straight to where it goes.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "app/output.h"
#include "batch/file_aside.h"

namespace jointledger {

/// Not thread-safe. The functions that return an optional text say why they failed, if they did.
class Destination {
 public:
  /// The standard output, which is the caller's and must outlive this.
  explicit Destination(Output& standard_output) : out_(&standard_output) {}
  /// Opens `path`, which must not be empty: aside if that is wanted and can be done, else straight, emptied. A new
  /// file has those permissions of `mode` that the umask leaves. Or says in `reason` why not.
  static std::unique_ptr<Destination> open(const std::string& path, mode_t mode, bool aside, std::string& reason);

  Output& out() { return *out_; }
  bool is_aside() const { return aside_ != nullptr; }
  /// For messages: "cannot write gaps.ndjson".
  std::string name() const { return path_.empty() ? "the output" : path_; }

  /// What an interrupted run left here, in bytes; 0 where nothing can be left.
  std::uint64_t held() const { return aside_ ? aside_->size() : 0; }
  /// Goes on behind the first `bytes` of that. To be called once, before anything is written, where it is aside.
  std::optional<std::string> go_on_at(std::uint64_t bytes);
  /// Passes everything on; if it is aside, it would survive a loss of power then.
  std::optional<std::string> sync();
  /// Passes everything on, and puts a file that was written aside in its place.
  std::optional<std::string> show();

 private:
  Destination() = default;

  std::string path_;
  std::unique_ptr<FileAside> aside_;  // null where it is written straight
  std::unique_ptr<Output> file_;      // null where the output is the caller's; before aside_ is gone
  Output* out_ = nullptr;
};

}  // namespace jointledger
