#include "report/term_modifiers.h"

#include <array>
#include <charconv>
#include <span>
#include <string_view>

#include "report/grade_text.h"
#include "report/json_values.h"

namespace jointledger {
namespace {

constexpr std::size_t kLongest = 2000;

/// Puts modifiers behind each other until they are too long.
class Modifiers {
 public:
  void add(std::string_view key, std::string_view value) {
    begin(key);
    item(value);
  }

  void begin(std::string_view key) {
    open_.clear();
    if (!text_.empty()) open_.push_back(';');
    open_.append(key).push_back('=');
    separator_ = open_;
  }

  /// One more of the list begun; without any there is no such modifier.
  void item(std::string_view value) {
    if (full_ || text_.size() + separator_.size() + value.size() > kLongest) {
      full_ = true;
      return;
    }
    text_.append(separator_).append(value);
    separator_ = ",";
  }

  std::string take() { return std::move(text_); }

 private:
  std::string text_;
  std::string open_;
  std::string_view separator_;
  bool full_ = false;
};

std::string in_words(const Degrees& d) {
  std::string words;
  if (d.motion) words.append(name(*d.motion)).append(" ");
  if (d.lacking) words.append("lacking ");
  if (d.from) words.append(std::to_string(*d.from)).append("..");
  return words.append(std::to_string(d.to)).append(" ").append(name(d.side));
}

std::string in_words(const Grade& g) {
  return grade_text(g).append("/").append(std::to_string(g.scale)).append(" ").append(name(g.side));
}

std::string in_words(float certainty) {
  std::array<char, 16> text;
  const auto [end, error] =
      std::to_chars(text.data(), text.data() + text.size(), certainty, std::chars_format::fixed, 3);
  std::string words(text.data(), error == std::errc() ? end : text.data());
  words.erase(words.find_last_not_of('0') + 1);
  if (words.ends_with('.')) words.pop_back();
  return words;
}

void add_evidence(std::span<const Span> evidence, const CharacterIndex& characters, Modifiers& to) {
  to.begin("evidence");
  for (const Span& s : evidence) {
    to.item(std::to_string(characters.before(s.start)).append("-").append(std::to_string(characters.before(s.end))));
  }
}

}  // namespace

std::string modifiers_of(const Entry& entry, const CharacterIndex& characters) {
  Modifiers to;
  to.add("region", name(entry.region));
  to.add("component", name(entry.component));
  to.add("side", name(entry.side));
  to.add("outcome", name(entry.outcome));
  to.begin("motions");
  json_values::each_motion(entry.motions, [&](Motion motion) { to.item(name(motion)); });
  to.begin("degrees");
  for (const Degrees& d : entry.degrees) to.item(in_words(d));
  to.begin("grades");
  for (const Grade& g : entry.grades) to.item(in_words(g));
  to.begin("structures");
  for (const std::string_view s : entry.structures) to.item(s);
  to.begin("tests");
  for (const std::string_view s : entry.tests) to.item(s);
  to.add("certainty", in_words(entry.certainty));
  add_evidence({entry.evidence.data(), entry.evidence.size()}, characters, to);
  return to.take();
}

std::string modifiers_of(const Complaint& complaint, const CharacterIndex& characters) {
  Modifiers to;
  to.add("complaint", "true");
  to.add("region", name(complaint.region));
  to.add("side", name(complaint.side));
  to.add("injury", complaint.injury ? "true" : "false");
  add_evidence({&complaint.evidence, 1}, characters, to);
  return to.take();
}

}  // namespace jointledger
