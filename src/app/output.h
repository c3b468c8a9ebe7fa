// Where results go: the standard output or a file, through a buffer.
#pragma once

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

  /// A file, emptied if it is there; or, in `reason`, why it cannot be written.
  static std::unique_ptr<Output> open(const std::string& path, std::string& reason);

  /// The buffer, to append to; call settle() after each note.
  std::string& buffer() { return buffer_; }
  void write(std::string_view text) { buffer_.append(text); }

  /// Passes the buffer on if that is due: at once where somebody may be waiting for it (a terminal, a pipe), when
  /// much has come together in a file.
  void settle();

  /// Passes everything on. Why something could not be written, if so.
  std::optional<std::string> finish();

  bool is_terminal() const;

 private:
  explicit Output(int descriptor);
  void flush();

  int descriptor_;
  bool eager_;
  std::string buffer_;
  std::optional<std::string> failure_;
};

}  // namespace jointledger
