// Days: ISO 8601 and the Gregorian calendar.
#include "report/dates.h"

#include <gtest/gtest.h>

namespace jointledger {
namespace {

TEST(Dates, AreDaysOfTheCalendar) {
  for (const auto* day : {"2031-03-04", "2000-02-29", "0001-01-01", "9999-12-31"}) EXPECT_TRUE(is_date(day)) << day;
  for (const auto* text : {"", "2031-3-4", "2031-02-29", "1900-02-29", "2031-13-01", "2031-00-10", "2031-04-31",
                           "0000-01-01", "2031-03-04T", "2031/03/04", "+031-03-04", "20310304", "2031-03-0x"}) {
    EXPECT_FALSE(is_date(text)) << text;
  }
}

TEST(Dates, BeginATime) {
  EXPECT_EQ(date_at_start("2031-03-04T10:15:00+01:00"), "2031-03-04");
  EXPECT_EQ(date_at_start("2031-03-04 10:15"), "2031-03-04");
  EXPECT_EQ(date_at_start("2031-03"), "");
  EXPECT_EQ(date_at_start("2031-03-041"), "");
}

TEST(Dates, AreKeptAsNumbers) {
  for (const auto* day : {"2031-03-04", "0001-01-01", "9999-12-31"}) {
    EXPECT_EQ(date_of_number(number_of_date(day)), day);
  }
  EXPECT_EQ(number_of_date("2031-03-04"), 20310304U);
  EXPECT_EQ(number_of_date(""), 0U);
}

}  // namespace
}  // namespace jointledger
