#include "report/grade_text.h"

namespace jointledger {

std::string grade_text(const Grade& grade) {
  const int whole = grade.tenths / 10;
  switch (grade.tenths % 10) {
    case 0:
      return std::to_string(whole);
    case 3:
      return std::to_string(whole) + "+";
    case 7:
      return std::to_string(whole + 1) + "-";
    default:
      return grade.tenths == 5 ? "trace" : std::to_string(whole) + "." + std::to_string(grade.tenths % 10);
  }
}

}  // namespace jointledger
