// Exam texts that repeat an earlier note's: near-duplicates by word shingles and MinHash.
//
// Two steps, so that the work can be spread over threads and the answer cannot depend on how: print_of() is pure and
// does the work; RepeatFinder::add() is cheap and is called with one note after another in the order of the input.
//
// Written here, since Debian packages no C++ library for it: the method is a page long (A. Z. Broder, On the
// resemblance and containment of documents, 1997), and the hashes must stay the same on every machine.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "ledger/span.h"

namespace jointledger {

/// What is kept of an exam text: too little to read it, enough to know it again. A shingle is four words in a row,
/// folded; case, punctuation, white space and line breaks make no difference.
struct ExamPrint {
  static constexpr std::size_t kKept = 256;
  static constexpr std::size_t kBands = 16;
  std::vector<std::uint32_t> shingles;  ///< hashes of the distinct shingles, the kKept smallest, ascending
  std::uint32_t distinct = 0;           ///< how many there are
  std::array<std::uint64_t, kBands> bands{};
};

/// The print of the text at `exam` of a note. Pure and thread-safe.
ExamPrint print_of(std::string_view note, std::span<const Span> exam);

/// How much of the text of `a` stands in that of `b`, 0..1: exact for texts of up to ExamPrint::kKept shingles, an
/// estimate (good to some 5 %) beyond.
double share_within(const ExamPrint& a, const ExamPrint& b);

/// An exam that repeats an earlier one.
struct Repeat {
  std::string note;  ///< the earlier note's id
  double share = 0.0;
  bool same_patient = false;
  bool same_author = false;
};

/// Remembers the last notes of a batch. Not thread-safe. The same notes in the same order give the same answers.
class RepeatFinder {
 public:
  /// An exam of fewer shingles is too short to tell a copy from a coincidence.
  static constexpr std::uint32_t kShortest = 30;
  /// This much of an exam must stand in the earlier one.
  static constexpr double kLeastShare = 0.8;

  /// Id, author and patient together; longer ones are no names, and the memory must stay bounded.
  static constexpr std::size_t kLongestNames = 1024;

  /// Remembers up to `capacity` notes (at least 1), the latest ones; about 3 KiB each.
  explicit RepeatFinder(std::size_t capacity = 16'384);

  /// Takes the next note, and says which earlier note of the same author or the same patient its exam repeats: of
  /// several the one that holds most of it, of those the latest. `author` and `patient` are compared byte by byte,
  /// empty where they are not known. A note without both, with longer names than kLongestNames or a shorter exam than
  /// kShortest is not compared, and not remembered.
  /// `record` is where the note came from, for oldest_record().
  std::optional<Repeat> add(std::string_view id, std::string_view author, std::string_view patient, ExamPrint print,
                            std::uint64_t record = 0);

  /// The record of the oldest note that is remembered. One that is shown all notes from that record on knows as much.
  /// Nothing while no note is remembered.
  std::optional<std::uint64_t> oldest_record() const;

 private:
  struct Kept {
    std::string id;
    std::string author;
    std::string patient;
    ExamPrint print;
    std::uint64_t number = 0;  // counts the notes
    std::uint64_t record = 0;
  };

  std::optional<Repeat> best_of(const Kept& note) const;
  template <class Each>
  static void each_bucket(const Kept& note, Each each);

  std::size_t capacity_;
  std::uint64_t count_ = 0;
  std::vector<Kept> ring_;                                   // note n is at n % capacity_
  std::unordered_map<std::uint64_t, std::uint64_t> latest_;  // a band of an owner to the last note that has it
};

}  // namespace jointledger
