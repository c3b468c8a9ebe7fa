// Whatever is given to the interface, a code comes back, and no message quotes a note.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>

#include "handles.h"

namespace jointledger {
namespace {

const std::string kNote = "EXAM: Left knee: no swelling.";

class Arguments : public ::testing::Test {
 protected:
  int read(const std::string& text) { return testing::read(engine_, scratch_, text); }
  int record(const std::string& line) { return testing::read_record(engine_, scratch_, line); }
  std::string message() { return testing::message(scratch_); }

  testing::Engine engine_ = testing::shipped_engine();
  testing::Scratch scratch_ = testing::new_scratch();
};

TEST_F(Arguments, NothingWhereThereMustBeSomething) {
  const jointledger_ledger* ledger = nullptr;
  const jointledger_audit* audit = nullptr;
  const jointledger_profile* profiles = nullptr;
  const char* text = nullptr;
  std::size_t size = 0;
  jointledger_engine* const e = engine_.get();
  jointledger_scratch* const s = scratch_.get();
  const char* const n = kNote.data();
  EXPECT_EQ(jointledger_engine_open(nullptr, nullptr, nullptr), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_engine_reload(nullptr, nullptr, nullptr), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_engine_retain(nullptr), nullptr);
  jointledger_engine_release(nullptr);
  jointledger_text_free(nullptr);
  EXPECT_EQ(jointledger_scratch_new(nullptr), JOINTLEDGER_BAD_ARGUMENT);
  jointledger_scratch_free(nullptr);
  EXPECT_STREQ(jointledger_scratch_message(nullptr), "");
  jointledger_scratch_interrupt(nullptr);
  jointledger_scratch_resume(nullptr);
  EXPECT_EQ(jointledger_scratch_watch(nullptr, nullptr, nullptr), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_scratch_remember(nullptr, 1), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_read(nullptr, s, n, kNote.size(), &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(message(), "no engine");
  EXPECT_EQ(jointledger_read(e, nullptr, n, kNote.size(), &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_read(e, s, nullptr, 5, &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_read_record(nullptr, s, n, kNote.size(), &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_read_record(e, nullptr, n, kNote.size(), &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_read_record(e, s, nullptr, 0, &ledger), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_scratch_text(nullptr, &text, &size), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_profiles(nullptr, s, &profiles, &size), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_profiles(e, nullptr, &profiles, &size), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_audit_ledger(nullptr, "complaint", 9, nullptr, &audit), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_ledger_json(nullptr, nullptr, 0, &text, &size), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_audit_json(nullptr, nullptr, 0, &text, &size), JOINTLEDGER_BAD_ARGUMENT);
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_audit_ledger(s, nullptr, 9, nullptr, &audit), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_ledger_json(s, nullptr, 3, &text, &size), JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(jointledger_ledger_json(s, "", 0, &text, &size), JOINTLEDGER_BAD_ARGUMENT);
}

TEST_F(Arguments, OutParametersMayBeLeftOut) {
  jointledger_scratch* const s = scratch_.get();
  ASSERT_EQ(jointledger_read(engine_.get(), s, kNote.data(), kNote.size(), nullptr), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_audit_ledger(s, "complaint", 9, nullptr, nullptr), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_audit_json(s, nullptr, 0, nullptr, nullptr), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_profiles(engine_.get(), s, nullptr, nullptr), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_engine_reload(engine_.get(), nullptr, nullptr), JOINTLEDGER_OK);
}

TEST_F(Arguments, SizesBeyondTheLimitAreNotFollowed) {
  for (const std::size_t size :
       {std::numeric_limits<std::size_t>::max(), std::size_t{1} << 62, std::size_t{JOINTLEDGER_LONGEST_NOTE} + 1}) {
    EXPECT_EQ(jointledger_read(engine_.get(), scratch_.get(), kNote.data(), size, nullptr), JOINTLEDGER_TOO_LONG);
    EXPECT_EQ(jointledger_read_record(engine_.get(), scratch_.get(), kNote.data(), size, nullptr),
              JOINTLEDGER_TOO_LONG);
    ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
    EXPECT_EQ(jointledger_audit_ledger(scratch_.get(), "complaint", size, nullptr, nullptr), JOINTLEDGER_NO_PROFILE);
    EXPECT_EQ(jointledger_ledger_json(scratch_.get(), "id", size, nullptr, nullptr), JOINTLEDGER_TOO_LONG);
    EXPECT_EQ(jointledger_scratch_remember(scratch_.get(), size), JOINTLEDGER_BAD_ARGUMENT);
  }
}

TEST_F(Arguments, TextsThatAreNoTexts) {
  const jointledger_ledger* ledger = nullptr;
  const auto code = [&](const std::string& text) { return testing::read(engine_, scratch_, text, &ledger); };
  ASSERT_EQ(code(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(code(""), JOINTLEDGER_BAD_TEXT);
  EXPECT_EQ(ledger, nullptr);  // nothing of the one before
  EXPECT_EQ(code(" \r\n\t"), JOINTLEDGER_BAD_TEXT);
  EXPECT_EQ(message(), "the note has no text");
  EXPECT_EQ(code(std::string("secret\0knee", 11)), JOINTLEDGER_BAD_TEXT);
  EXPECT_EQ(message(), "a NUL byte at byte 6 of the text");
  // Ill-formed as by the Unicode Standard, chapter 3, table 3-7: a stray byte, an overlong form, a surrogate, a value
  // past U+10FFFF, a sequence cut short.
  for (const char* bytes :
       {"secret\xFF", "secret\xC0\xAF", "secret\xED\xA0\x80", "secret\xF4\x90\x80\x80", "secret\xE2\x82"}) {
    EXPECT_EQ(code(bytes), JOINTLEDGER_BAD_TEXT);
    EXPECT_EQ(message(), "not UTF-8 from byte 6 of the text");
  }
  EXPECT_EQ(testing::ledger_line(scratch_), "");
  EXPECT_EQ(testing::audit(scratch_, "complaint"), JOINTLEDGER_NOT_READ);
  EXPECT_EQ(code(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(message(), "");
}

TEST_F(Arguments, RecordsThatAreNoRecords) {
  for (const char* line :
       {"", "\n", "secret", "[]", "{", "\"secret\"", R"({"id": 1})", R"({"text": "secret"})",
        R"({"id": [], "text": "secret"})", R"({"id": "", "text": "secret"})", R"({"id": 1, "text": 2})",
        R"({"id": 1, "text": "  "})", R"({"id": 1, "text": "secret\u0000"})", R"({"id": 1, "text": "secret\ud800"})",
        R"({"id": 1, "text": "secret"} {)", R"({"id": 1, "id": 2, "text": "secret"})",
        "{\"id\": 1,\n\"text\": \"secret\"}", "{\"id\": 1, \"text\": \"secret\xFF\"}"}) {
    EXPECT_EQ(record(line), JOINTLEDGER_BAD_RECORD) << line;
    EXPECT_NE(message(), "") << line;
    EXPECT_EQ(message().find("secret"), std::string::npos) << message();
    EXPECT_EQ(jointledger_scratch_text(scratch_.get(), nullptr, nullptr), JOINTLEDGER_NOT_READ);
  }
  const std::string deep = R"({"id": 1, "text": "secret", "x": )" + std::string(1'000'000, '[');
  EXPECT_EQ(record(deep), JOINTLEDGER_BAD_RECORD);
}

TEST_F(Arguments, IdsThatAreNoIds) {
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_ledger_json(scratch_.get(), "\xFF", 1, nullptr, nullptr), JOINTLEDGER_BAD_TEXT);
  EXPECT_EQ(jointledger_ledger_json(scratch_.get(), "a\0b", 3, nullptr, nullptr), JOINTLEDGER_BAD_TEXT);
  EXPECT_TRUE(testing::ledger_line(scratch_, "a\"b\\\n").starts_with(R"({"id":"a\"b\\\n",)"));
}

TEST_F(Arguments, AProfileThatIsNotThereIsNotQuoted) {
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(testing::audit(scratch_, kNote), JOINTLEDGER_NO_PROFILE);  // the note given by mistake
  EXPECT_EQ(message(), "no profile of that name (there are: complaint, screening)");
  EXPECT_EQ(testing::audit(scratch_, ""), JOINTLEDGER_NO_PROFILE);
  // The ledger still holds, an audit does not.
  EXPECT_NE(testing::ledger_line(scratch_), "");
  EXPECT_EQ(testing::audit_line(scratch_), "");
}

TEST_F(Arguments, CertaintiesThatAreNoShares) {
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  for (const float share : {-0.1F, 1.1F, std::nanf(""), INFINITY}) {
    EXPECT_EQ(testing::audit(scratch_, "complaint", nullptr, share), JOINTLEDGER_BAD_ARGUMENT);
  }
  EXPECT_EQ(testing::audit(scratch_, "complaint", nullptr, 1), JOINTLEDGER_OK);
}

TEST_F(Arguments, NothingCanBeHadBeforeItIsRead) {
  EXPECT_EQ(testing::audit(scratch_, "complaint"), JOINTLEDGER_NOT_READ);
  EXPECT_EQ(jointledger_ledger_json(scratch_.get(), nullptr, 0, nullptr, nullptr), JOINTLEDGER_NOT_READ);
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  EXPECT_EQ(jointledger_audit_json(scratch_.get(), nullptr, 0, nullptr, nullptr), JOINTLEDGER_NOT_READ);
  EXPECT_EQ(message(), "the ledger has not been audited");
  EXPECT_EQ(jointledger_scratch_text(scratch_.get(), nullptr, nullptr), JOINTLEDGER_NOT_READ);
}

TEST_F(Arguments, OptionsOfOlderAndNewerPrograms) {
  struct Newer {
    jointledger_audit_options known;
    std::uint64_t further;
  };
  ASSERT_EQ(read(kNote), JOINTLEDGER_OK);
  const auto code = [&](const Newer& options) {
    return jointledger_audit_ledger(scratch_.get(), "complaint", 9, &options.known, nullptr);
  };
  EXPECT_EQ(code({{sizeof(Newer), 0}, 0}), JOINTLEDGER_OK);
  EXPECT_EQ(code({{sizeof(Newer), 0}, 1}), JOINTLEDGER_BAD_ARGUMENT);  // it asks for what is not known here
  EXPECT_EQ(code({{sizeof(std::size_t), 7}, 0}), JOINTLEDGER_OK);      // a member that the program does not know
  for (const std::size_t size : {std::size_t{0}, std::size_t{7}, std::numeric_limits<std::size_t>::max()}) {
    EXPECT_EQ(code({{size, 0}, 0}), JOINTLEDGER_BAD_ARGUMENT);
  }
}

TEST_F(Arguments, ValuesThatAreNotThereHaveNoName) {
  for (const int value : {-1, 23, 1000, std::numeric_limits<int>::min(), std::numeric_limits<int>::max()}) {
    EXPECT_EQ(jointledger_region_name(value), nullptr);
    EXPECT_EQ(jointledger_kind_name(value), nullptr);
    EXPECT_EQ(jointledger_reason_name(value), nullptr);
    EXPECT_STREQ(jointledger_code_text(value), "unknown code");
  }
  EXPECT_STREQ(jointledger_region_name(JOINTLEDGER_REGION_WHOLE_BODY), "whole_body");
  EXPECT_STREQ(jointledger_check_name(JOINTLEDGER_CHECK_COPIED_EXAM), "copied-exam");
  for (int code = JOINTLEDGER_OK; code <= JOINTLEDGER_INTERNAL; ++code) {
    EXPECT_STRNE(jointledger_code_text(code), "unknown code");
  }
}

}  // namespace
}  // namespace jointledger
