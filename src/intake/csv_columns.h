// The header row of a table: which column is what.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "intake/csv_row.h"
#include "intake/intake_options.h"

namespace jointledger {

/// The names of the columns that have a meaning of their own.
struct CsvNames {
  std::string id;
  std::string text;
  std::string author;
  std::string patient;
  std::vector<std::string> dates;  ///< the first that is there and has a value
};

/// Those that a person has said, or the usual ones.
CsvNames csv_names(const IntakeOptions& options);

/// Those of the NOTE table of the OMOP Common Data Model 5.4. https://ohdsi.github.io/CommonDataModel/cdm54.html#note
CsvNames omop_names();

/// Places in a row, from 0.
struct CsvColumns {
  std::vector<std::string> names;  ///< all of them, in order, no two the same
  std::size_t id = 0;
  std::size_t text = 0;
  std::optional<std::size_t> author;
  std::optional<std::size_t> patient;
  std::vector<std::size_t> dates;
};

/// Reads a header row that `row` has just taken. Names are found as they are, or else without regard to ASCII case. Or
/// says what is wrong with it, without quoting it: a table without a header starts with a patient.
std::variant<CsvColumns, std::string> columns_of(const CsvRow& row, const CsvNames& names);

}  // namespace jointledger
