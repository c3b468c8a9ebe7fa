// The members of a note, of formats whose own are not JSON or lie about in it.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "intake/note.h"

namespace jointledger {

/// What the source knows of a note under names that all formats share; what reads notes may ask for these.
inline constexpr std::string_view kAuthorKey = "author";
inline constexpr std::string_view kPatientKey = "patient";
inline constexpr std::string_view kDateKey = "date";

/// Owns keys and values. Used again, it allocates little. Not thread-safe.
class Metadata {
 public:
  void clear() { size_ = 0; }

  /// A string, which must be UTF-8. The caller answers for it that no key comes twice.
  void add_string(std::string_view key, std::string_view value);
  /// One valid JSON value on one line; the same holds for the key.
  void add_json(std::string_view key, std::string_view json);
  /// What the source has under a name of its own, under a name that all formats share. Nothing is added where the
  /// value is empty or not UTF-8, or the source has that key itself.
  void add_shared(std::string_view key, std::string_view value);

  /// Whether a key stands in it twice.
  bool has_twins();
  /// Holds until the next change.
  std::span<const Member> members();

 private:
  struct Owned {
    std::string key;
    std::string json;
  };
  Owned& fresh(std::string_view key);

  std::vector<Owned> owned_;
  std::size_t size_ = 0;
  std::vector<Member> members_;
  std::vector<std::string_view> keys_;
};

}  // namespace jointledger
