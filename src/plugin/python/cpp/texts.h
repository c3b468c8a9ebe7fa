// Texts of notes as Python holds them: where the bytes lie, without a copy wherever that can be.
#pragma once

#include <nanobind/nanobind.h>

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace jointledger::python {

/// The bytes of a note, or why there are none. Borrowed from what it was made of.
struct Text {
  std::string_view bytes;
  const char* fault = nullptr;  ///< static; NULL if there is a text
};

/// Texts of a tuple of `str` and `bytes`. Keeps alive what it points into; made and ended with the interpreter's lock.
class TupleTexts {
 public:
  /// Throws nanobind::type_error for an item of another type.
  explicit TupleTexts(nanobind::tuple notes);

  const std::vector<Text>& texts() const { return texts_; }

 private:
  nanobind::tuple notes_;
  std::vector<nanobind::object> encoded_;
  std::vector<Text> texts_;
};

/// A view of an object with Python's buffer protocol, or of nothing. Ended with the interpreter's lock.
class Buffer {
 public:
  /// `owner` None: a view of nothing. Throws nanobind::python_error.
  explicit Buffer(nanobind::handle owner);
  ~Buffer();
  Buffer(const Buffer&) = delete;
  Buffer& operator=(const Buffer&) = delete;

  bool empty() const { return view_.len == 0; }
  std::string_view bytes() const { return {static_cast<const char*>(view_.buf), static_cast<std::size_t>(view_.len)}; }

 private:
  Py_buffer view_ = {};
};

/// Texts of an Arrow array of the type large_string or large_binary, by its three buffers. Reading is thread-safe.
class ArrowTexts {
 public:
  /// `first` is the array's offset into its buffers. Throws nanobind::value_error if the buffers do not hold `count`.
  ArrowTexts(nanobind::handle validity, nanobind::handle offsets, nanobind::handle data, std::size_t first,
             std::size_t count);

  std::size_t size() const { return count_; }
  Text text(std::size_t row) const;

 private:
  Buffer validity_;
  Buffer offsets_;
  Buffer data_;
  std::size_t first_;
  std::size_t count_;
};

}  // namespace jointledger::python
