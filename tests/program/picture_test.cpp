// Pictures by the real program: files of the size asked for, the same each time; what is refused leaves the
// disk as it was.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "program/child.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

const std::string kCorner = std::string(DRYFIT_ROOT) + "/assets/works/practice-corner.toml";

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}
unsigned numberAt(const std::string& bytes, size_t at) {
  unsigned n = 0;
  for (size_t i = 0; i < 4; ++i) n = n << 8 | static_cast<unsigned char>(bytes.at(at + i));
  return n;
}
/// "320x180" from a PNG's head (ISO/IEC 15948, 11.2.2).
std::string sizeOfPng(const std::string& bytes) {
  EXPECT_EQ(bytes.substr(0, 8), "\x89PNG\r\n\x1a\n");
  return std::to_string(numberAt(bytes, 16)) + "x" + std::to_string(numberAt(bytes, 20));
}
std::vector<std::string> quick(std::vector<std::string> words) {
  for (const char* more : {"--size", "320x180", "--passes", "2"}) words.push_back(more);
  return words;
}
std::vector<std::string> sorted(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  return names;
}

TEST(PictureProgram, WritesAPngOfTheSizeAskedForAndTheSameEachTime) {
  const TemporaryFolder folder;
  const Said said = dryfit(quick({"picture", kCorner, "-o", folder.file("a.png")}));
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.err, "");
  const std::string bytes = contentOf(folder.file("a.png"));
  EXPECT_EQ(sizeOfPng(bytes), "320x180");
  EXPECT_EQ(said.out, "wrote " + folder.file("a.png") + ": 320x180 pixels, " + std::to_string(bytes.size()) +
                          " bytes\n");
  const ChildOptions elsewhere{folder.path(), "", {"TZ=Asia/Tokyo", "LC_ALL=C"}, {}};
  ASSERT_EQ(dryfit(quick({"picture", "-o", "b.png", kCorner}), elsewhere).status, 0);
  EXPECT_EQ(contentOf(folder.file("b.png")), bytes);
  EXPECT_EQ(sorted(folder.names()), (std::vector<std::string>{"a.png", "b.png"}));
}

TEST(PictureProgram, EveryOptionIsTakenAndChangesThePicture) {
  const TemporaryFolder folder;
  ASSERT_EQ(dryfit(quick({"picture", kCorner, "-o", folder.file("plain.png")})).status, 0);
  const std::string plain = contentOf(folder.file("plain.png"));
  const std::vector<std::vector<std::string>> options = {{"--view", "-30,20"},
                                                         {"--step", "2"},
                                                         {"--step=5", "--moving=0.5"},
                                                         {"--spread", "100"},
                                                         {"--section", "across=-3 mm"},
                                                         {"--section", "plan=350", "--section", "across=0"},
                                                         {"--section", "through rail+stile"},
                                                         {"--see-through", "stile", "--see-through", "rail"},
                                                         {"--joint", "rail+stile"},
                                                         {"--hide", "stile", "--hide", "wedge"},
                                                         {"--labels"},
                                                         {"--sizes"},
                                                         {"--sizes", "--unit", "in"},
                                                         {"--ground", "slate"}};
  std::vector<std::string> all{plain};
  for (const auto& more : options) {
    std::vector<std::string> words = quick({"picture", kCorner, "-o", folder.file("more.png")});
    words.insert(words.end(), more.begin(), more.end());
    const Said said = dryfit(words);
    ASSERT_EQ(said.status, 0) << testing::PrintToString(more) << said.err;
    all.push_back(contentOf(folder.file("more.png")));
  }
  for (size_t i = 0; i < all.size(); ++i)
    for (size_t j = 0; j < i; ++j)
      EXPECT_TRUE(all[i] != all[j]) << "pictures " << i << " and " << j << " are the same";
}

