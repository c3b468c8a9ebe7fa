// Records that were set aside come back byte for byte.
#include "batch/set_aside.h"

#include <random>

#include "folder.h"

namespace jointledger {
namespace {

std::string line_of(const RecordFault& fault, const std::string* bytes) {
  std::string line;
  append_set_aside(fault, bytes, line);
  EXPECT_TRUE(line.ends_with('\n'));
  EXPECT_EQ(line.find('\n'), line.size() - 1);
  line.pop_back();
  return line;
}

SetAside read_back(const std::string& line) {
  auto read = read_set_aside(line);
  EXPECT_TRUE(std::holds_alternative<SetAside>(read)) << line;
  return std::get<SetAside>(std::move(read));
}

const RecordFault kFault{"notes.ndjson:7 (id \"a\")", {7, 5120}, "not UTF-8"};

TEST(SetAsides, AreOneJsonObjectALine) {
  const std::string text = "{\"id\": \"\x01\"}";
  EXPECT_EQ(line_of({"n", {7, 5}, "r"}, &text),
            R"({"record":"n","line":7,"offset":5,"reason":"r","bytes":"{\"id\": \"\u0001\"}"})");
  // The test vectors of RFC 4648, section 10, have no bytes beyond ASCII; the digits are those of its table 1.
  const std::string bytes = "\xFF\xFE";
  EXPECT_EQ(line_of({"n", {}, "r"}, &bytes), R"({"record":"n","line":0,"offset":0,"reason":"r","base64":"//4="})");
  EXPECT_EQ(line_of({"n", {}, "r"}, nullptr), R"({"record":"n","line":0,"offset":0,"reason":"r","bytes":null})");
}

TEST(SetAsides, HoldAnyBytes) {
  std::mt19937 random(1);
  for (std::size_t size = 0; size < 600; ++size) {
    std::string bytes;
    const unsigned most = size % 2 == 0 ? 255 : 127;  // or else all would be base64
    for (std::size_t i = 0; i < size; ++i) bytes.push_back(static_cast<char>(random() % (most + 1)));
    const SetAside read = read_back(line_of(kFault, &bytes));
    ASSERT_EQ(read.bytes, bytes);
    ASSERT_EQ(read.fault.record, kFault.record);
    ASSERT_EQ(read.fault.place, kFault.place);
    ASSERT_EQ(read.fault.reason, kFault.reason);
  }
  EXPECT_FALSE(read_back(line_of(kFault, nullptr)).bytes);
}

TEST(SetAsides, NamesThatAreNotUtf8AreCut) {
  const std::string bytes = "x";
  EXPECT_EQ(read_back(line_of({"caf\xE9.txt", {}, "r"}, &bytes)).fault.record, "caf");
}

TEST(SetAsides, NothingElseIsTakenForOne) {
  for (const char* line : {"", "[]", "{}", R"({"record":"n","line":1,"offset":2,"reason":"r"})",
                           R"({"record":"n","line":1,"offset":2,"reason":"r","bytes":3})",
                           R"({"record":"n","line":-1,"offset":2,"reason":"r","bytes":""})",
                           R"({"record":"n","line":1,"offset":2,"reason":"r","base64":"A"})",
                           R"({"record":"n","line":1,"offset":2,"reason":"r","bytes":""} {})"}) {
    EXPECT_TRUE(std::holds_alternative<std::string>(read_set_aside(line))) << line;
  }
}

class PassedOverRecords : public testing::FilesTest {
 protected:
  static std::string again(const PassedOver& place) {
    std::string bytes;
    read_again(place, [&](std::string_view piece) { bytes.append(piece); });
    return bytes;
  }
};

TEST_F(PassedOverRecords, AreReadAgainWithoutTheirBreaks) {
  const std::string lines = file("a", "one\ntwo\r\nthree\r");
  EXPECT_EQ(again({lines, 0, 4}), "one");
  EXPECT_EQ(again({lines, 4, 9}), "two");
  EXPECT_EQ(again({lines, 9}), "three") << "as lines are read";
  EXPECT_EQ(again({lines, 9, PassedOver::kToTheEnd, false}), "three\r");
  EXPECT_EQ(again({lines, 3, 4}), "");
  EXPECT_EQ(again({path("gone"), 0, 4}), "");
  const std::string long_line(1'000'000, 'x');
  EXPECT_EQ(again({file("b", "head\n" + long_line + "\r\ntail\n"), 5, 5 + 1'000'002}), long_line);
}

TEST_F(PassedOverRecords, AreSetAsideInPieces) {
  std::string bytes;
  for (int i = 0; i < 700'001; ++i) bytes.push_back(static_cast<char>(i * 7 % 256 == 10 ? 11 : i * 7 % 256));
  const std::string name = file("a", bytes + "\n");
  std::string line;
  write_set_aside(kFault, {name, 0, bytes.size() + 1}, [&](std::string_view piece) { line.append(piece); });
  ASSERT_TRUE(line.ends_with('\n'));
  line.pop_back();
  EXPECT_EQ(read_back(line).bytes, bytes);

  std::string gone;
  write_set_aside(kFault, {path("gone"), 0, 10}, [&](std::string_view piece) { gone.append(piece); });
  gone.pop_back();
  EXPECT_FALSE(read_back(gone).bytes);
}

TEST_F(PassedOverRecords, OfPipesAreGone) {
  Record record;
  record.input = "-";
  EXPECT_FALSE(passed_over(record, nullptr));
  record.input = "/dev/null";
  EXPECT_FALSE(passed_over(record, nullptr));
  record.input = file("a", "");
  record.place = {2, 7};
  Record next;
  next.place = {3, 90};
  ASSERT_TRUE(passed_over(record, &next));
  EXPECT_EQ(passed_over(record, &next)->from, 7U);
  EXPECT_EQ(passed_over(record, &next)->to, 90U);
  EXPECT_EQ(passed_over(record, nullptr)->to, PassedOver::kToTheEnd);
}

}  // namespace
}  // namespace jointledger
