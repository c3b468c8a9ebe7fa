// Switching checks of a note against itself off in a profile.
#include <gtest/gtest.h>

#include <string>

#include "audit/profile.h"

namespace jointledger {
namespace {

ProfileOrFaults parse(std::string_view consistency) {
  const std::string text = std::string("name = \"small\"\ntitle = \"t\"\npurpose = \"p\"\ncaution = \"c\"\n") +
                           std::string(consistency) +
                           "[[expectation]]\nid = \"a\"\nregions = [\"knee\"]\ncomponents = [\"palpation\"]\n"
                           "asks = \"a\"\nwhy = \"w\"\nsource = \"s\"\n";
  return parse_profile(text, "small.toml");
}

const Profile& profile_of(const ProfileOrFaults& parsed) { return std::get<Profile>(parsed); }

std::string fault_of(std::string_view consistency) {
  const ProfileOrFaults parsed = parse(consistency);
  const auto* faults = std::get_if<std::vector<ProfileFault>>(&parsed);
  return faults == nullptr || faults->empty() ? std::string()
                                              : std::to_string(faults->front().line) + ": " + faults->front().message;
}

TEST(ProfileChecks, AllAreMadeUnlessSwitchedOff) {
  const ProfileOrFaults parsed = parse("");
  ASSERT_TRUE(std::holds_alternative<Profile>(parsed));
  EXPECT_EQ(profile_of(parsed).checks_off, CheckSet());
}

TEST(ProfileChecks, OffNamesThem) {
  const ProfileOrFaults parsed = parse("[consistency]\noff = [\"side-slip\", \"copied-exam\"]\n");
  ASSERT_TRUE(std::holds_alternative<Profile>(parsed));
  const CheckSet off = profile_of(parsed).checks_off;
  EXPECT_TRUE(off.contains(Check::side_slip));
  EXPECT_TRUE(off.contains(Check::copied_exam));
  EXPECT_FALSE(off.contains(Check::contradiction));
}

TEST(ProfileChecks, FaultsNameTheLineAndSuggest) {
  EXPECT_EQ(fault_of("[consistency]\noff = [\"side-slips\"]\n"),
            "6: 'side-slips' is not a check; did you mean 'side-slip'?");
  EXPECT_EQ(fault_of("[consistency]\nof = [\"side-slip\"]\n"),
            "6: 'of' is not a key of [consistency]; did you mean 'off'?");
  EXPECT_EQ(fault_of("consistency = true\n"), "5: 'consistency' is a table: [consistency]");
}

TEST(ProfileChecks, EveryCheckHasANameAndWords) {
  for (std::size_t i = 0; i < kCheckCount; ++i) {
    EXPECT_FALSE(name(static_cast<Check>(i)).empty());
    EXPECT_FALSE(phrase(static_cast<Check>(i)).empty());
    EXPECT_EQ(check_names()[i], name(static_cast<Check>(i)));
  }
}

}  // namespace
}  // namespace jointledger
