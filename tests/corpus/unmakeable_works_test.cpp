// Works whose files are good but which no joiner could make: refused before anything is cut, in the trade's
// words, with the place in the file. One work, one text with its messages in full.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "joint/cut_work.h"
#include "settingout/read_work.h"

namespace dryfit {
namespace {

namespace fs = std::filesystem;

const fs::path kFolder = fs::path(DRYFIT_ROOT) / "tests" / "corpus" / "unmakeable_works";

std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::string> unmakeableWorks() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolder))
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

class UnmakeableWork : public testing::TestWithParam<std::string> {};

TEST_P(UnmakeableWork, IsRefusedInTheTradesWords) {
  const std::string fileName = GetParam() + ".toml";
  const auto work = readWork(contents(kFolder / fileName), fileName, keysOf(standardJoints()));
  ASSERT_TRUE(work.ok()) << toText(work.faults()[0]);
  CutCache cache;
  const auto cut = cutWork(work.value(), standardJoints(), cache);
  ASSERT_FALSE(cut.ok()) << "it was made";
  std::string said;
  for (const Diagnostic& d : cut.faults()) {
    said += toText(d) + "\n";
    EXPECT_EQ(d.fault, Fault::BadInput);
  }
  EXPECT_EQ(cache.cutCount(), 0) << "something was cut before the fault was found";
  EXPECT_EQ(said, contents(kFolder / (GetParam() + ".txt")));
}

INSTANTIATE_TEST_SUITE_P(Corpus, UnmakeableWork, testing::ValuesIn(unmakeableWorks()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
