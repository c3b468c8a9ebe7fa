// What holds for all formats: found by name, the same bytes for the same notes, on however many threads.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <deque>
#include <string>
#include <thread>
#include <vector>

#include "report/report.h"
#include "written.h"

namespace jointledger {
namespace {

using testing::Example;
using testing::written;

TEST(Formats, AreFoundByName) {
  for (const ReportFormat& format : report_formats()) EXPECT_EQ(report_format_named(format.name)->add, format.add);
  EXPECT_EQ(report_format_named("csv2"), nullptr);
  EXPECT_EQ(report_formats().front().name, "text");
}

TEST(Formats, SameNoteSameBytes) {
  Example one;
  Example other;
  one.note.id = other.note.id = "7";
  for (const ReportFormat& format : report_formats()) {
    EXPECT_EQ(written(format, one, true), written(format, other, true)) << format.name;
  }
}

/// A note each, with what is written of it and the tally of that note alone.
struct Part {
  Example example;
  std::string id;
  std::string date;
  std::array<Member, 1> dates;
  std::string out;
  ReportTally tally;
};

void write_part(const ReportFormat& format, const ReportRun& run, Part& part) {
  const ReportItem item{part.example.note, part.example.ledger, &part.example.result};
  part.out.clear();
  part.tally = {};
  format.add(run, item, part.out);
  count(item, part.tally);
}

std::string joined(const ReportFormat& format, const ReportRun& run, const std::deque<Part>& parts, bool backwards) {
  std::vector<const ReportTally*> tallies;
  std::string out;
  format.open(run, out);
  for (const Part& part : parts) {
    if (!tallies.empty()) out.append(format.between);
    out.append(part.out);
    tallies.push_back(&part.tally);
  }
  if (backwards) std::ranges::reverse(tallies);
  ReportTally tally;
  for (const ReportTally* part : tallies) merge(*part, tally);
  format.close(run, tally, out);
  return out;
}

TEST(Formats, AnyNumberOfThreadsSameBytes) {
  constexpr int kNotes = 48;
  constexpr int kThreads = 4;
  std::deque<Part> parts(kNotes);
  for (int i = 0; i < kNotes; ++i) {
    Part& part = parts[static_cast<std::size_t>(i)];
    part.id = std::to_string(1000 + i);
    part.date = "\"2031-03-" + std::to_string(10 + i % 20) + "\"";
    part.dates = {Member{"date", part.date}};
    part.example.note.id = part.id;
    part.example.note.metadata = part.dates;
  }
  const ReportRun run{.profile = &parts.front().example.profile, .colour = false, .date = "2031-06-01"};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Audit& result = parts[i].example.result;
    result = audit(*run.profile, parts[i].example.ledger);  // all of the one profile of the run
    if (i % 3 == 0) result.gaps.clear();
    if (i % 5 == 0) result.applicable = 0;
  }
  for (const ReportFormat& format : report_formats()) {
    for (Part& part : parts) write_part(format, run, part);
    const std::string alone = joined(format, run, parts, false);
    std::vector<std::jthread> threads;
    for (std::size_t n = 0; n < kThreads; ++n) {
      threads.emplace_back([&, n] {
        for (std::size_t i = n; i < parts.size(); i += kThreads) write_part(format, run, parts[i]);
      });
    }
    threads.clear();
    EXPECT_EQ(joined(format, run, parts, true), alone) << format.name;
  }
}

}  // namespace
}  // namespace jointledger
