// Cutting inputs into records, and finding the place where a run goes on.
#include "batch/record_feed.h"

#include "batch/checksum.h"
#include "folder.h"

namespace jointledger {
namespace {

const Format& kLines = *format_named("ndjson");

class Feed : public testing::FilesTest {
 protected:
  /// "notes.ndjson:2 {...}" for each record, "again ..." and "strange" as marked; faults with their reason.
  std::vector<std::string> fed(FeedOptions options) {
    RecordFeed feed(std::move(options));
    std::vector<std::string> all;
    RecordJob job;
    while (feed.next(job)) {
      std::string words = job.again ? "again " : "";
      if (job.strange) {
        words = "strange";
      } else if (job.fault) {
        words += job.fault->reason;
      } else {
        words += std::to_string(job.number) + " " + job.record.bytes;
      }
      all.push_back(words);
      sums_.push_back(job.input_sum);
    }
    return all;
  }
  FeedOptions two_files() {
    return {
        {file("a.ndjson", "one\ntwo\n"), file("b.ndjson", "three"), file("c.ndjson", "four\n\n")}, {}, kLines, {}, {}};
  }
  std::vector<std::uint32_t> sums_;
};

using Strings = std::vector<std::string>;

TEST_F(Feed, CutsEachInputByItsFormat) {
  EXPECT_EQ(fed(two_files()), (Strings{"0 one", "1 two", "2 three", "3 four", "4 "}));
  // The checksum is that of the names of the inputs and their records, as lines.
  std::uint32_t sum = 0;
  for (const std::string& line : {path("a.ndjson"), std::string("one"), std::string("two")}) sum = checksum(line, sum);
  EXPECT_EQ(sums_[1], sum);
  EXPECT_EQ(sums_[2], checksum("three", checksum(path("b.ndjson"), sum)));
}

TEST_F(Feed, GoesOnWhereARunStood) {
  fed(two_files());
  FeedOptions options = two_files();
  options.resume = {2, sums_[1], 1};
  EXPECT_EQ(fed(options), (Strings{"again 1 two", "2 three", "3 four", "4 "}));
  options.resume = {2, sums_[1], 2};
  EXPECT_EQ(fed(options), (Strings{"2 three", "3 four", "4 "}));
  options.resume = {5, sums_[4], 5};
  EXPECT_EQ(fed(options), Strings{});
}

TEST_F(Feed, StopsWhereTheInputIsAnother) {
  fed(two_files());
  FeedOptions options = two_files();
  options.resume = {2, sums_[1] + 1, 1};
  EXPECT_EQ(fed(options), (Strings{"again 1 two", "strange"}));
  options.resume = {6, sums_[4], 6};
  EXPECT_EQ(fed(options), Strings{"strange"}) << "it has become shorter";
  FeedOptions turned = two_files();
  std::swap(turned.inputs[0], turned.inputs[1]);
  turned.resume = {3, sums_[2], 3};
  EXPECT_EQ(fed(turned), Strings{"strange"}) << "the same records in another order";
}

TEST_F(Feed, NamesInputsThatCannotBeHad) {
  const FeedOptions options{{path("gone"), file("a.ndjson", "one"), path("x*")}, {}, kLines, {}, {}};
  EXPECT_EQ(fed(options), (Strings{"cannot be opened: No such file or directory", "1 one", "no file matches"}));
}

TEST_F(Feed, KnowsWhereARecordLiesThatWasPassedOver) {
  const std::string name = file("a.ndjson", "one\n" + std::string(kLongestRecord + 1, 'x') + "\ntwo\n");
  RecordFeed feed({{name}, {}, kLines, {}, {}});
  RecordJob job;
  ASSERT_TRUE(feed.next(job));
  EXPECT_FALSE(job.passed_over);
  ASSERT_TRUE(feed.next(job));
  ASSERT_TRUE(job.fault);
  ASSERT_TRUE(job.passed_over);
  EXPECT_EQ(job.passed_over->from, 4U);
  EXPECT_EQ(job.passed_over->to, 4 + kLongestRecord + 2);
  ASSERT_TRUE(feed.next(job));
  EXPECT_FALSE(job.fault);
  EXPECT_FALSE(job.passed_over);
  EXPECT_EQ(job.record.bytes, "two");
  EXPECT_EQ(job.record.place.line, 3U);
  EXPECT_FALSE(feed.next(job));
}

}  // namespace
}  // namespace jointledger
