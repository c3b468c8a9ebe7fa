// What must hold of every reading, whatever the note says: its evidence stands in the note, and nothing but the note
// decides what is read.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <iostream>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "demo_notes.h"
#include "ledger_json.h"
#include "reading/reader.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::Cells;
using testing::cells_of;
using testing::demo_notes;
using testing::DemoNote;
using testing::json_of;
using testing::Places;
using testing::read;
using testing::shipped_lexicon;

bool begins_character(std::string_view text, std::size_t at) {
  return at == text.size() || (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U;
}

/// What is wrong with a span of this note; empty if nothing is.
std::string fault_of(std::string_view note, Span span) {
  if (span.start >= span.end) return "is empty";
  if (span.end > note.size()) return "ends behind the note";
  if (!begins_character(note, span.start) || !begins_character(note, span.end)) return "cuts a character in two";
  const std::string_view words = note.substr(span.start, span.end - span.start);
  const auto letter_or_digit = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; };
  if (std::ranges::none_of(words, letter_or_digit)) return "has neither letter nor digit: '" + std::string(words) + "'";
  return {};
}

void expect_sound_evidence(std::string_view note, const Ledger& ledger) {
  const auto expect_sound = [&](Span span, std::string_view what) {
    const std::string fault = fault_of(note, span);
    EXPECT_EQ(fault, "") << what << " [" << span.start << ", " << span.end << ")";
  };
  for (const Entry& e : ledger.entries) {
    EXPECT_FALSE(e.evidence.empty()) << name(e.region) << ' ' << name(e.component);
    std::uint32_t end = 0;
    for (const Span& span : e.evidence) {
      expect_sound(span, name(e.component));
      EXPECT_GE(span.start, end) << name(e.region) << ' ' << name(e.component) << ": evidence out of order";
      end = span.end;
    }
    for (const Degrees& d : e.degrees) expect_sound(d.evidence, "degrees");
    for (const Grade& g : e.grades) expect_sound(g.evidence, "grade");
  }
  for (const Complaint& c : ledger.complaints) expect_sound(c.evidence, "complaint");
}

std::string with_crlf(const std::string& text) {
  std::string out;
  for (const char c : text) out.append(c == '\n' ? "\r\n" : std::string(1, c));
  return out;
}

std::string in_capitals(std::string text) {
  for (char& c : text) c = static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
  return text;
}

TEST(Evidence, StandsInTheNote) {
  for (const DemoNote& note : demo_notes()) {
    SCOPED_TRACE(note.id);
    expect_sound_evidence(note.text, read(note.text));
  }
}

TEST(Evidence, StandsInANoteCutShortAnywhere) {
  constexpr std::size_t kStep = 23;  // not every byte, for the sake of the sanitizers' time
  ReadingScratch scratch;
  for (const DemoNote& note : demo_notes()) {
    for (std::size_t length = 0; length < note.text.size(); length += kStep) {
      std::size_t end = length;
      while (!begins_character(note.text, end)) ++end;
      const std::string_view cut = std::string_view(note.text).substr(0, end);
      SCOPED_TRACE(note.id + " up to byte " + std::to_string(end));
      expect_sound_evidence(cut, read_note(shipped_lexicon(), cut, scratch));
    }
  }
}

TEST(Evidence, OfOddTextsIsSoundToo) {
  const std::string exam = "PHYSICAL EXAM:\n";
  for (const std::string& text :
       {std::string(), std::string("\n"), std::string("\r\n\r\n"), exam, exam + ":::", exam + std::string(10000, '\n'),
        exam + std::string(10000, '('), exam + std::string(10000, '5'), exam + std::string(10000, '/'),
        exam + "Right knee flexion 120\xC2\xB0",
        exam + "\xE2\x80\xA2 R\xE2\x80\x99 knee: \xE2"
               "\x98\x91 tender \xE2\x89\xA5 2\xE2\x81\xBA",
        exam + "+ - - + R L R L 5 / 5 /"}) {
    SCOPED_TRACE(text.substr(0, 60));
    expect_sound_evidence(text, read(text));
  }
}

TEST(Reading, IsTheSameWhateverWasReadBefore) {
  const auto notes = demo_notes();
  ReadingScratch scratch;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const DemoNote& note = notes[i];
    const std::string first = json_of(note.id, note.text, read(note.text));
    const auto again = [&] { return json_of(note.id, note.text, read_note(shipped_lexicon(), note.text, scratch)); };
    EXPECT_EQ(again(), first);
    EXPECT_EQ(again(), first);
    const DemoNote& other = notes[(i + 7) % notes.size()];
    read_note(shipped_lexicon(), other.text, scratch);
    EXPECT_EQ(again(), first);
  }
}

TEST(Reading, IsTheSameOnEveryThread) {
  const auto notes = demo_notes();
  const auto read_all = [&] {
    ReadingScratch scratch;
    std::string all;
    for (const DemoNote& n : notes) all += json_of(n.id, n.text, read_note(shipped_lexicon(), n.text, scratch));
    return all;
  };
  const std::string alone = read_all();
  std::vector<std::string> together(8);
  std::vector<std::thread> threads;
  threads.reserve(together.size());
  for (std::string& result : together) threads.emplace_back([&] { result = read_all(); });
  for (std::thread& thread : threads) thread.join();
  for (const std::string& result : together) EXPECT_EQ(result, alone);
}

TEST(Reading, TakesBothKindsOfLineBreakAlike) {
  for (const DemoNote& note : demo_notes()) {
    const std::string crlf = with_crlf(note.text);
    EXPECT_EQ(json_of(note.id, crlf, read(crlf), Places::hidden),
              json_of(note.id, note.text, read(note.text), Places::hidden));
  }
}

// Capitals carry meaning: a heading in the middle of a line, "DIP" beside "dip", "L" for left. A note all in capitals
// lost it, and so a few entries may differ. They are printed.
TEST(Reading, OfANoteInCapitalsKeepsNearlyAllCells) {
  std::size_t kept = 0;
  std::size_t all = 0;
  for (const DemoNote& note : demo_notes()) {
    const Cells before = cells_of(read(note.text));
    const Cells after = cells_of(read(in_capitals(note.text)));
    all += before.size();
    kept += static_cast<std::size_t>(
        std::ranges::count_if(before, [&](const auto& item) { return after.contains(item.first); }));
    const std::string changed = testing::difference(before, after);
    if (!changed.empty()) std::cout << note.id << ": " << changed << '\n';
  }
  std::cout << kept << " of " << all << " cells kept\n";
  EXPECT_GE(kept * 10, all * 9);
}

}  // namespace
}  // namespace jointledger