TEST(PictureProgram, WhatFoundNoRoomIsListed) {
  const TemporaryFolder folder;
  const Said roomy = dryfit({"picture", kCorner, "-o", folder.file("a.png"), "--labels", "--passes", "1"});
  EXPECT_TRUE(std::regex_search(roomy.out, std::regex("\n[0-9]+ labels and sizes\n$"))) << roomy.out;
  const Said tight = dryfit({"picture", kCorner, "-o", folder.file("b.png"), "--labels", "--sizes", "--size",
                             "64x48", "--passes", "1"});
  EXPECT_EQ(tight.status, 0) << tight.err;
  EXPECT_TRUE(std::regex_search(
      tight.out, std::regex("\n[0-9]+ labels and sizes, [0-9]+ found no room:\n(  (label|size): .+\n)+$")))
      << tight.out;
}

TEST(PictureProgram, ABadOptionSaysWhatIsAllowedAndNothingIsWritten) {
  const TemporaryFolder folder;
  put(folder.file("old.png"), "old");
  const std::vector<std::pair<std::vector<std::string>, std::string>> bad = {
      {{"--size", "12"}, "dryfit: --size: \"12\" is not a size; WIDTHxHEIGHT in pixels, each 16 or more"},
      {{"--size", "9999999x20"},
       "dryfit: --size: a picture of 9999999x20 is more than this machine can draw; at most "},
      {{"--view", "sied"}, "dryfit: --view: there is no view \"sied\"; did you mean side?"},
      {{"--step", "99"}, "dryfit: --step: there is no step 99; 1 to 7"},
      {{"--section", "plan=9999"},
       "dryfit: --section: \"plan at 9999 mm\" cuts nothing; the work stands from"},
      {{"--joint", "rail+stlie"},
       "dryfit: --joint: there is no joint \"rail+stlie\"; did you mean rail+stile?"},
      {{"--hide", ""}, "dryfit: --hide needs ID, not an empty word"},
      {{"--size", "20x20", "--size", "30x30"}, "dryfit: --size may be given only once"},
      {{"--section"}, "dryfit: --section needs PLACE after it"},
      {{"--labels=no"}, "dryfit: --labels takes no value"},
      {{"--sise", "20x20"}, "dryfit: there is no option \"--sise\"; did you mean --size?"}};
  for (const auto& [more, text] : bad) {
    std::vector<std::string> words = {"picture", kCorner, "-o", folder.file("old.png")};
    words.insert(words.end(), more.begin(), more.end());
    const Said said = dryfit(words);
    EXPECT_EQ(said.status, 2) << text;
    EXPECT_EQ(said.out, "");
    EXPECT_EQ(said.err.rfind(text, 0), 0u) << said.err;
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  }
  EXPECT_EQ(contentOf(folder.file("old.png")), "old");
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"old.png"}));
}

TEST(PictureProgram, AFileThatCannotBeWrittenIsStatusThree) {
  const TemporaryFolder folder;
  const Said missing = dryfit(quick({"picture", kCorner, "-o", folder.file("no/such/a.png")}));
  EXPECT_EQ(missing.status, 3);
  EXPECT_TRUE(has(missing.err, "no/such/a.png: No such file or directory")) << missing.err;
  const Said aFolder = dryfit(quick({"picture", kCorner, "-o", folder.path()}));
  EXPECT_EQ(aFolder.status, 3);
  EXPECT_TRUE(has(aFolder.err, "Is a directory")) << aFolder.err;
  EXPECT_TRUE(folder.names().empty());
  EXPECT_EQ(dryfit({"picture", kCorner, "-o", kCorner}).status, 2);
}

