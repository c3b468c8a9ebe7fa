// The table of entries: a row an entry, and a row for a note that could not be read.
#pragma once

#include "column.h"

namespace jointledger::python {

/// Its rows and columns are those of ENTRIES in jointledger/_schemas.py, in that order.
class EntryColumns {
 public:
  void add_ledger(std::int64_t row, const jointledger_ledger& ledger);
  void add_error(std::int64_t row, std::string_view error);
  std::vector<Column> take();

 private:
  class Degrees {
   public:
    void add(const jointledger_degrees& degrees);
    Column take();

   private:
    Strings motion_;
    Strings side_;
    Values<std::int32_t> from_;
    Values<std::int32_t> to_;
    Flags lacking_;
    Spans evidence_;
  };

  class Grades {
   public:
    void add(const jointledger_grade& grade);
    Column take();

   private:
    Strings value_;
    Values<std::int32_t> scale_;
    Strings side_;
    Spans evidence_;
  };

  Values<std::int64_t> row_;
  Strings region_;
  Strings component_;
  Strings side_;
  Strings outcome_;
  Lists<Strings> motions_;
  Lists<Degrees> degrees_;
  Lists<Grades> grade_;
  Lists<Strings> structures_;
  Lists<Strings> tests_;
  Values<double> certainty_;
  Lists<Spans> evidence_;
  Strings error_;
};

}  // namespace jointledger::python
