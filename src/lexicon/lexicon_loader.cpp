// From the tables of lexicon/ to a Lexicon: one function a kind of table.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <map>
#include <set>
#include <system_error>
#include <utility>

#include "lexicon/column_words.h"
#include "lexicon/lexicon.h"
#include "lexicon/table.h"
#include "text/tokens.h"

namespace jointledger {

namespace fs = std::filesystem;

class LexiconLoader {
 public:
  LexiconLoader(Lexicon& lexicon, std::vector<LexiconFault>& faults, LayerBook& book)
      : lexicon_(lexicon), faults_(faults), book_(book) {}

  void folder(const fs::path& dir) {
    book_.next_folder();
    std::error_code ignored;
    if (!fs::is_directory(dir, ignored)) {
      fault(LexiconFault::Severity::error, dir.string(), 0, "no such folder");
      return;
    }
    // Earlier tables win where two give the same phrase, so the order is from the particular to the general.
    table(dir, "set_phrases.tsv", {"phrase", "why"}, [](Cells, Concept& c) {
      c.kind = ConceptKind::inert;
      return std::string();
    });
    table(dir, "sided_regions.tsv", {"phrase", "region", "side"}, [this](Cells cells, Concept& c) {
      c.kind = ConceptKind::region;
      c.side = find_named(kSideWords, cells[2]);
      if (!c.side) return unknown("side", cells[2]);
      return region(cells[1], c);
    });
    table(dir, "elsewhere.tsv", {"phrase", "kind"}, [](Cells cells, Concept& c) {
      if (cells[1] == "place" || cells[1] == "neck_place") {
        if (cells[1] == "neck_place") c.id = "neck";
        c.kind = ConceptKind::elsewhere_place;
      } else if (cells[1] == "finding") {
        c.kind = ConceptKind::elsewhere_finding;
      } else if (cells[1] == "source") {
        c.kind = ConceptKind::other_source;
      } else {
        return unknown("kind", cells[1]);
      }
      return std::string();
    });
    table(dir, "tests.tsv", {"phrase", "test", "component", "region"}, [](Cells cells, Concept& c) {
      c.kind = ConceptKind::test;
      c.id = cells[1];
      const auto component = component_named(cells[2]);
      if (!component) return unknown("component", cells[2]);
      c.component = *component;
      std::string_view rest = cells[3];
      while (!rest.empty()) {
        const std::string_view one = rest.substr(0, rest.find(','));
        const auto region = region_named(one);
        if (!region) return unknown("region", one);
        if (c.test_regions.size() == c.test_regions.capacity()) return std::string("more regions than a test may have");
        c.test_regions.push_back(*region);
        rest.remove_prefix(std::min(rest.size(), one.size() + 1));
      }
      if (c.test_regions.empty()) return std::string("a test needs a region");
      c.region = c.test_regions.front();
      return std::string();
    });
    table(dir, "findings.tsv", {"phrase", "component", "sense", "class", "place", "admit", "note"},
          [this](Cells cells, Concept& c) {
            c.kind = ConceptKind::finding;
            c.id = cells[6];
            const auto sense = find_named(kSenses, cells[2]);
            if (!sense) return unknown("sense", cells[2]);
            c.sense = *sense;
            if (cells[3] != "noun" && cells[3] != "adj") return unknown("class", cells[3]);
            c.adjective = cells[3] == "adj";
            return component_place_admit(cells[1], cells[4], cells[5], c);
          });
    table(dir, "components.tsv", {"phrase", "component", "weight", "place", "admit"}, [this](Cells cells, Concept& c) {
      c.kind = ConceptKind::component;
      if (cells[2] != "topic" && cells[2] != "weak") return unknown("weight", cells[2]);
      c.weak = cells[2] == "weak";
      return component_place_admit(cells[1], cells[3], cells[4], c);
    });
    table(dir, "motions.tsv", {"phrase", "motion", "as", "region"}, [](Cells cells, Concept& c) {
      if (cells[2] != "motion" && cells[2] != "muscle") return unknown("use", cells[2]);
      c.kind = cells[2] == "muscle" ? ConceptKind::motion_muscle : ConceptKind::motion;
      std::string_view rest = cells[1];
      while (!rest.empty()) {
        const std::string_view one = rest.substr(0, rest.find(','));
        const auto motion = motion_named(one);
        if (!motion) return unknown("motion", one);
        c.motions.insert(*motion);
        rest.remove_prefix(std::min(rest.size(), one.size() + 1));
      }
      c.component = cells[2] == "muscle" ? Component::strength : Component::range_of_motion;
      if (!cells[3].empty()) {
        c.region = region_named(cells[3]);
        if (!c.region) return unknown("region", cells[3]);
      }
      return std::string();
    });
    table(dir, "structures.tsv", {"phrase", "number", "kind", "region", "id", "reflex", "in_leg"},
          [this](Cells cells, Concept& c) {
            if (cells[2] == "part") {
              c.kind = ConceptKind::part;
            } else if (cells[2] == "muscle") {
              c.kind = ConceptKind::muscle;
            } else if (cells[2] == "muscle_artery") {
              c.kind = ConceptKind::muscle;
              c.artery_region = region_named(cells[5]);
              if (!c.artery_region) return unknown("region", cells[5]);
            } else if (cells[2] == "nerve") {
              c.kind = ConceptKind::nerve;
            } else if (cells[2] == "artery") {
              c.kind = ConceptKind::artery;
            } else {
              return unknown("kind", cells[2]);
            }
            c.id = cells[4];
            if (c.id.empty()) return std::string("a structure needs an id");
            structures_.insert(c.id);
            if (!cells[5].empty() && !c.artery_region) {
              c.reflex_region = region_named(cells[5]);
              if (!c.reflex_region) return unknown("region", cells[5]);
            }
            if (!cells[6].empty()) {
              c.leg_region = region_named(cells[6]);
              if (!c.leg_region) return unknown("region", cells[6]);
            }
            if (auto bad = number(cells[1], c); !bad.empty()) return bad;
            return region(cells[3], c);
          });
    table(dir, "regions.tsv", {"phrase", "number", "region"}, [this](Cells cells, Concept& c) {
      c.kind = ConceptKind::region;
      if (auto bad = number(cells[1], c); !bad.empty()) return bad;
      if (cells[2] == "back") {
        c.back = true;
        c.region = Region::spine;
        return std::string();
      }
      if (cells[2] == "exam") {
        c.exam = true;
        c.region = Region::whole_body;
        return std::string();
      }
      if (cells[2] == "joints") {
        c.joints = true;
        c.region = Region::whole_body;
        return std::string();
      }
      const std::size_t comma = cells[2].find(',');
      if (comma != std::string::npos) {
        c.second_region = region_named(std::string_view(cells[2]).substr(comma + 1));
        if (!c.second_region) return unknown("region", cells[2].substr(comma + 1));
      }
      return region(std::string_view(cells[2]).substr(0, comma), c);
    });
    table(dir, "sides.tsv", {"phrase", "side", "use"}, [](Cells cells, Concept& c) {
      c.kind = ConceptKind::side;
      c.side = find_named(kSideWords, cells[1]);
      if (!c.side) return unknown("side", cells[1]);
      if (cells[2] != "word" && cells[2] != "letter") return unknown("use", cells[2]);
      c.letter = cells[2] == "letter";
      return std::string();
    });
    table(dir, "cues.tsv", {"phrase", "cue"}, [](Cells cells, Concept& c) {
      c.kind = ConceptKind::cue;
      auto cue = find_named(kCues, cells[1]);
      if (!cue) cue = find_named(kMoreCues, cells[1]);
      if (!cue) return unknown("cue", cells[1]);
      c.cue = *cue;
      return std::string();
    });
    grammar(dir);
    headings(dir);
    complaints(dir);
    certainty(dir);
    measures(dir);
    remark_words(dir);
    joint_states(dir);
    motion_limits(dir);
  }

