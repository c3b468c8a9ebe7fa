// Where results go: the standard output or a file, through a buffer.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace jointledger {

/// Not thread-safe. After the first failure everything written is dropped.
class Output {
 public:
  /// The standard output.
  Output();
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  ~Output();

  /// A descriptor that stays the caller's, and must outlive this. `before` is what is in it already, in bytes.
  explicit Output(int descriptor, std::uint64_t before = 0);

  /// A file, emptied if it is there; a new one has those permissions of `mode` that the umask leaves. Or, in `reason`,
  /// why it cannot be written.
  static std::unique_ptr<Output> open(const std::string& path, mode_t mode, std::string& reason);

  /// The buffer, to append to; call settle() after each note.
  std::string& buffer() { return buffer_; }
  void write(std::string_view text) { buffer_.append(text); }

  /// Passes the buffer on if much has come together.
  void settle();
  /// Passes everything on.
  void flush();
  /// To be called before waiting for more: passes everything on where somebody may be waiting for it (a terminal, a
  /// pipe), but not to a file.
  void idle();

  /// Passes everything on. Why something could not be written, if so.
  std::optional<std::string> finish();
  /// Why something could not be written so far, if so.
  const std::optional<std::string>& failure() const { return failure_; }

  bool is_terminal() const;
  /// How many bytes are in it, or were passed on.
  std::uint64_t passed_on() const { return passed_on_; }

 private:
  int descriptor_;
  bool owned_ = false;
  bool eager_;
  std::uint64_t passed_on_;
  std::string buffer_;
  std::optional<std::string> failure_;
};

}  // namespace jointledger
