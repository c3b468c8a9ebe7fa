// Columns in the layout of Apache Arrow, as rows are added to them: pyarrow makes arrays of their buffers.
// https://arrow.apache.org/docs/format/Columnar.html
#pragma once

#include <jointledger.h>

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointledger::python {

/// One array: its length, its buffers in Arrow's order (none for a bitmap where nothing is null), its children.
struct Column {
  std::size_t length = 0;
  std::vector<std::optional<std::string>> buffers;
  std::vector<Column> children;
};

/// Which rows are not null, a bit each. A bitmap is only handed out if one is null.
class Validity {
 public:
  void add(bool valid);
  std::optional<std::string> take();

 private:
  std::string bits_;
  std::size_t count_ = 0;
  bool all_ = true;
};

/// Values of a fixed size.
template <class Value>
class Values {
 public:
  void add(Value value) { add(value, true); }
  void add_null() { add(Value{}, false); }

  Column take() {
    Column out{values_.size(), {}, {}};
    out.buffers.push_back(validity_.take());
    out.buffers.emplace_back(
        std::string(reinterpret_cast<const char*>(values_.data()), values_.size() * sizeof(Value)));
    return out;
  }

 private:
  void add(Value value, bool valid) {
    values_.push_back(value);
    validity_.add(valid);
  }

  std::vector<Value> values_;
  Validity validity_;
};

/// Where each row of a column of strings or lists ends, as Arrow counts with 32 bits.
class Ends {
 public:
  /// Throws std::length_error beyond 2^31 - 1.
  void add(std::size_t end);
  std::size_t size() const { return ends_.size() - 1; }
  std::string take() const {
    return {reinterpret_cast<const char*>(ends_.data()), ends_.size() * sizeof(std::int32_t)};
  }

 private:
  std::vector<std::int32_t> ends_ = {0};
};

class Strings {
 public:
  void add(std::string_view text) { add(text, true); }
  void add_null() { add({}, false); }
  Column take();

 private:
  void add(std::string_view text, bool valid);

  Ends ends_;
  std::string bytes_;
  Validity validity_;
};

/// A bit a row.
class Flags {
 public:
  void add(bool flag);
  Column take();

 private:
  std::string bits_;
  std::size_t count_ = 0;
};

/// Lists of items, which `Items` has all in a row.
template <class Items>
class Lists {
 public:
  /// A list: add(items, value) is called for each of `values`, and adds one item.
  template <class Range, class Add>
  void add(const Range& values, Add add_item) {
    for (const auto& value : values) add_item(items_, value);
    count_ += std::size(values);
    end_row(true);
  }
  void add_null() { end_row(false); }

  Column take() {
    Column out{ends_.size(), {}, {}};
    out.buffers.push_back(validity_.take());
    out.buffers.emplace_back(ends_.take());
    out.children.push_back(items_.take());
    return out;
  }

 private:
  void end_row(bool valid) {
    ends_.add(count_);
    validity_.add(valid);
  }

  Items items_;
  std::size_t count_ = 0;
  Ends ends_;
  Validity validity_;
};

/// A struct of children of equal length, at least one; no row is null.
Column struct_column(std::vector<Column> children);

/// start and end, in bytes.
class Spans {
 public:
  void add(const jointledger_span& span);
  Column take();

 private:
  Values<std::int32_t> start_;
  Values<std::int32_t> end_;
};

// Lists as all tables have them.
void add_names(Lists<Strings>& to, const char* const* names, std::size_t count);
void add_motions(Lists<Strings>& to, std::uint32_t motions);
void add_spans(Lists<Spans>& to, const jointledger_span* spans, std::size_t count);

/// The arrays of columns, in this order.
template <class... Columns>
std::vector<Column> taken(Columns&... columns) {
  std::vector<Column> out;
  out.reserve(sizeof...(columns));
  (out.push_back(columns.take()), ...);
  return out;
}

/// A share as all outputs have it: rounded to so many places.
double rounded(double share, int places);

}  // namespace jointledger::python