  void finish() {
    for (WordId id = 1; id <= lexicon_.vocabulary_.size(); ++id) {
      lexicon_.spelling_.add(lexicon_.vocabulary_.word(id), id);
    }
    lexicon_.structure_ids_.assign(structures_.begin(), structures_.end());
    lexicon_.abbreviations_.resize(lexicon_.vocabulary_.size() + 1, false);
    if (lexicon_.phrase_count_ == 0) fault(LexiconFault::Severity::error, "lexicon", 0, "no phrases in any table");
  }

 private:
  using Cells = std::span<const std::string>;
  using Fill = std::function<std::string(Cells, Concept&)>;

  static std::string unknown(std::string_view what, std::string_view value) {
    return "unknown " + std::string(what) + " '" + std::string(value) + "'";
  }

  void fault(LexiconFault::Severity severity, std::string file, std::uint32_t line, std::string message) {
    faults_.push_back({severity, std::move(file), line, std::move(message)});
  }

  static std::string region(std::string_view cell, Concept& c) {
    c.region = region_named(cell);
    return c.region ? std::string() : unknown("region", cell);
  }

  static std::string number(std::string_view cell, Concept& c) {
    if (cell != "one" && cell != "many" && cell != "mass" && cell != "several") return unknown("number", cell);
    c.many = cell == "many";
    c.several = cell == "several";
    return std::string();
  }

