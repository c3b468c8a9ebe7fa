#include "report/text_report.h"

#include <algorithm>
#include <cmath>

#include "audit/prompt.h"
#include "report/grade_text.h"
#include "report/notice.h"
#include "report/paint.h"
#include "report/plain_text.h"
#include "report/text_grid.h"

namespace jointledger {
namespace {

/// More of the note than this is not quoted in one place; the evidence tells where the rest is.
constexpr std::size_t kLongestQuote = 150;

std::string capitalised(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 32);
  return text;
}

/// Whether what stands between two pieces of evidence is short and of the same sentence, so that it reads better to
/// quote it than to leave it out.
bool joins(std::string_view between) {
  constexpr std::size_t kLongest = 40;
  return between.size() <= kLongest && between.find_first_of("\r\n") == std::string_view::npos &&
         between.find(". ") == std::string_view::npos;
}

/// The words of the note at these places, which ascend, in quotation marks.
template <class Spans>
std::string quoted(const Note& note, const Spans& spans) {
  std::string words;
  Span piece;
  const auto put = [&] {
    if (!words.empty()) words.append(" ... ");
    words.append(on_one_line(note.text.substr(piece.start, piece.end - piece.start)));
  };
  for (const Span& span : spans) {
    const bool follows = piece.end > 0 && span.start >= piece.end;
    if (follows && joins(note.text.substr(piece.end, span.start - piece.end))) {
      piece.end = span.end;
    } else if (piece.end > 0 && span.start < piece.end) {
      piece.end = std::max(piece.end, span.end);
    } else {
      if (piece.end > 0) put();
      piece = span;
    }
  }
  if (piece.end > 0) put();
  return '"' + cut_to_width(std::move(words), kLongestQuote) + '"';
}

void append_heading(const Note& note, bool colour, std::string& out) {
  const std::string id = cut_to_width(on_one_line(note.id), kLineWidth);
  append_painted(id, Paint::strong, colour, out);
  out.append("\n").append(width_of(id), '=').append("\n");
}

void append_complaints(const Ledger& ledger, std::string& out) {
  if (ledger.complaints.empty()) return;
  std::string list;
  for (const Complaint& complaint : ledger.complaints) {
    if (!list.empty()) list.append(", ");
    list.append(place(complaint.region, complaint.side));
    if (complaint.injury) list.append(" (injury)");
  }
  append_wrapped(list, "Complaint: ", "  ", out);
}

std::string_view in_words(Outcome outcome) {
  switch (outcome) {
    case Outcome::not_done:
      return "not done";
    case Outcome::stated:
      return "no result given";
    case Outcome::normal:
      return "normal";
    case Outcome::abnormal:
      break;
  }
  return "abnormal";
}

/// Remarks such as "left hip: normal" stand in no cell, but whoever audits wants to see them.
void append_blanket_remarks(const ReportItem& item, std::string& out) {
  bool first = true;
  for (const Entry& entry : item.ledger.entries) {
    if (entry.component != Component::unspecified) continue;
    if (first) out.append("\nBlanket remarks, which name no part of the exam\n");
    first = false;
    std::string line = place(entry.region, entry.side);
    line.append(": ").append(in_words(entry.outcome)).append(" ").append(quoted(item.note, entry.evidence));
    append_wrapped(line, "  ", "      ", out);
  }
}

std::string degrees_text(const Degrees& degrees) {
  std::string text(degrees.motion ? phrase(*degrees.motion) : "range");
  if (degrees.lacking) text.append(" lacking");
  text.append(" ");
  if (degrees.from) text.append(std::to_string(*degrees.from)).append(" to ");
  return text.append(std::to_string(degrees.to)).append(" degrees");
}

std::string details(const Entry& entry) {
  std::string text;
  const auto add = [&](std::string_view what) { text.append(text.empty() ? "" : ", ").append(what); };
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    const auto motion = static_cast<Motion>(i);
    const bool measured = std::ranges::any_of(entry.degrees, [&](const Degrees& d) { return d.motion == motion; });
    if (entry.motions.contains(motion) && !measured) add(phrase(motion));
  }
  for (const Degrees& d : entry.degrees) add(degrees_text(d));
  for (const Grade& g : entry.grades) add("grade " + grade_text(g));
  return text;
}

void append_findings(const ReportItem& item, bool colour, std::string& out) {
  const Entry* last = nullptr;
  for (const Entry& entry : item.ledger.entries) {
    if (entry.component == Component::unspecified) continue;
    if (last == nullptr || last->region != entry.region) {
      out.append("\n");
      append_painted(capitalised(place(entry.region, Side::unstated)), Paint::strong, colour, out);
      out.append("\n");
    }
    last = &entry;
    std::string line(phrase(entry.component));
    if (entry.side == Side::left || entry.side == Side::right || entry.side == Side::both) {
      line.append(" ").append(name(entry.side));
    }
    line.append(": ").append(in_words(entry.outcome));
    if (const std::string more = details(entry); !more.empty()) line.append(" (").append(more).append(")");
    append_wrapped(line + " " + quoted(item.note, entry.evidence), "  ", "      ", out);
  }
}

