#include "intake/metadata.h"

#include <algorithm>

#include "intake/json_string.h"
#include "text/utf8.h"

namespace jointledger {
void Metadata::add_string(std::string_view key, std::string_view value) { append_json_string(value, fresh(key).json); }

void Metadata::add_json(std::string_view key, std::string_view json) { fresh(key).json = json; }

void Metadata::add_shared(std::string_view key, std::string_view value) {
  if (value.empty() || first_invalid_utf8(value)) return;
  const auto end = owned_.begin() + static_cast<std::ptrdiff_t>(size_);
  if (std::find_if(owned_.begin(), end, [&](const Owned& o) { return o.key == key; }) == end) add_string(key, value);
}

bool Metadata::has_twins() {
  // Sorted, since a hostile record may have a million keys.
  keys_.clear();
  for (std::size_t i = 0; i < size_; ++i) keys_.push_back(owned_[i].key);
  std::ranges::sort(keys_);
  return std::ranges::adjacent_find(keys_) != keys_.end();
}

std::span<const Member> Metadata::members() {
  members_.clear();
  for (std::size_t i = 0; i < size_; ++i) members_.push_back({owned_[i].key, owned_[i].json});
  return members_;
}

Metadata::Owned& Metadata::fresh(std::string_view key) {
  if (size_ == owned_.size()) owned_.emplace_back();
  Owned& member = owned_[size_++];
  member.key = key;
  member.json.clear();
  return member;
}

}  // namespace jointledger
