// Works whose files are good but which no joiner could make: refused before anything is cut, in the trade's
// words, with the place in the file. One work, one text with its messages in full.
#include <gtest/gtest.h>

#include "corpus/corpus_files.h"
#include "joint/cut_work.h"
#include "settingout/read_work.h"

namespace dryfit {
namespace {

const CorpusFolder kFolder("unmakeable_works");

class UnmakeableWork : public testing::TestWithParam<std::string> {};

TEST_P(UnmakeableWork, IsRefusedInTheTradesWords) {
  const std::string fileName = GetParam() + ".toml";
  const auto work = readWork(kFolder.text(fileName), fileName, keysOf(standardJoints()));
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
  EXPECT_EQ(said, kFolder.text(GetParam() + ".txt"));
}

INSTANTIATE_TEST_SUITE_P(Corpus, UnmakeableWork, testing::ValuesIn(kFolder.names()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
