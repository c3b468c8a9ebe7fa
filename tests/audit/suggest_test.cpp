#include "audit/suggest.h"

#include <gtest/gtest.h>

#include <array>

#include "ledger/terms.h"

namespace jointledger {
namespace {

TEST(Suggest, FindsTheNameBehindASlip) {
  EXPECT_EQ(nearest_name("shoulders", region_names()), "shoulder");
  EXPECT_EQ(nearest_name("sholder", region_names()), "shoulder");
  EXPECT_EQ(nearest_name("cervical-spine", region_names()), "cervical_spine");
  EXPECT_EQ(nearest_name("Knee", region_names()), "knee");
  EXPECT_EQ(nearest_name("hpi", region_names()), "hip");
  EXPECT_EQ(nearest_name("dorsiflection", motion_names()), "dorsiflexion");
}

TEST(Suggest, FindsTheNameThatWasBegun) {
  EXPECT_EQ(nearest_name("lumbar", region_names()), "lumbar_spine");
  EXPECT_EQ(nearest_name("range", component_names()), "range_of_motion");
}

TEST(Suggest, IsSilentWhereNothingIsNear) {
  EXPECT_EQ(nearest_name("spleen-and-liver", region_names()), std::nullopt);
  EXPECT_EQ(nearest_name("", region_names()), std::nullopt);
  EXPECT_EQ(nearest_name("x", region_names()), std::nullopt);
  EXPECT_EQ(nearest_name("knee", {}), std::nullopt);
}

TEST(Suggest, PrefersTheNearer) {
  using namespace std::string_view_literals;
  constexpr std::array kNames = {"asks"sv, "what"sv, "why"sv};
  EXPECT_EQ(nearest_name("wy", kNames), "why");
}

}  // namespace
}  // namespace jointledger
