// Files, folders and patterns: what the program's own test against Python cannot see.
#include "batch/inputs.h"

#include "folder.h"

namespace jointledger {
namespace {

class Walk : public testing::FilesTest {
 protected:
  /// Paths below the folder of the test, and the troubles in brackets.
  std::vector<std::string> walk(const std::vector<std::string>& names,
                                const std::vector<std::string>& outputs = {}) const {
    Inputs inputs(names, outputs);
    std::vector<std::string> found;
    while (const auto input = inputs.next()) {
      const std::string name = input->path == "-" ? "-" : input->path.substr(path("").size());
      found.push_back(input->trouble.empty() ? name : name + " (" + input->trouble + ")");
    }
    return found;
  }
};

using Strings = std::vector<std::string>;

TEST_F(Walk, GoesByTheBytesOfPaths) {
  for (const char* name : {"b", "a.txt", "a/z", "a/b/c", "a-1", "B", ".x", "a/.y/z"}) file(name, "");
  EXPECT_EQ(walk({path("")}), (Strings{"B", "a-1", "a.txt", "a/b/c", "a/z", "b"}));
}

TEST_F(Walk, LeavesTheStandardInputAlone) {
  file("a", "");
  EXPECT_EQ(walk({"-", path("a"), "-"}), (Strings{"-", "a", "-"}));
}

TEST_F(Walk, PassesOverOutputsInFoldersOnly) {
  for (const char* name : {"in/a", "in/out", "in/b/out"}) file(name, "");
  const Strings outputs = {path("in/../in/out"), path("in/b/out")};
  EXPECT_EQ(walk({path("in")}, outputs), Strings{"in/a"});
  EXPECT_EQ(walk({path("in/*")}, outputs), Strings{"in/a"});
}

TEST_F(Walk, NamesWhatIsNotThere) {
  EXPECT_EQ(walk({path("*.txt"), path("gone")}), (Strings{"*.txt (no file matches)", "gone"}));
}

TEST_F(Walk, CountsBytes) {
  file("in/a", "12345");
  file("in/b/c", "123");
  EXPECT_EQ(bytes_in({path("in")}, {}), 8U);
  EXPECT_EQ(bytes_in({path("in")}, {path("in/a")}), 3U);
  EXPECT_EQ(bytes_in({path("in"), "-"}, {}), 0U) << "nobody knows what comes from the standard input";
  file("in/d.gz", "1");
  EXPECT_EQ(bytes_in({path("in")}, {}), 0U) << "nor what is in a compressed file";
}

}  // namespace
}  // namespace jointledger
