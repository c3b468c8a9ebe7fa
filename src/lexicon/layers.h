// What holds where several folders of tables give the same thing, and from where it comes.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointledger {

/// A row of a table.
struct TablePlace {
  std::string file;
  std::uint32_t line = 0;  ///< counts from 1
};

/// A phrase, weight, range or pattern that an earlier folder gives, and a later one gives otherwise.
struct LexiconOverride {
  std::string what;     ///< the phrase as the replaced row writes it; of other tables the cells that name the row
  TablePlace holds;     ///< in the later folder
  TablePlace replaced;  ///< in the earlier one
};

/// Keeps book while folders are loaded from the last to the first, so that what was there first stays.
/// Not thread-safe.
class LayerBook {
 public:
  enum class Claim : std::uint8_t {
    fresh,       ///< nothing had it before
    repeated,    ///< an earlier row of the same folder has it
    overridden,  ///< a later folder has it, which is noted
  };

  /// Begins the next folder.
  void next_folder() { ++folder_; }

  /// Notes where a value of a table comes from. A value has one place; the first one counts.
  void place(const void* table, std::uint32_t value, TablePlace place) {
    places_.try_emplace({table, value}, Row{folder_, std::move(place)});
  }
  /// Whose it is, of `what` at `place`, that `value` had before: overridden or repeated.
  Claim clash(const void* table, std::uint32_t value, std::string_view what, const TablePlace& place);

  /// Claims what has no value to go by: `key` is the table and the cells that name the row.
  Claim claim(const std::string& key, std::string_view what, TablePlace place);

  /// By file and line of the replaced rows.
  std::vector<LexiconOverride> take_overrides();

 private:
  struct Row {
    int folder = 0;
    TablePlace place;
  };
  Claim settle(const Row& earlier, std::string_view what, const TablePlace& place);

  int folder_ = 0;
  std::map<std::pair<const void*, std::uint32_t>, Row> places_;
  std::map<std::string, Row> claims_;
  std::vector<LexiconOverride> overrides_;
};

}  // namespace jointledger