  static std::string component_place_admit(std::string_view component, std::string_view place, std::string_view admit,
                                           Concept& c) {
    const std::size_t comma = component.find(',');
    const auto found = component_named(component.substr(0, comma));
    if (!found) return unknown("component", component);
    c.component = *found;
    if (comma != std::string_view::npos) {
      c.second_component = component_named(component.substr(comma + 1));
      if (!c.second_component) return unknown("component", component.substr(comma + 1));
    }
    if (!place.empty()) {
      if (auto bad = region(place, c); !bad.empty()) return bad;
    }
    const auto admits = find_named(kAdmit, admit);
    if (!admits) return unknown("admit", admit);
    c.admit = *admits;
    return std::string();
  }

  // Reads a table if the folder has it, checks its columns, and hands every row to `each`.
  void rows_of(const fs::path& dir, const char* file, std::span<const std::string_view> columns,
               const std::function<std::string(const TableRow&)>& each) {
    const fs::path path = dir / file;
    std::error_code ignored;
    if (!fs::exists(path, ignored)) return;
    const auto table = read_table(path);
    if (!table) {
      fault(LexiconFault::Severity::error, path.string(), 0, "cannot be read");
      return;
    }
    if (!std::ranges::equal(table->columns, columns)) {
      std::string expected;
      for (const auto column : columns) expected += (expected.empty() ? "" : ", ") + std::string(column);
      fault(LexiconFault::Severity::error, path.string(), 0, "the header must name the columns " + expected);
      return;
    }
    for (const TableRow& row : table->rows) {
      if (row.cells.size() != columns.size()) {
        fault(LexiconFault::Severity::error, path.string(), row.line,
              std::to_string(row.cells.size()) + " cells where " + std::to_string(columns.size()) + " are needed");
        continue;
      }
      if (auto bad = each(row); !bad.empty()) fault(LexiconFault::Severity::error, path.string(), row.line, bad);
    }
  }

  void table(const fs::path& dir, const char* file, std::initializer_list<std::string_view> columns, const Fill& fill) {
    const std::string where = (dir / file).string();
    rows_of(dir, file, columns, [&](const TableRow& row) {
      Concept entry;
      if (auto bad = fill(row.cells, entry); !bad.empty()) return bad;
      lexicon_.concepts_.push_back(std::move(entry));
      forms(lexicon_.phrases_, row.cells[0], static_cast<std::uint32_t>(lexicon_.concepts_.size() - 1), where,
            row.line);
      return std::string();
    });
  }

