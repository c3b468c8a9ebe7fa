#include "cells.h"

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace jointledger::testing {
namespace {

void put(Cells& cells, Cell cell, const CellValue& value) {
  if (cell.side == Side::both) {
    for (const Side side : {Side::left, Side::right}) cells[{cell.region, cell.component, side}] = value;
  } else {
    cells[cell] = value;
  }
}

std::vector<std::string> split(std::string_view text, char at) {
  std::vector<std::string> parts;
  std::istringstream in{std::string(text)};
  for (std::string part; std::getline(in, part, at);) parts.push_back(part);
  return parts;
}

void read_entry(const std::string& written, Cells& cells) {
  const auto refuse = [&] { return std::invalid_argument("'" + written + "' is no entry"); };
  std::istringstream words(written);
  std::string region;
  std::string component;
  std::string side;
  std::string outcome;
  std::string motions;
  words >> region >> component >> side >> outcome >> motions;
  const auto r = region_named(region);
  const auto c = component_named(component);
  const auto s = side_named(side);
  const auto o = outcome_named(outcome);
  if (!r || !c || !s || !o) throw refuse();
  CellValue value{*o, {}};
  if (!motions.empty()) {
    if (motions.size() < 3 || motions.front() != '[' || motions.back() != ']') throw refuse();
    for (const std::string& name : split(std::string_view(motions).substr(1, motions.size() - 2), ',')) {
      const auto motion = motion_named(name);
      if (!motion) throw refuse();
      value.motions.insert(*motion);
    }
  }
  put(cells, {*r, *c, *s}, value);
}

std::string motions_of(const MotionSet& set) {
  std::vector<std::string_view> names;
  for (const std::string_view name : motion_names()) {
    if (set.contains(*motion_named(name))) names.push_back(name);
  }
  if (names.empty()) return {};
  std::ranges::sort(names);
  std::string text = " [";
  for (const std::string_view name : names) text.append(text.size() > 2 ? "," : "").append(name);
  return text + "]";
}

}  // namespace

Cells cells_of(const Ledger& ledger) {
  Cells cells;
  for (const Entry& e : ledger.entries) put(cells, {e.region, e.component, e.side}, {e.outcome, e.motions});
  return cells;
}

Cells cells_of(std::string_view written) {
  Cells cells;
  for (const std::string& entry : split(written, ';')) read_entry(entry, cells);
  return cells;
}

std::vector<std::string> lines_of(const Cells& cells) {
  std::vector<std::string> lines;
  for (const auto& [cell, value] : cells) {
    const auto twin_of = [&, &at = cell, &said = value](Side side) {
      const auto found = cells.find({at.region, at.component, side});
      return found != cells.end() && found->second == said;
    };
    if (cell.side == Side::right && twin_of(Side::left)) continue;
    const Side side = cell.side == Side::left && twin_of(Side::right) ? Side::both : cell.side;
    std::string line;
    line.append(name(cell.region)).append(" ").append(name(cell.component)).append(" ").append(name(side));
    line.append(" ").append(name(value.outcome)).append(motions_of(value.motions));
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string text_of(const Cells& cells) {
  std::string text;
  for (const std::string& line : lines_of(cells)) text.append(text.empty() ? "" : "; ").append(line);
  return text.empty() ? "-" : text;
}

std::string difference(const Cells& expected, const Cells& read) {
  const auto lines = lines_of(expected);
  const auto read_lines = lines_of(read);
  std::string text;
  const auto add = [&](std::string_view verb, const std::vector<std::string>& of,
                       const std::vector<std::string>& other) {
    for (const std::string& line : of) {
      if (std::ranges::find(other, line) != other.end()) continue;
      text.append(text.empty() ? "" : "; ").append(verb).append(line);
    }
  };
  add("lacks ", lines, read_lines);
  add("adds ", read_lines, lines);
  return text;
}

}  // namespace jointledger::testing
