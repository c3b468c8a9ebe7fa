// The table of gaps: a row a gap, and a row for a note that could not be read.
#pragma once

#include "column.h"

namespace jointledger::python {

/// Its rows and columns are those of GAPS in jointledger/_schemas.py, in that order.
class GapColumns {
 public:
  void add_audit(std::int64_t row, const jointledger_audit& audit);
  void add_error(std::int64_t row, std::string_view error);
  std::vector<Column> take();

 private:
  Values<std::int64_t> row_;
  Strings profile_;
  Values<double> score_;
  Strings expectation_;
  Strings kind_;
  Strings region_;
  Strings side_;
  Lists<Strings> components_;
  Lists<Strings> motions_;
  Lists<Strings> structures_;
  Strings reason_;
  Lists<Spans> nearest_;
  Values<double> credit_;
  Strings prompt_;
  Strings error_;
};

}  // namespace jointledger::python
