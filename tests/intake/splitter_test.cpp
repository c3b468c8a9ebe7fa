// Cutting inputs into records: lines and wholes, limits, places, inputs that fail half way.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "intake/line_splitter.h"
#include "intake/whole_splitter.h"
#include "streams.h"

namespace jointledger {
namespace {

using testing::stream_of;

struct Cut {
  std::vector<std::string> records;
  std::vector<Place> places;
  std::vector<RecordFault> faults;
};

Cut all_of(Splitter& splitter) {
  Cut cut;
  Record record;
  record.input = "in";
  while (true) {
    const Split split = splitter.next(record);
    if (std::holds_alternative<EndOfInput>(split)) return cut;
    if (const auto* fault = std::get_if<RecordFault>(&split)) {
      cut.faults.push_back(*fault);
    } else {
      EXPECT_GE(record.bytes.capacity(), record.bytes.size() + kRecordPadding);
      cut.records.push_back(record.bytes);
      cut.places.push_back(record.place);
    }
  }
}

using Strings = std::vector<std::string>;

TEST(LineSplitter, CutsAtLineBreaksOfBothKinds) {
  const Cut cut = all_of(*split_into_lines(stream_of("one\ntwo\r\n\nfour\n")));
  EXPECT_EQ(cut.records, (Strings{"one", "two", "", "four"}));
  EXPECT_EQ(cut.places, (std::vector<Place>{{1, 0}, {2, 4}, {3, 9}, {4, 10}}));
}

TEST(LineSplitter, LastLineNeedsNoEnd) {
  EXPECT_EQ(all_of(*split_into_lines(stream_of("a\nb"))).records, (Strings{"a", "b"}));
  EXPECT_EQ(all_of(*split_into_lines(stream_of(""))).records, Strings{});
  EXPECT_EQ(all_of(*split_into_lines(stream_of("\n"))).records, Strings{""});
}

TEST(LineSplitter, PiecesOfAnySizeGiveTheSameLines) {
  const std::string text = "first line\nsecond, longer line\r\n\nx\nlast";
  const Strings expected{"first line", "second, longer line", "", "x", "last"};
  for (std::size_t piece = 1; piece < 50; ++piece) {
    EXPECT_EQ(all_of(*split_into_lines(stream_of(text, piece))).records, expected) << piece;
  }
}

TEST(LineSplitter, PassesOverALineThatIsTooLong) {
  const Cut cut = all_of(*split_into_lines(stream_of("ok\n0123456789A\n0123456789\nend"), 10));
  EXPECT_EQ(cut.records, (Strings{"ok", "0123456789", "end"}));
  EXPECT_EQ(cut.places.back(), (Place{4, 26}));
  ASSERT_EQ(cut.faults.size(), 1U);
  EXPECT_EQ(cut.faults[0].record, "in:2");
  EXPECT_EQ(cut.faults[0].place, (Place{2, 3}));
  EXPECT_EQ(cut.faults[0].reason, "the line is longer than 10 bytes, the most that is read");
}

TEST(LineSplitter, KeepsNulBytes) {
  const std::string text("a\0b\nc", 5);
  EXPECT_EQ(all_of(*split_into_lines(stream_of(text))).records, (Strings{std::string("a\0b", 3), "c"}));
}

TEST(LineSplitter, SaysWhereAnInputFailed) {
  const Cut cut = all_of(*split_into_lines(stream_of("whole\nhal", 4, "Input/output error")));
  EXPECT_EQ(cut.records, Strings{"whole"});
  ASSERT_EQ(cut.faults.size(), 1U);
  EXPECT_EQ(cut.faults[0].record, "in:2");
  EXPECT_EQ(cut.faults[0].place, (Place{2, 9}));
  EXPECT_EQ(cut.faults[0].reason, "cannot be read: Input/output error");
}

TEST(WholeSplitter, IsOneRecordAnInput) {
  EXPECT_EQ(all_of(*take_whole(stream_of("one\ntwo\r\n"))).records, Strings{"one\ntwo\r\n"});
  EXPECT_EQ(all_of(*take_whole(stream_of(""))).records, Strings{""});
  const std::string longer(100'000, 'x');
  EXPECT_EQ(all_of(*take_whole(stream_of(longer, 4096))).records, Strings{longer});
}

TEST(WholeSplitter, RefusesWhatIsTooLong) {
  EXPECT_EQ(all_of(*take_whole(stream_of("0123456789"), 10)).records, Strings{"0123456789"});
  const Cut cut = all_of(*take_whole(stream_of("0123456789A"), 10));
  EXPECT_TRUE(cut.records.empty());
  ASSERT_EQ(cut.faults.size(), 1U);
  EXPECT_EQ(cut.faults[0].record, "in");
  EXPECT_EQ(cut.faults[0].reason, "the file is longer than 10 bytes, the most that is read");
}

TEST(WholeSplitter, HalfAFileIsNoRecord) {
  const Cut cut = all_of(*take_whole(stream_of("half", 4, "Is a directory")));
  EXPECT_TRUE(cut.records.empty());
  ASSERT_EQ(cut.faults.size(), 1U);
  EXPECT_EQ(cut.faults[0].reason, "cannot be read: Is a directory");
}

}  // namespace
}  // namespace jointledger
