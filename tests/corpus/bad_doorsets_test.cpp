// Door set files with a fault each: wrong keys and values, and leaves that no joiner could make. One file,
// one text with its messages in full.
#include <gtest/gtest.h>

#include "corpus/corpus_files.h"
#include "doorset/read_door_set.h"
#include "joint/cut_work.h"

namespace dryfit {
namespace {

const CorpusFolder kFolder("bad_doorsets");

class BadDoorSet : public testing::TestWithParam<std::string> {};

std::vector<Diagnostic> faultsOf(const std::string& text, const std::string& fileName, CutCache& cache) {
  const auto set = readDoorSet(text, fileName, keysOf(standardJoints()));
  if (!set) return set.faults();
  const auto work = setOutDoorSet(set.value());
  if (!work) return work.faults();
  const auto cut = cutWork(work.value(), standardJoints(), cache);
  return cut ? std::vector<Diagnostic>{} : cut.faults();
}

TEST_P(BadDoorSet, IsRefusedInTheTradesWords) {
  const std::string fileName = GetParam() + ".toml";
  CutCache cache;
  std::string said;
  for (const Diagnostic& d : faultsOf(kFolder.text(fileName), fileName, cache)) {
    said += toText(d) + "\n";
    EXPECT_EQ(d.fault, Fault::BadInput);
  }
  EXPECT_EQ(cache.cutCount(), 0) << "something was cut before the fault was found";
  EXPECT_EQ(said, kFolder.text(GetParam() + ".txt"));
  EXPECT_NE(said, "") << "it was made";
}

TEST(ManyRails, AreRefusedAtOnce) {
  std::string text = "title = \"T\"\n";
  for (int i = 0; i < 10000; ++i)
    text += "[[leaf.rail]]\nname = \"r" + std::to_string(i) + "\"\nwidth = 40\n";
  text += "[wall]\nkind = \"none\"\n";
  CutCache cache;
  const auto faults = faultsOf(text, "many.toml", cache);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(toText(faults[0]), "many.toml:2:1: leaf.rail: a leaf of 10000 rails is asked for; 2 to 20");
}

INSTANTIATE_TEST_SUITE_P(Corpus, BadDoorSet, testing::ValuesIn(kFolder.names()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