  void grammar(const fs::path& dir) {
    // A small word may stand in several rows: its roles add up.
    std::map<std::string, std::pair<std::uint16_t, std::uint32_t>> roles;
    rows_of(dir, "grammar.tsv", std::array<std::string_view, 2>{"phrase", "role"}, [&](const TableRow& row) {
      const auto role = find_named(kRoles, row.cells[1]);
      if (!role) return unknown("role", row.cells[1]);
      for (const std::string& form : forms_of(row.cells[0])) {
        if (*role == kAbbreviation) {
          const auto words = words_of(form);
          if (!words.empty()) abbreviation(words.back());
          continue;
        }
        auto& slot = roles[form];
        slot.first |= *role;
        slot.second = row.line;
      }
      return std::string();
    });
    for (const auto& [form, role] : roles) {
      Concept entry;
      entry.kind = ConceptKind::grammar;
      entry.grammar = role.first;
      lexicon_.concepts_.push_back(std::move(entry));
      forms(lexicon_.phrases_, form, static_cast<std::uint32_t>(lexicon_.concepts_.size() - 1),
            (dir / "grammar.tsv").string(), role.second);
    }
  }

  void headings(const fs::path& dir) {
    const std::string where = (dir / "headings.tsv").string();
    rows_of(dir, "headings.tsv", std::array<std::string_view, 4>{"phrase", "section", "scope", "admits"},
            [&](const TableRow& row) {
              Heading heading;
              if (row.cells[1] == "system") {
                heading.level = Heading::Level::system;
              } else if (row.cells[1] == "part") {
                heading.level = Heading::Level::part;
              } else {
                const auto section = find_named(kSections, row.cells[1]);
                if (!section) return unknown("section", row.cells[1]);
                heading.level = Heading::Level::section;
                heading.section = *section;
              }
              const std::string& scope = row.cells[2];
              if (scope == "joints") {
                heading.joints = true;
              } else if (scope == "back") {
                heading.back = true;
                heading.region = Region::spine;
              } else if (!scope.empty()) {
                heading.region = region_named(scope);
                heading.component = component_named(scope);
                if (!heading.region && !heading.component) return unknown("scope", scope);
              }
              const auto admits = find_named(kAdmits, row.cells[3]);
              if (!admits) return unknown("value", row.cells[3]);
              heading.admits = *admits;
              lexicon_.headings_.push_back(heading);
              forms(lexicon_.heading_phrases_, row.cells[0], static_cast<std::uint32_t>(lexicon_.headings_.size() - 1),
                    where, row.line);
              return std::string();
            });
  }

  void complaints(const fs::path& dir) {
    const std::string where = (dir / "complaints.tsv").string();
    rows_of(dir, "complaints.tsv", std::array<std::string_view, 4>{"phrase", "use", "region", "side"},
            [&](const TableRow& row) {
              ComplaintCue cue;
              const auto use = find_named(kUses, row.cells[1]);
              if (!use) return unknown("use", row.cells[1]);
              cue.use = *use;
              if (cue.use == ComplaintCue::Use::named) {
                cue.region = region_named(row.cells[2]);
                if (!cue.region) return unknown("region", row.cells[2]);
                const auto side = side_named(row.cells[3]);
                if (!side) return unknown("side", row.cells[3]);
                cue.side = *side;
              }
              lexicon_.complaint_cues_.push_back(cue);
              forms(lexicon_.complaint_phrases_, row.cells[0],
                    static_cast<std::uint32_t>(lexicon_.complaint_cues_.size() - 1), where, row.line);
              return std::string();
            });
  }

  void remark_words(const fs::path& dir) {
    const std::string where = (dir / "remark_words.tsv").string();
    rows_of(dir, "remark_words.tsv", std::array<std::string_view, 3>{"phrase", "use", "id"}, [&](const TableRow& row) {
      const auto use = find_named(kRemarkUses, row.cells[1]);
      if (!use) return unknown("use", row.cells[1]);
      const bool wants_id = *use == RemarkWord::Use::finding || *use == RemarkWord::Use::narrows;
      if (wants_id == row.cells[2].empty()) return std::string(wants_id ? "an id is needed" : "this use has no id");
      lexicon_.remark_words_.push_back({*use, row.cells[2]});
      forms(lexicon_.remark_phrases_, row.cells[0], static_cast<std::uint32_t>(lexicon_.remark_words_.size() - 1),
            where, row.line);
      return std::string();
    });
  }

