// What a person can say about how notes are to be read, beside their format.
#pragma once

#include <string>
#include <vector>

namespace jointledger {

/// Plain data. Names of columns are matched as they are, or else without regard to ASCII case.
struct IntakeOptions {
  /// Of CSV and TSV: the columns whose fields name the notes, and that hold them. There must be both.
  std::string id_column = "id";
  std::string text_column = "text";
  /// Of CSV and TSV: the columns that are also given out under "author", "patient" and "date". There need be none.
  std::string author_column = "author";
  std::string patient_column = "patient";
  std::string date_column = "date";
  /// Of C-CDA: the LOINC codes of the sections that are read. 29545-1 is "Physical findings" (Physical Exam).
  std::vector<std::string> sections = {"29545-1"};
};

/// Whether a person has said that there is a table.
inline bool names_columns(const IntakeOptions& options) {
  const IntakeOptions none;
  return options.id_column != none.id_column || options.text_column != none.text_column;
}

}  // namespace jointledger
