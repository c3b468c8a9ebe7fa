// Checkpoints come back as they were, or not at all.
#include "batch/checkpoint.h"

#include "batch/checksum.h"
#include "folder.h"

namespace jointledger {
namespace {

using Loaded = std::variant<std::optional<Checkpoint>, std::string>;

class Checkpoints : public testing::FilesTest {};

Checkpoint example() {
  Checkpoint checkpoint;
  checkpoint.run = {1, 2, 3, 4, 0xFFFFFFFFU};
  checkpoint.records = 1'000'000'000'000U;
  checkpoint.input_sum = 6;
  checkpoint.remembered_from = 7;
  checkpoint.output_bytes = 8;
  checkpoint.set_aside_bytes = 9;
  checkpoint.counts = {10, 11, 12, 13, 14, true};
  checkpoint.tally.notes = 15;
  checkpoint.tally.score = 16;
  checkpoint.tally.expectations = {{17, 18}, {19, 20}};
  checkpoint.tally.last_date = 20'310'304;
  checkpoint.finished = true;
  return checkpoint;
}

TEST_F(Checkpoints, ComeBackAsTheyWere) {
  EXPECT_FALSE(save(example(), path("a")));
  EXPECT_EQ(load_checkpoint(path("a")), Loaded(example()));
  EXPECT_FALSE(save({}, path("a")));
  EXPECT_EQ(load_checkpoint(path("a")), Loaded(Checkpoint{}));
}

TEST_F(Checkpoints, ThatAreNotThereAreNone) { EXPECT_EQ(load_checkpoint(path("a")), Loaded(std::nullopt)); }

TEST_F(Checkpoints, DamagedInAnyPlaceAreRefused) {
  EXPECT_FALSE(save(example(), path("a")));
  const std::string whole = contents("a");
  for (std::size_t length = 0; length + 2 < whole.size(); ++length) {
    EXPECT_EQ(load_checkpoint(file("b", whole.substr(0, length))), Loaded("is damaged")) << length;
  }
  std::string without = whole;
  without.replace(without.find("remembered"), 10, "forgotten_");
  EXPECT_EQ(load_checkpoint(file("b", without)), Loaded("is damaged"));
  EXPECT_EQ(load_checkpoint(file("b", "[]")), Loaded("is damaged"));
  EXPECT_EQ(load_checkpoint(file("b", "{\"version\":2}")), Loaded("was written by another version"));
}

TEST_F(Checkpoints, ThatCannotBeSavedLeaveTheOldOne) {
  EXPECT_FALSE(save(example(), path("a")));
  std::filesystem::create_directory(path("a.new"));  // in the way
  EXPECT_TRUE(save({}, path("a")));
  EXPECT_EQ(load_checkpoint(path("a")), Loaded(example()));
}

TEST(RunMarks, SayWhatIsDifferent) {
  const RunMark mark{1, 2, 3, 4, 5};
  EXPECT_EQ(difference(mark, mark), "");
  EXPECT_EQ(difference(mark, {9, 2, 3, 4, 5}), "another build of the program");
  EXPECT_EQ(difference(mark, {1, 9, 3, 4, 5}), "other options");
  EXPECT_EQ(difference(mark, {1, 2, 9, 4, 5}), "other inputs");
  EXPECT_EQ(difference(mark, {1, 2, 3, 9, 5}), "another lexicon");
  EXPECT_EQ(difference(mark, {1, 2, 3, 4, 9}), "other rules");
}

TEST(Checksums, AreThoseOfTheLines) {
  // printf '123456789\n' | gzip -c | tail -c8 | od -An -tx4 -N4, with gzip 1.12.
  EXPECT_EQ(checksum("123456789"), 0xE0117757U);
  EXPECT_NE(checksum("b", checksum("a")), checksum("ab"));
  EXPECT_EQ(checksum("b", checksum("a")), checksum("a\nb"));
}

}  // namespace
}  // namespace jointledger