  void joint_states(const fs::path& dir) {
    const std::string where = (dir / "joint_states.tsv").string();
    rows_of(dir, "joint_states.tsv", std::array<std::string_view, 3>{"phrase", "state", "from"},
            [&](const TableRow& row) {
              const auto use = find_named(kStateUses, row.cells[1]);
              if (!use) return unknown("state", row.cells[1]);
              JointStateWord word{*use, std::nullopt};
              if (!row.cells[2].empty()) {
                word.from = region_named(row.cells[2]);
                if (!word.from) return unknown("region", row.cells[2]);
              }
              lexicon_.joint_state_words_.push_back(word);
              forms(lexicon_.joint_state_phrases_, row.cells[0],
                    static_cast<std::uint32_t>(lexicon_.joint_state_words_.size() - 1), where, row.line);
              return std::string();
            });
  }

  void motion_limits(const fs::path& dir) {
    const std::string where = (dir / "ranges.tsv").string();
    rows_of(dir, "ranges.tsv",
            std::array<std::string_view, 5>{"region", "motion", "normal", "implausible_above", "source"},
            [&](const TableRow& row) {
              const auto region = region_named(row.cells[0]);
              if (!region) return unknown("region", row.cells[0]);
              const auto motion = motion_named(row.cells[1]);
              if (!motion) return unknown("motion", row.cells[1]);
              const auto normal = degrees_in(row.cells[2]);
              if (!normal) return unknown("number of degrees", row.cells[2]);
              const auto above = degrees_in(row.cells[3]);
              if (!above) return unknown("number of degrees", row.cells[3]);
              if (*above < *normal) return std::string("what is normal would be implausible");
              if (is_first("ranges.tsv", row.cells[0] + " " + row.cells[1], where, row.line)) {
                lexicon_.motion_limits_.push_back({*region, *motion, *normal, *above});
              }
              return std::string();
            });
  }

  static std::optional<int> degrees_in(std::string_view cell) {
    int value = 0;
    const auto parsed = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (parsed.ec != std::errc() || parsed.ptr != cell.data() + cell.size() || value < 0) return std::nullopt;
    return value;
  }

  void certainty(const fs::path& dir) {
    constexpr std::array<std::string_view, 7> kPlaces = {"own",     "named", "sentence", "label",
                                                         "heading", "topic", "none"};
    constexpr std::array<std::string_view, 5> kSides = {"named", "plural", "fixed", "carried", "none"};
    const std::string where = (dir / "certainty.tsv").string();
    rows_of(dir, "certainty.tsv", std::array<std::string_view, 3>{"feature", "value", "weight"},
            [&](const TableRow& row) {
              char* end = nullptr;
              const float weight = std::strtof(row.cells[2].c_str(), &end);
              if (end == row.cells[2].c_str() || *end != '\0' || !std::isfinite(weight))
                return unknown("weight", row.cells[2]);
              const std::string named = row.cells[1].empty() ? row.cells[0] : row.cells[0] + " " + row.cells[1];
              if (!is_first("certainty.tsv", named, where, row.line)) return std::string();
              CertaintyWeights& w = lexicon_.certainty_;
              const auto put = [&](auto& weights, const auto& names) {
                const auto at = std::ranges::find(names, row.cells[1]);
                if (at == std::ranges::end(names)) return unknown("value", row.cells[1]);
                weights[static_cast<std::size_t>(at - std::ranges::begin(names))] = weight;
                return std::string();
              };
              const std::string& feature = row.cells[0];
              if (feature == "place") return put(w.place, kPlaces);
              if (feature == "side") return put(w.side, kSides);
              if (feature == "component") return put(w.component, component_names());
              if (feature == "outcome") return put(w.outcome, outcome_names());
              if (feature == "base") return w.base = weight, std::string();
              if (feature == "inferred") return w.inferred = weight, std::string();
              if (feature == "repeated") return w.repeated = weight, std::string();
              return unknown("feature", feature);
            });
  }

  void measures(const fs::path& dir) {
    const std::string where = (dir / "measures.tsv").string();
    rows_of(dir, "measures.tsv", std::array<std::string_view, 2>{"kind", "pattern"}, [&](const TableRow& row) {
      const auto kind = find_named(kFigures, row.cells[0]);
      if (!kind) return unknown("kind", row.cells[0]);
      // Patterns are tried in turn, so one that a later folder gives as another kind of figure has no more effect here.
      if (book_.claim("measures.tsv\t" + row.cells[1], row.cells[1], {where, row.line}) ==
          LayerBook::Claim::overridden) {
        return std::string();
      }
      if (auto bad = lexicon_.measures_.add(*kind, row.cells[1])) return "pattern: " + *bad;
      return std::string();
    });
  }

