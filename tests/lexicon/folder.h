// A folder of its own for each test, gone afterwards.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace jointledger::testing {

class FolderTest : public ::testing::Test {
 protected:
  FolderTest() {
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::path(::testing::TempDir()) /
              ("jointledger-" + std::string(info->name()) + "-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  ~FolderTest() override { std::filesystem::remove_all(folder_); }

  std::filesystem::path path(std::string_view name) const { return folder_ / name; }
  void write(std::string_view name, std::string_view bytes) const {
    std::filesystem::create_directories(path(name).parent_path());
    std::ofstream(path(name), std::ios::binary) << bytes;
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace jointledger::testing
