// sentences.tsv: short exam texts, each with the entries it should be read as.
//
// Rows that are not read so yet stand in sentences_known_wrong.tsv with what is wrong about them. That list must be
// exact: a row that fails and is not in it fails the test, and so does a row in it that is right by now, or is wrong
// in another way. JOINTLEDGER_REGENERATE=1 writes it anew; the difference is for a person to look at.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "cells.h"
#include "lexicon/table.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::Cells;
using testing::cells_of;
using testing::difference;
using testing::read_exam;
using testing::text_of;

const std::filesystem::path kTests = std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "tests" / "reading";
const std::filesystem::path kKnownWrong = kTests / "sentences_known_wrong.tsv";

/// "\n" in a cell stands for a line break.
std::string with_line_breaks(std::string text) {
  for (std::size_t at = 0; (at = text.find("\\n", at)) != std::string::npos; ++at) text.replace(at, 2, "\n");
  return text;
}

struct Row {
  std::string name;  ///< of its class
  std::string text;
  std::string entries;
  std::uint32_t line = 0;
};

std::vector<Row> rows_of(const std::filesystem::path& file, const std::vector<std::string>& columns) {
  const auto table = read_table(file);
  if (!table || table->columns != columns) {
    ADD_FAILURE() << file << " is not the table it should be";
    return {};
  }
  std::vector<Row> rows;
  for (const TableRow& row : table->rows) {
    if (row.cells.size() == columns.size()) {
      rows.push_back({row.cells[0], row.cells[1], row.cells[2], row.line});
    } else {
      ADD_FAILURE() << file << ":" << row.line << ": " << row.cells.size() << " cells";
    }
  }
  return rows;
}

std::vector<Row> sentences() { return rows_of(kTests / "sentences.tsv", {"class", "text", "entries"}); }

/// What is wrong about the reading of a row; empty if it is right.
std::string fault_of(const Row& row) {
  return difference(cells_of(row.entries), cells_of(read_exam(with_line_breaks(row.text))));
}

void write_known_wrong(const std::vector<Row>& rows) {
  std::ofstream out(kKnownWrong, std::ios::binary);
  out << "# Rows of sentences.tsv that are not read as they should be. Written by sentences_test.cpp; see there.\n"
         "# wrong: the entries that the reading lacks, and those that it adds.\n"
         "class\ttext\twrong\n";
  for (const Row& row : rows) {
    if (const std::string fault = fault_of(row); !fault.empty()) {
      out << row.name << '\t' << row.text << '\t' << fault << '\n';
    }
  }
}

TEST(Sentences, AreManyAndAllDifferent) {
  std::set<std::string> classes;
  std::set<std::string> texts;
  for (const Row& row : sentences()) {
    classes.insert(row.name);
    EXPECT_TRUE(texts.insert(row.text).second) << "line " << row.line << ": this text stands here twice";
    EXPECT_NO_THROW({
      const Cells cells = cells_of(row.entries);
      EXPECT_EQ(cells_of(cells.empty() ? std::string() : text_of(cells)), cells);
    }) << "line "
       << row.line;
  }
  EXPECT_GE(texts.size(), 500U);
  EXPECT_GE(classes.size(), 40U);
}

TEST(Sentences, AreReadAsTheyShouldBe) {
  const std::vector<Row> rows = sentences();
  if (std::getenv("JOINTLEDGER_REGENERATE") != nullptr) {
    write_known_wrong(rows);
    GTEST_SKIP() << kKnownWrong << " written anew";
  }
  std::map<std::string, std::string> known;
  for (const Row& row : rows_of(kKnownWrong, {"class", "text", "wrong"})) known[row.text] = row.entries;

  struct Count {
    int right = 0;
    int all = 0;
  };
  std::map<std::string, Count> counts;
  Count total;
  for (const Row& row : rows) {
    const std::string fault = fault_of(row);
    ++counts[row.name].all;
    ++total.all;
    if (fault.empty()) {
      ++counts[row.name].right;
      ++total.right;
    }
    const auto as_known = known.find(row.text);
    const std::string expected = as_known == known.end() ? "" : as_known->second;
    if (as_known != known.end()) known.erase(as_known);
    if (fault == expected) continue;
    if (fault.empty()) {
      ADD_FAILURE() << "now right: remove it from " << kKnownWrong.filename() << ": " << row.text;
    } else {
      ADD_FAILURE() << "sentences.tsv:" << row.line << ": " << row.text << "\n  expected " << row.entries << "\n  "
                    << fault << (expected.empty() ? "" : "\n  known to be wrong, but in another way: " + expected);
    }
  }
  for (const auto& [text, wrong] : known) ADD_FAILURE() << "known to be wrong, but no sentence: " << text;

  for (const auto& [name, count] : counts) {
    std::cout << std::setw(4) << count.right << " of " << std::setw(2) << count.all << "  " << name << '\n';
  }
  std::cout << total.right << " of " << total.all << " sentences\n";
  // Writing the list anew must not hide that the reading got worse.
  EXPECT_GE(total.right * 100, total.all * 93);
}

}  // namespace
}  // namespace jointledger
