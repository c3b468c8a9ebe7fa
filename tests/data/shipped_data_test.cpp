// An installation finds its own data, wherever it was moved to.
#include "data/shipped_data.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "../lexicon/folder.h"

namespace jointledger {
namespace {

class ShippedDataTest : public testing::FolderTest {};

TEST_F(ShippedDataTest, LiesBesideTheBinary) {
  write("share/jointledger/lexicon/x", "");
  write("share/jointledger/rules/x", "");
  for (const char* folder : {"bin", "lib"}) std::filesystem::create_directories(path(folder));
  EXPECT_EQ(shipped_data(path("bin/program")), path("share/jointledger"));
  EXPECT_EQ(shipped_data(path("lib/library.so")), path("share/jointledger"));
}

TEST_F(ShippedDataTest, LiesBesideALibraryOneFolderDeeper) {
  write("share/jointledger/lexicon/x", "");
  write("share/jointledger/rules/x", "");
  std::filesystem::create_directories(path("lib/triplet"));
  EXPECT_EQ(shipped_data(path("lib/triplet/library.so")), path("share/jointledger"));
}

TEST_F(ShippedDataTest, IsTheSourceTreesBeforeItIsInstalled) {
  EXPECT_EQ(shipped_data(path("bin/program")), std::filesystem::path(JOINTLEDGER_SOURCE_DIR));
}

}  // namespace
}  // namespace jointledger