std::string plural(std::size_t count, std::string_view what) {
  return std::to_string(count).append(" ").append(what).append(count == 1 ? "" : "s");
}

std::size_t count_of(const Audit& audit, Kind kind) {
  return static_cast<std::size_t>(
      std::ranges::count_if(audit.gaps, [&](const Gap& gap) { return gap.expectation->kind == kind; }));
}

void append_score(const Audit& audit, std::string& out) {
  if (audit.applicable == 0) {
    out.append("Nothing that this profile asks for applies to this note.\n");
    return;
  }
  const std::string line = "Score " + std::to_string(std::lround(audit.score * 100)) +
                           " %: " + std::to_string(audit.met) + " of " + plural(audit.applicable, "expectation") +
                           " met, " + plural(count_of(audit, Kind::required), "required gap") + ", " +
                           std::to_string(count_of(audit, Kind::advised)) + " advised";
  append_wrapped(line, "", "  ", out);
}

std::string number_label(std::size_t number) {
  const std::string digits = std::to_string(number);
  return std::string(digits.size() < 3 ? 3 - digits.size() : 0, ' ').append(digits).append(". ");
}

void append_gaps(const ReportItem& item, Kind kind, bool colour, std::string& out) {
  const std::size_t count = count_of(*item.audit, kind);
  if (count == 0) return;
  out.append("\n");
  append_painted(kind == Kind::required ? "Required, and missing" : "Advised, and missing", Paint::strong, colour, out);
  out.append("\n");
  std::size_t number = 0;
  for (const Gap& gap : item.audit->gaps) {
    if (gap.expectation->kind != kind) continue;
    append_wrapped(gap.prompt, number_label(++number), "     ", out);
    std::string reason = "[" + gap.expectation->id + "] " + std::string(phrase(gap.reason));
    if (!gap.nearest.empty()) reason.append("; nearest: ").append(quoted(item.note, gap.nearest));
    append_wrapped(reason, "     ", "       ", out);
  }
}

void append_inconsistencies(const ReportItem& item, bool colour, std::string& out) {
  if (item.audit->inconsistencies.empty()) return;
  out.append("\n");
  append_painted("Does not hold together", Paint::strong, colour, out);
  out.append("\n");
  std::size_t number = 0;
  for (const Inconsistency& found : item.audit->inconsistencies) {
    append_wrapped(on_one_line(found.message), number_label(++number), "     ", out);
    std::string where("[");
    where.append(name(found.check)).append("] ").append(quoted(item.note, found.first));
    if (!found.second.empty()) where.append(" against ").append(quoted(item.note, found.second));
    append_wrapped(where, "     ", "       ", out);
  }
}

/// One entry in a line: what, where, and the words for it.
std::string in_one_line(const Note& note, const Entry& entry) {
  std::string line = capitalised(place(entry.region, entry.side));
  line.append(", ").append(phrase(entry.component)).append(": ").append(in_words(entry.outcome));
  return line.append(" ").append(quoted(note, entry.evidence));
}

void append_doubtful(const ReportItem& item, bool colour, std::string& out) {
  if (item.audit->doubtful.empty()) return;
  out.append("\n");
  append_painted("Read with doubt, and left out of the score: for a person to look at", Paint::strong, colour, out);
  out.append("\n");
  for (const std::uint32_t i : item.audit->doubtful) {
    const Entry& entry = item.ledger.entries[i];
    const std::string certainty = std::to_string(std::lround(entry.certainty * 100.0F)) + " %  ";
    append_wrapped(in_one_line(item.note, entry), "  " + certainty, "        ", out);
  }
}

}  // namespace

void open_text(const ReportRun& run, std::string& out) {
  if (run.profile != nullptr)
    append_wrapped("Audit against " + run.profile->name + ": " + run.profile->title, "", "  ", out);
  append_key(run.profile != nullptr, out);
  out.append("\n");
}

void add_text(const ReportRun& run, const ReportItem& item, std::string& out) {
  append_heading(item.note, run.colour, out);
  append_complaints(item.ledger, out);
  if (item.audit != nullptr) append_score(*item.audit, out);
  const std::vector<GridRow> grid = grid_of(item.ledger, item.audit);
  out.append("\n");
  if (grid.empty()) {
    out.append("No musculoskeletal examination found in this note.\n");
  } else {
    append_grid(grid, run.colour, out);
  }
  append_blanket_remarks(item, out);
  if (item.audit == nullptr) {
    append_findings(item, run.colour, out);
  } else {
    append_gaps(item, Kind::required, run.colour, out);
    append_gaps(item, Kind::advised, run.colour, out);
    append_inconsistencies(item, run.colour, out);
    append_doubtful(item, run.colour, out);
  }
}

void close_text(const ReportRun& run, const ReportTally& tally, std::string& out) {
  if (run.profile == nullptr || tally.notes == 0) return;
  out.append("\n");
  append_wrapped(kNotice, "", "", out);
  if (!run.profile->caution.empty()) append_wrapped(run.profile->caution, "", "", out);
}

}  // namespace jointledger
