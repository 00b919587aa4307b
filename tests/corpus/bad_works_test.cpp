// One bad file, one text with every message it must give, in full: what is asserted is what a user reads.
#include <gtest/gtest.h>

#include "corpus/corpus_files.h"
#include "corpus/small_kinds.h"
#include "settingout/read_work.h"

namespace dryfit {
namespace {

const CorpusFolder kFolder("bad_works");

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
  const std::string said = messages(kFolder.text(fileName), fileName);
  EXPECT_EQ(said, kFolder.text(GetParam() + ".txt"));
  EXPECT_NE(said, "") << "a bad file was taken for a good one";
}

TEST_P(BadWork, FaultsAreBadInputWithAMessage) {
  const std::string fileName = GetParam() + ".toml";
  const auto work = readWork(kFolder.text(fileName), fileName, testing::smallKinds());
  ASSERT_FALSE(work.ok());
  for (const Diagnostic& d : work.faults()) {
    EXPECT_EQ(d.fault, Fault::BadInput);
    EXPECT_NE(d.message, "");
    EXPECT_EQ(d.where.file, fileName);
    EXPECT_NE(d.message.back(), '.') << d.message;
  }
}

INSTANTIATE_TEST_SUITE_P(Corpus, BadWork, ::testing::ValuesIn(kFolder.names()),
                         [](const auto& info) { return info.param; });

}  // namespace
}  // namespace dryfit
