// CSV and TSV: a row is a note. One column names it, one is its text, and the others are carried through as strings.
//
// A row is refused if it has not as many fields as the header row, if any of it is not UTF-8, or if its id or text is
// empty. The text is the field without its quotes; evidence counts from its first byte.
#pragma once

#include <memory>

#include "intake/csv_columns.h"
#include "intake/decoder.h"

namespace jointledger {

enum class CsvIds : unsigned char {
  strings,
  numbers,  ///< an id that is a whole number is one in the output
};

/// For records of split_into_rows() with the same names. Author, patient and date are also given out under the names
/// that all formats share.
std::unique_ptr<Decoder> make_csv_decoder(CsvNames names, CsvIds ids);

}  // namespace jointledger
