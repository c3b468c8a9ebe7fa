#include "texts.h"

#include <cstring>

namespace jointledger::python {
namespace nb = nanobind;

TupleTexts::TupleTexts(nb::tuple notes) : notes_(std::move(notes)) {
  texts_.reserve(notes_.size());
  for (const nb::handle note : notes_) {
    if (PyBytes_Check(note.ptr())) {
      texts_.push_back({{PyBytes_AS_STRING(note.ptr()), static_cast<std::size_t>(PyBytes_GET_SIZE(note.ptr()))}});
    } else if (PyUnicode_Check(note.ptr())) {
      Py_ssize_t size = 0;
      if (PyUnicode_IS_COMPACT_ASCII(note.ptr())) {
        const char* const bytes = PyUnicode_AsUTF8AndSize(note.ptr(), &size);
        if (bytes == nullptr) throw nb::python_error();
        texts_.push_back({{bytes, static_cast<std::size_t>(size)}});
        continue;
      }
      // Of other strings Python would keep the UTF-8 beside them for as long as they live; this goes with the call.
      PyObject* const encoded = PyUnicode_AsUTF8String(note.ptr());
      if (encoded == nullptr) {
        // The error of Python's own holds the text.
        const bool surrogate = PyErr_ExceptionMatches(PyExc_UnicodeEncodeError) != 0;
        if (!surrogate) throw nb::python_error();
        PyErr_Clear();
        texts_.push_back({{}, "the text has a lone surrogate, which is no character"});
        continue;
      }
      encoded_.push_back(nb::steal(encoded));
      texts_.push_back({{PyBytes_AS_STRING(encoded), static_cast<std::size_t>(PyBytes_GET_SIZE(encoded))}});
    } else {
      throw nb::type_error("a note is its text, as str or as UTF-8 in bytes");
    }
  }
}

Buffer::Buffer(nb::handle owner) {
  if (owner.is_none()) return;
  if (PyObject_GetBuffer(owner.ptr(), &view_, PyBUF_SIMPLE) != 0) throw nb::python_error();
}

Buffer::~Buffer() {
  if (view_.obj != nullptr) PyBuffer_Release(&view_);
}

ArrowTexts::ArrowTexts(nb::handle validity, nb::handle offsets, nb::handle data, std::size_t first, std::size_t count)
    : validity_(validity), offsets_(offsets), data_(data), first_(first), count_(count) {
  const std::size_t end = first + count;
  const bool short_of_bits = !validity_.empty() && validity_.bytes().size() < (end + 7) / 8;
  const bool short_of_offsets = count > 0 && offsets_.bytes().size() < (end + 1) * sizeof(std::int64_t);
  if (short_of_bits || short_of_offsets) throw nb::value_error("the buffers are shorter than the array");
}

Text ArrowTexts::text(std::size_t row) const {
  const std::size_t at = first_ + row;
  if (!validity_.empty()) {
    const auto bits = static_cast<unsigned char>(validity_.bytes()[at / 8]);
    if (((bits >> (at % 8)) & 1U) == 0) return {{}, "there is no text: it is null"};
  }
  std::int64_t bounds[2];
  std::memcpy(bounds, offsets_.bytes().data() + at * sizeof(std::int64_t), sizeof bounds);
  const std::string_view data = data_.bytes();
  const bool within = 0 <= bounds[0] && bounds[0] <= bounds[1] && static_cast<std::size_t>(bounds[1]) <= data.size();
  if (!within) return {{}, "the text lies outside of its buffer"};
  return {data.substr(static_cast<std::size_t>(bounds[0]), static_cast<std::size_t>(bounds[1] - bounds[0]))};
}

}  // namespace jointledger::python
