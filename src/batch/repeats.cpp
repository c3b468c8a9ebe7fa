#include "batch/repeats.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <limits>
#include <utility>

#include "text/tokens.h"

namespace jointledger {
namespace {

constexpr std::size_t kWords = 4;  // of a shingle
constexpr std::size_t kRows = 4;   // minima of a band: texts that share 80 % meet in one band of 16 almost surely

/// The finishing step of splitmix64 (S. Vigna, public domain): every bit of the result depends on every bit of `x`.
constexpr std::uint64_t mix(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

/// FNV-1a.
std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

/// Another hash of a hash for each minimum, from the multiply-shift family.
constexpr auto kFactors = [] {
  std::array<std::uint64_t, ExamPrint::kBands * kRows> factors{};
  for (std::size_t i = 0; i < factors.size(); ++i) factors[i] = mix(i) | 1U;
  return factors;
}();
std::uint32_t permuted(std::uint64_t shingle, std::size_t which) {
  return static_cast<std::uint32_t>((shingle * kFactors[which]) >> 32U);
}

std::vector<std::uint64_t> word_hashes(std::string_view note, std::span<const Span> exam) {
  std::vector<std::uint64_t> words;
  std::vector<Token> tokens;
  std::string folded;
  for (const Span& span : exam) {
    const std::string_view text = note.substr(span.start, span.end - span.start);
    tokenize(text, tokens);
    for (const Token& token : tokens) {
      if (token.kind != TokenKind::word && token.kind != TokenKind::number) continue;
      fold(text.substr(token.start, token.end - token.start), folded);
      words.push_back(hash_of(folded));
    }
  }
  return words;
}

std::vector<std::uint64_t> shingle_hashes(const std::vector<std::uint64_t>& words) {
  std::vector<std::uint64_t> shingles;
  for (std::size_t i = 0; i + kWords <= words.size(); ++i) {
    std::uint64_t hash = 0;
    for (std::size_t j = i; j < i + kWords; ++j) hash = mix(hash ^ words[j]);
    shingles.push_back(hash);
  }
  std::ranges::sort(shingles);
  shingles.erase(std::unique(shingles.begin(), shingles.end()), shingles.end());
  return shingles;
}

bool is_whole(const ExamPrint& print) { return print.shingles.size() == print.distinct; }

std::size_t common(const ExamPrint& a, const ExamPrint& b) {
  std::size_t count = 0;
  for (auto i = a.shingles.begin(), j = b.shingles.begin(); i != a.shingles.end() && j != b.shingles.end();) {
    if (*i == *j) ++count;
    const bool step_i = *i <= *j;
    const bool step_j = *j <= *i;
    if (step_i) ++i;
    if (step_j) ++j;
  }
  return count;
}

/// The share of the smallest hashes of either text that both have: an estimate of their resemblance.
double resemblance(const ExamPrint& a, const ExamPrint& b) {
  const std::size_t size = std::min(a.shingles.size(), b.shingles.size());
  std::vector<std::uint32_t> either;
  std::ranges::set_union(a.shingles, b.shingles, std::back_inserter(either));
  either.resize(std::min(either.size(), size));
  const auto both = std::ranges::count_if(either, [&](std::uint32_t hash) {
    return std::ranges::binary_search(a.shingles, hash) && std::ranges::binary_search(b.shingles, hash);
  });
  return either.empty() ? 0.0 : static_cast<double>(both) / static_cast<double>(either.size());
}

}  // namespace

ExamPrint print_of(std::string_view note, std::span<const Span> exam) {
  const std::vector<std::uint64_t> shingles = shingle_hashes(word_hashes(note, exam));
  ExamPrint print;
  for (std::size_t band = 0; band < ExamPrint::kBands; ++band) {
    std::uint64_t hash = band;
    for (std::size_t row = 0; row < kRows; ++row) {
      std::uint32_t least = std::numeric_limits<std::uint32_t>::max();
      for (const std::uint64_t shingle : shingles) least = std::min(least, permuted(shingle, band * kRows + row));
      hash = mix(hash ^ least);
    }
    print.bands[band] = hash;
  }
  for (const std::uint64_t shingle : shingles) print.shingles.push_back(static_cast<std::uint32_t>(shingle >> 32U));
  print.shingles.erase(std::unique(print.shingles.begin(), print.shingles.end()), print.shingles.end());
  print.distinct = static_cast<std::uint32_t>(print.shingles.size());
  if (print.shingles.size() > ExamPrint::kKept) print.shingles.resize(ExamPrint::kKept);
  print.shingles.shrink_to_fit();
  return print;
}

double share_within(const ExamPrint& a, const ExamPrint& b) {
  if (a.distinct == 0) return 0.0;
  if (is_whole(a) && is_whole(b)) return static_cast<double>(common(a, b)) / static_cast<double>(a.distinct);
  const double alike = resemblance(a, b);
  const double in_both = alike * (static_cast<double>(a.distinct) + static_cast<double>(b.distinct)) / (1.0 + alike);
  return std::min(1.0, in_both / static_cast<double>(a.distinct));
}

RepeatFinder::RepeatFinder(std::size_t capacity) : capacity_(std::max<std::size_t>(capacity, 1)) {}

template <class Each>
void RepeatFinder::each_bucket(const Kept& note, Each each) {
  // Salted, so that an author of the same name as a patient is nobody's match.
  for (const auto& [owner, salt] :
       {std::pair(std::string_view(note.author), 1U), std::pair(std::string_view(note.patient), 2U)}) {
    if (owner.empty()) continue;
    const std::uint64_t key = mix(hash_of(owner) + salt);
    for (const std::uint64_t band : note.print.bands) each(mix(key ^ band));
  }
}

std::optional<Repeat> RepeatFinder::best_of(const Kept& note) const {
  std::vector<std::uint64_t> candidates;
  each_bucket(note, [&](std::uint64_t bucket) {
    if (const auto at = latest_.find(bucket); at != latest_.end()) candidates.push_back(at->second);
  });
  std::ranges::sort(candidates, std::greater());
  candidates.erase(std::unique(candidates.begin(), candidates.end()), candidates.end());
  std::optional<Repeat> best;
  for (const std::uint64_t number : candidates) {
    const Kept& earlier = ring_[number % capacity_];
    const bool author = !note.author.empty() && note.author == earlier.author;
    const bool patient = !note.patient.empty() && note.patient == earlier.patient;
    if (!author && !patient) continue;
    const double share = share_within(note.print, earlier.print);
    if (share < kLeastShare || (best && share <= best->share)) continue;
    best = Repeat{earlier.id, share, patient, author};
  }
  return best;
}

std::optional<Repeat> RepeatFinder::add(std::string_view id, std::string_view author, std::string_view patient,
                                        ExamPrint print, std::uint64_t record) {
  if (print.distinct < kShortest || (author.empty() && patient.empty())) return std::nullopt;
  if (id.size() + author.size() + patient.size() > kLongestNames) return std::nullopt;
  Kept note{std::string(id), std::string(author), std::string(patient), std::move(print), count_, record};
  std::optional<Repeat> found = best_of(note);
  const std::size_t slot = count_ % capacity_;
  if (slot < ring_.size()) {
    const Kept& oldest = ring_[slot];
    each_bucket(oldest, [&](std::uint64_t bucket) {
      if (const auto at = latest_.find(bucket); at != latest_.end() && at->second == oldest.number) latest_.erase(at);
    });
  }
  // What may fail for lack of memory comes first. A bucket that is left behind leads to a note of nobody, or to the one
  // that goes next.
  if (slot == ring_.size()) ring_.emplace_back();
  each_bucket(note, [&](std::uint64_t bucket) { latest_.try_emplace(bucket, count_); });
  each_bucket(note, [&](std::uint64_t bucket) { latest_[bucket] = count_; });
  ring_[slot] = std::move(note);
  ++count_;
  return found;
}

std::optional<std::uint64_t> RepeatFinder::oldest_record() const {
  if (ring_.empty()) return std::nullopt;
  return ring_[count_ <= capacity_ ? 0 : count_ % capacity_].record;
}

}  // namespace jointledger
