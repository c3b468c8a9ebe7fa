// Files that are written aside and put in their places whole.
#include "batch/file_aside.h"

#include <sys/stat.h>
#include <unistd.h>

#include "folder.h"

namespace jointledger {
namespace {

class Aside : public testing::FilesTest {
 protected:
  static void put(const FileAside& file, const std::string& bytes) {
    ASSERT_EQ(::write(file.descriptor(), bytes.data(), bytes.size()), static_cast<ssize_t>(bytes.size()));
  }
  std::unique_ptr<FileAside> open(const std::string& name) {
    auto file = FileAside::open(path(name), 0666, reason_);
    EXPECT_TRUE(file) << reason_;
    return file;
  }
  std::string reason_;
};

TEST_F(Aside, IsSeenWholeOrNotAtAll) {
  file("out", "old");
  const auto out = open("out");
  put(*out, "new");
  EXPECT_EQ(contents("out"), "old");
  EXPECT_FALSE(out->show());
  EXPECT_EQ(contents("out"), "new");
  EXPECT_FALSE(exists("out.part"));
}

TEST_F(Aside, IsGoneOnWith) {
  {
    const auto out = open("out");
    EXPECT_EQ(out->size(), 0U);
    put(*out, "one two thr");
  }
  const auto out = open("out");
  EXPECT_EQ(out->size(), 11U);
  EXPECT_FALSE(out->cut(8));
  put(*out, "three");
  EXPECT_FALSE(out->sync());
  EXPECT_EQ(contents("out.part"), "one two three");
}

TEST_F(Aside, LeavesNothingWhereNothingWasWritten) {
  open("out");
  EXPECT_FALSE(exists("out.part"));
}

TEST_F(Aside, IsNobodyElsesMeanwhile) {
  const auto out = open("out");
  EXPECT_FALSE(FileAside::open(path("out"), 0666, reason_));
  EXPECT_EQ(reason_, "another run is writing it");
  EXPECT_FALSE(out->show());
  EXPECT_TRUE(open("out")) << "what is in its place is no longer locked against anybody";
  EXPECT_EQ(contents("out"), "");
}

TEST_F(Aside, KeepsThePermissionsOfWhatItReplaces) {
  const std::string old = file("out", "old");
  ASSERT_EQ(::chmod(old.c_str(), 0640), 0);
  EXPECT_FALSE(open("out")->show());
  struct stat status = {};
  ASSERT_EQ(::stat(old.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0640U);
}

TEST_F(Aside, ReplacesWhatALinkLeadsTo) {
  file("far/out", "old");
  std::filesystem::create_symlink("far/out", path("link"));
  const auto out = open("link");
  put(*out, "new");
  EXPECT_TRUE(exists("far/out.part"));
  EXPECT_FALSE(out->show());
  EXPECT_EQ(contents("far/out"), "new");
  EXPECT_TRUE(std::filesystem::is_symlink(path("link")));
}

TEST_F(Aside, SaysWhyNot) {
  EXPECT_FALSE(FileAside::open(path("nowhere/out"), 0666, reason_));
  EXPECT_EQ(reason_, "No such file or directory");
  EXPECT_FALSE(can_be_replaced("/dev/null"));
  EXPECT_FALSE(can_be_replaced(path("")));
  EXPECT_TRUE(can_be_replaced(path("new")));
}

TEST_F(Aside, APartIsShownOnce) {
  file("out.part", "whole");
  EXPECT_FALSE(show_part(path("out")));
  EXPECT_EQ(contents("out"), "whole");
  EXPECT_FALSE(show_part(path("out"))) << "it is there already";
  EXPECT_TRUE(show_part(path("never")));
}

TEST_F(Aside, SmallFilesAreReplacedAtOnce) {
  EXPECT_FALSE(replace_file(path("small"), "one"));
  EXPECT_FALSE(replace_file(path("small"), "two"));
  EXPECT_EQ(contents("small"), "two");
  EXPECT_FALSE(exists("small.new"));
  EXPECT_TRUE(replace_file(path("nowhere/small"), "one"));
  EXPECT_FALSE(remove_file(path("small")));
  EXPECT_FALSE(exists("small"));
  EXPECT_FALSE(remove_file(path("small"))) << "it is gone, as was wanted";
}

}  // namespace
}  // namespace jointledger
