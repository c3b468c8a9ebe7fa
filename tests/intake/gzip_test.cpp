// gzip (RFC 1952), made by zlib's own compressor; tests/outside/ has data of Python's.
#include <gtest/gtest.h>
#include <zlib.h>

#include <string>

#include "intake/gzip_stream.h"
#include "streams.h"

namespace jointledger {
namespace {

using testing::stream_of;

std::string gzip(const std::string& bytes, int level = 6) {
  z_stream state = {};
  deflateInit2(&state, level, Z_DEFLATED, 16 + MAX_WBITS, 8, Z_DEFAULT_STRATEGY);
  std::string out(deflateBound(&state, bytes.size()) + 32, '\0');
  std::string in = bytes;
  state.next_in = reinterpret_cast<Bytef*>(in.data());
  state.avail_in = static_cast<uInt>(in.size());
  state.next_out = reinterpret_cast<Bytef*>(out.data());
  state.avail_out = static_cast<uInt>(out.size());
  EXPECT_EQ(deflate(&state, Z_FINISH), Z_STREAM_END);
  out.resize(state.total_out);
  deflateEnd(&state);
  return out;
}

struct Read {
  std::string bytes;
  std::string trouble;
};

Read read_all(std::string bytes, std::size_t piece, std::size_t room) {
  const auto stream = without_gzip(stream_of(std::move(bytes), piece));
  Read read;
  std::string out(room, '\0');
  while (true) {
    const auto result = stream->read(out);
    if (const auto* trouble = std::get_if<std::string>(&result)) {
      read.trouble = *trouble;
      return read;
    }
    const std::size_t count = std::get<std::size_t>(result);
    if (count == 0) return read;
    read.bytes.append(out, 0, count);
  }
}

TEST(Gzip, IsTakenOffWhateverThePieces) {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += "line " + std::to_string(i) + "\n";
  for (const std::size_t piece : {1U, 2U, 7U, 100'000U}) {
    for (const std::size_t room : {1U, 2U, 65'536U}) {
      const Read read = read_all(gzip(text), piece, room);
      EXPECT_EQ(read.trouble, "");
      EXPECT_EQ(read.bytes == text, true) << piece << " " << room;
    }
  }
}

TEST(Gzip, MembersOnEndAreOneStream) {
  // RFC 1952, section 2.2; gzip(1) passes over zeros behind the last.
  EXPECT_EQ(read_all(gzip("one ") + gzip("two") + std::string(600, '\0'), 7, 100).bytes, "one two");
  EXPECT_EQ(read_all(gzip(""), 7, 100).bytes, "");
}

TEST(Gzip, OtherBytesPassThrough) {
  EXPECT_EQ(read_all("knee", 1, 100).bytes, "knee");
  EXPECT_EQ(read_all("", 1, 100).bytes, "");
}

TEST(Gzip, DamagedDataIsNamed) {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += "line " + std::to_string(i * 7919) + "\n";
  const std::string whole = gzip(text);
  const Read cut = read_all(whole.substr(0, whole.size() / 2), 100, 100);
  EXPECT_EQ(cut.trouble, "the gzip data ends before it is complete");
  EXPECT_EQ(text.substr(0, cut.bytes.size()), cut.bytes);
  EXPECT_EQ(read_all("\x1f", 1, 100).trouble, "the gzip data ends before it is complete");
  std::string flipped = whole;
  flipped[flipped.size() - 6] = static_cast<char>(flipped[flipped.size() - 6] ^ 1);  // in the CRC-32
  EXPECT_EQ(read_all(flipped, 100, 100).trouble, "the gzip data is damaged");
  EXPECT_EQ(read_all(whole + "x", 100, 100).trouble, "the gzip data ends before it is complete");
  EXPECT_EQ(read_all(whole + "xyz", 100, 100).trouble, "the gzip data is damaged");
}

TEST(Gzip, DataThatGrowsTooMuchIsRefused) {
  const Read bomb = read_all(gzip(std::string(64 << 20, ' '), 9), 100'000, 1 << 20);
  EXPECT_EQ(bomb.trouble, "the gzip data grows more than 500-fold");
  EXPECT_LT(bomb.bytes.size(), std::size_t{8} << 20);
  EXPECT_EQ(read_all(gzip(std::string(1 << 20, ' '), 9), 100'000, 1 << 20).trouble, "");  // small is no attack
}

}  // namespace
}  // namespace jointledger
