// One bad file, one text with every message it must give, in full: what is asserted is what a user reads.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "corpus/small_kinds.h"
#include "settingout/read_work.h"

namespace dryfit {
namespace {

namespace fs = std::filesystem;

const fs::path kFolder = fs::path(DRYFIT_ROOT) / "tests" / "corpus" / "bad_works";

std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::string> badWorks() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolder))
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::string messages(const std::string& text, const std::string& fileName) {
  const auto work = readWork(text, fileName, testing::smallKinds());
  std::string all;
  if (work.ok()) return all;
  for (const Diagnostic& d : work.faults()) all += toText(d) + "\n";
  return all;
}

class BadWork : public ::testing::TestWithParam<std::string> {};

TEST_P(BadWork, SaysAllThatIsWrong) {
  const std::string fileName = GetParam() + ".toml";
  const std::string said = messages(contents(kFolder / fileName), fileName);
  EXPECT_EQ(said, contents(kFolder / (GetParam() + ".txt")));
  EXPECT_NE(said, "") << "a bad file was taken for a good one";
}

TEST_P(BadWork, FaultsAreBadInputWithAMessage) {
  const std::string fileName = GetParam() + ".toml";
  const auto work = readWork(contents(kFolder / fileName), fileName, testing::smallKinds());
  ASSERT_FALSE(work.ok());
  for (const Diagnostic& d : work.faults()) {
    EXPECT_EQ(d.fault, Fault::BadInput);
    EXPECT_NE(d.message, "");
    EXPECT_EQ(d.where.file, fileName);
    EXPECT_NE(d.message.back(), '.') << d.message;
  }
}

INSTANTIATE_TEST_SUITE_P(Corpus, BadWork, ::testing::ValuesIn(badWorks()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