  // The words of a phrase as ids. Hyphens and slashes between words are spaces; they match either way.
  std::vector<WordId> words_of(std::string_view form) {
    tokenize(form, tokens_);
    std::vector<WordId> words;
    for (const Token& token : tokens_) {
      const std::string_view text = form.substr(token.start, token.end - token.start);
      if ((text == "-" || text == "/") && !words.empty()) continue;
      fold(text, folded_);
      words.push_back(lexicon_.vocabulary_.add(folded_));
    }
    return words;
  }

  void forms(PhraseTable& phrases, std::string_view cell, std::uint32_t value, const std::string& where,
             std::uint32_t line) {
    book_.place(&phrases, value, {where, line});
    const auto forms = forms_of(cell);
    if (forms.empty()) fault(LexiconFault::Severity::error, where, line, "a row without a phrase");
    for (const std::string& form : forms) {
      const auto words = words_of(form);
      if (words.empty()) {
        fault(LexiconFault::Severity::error, where, line, "'" + form + "' has no words");
        continue;
      }
      const bool may_be_capitals = &phrases == &lexicon_.phrases_ || &phrases == &lexicon_.joint_state_phrases_;
      const bool capitals = words.size() == 1 && may_be_capitals &&
                            std::ranges::none_of(form, [](char c) { return c >= 'a' && c <= 'z'; }) &&
                            std::ranges::any_of(form, [](char c) { return c >= 'A' && c <= 'Z'; });
      const auto earlier = phrases.add(words, capitals, value);
      if (!earlier) {
        ++lexicon_.phrase_count_;
      } else if (book_.clash(&phrases, *earlier, form, {where, line}) == LayerBook::Claim::repeated) {
        unreachable(form, where, line);
      }
    }
  }

  // Folders are read from the last to the first, so the row that was read first holds.
  bool is_first(std::string_view table, const std::string& named, const std::string& where, std::uint32_t line) {
    const auto claim = book_.claim(std::string(table) + "\t" + named, named, {where, line});
    if (claim == LayerBook::Claim::repeated) unreachable(named, where, line);
    return claim == LayerBook::Claim::fresh;
  }

  void unreachable(const std::string& what, const std::string& where, std::uint32_t line) {
    fault(LexiconFault::Severity::warning, where, line, "'" + what + "' is unreachable: an earlier row has it");
  }

  void abbreviation(WordId word) {
    if (lexicon_.abbreviations_.size() <= word) lexicon_.abbreviations_.resize(word + 1, false);
    lexicon_.abbreviations_[word] = true;
  }

  Lexicon& lexicon_;
  std::vector<LexiconFault>& faults_;
  LayerBook& book_;
  std::set<std::string> structures_;
  std::vector<Token> tokens_;
  std::string folded_;
};

std::variant<std::unique_ptr<const Lexicon>, std::vector<LexiconFault>> Lexicon::load(
    std::span<const fs::path> folders, std::vector<LexiconFault>* warnings, std::vector<LexiconOverride>* overrides) {
  std::unique_ptr<Lexicon> lexicon(new Lexicon);
  std::vector<LexiconFault> faults;
  LayerBook book;
  LexiconLoader loader(*lexicon, faults, book);
  // The last folder wins, and the first phrase added stays, so load from the last to the first.
  for (auto dir = folders.rbegin(); dir != folders.rend(); ++dir) loader.folder(*dir);
  loader.finish();
  const auto is_error = [](const LexiconFault& fault) { return fault.severity == LexiconFault::Severity::error; };
  if (std::ranges::any_of(faults, is_error)) return faults;
  if (warnings != nullptr) *warnings = std::move(faults);
  if (overrides != nullptr) *overrides = book.take_overrides();
  return std::unique_ptr<const Lexicon>(std::move(lexicon));
}

}  // namespace jointledger
