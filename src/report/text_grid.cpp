#include "report/text_grid.h"

#include <algorithm>
#include <string_view>

#include "audit/prompt.h"
#include "report/paint.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::size_t kLabelWidth = 19;
constexpr std::size_t kCellGap = 3;  // between the three marks of one cell and the next

constexpr std::array<std::string_view, kGridColumns> kHeadings = {
    "Insp"sv, "Palp"sv, "ROM"sv, "Str"sv, "Stab"sv, "Test"sv, "Sens"sv, "Refl"sv, "Perf"sv, "Gait"sv,
};

struct MarkLook {
  char letter;
  Paint paint;
};
constexpr std::array<MarkLook, kMarkCount> kMarks = {{
    {' ', Paint::plain},    // none
    {'.', Paint::faint},    // silent
    {'/', Paint::notice},   // choice
    {'-', Paint::notice},   // advised
    {'_', Paint::warning},  // required
    {'x', Paint::plain},    // not_done
    {'?', Paint::plain},    // stated
    {'n', Paint::warning},  // normal_short
    {'a', Paint::warning},  // abnormal_short
    {'N', Paint::plain},    // normal
    {'A', Paint::strong},   // abnormal
}};

void append_mark(Mark mark, bool colour, std::string& out) {
  const MarkLook& look = kMarks[static_cast<std::size_t>(mark)];
  append_painted(std::string_view(&look.letter, 1), look.paint, colour, out);
}

void trim_line(std::string& out) { out.erase(out.find_last_not_of(' ') + 1).push_back('\n'); }

std::string padded(std::string_view text, std::size_t width) {
  std::string result(text);
  result.resize(std::max(width, text.size()), ' ');
  return result;
}

}  // namespace

void append_grid(std::span<const GridRow> grid, bool colour, std::string& out) {
  out.append(kLabelWidth, ' ');
  for (const std::string_view heading : kHeadings) out.append(padded(heading, 3 + kCellGap));
  trim_line(out);
  out.append(kLabelWidth, ' ');
  for (std::size_t i = 0; i < kGridColumns; ++i) {
    out.append(static_cast<Component>(i) == Component::gait ? "" : padded("L R", 3 + kCellGap));
  }
  trim_line(out);
  for (const GridRow& row : grid) {
    out.append(padded((row.complaint ? "> " : "  ") + place(row.region, Side::unstated), kLabelWidth));
    for (const GridCell& cell : row.cells) {
      append_mark(cell.left, colour, out);
      append_mark(cell.middle, colour, out);
      append_mark(cell.right, colour, out);
      out.append(kCellGap, ' ');
    }
    trim_line(out);
  }
}

void append_key(bool audited, std::string& out) {
  out.append("Left mark of a cell: left side. Right: right side. Between: midline or no side.\n");
  if (!audited) {
    out.append("N normal   A abnormal   ? no result given   x not done   . silent   > complaint\n");
    return;
  }
  out.append(
      "N normal   A abnormal   ? no result given   x not done   . silent   > complaint\n"
      "n a  documented, but short of what is asked\n"
      "_ required and missing   - advised and missing   / one of these would do\n");
}

}  // namespace jointledger