TEST(PictureProgram, WithoutOpenGlItSaysWhatIsMissing) {
  const TemporaryFolder folder;
  // Mesa is told to offer no more than OpenGL 2.1; other makers' drivers do not listen to it.
  const ChildOptions old{"", "", {"MESA_GL_VERSION_OVERRIDE=2.1", "MESA_GLSL_VERSION_OVERRIDE=120"}, {}};
  const Said said = dryfit(quick({"picture", kCorner, "-o", folder.file("a.png")}), old);
  if (said.status == 0) GTEST_SKIP() << "the driver here is not Mesa's";
  EXPECT_EQ(said.status, 3);
  EXPECT_TRUE(has(said.err, "OpenGL 3.3")) << said.err;
  EXPECT_TRUE(folder.names().empty());
}

TEST(StepsProgram, WritesAPictureAStepAndAPageWhoseLinksResolve) {
  const TemporaryFolder folder;
  const Said said = dryfit(quick({"steps", kCorner, "-o", folder.file("out")}));
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.out, "wrote " + folder.file("out") + ": steps.md and 7 pictures\n");
  const std::string page = contentOf(folder.file("out/steps.md"));
  std::vector<std::string> links, there;
  const std::regex link(R"(!\[[^\]]*\]\(([^)]*)\))");
  for (std::sregex_iterator it(page.begin(), page.end(), link), end; it != end; ++it)
    links.push_back((*it)[1]);
  EXPECT_EQ(links, (std::vector<std::string>{"step-01.png", "step-02.png", "step-03.png", "step-04.png",
                                             "step-05.png", "step-06.png", "step-07.png"}));
  for (const auto& entry : std::filesystem::directory_iterator(folder.file("out")))
    there.push_back(entry.path().filename());
  there = sorted(there);
  ASSERT_EQ(there.size(), 8u);
  EXPECT_EQ(there.back(), "steps.md");
  for (size_t i = 0; i < links.size(); ++i) {
    EXPECT_EQ(there[i], links[i]);
    EXPECT_EQ(sizeOfPng(contentOf(folder.file("out/" + links[i]))), "320x180");
  }
  // The texts are those of dryfit order, which wraps them.
  const std::string order = std::regex_replace(dryfit({"order", kCorner}).out, std::regex("\\s+"), " ");
  const std::regex text("### Step [0-9]+\n\n([^\n]+)\n");
  int texts = 0;
  for (std::sregex_iterator it(page.begin(), page.end(), text), end; it != end; ++it, ++texts)
    EXPECT_TRUE(has(order, (*it)[1])) << (*it)[1];
  EXPECT_EQ(texts, 7);
}

TEST(StepsProgram, AStepsPictureIsThatOfPictureStep) {
  const TemporaryFolder folder;
  ASSERT_EQ(dryfit(quick({"steps", kCorner, "-o", folder.file("out")})).status, 0);
  ASSERT_EQ(dryfit(quick({"picture", kCorner, "-o", folder.file("5.png"), "--step", "5"})).status, 0);
  EXPECT_TRUE(contentOf(folder.file("out/step-05.png")) == contentOf(folder.file("5.png")));
}

TEST(StepsProgram, WhatIsInTheWayIsLeftAsItWas) {
  const TemporaryFolder folder;
  put(folder.file("file"), "old");
  const Said file = dryfit(quick({"steps", kCorner, "-o", folder.file("file")}));
  EXPECT_EQ(file.status, 3);
  EXPECT_TRUE(has(file.err, "cannot write " + folder.file("file") + ": Not a directory")) << file.err;
  const Said missing = dryfit(quick({"steps", kCorner, "-o", folder.file("no/such")}));
  EXPECT_EQ(missing.status, 3);
  const Said bad = dryfit({"steps", kCorner, "-o", folder.file("out"), "--passes", "0"});
  EXPECT_EQ(bad.status, 2);
  EXPECT_TRUE(has(bad.err, "--passes: \"0\" is not a number of passes from 1 to 256")) << bad.err;
  EXPECT_EQ(dryfit({"steps", kCorner, "-o", folder.file("out"), "--step", "2"}).status, 2);
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"file"}));
  EXPECT_EQ(contentOf(folder.file("file")), "old");
}

}  // namespace
}  // namespace dryfit
