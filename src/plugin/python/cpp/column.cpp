#include "column.h"

#include <cmath>
#include <limits>
#include <span>

namespace jointledger::python {
namespace {

/// Arrow counts bits from the least significant one.
void add_bit(std::string& bits, std::size_t at, bool set) {
  if (at % 8 == 0) bits.push_back('\0');
  if (set) bits.back() = static_cast<char>(static_cast<unsigned char>(bits.back()) | (1U << (at % 8)));
}

}  // namespace

void Validity::add(bool valid) {
  add_bit(bits_, count_++, valid);
  all_ = all_ && valid;
}

std::optional<std::string> Validity::take() {
  if (all_) return std::nullopt;
  return std::move(bits_);
}

void Ends::add(std::size_t end) {
  if (end > std::size_t{std::numeric_limits<std::int32_t>::max()}) throw std::length_error("too much for one column");
  ends_.push_back(static_cast<std::int32_t>(end));
}

void Strings::add(std::string_view text, bool valid) {
  bytes_.append(text);
  ends_.add(bytes_.size());
  validity_.add(valid);
}

Column Strings::take() {
  Column out{ends_.size(), {}, {}};
  out.buffers.push_back(validity_.take());
  out.buffers.emplace_back(ends_.take());
  out.buffers.emplace_back(std::move(bytes_));
  return out;
}

void Flags::add(bool flag) { add_bit(bits_, count_++, flag); }

Column Flags::take() {
  Column out{count_, {}, {}};
  out.buffers.emplace_back(std::nullopt);
  out.buffers.emplace_back(std::move(bits_));
  return out;
}

Column struct_column(std::vector<Column> children) {
  Column out{children.front().length, {}, std::move(children)};
  out.buffers.emplace_back(std::nullopt);
  return out;
}

void Spans::add(const jointledger_span& span) {
  start_.add(static_cast<std::int32_t>(span.start));  // a note is far shorter than 2^31 bytes
  end_.add(static_cast<std::int32_t>(span.end));
}

Column Spans::take() { return struct_column(taken(start_, end_)); }

void add_names(Lists<Strings>& to, const char* const* names, std::size_t count) {
  to.add(std::span(names, count), [](Strings& items, const char* name) { items.add(name); });
}

void add_motions(Lists<Strings>& to, std::uint32_t motions) {
  std::vector<int> named;
  for (int motion = 0; motion < std::numeric_limits<std::uint32_t>::digits; ++motion) {
    if (((motions >> motion) & 1U) != 0) named.push_back(motion);
  }
  to.add(named, [](Strings& items, int motion) { items.add(jointledger_motion_name(motion)); });
}

void add_spans(Lists<Spans>& to, const jointledger_span* spans, std::size_t count) {
  to.add(std::span(spans, count), [](Spans& items, const jointledger_span& span) { items.add(span); });
}

double rounded(double share, int places) {
  const double scale = std::pow(10.0, places);
  return std::round(share * scale) / scale;
}

}  // namespace jointledger::python
