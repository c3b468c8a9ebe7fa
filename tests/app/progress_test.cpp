// The words of progress.
#include "app/progress.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace jointledger {
namespace {

using nlohmann::json;

Pace example() {
  Pace pace;
  pace.counts = {.read = 1'234'567, .answered = 1'234'500, .set_aside = 67, .with_gaps = 617'250, .bytes = 600'000'000};
  pace.before = {.read = 1'000'000, .answered = 1'000'000, .bytes = 100'000'000};
  pace.seconds = 50;
  pace.bytes_total = 1'220'000'000;
  return pace;
}

TEST(Progress, IsALineForAPerson) {
  EXPECT_EQ(progress_line(example()), "1,234,567 notes, 10.0 MB/s, 50 % with gaps, 67 set aside, 1:02 left");
  Pace long_way = example();
  long_way.bytes_total = 72'600'000'000;
  EXPECT_TRUE(progress_line(long_way).ends_with(", 2:00:00 left")) << progress_line(long_way);
  EXPECT_LE(progress_line(long_way).size(), 80U);
  Pace unknown = example();
  unknown.bytes_total = 0;
  unknown.counts.set_aside = 0;
  EXPECT_EQ(progress_line(unknown), "1,234,567 notes, 10.0 MB/s, 50 % with gaps");
  unknown.audits = false;
  EXPECT_EQ(progress_line(unknown), "1,234,567 notes, 10.0 MB/s");
  EXPECT_EQ(progress_line({}), "0 notes, 0.0 MB/s, 0 % with gaps");
}

TEST(Progress, IsAnObjectForAScheduler) {
  const json now = json::parse(progress_json(example(), -1));
  EXPECT_EQ(now, json::parse(R"({"event": "progress", "read": 1234567, "audited": 1234500, "set_aside": 67,
    "with_gaps": 617250, "share_with_gaps": 0.5, "bytes": 600000000, "seconds": 50.0, "notes_per_second": 4691.3,
    "mb_per_second": 10.0, "seconds_left": 62})"));
  Pace pace = example();
  pace.bytes_total = 0;
  EXPECT_TRUE(json::parse(progress_json(pace, -1))["seconds_left"].is_null());
  const json end = json::parse(progress_json(pace, 2));
  EXPECT_EQ(end["event"], "end");
  EXPECT_EQ(end["status"], 2);
  EXPECT_FALSE(end.contains("seconds_left"));
  pace.audits = false;
  const json read = json::parse(progress_json(pace, 0));
  EXPECT_EQ(read["written"], 1'234'500);
  EXPECT_FALSE(read.contains("share_with_gaps"));
}

TEST(Progress, NeverCountsBeyondTheEnd) {
  Pace pace = example();
  pace.bytes_total = 1;  // the inputs have grown since
  EXPECT_TRUE(progress_line(pace).ends_with(", 0:00 left")) << progress_line(pace);
}

TEST(Progress, EndsWithASummary) {
  EXPECT_EQ(summary_of({.read = 8, .answered = 7, .set_aside = 1}, true), "8 read, 7 audited, 1 set aside");
  EXPECT_EQ(summary_of({.read = 8, .answered = 8}, false), "8 read, 8 written, 0 set aside");
}

}  // namespace
}  // namespace jointledger
