// A folder of its own for each test of files, with what such tests ask of it.
#pragma once

#include <fstream>
#include <iterator>
#include <string>

#include "../lexicon/folder.h"

namespace jointledger::testing {

class FilesTest : public FolderTest {
 protected:
  std::string path(const std::string& name) const { return FolderTest::path(name).string(); }
  std::string file(const std::string& name, const std::string& bytes) const {
    write(name, bytes);
    return path(name);
  }
  std::string contents(const std::string& name) const {
    std::ifstream in(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  bool exists(const std::string& name) const { return std::filesystem::exists(path(name)); }
};

}  // namespace jointledger::testing
