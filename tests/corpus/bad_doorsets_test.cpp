// Door set files with a fault each: wrong keys and values, and leaves that no joiner could make. One file,
// one text with its messages in full.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "doorset/read_door_set.h"
#include "joint/cut_work.h"

namespace dryfit {
namespace {

namespace fs = std::filesystem;

const fs::path kFolder = fs::path(DRYFIT_ROOT) / "tests" / "corpus" / "bad_doorsets";

std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::string> badDoorSets() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolder))
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

class BadDoorSet : public testing::TestWithParam<std::string> {};

std::vector<Diagnostic> faultsOf(const std::string& text, const std::string& fileName, CutCache& cache) {
  const auto leaf = readDoorSet(text, fileName);
  if (!leaf) return leaf.faults();
  const auto work = setOutLeaf(leaf.value());
  if (!work) return work.faults();
  const auto cut = cutWork(work.value(), standardJoints(), cache);
  return cut ? std::vector<Diagnostic>{} : cut.faults();
}

TEST_P(BadDoorSet, IsRefusedInTheTradesWords) {
  const std::string fileName = GetParam() + ".toml";
  CutCache cache;
  std::string said;
  for (const Diagnostic& d : faultsOf(contents(kFolder / fileName), fileName, cache)) {
    said += toText(d) + "\n";
    EXPECT_EQ(d.fault, Fault::BadInput);
  }
  EXPECT_EQ(cache.cutCount(), 0) << "something was cut before the fault was found";
  EXPECT_EQ(said, contents(kFolder / (GetParam() + ".txt")));
  EXPECT_NE(said, "") << "it was made";
}

TEST(ManyRails, AreRefusedAtOnce) {
  std::string text = "title = \"T\"\n";
  for (int i = 0; i < 10000; ++i)
    text += "[[leaf.rail]]\nname = \"r" + std::to_string(i) + "\"\nwidth = 40\n";
  CutCache cache;
  const auto faults = faultsOf(text, "many.toml", cache);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(toText(faults[0]), "many.toml:2:1: leaf.rail: a leaf of 10000 rails is asked for; 2 to 20");
}

INSTANTIATE_TEST_SUITE_P(Corpus, BadDoorSet, testing::ValuesIn(badDoorSets()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
