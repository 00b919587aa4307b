// Help pages, tables and reports: their shape, and that pages and command line agree.
#include <gtest/gtest.h>

#include <sstream>

#include "cli/help.h"
#include "cli/report.h"
#include "cli/table.h"
#include "unit/hand_made_work.h"

namespace dryfit::cli {
namespace {

std::vector<std::string> linesOf(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> out;
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// Terminals have been 80 columns wide since the punched card; examples may show a table as it comes.
void expectTidy(const std::string& page) {
  const std::string prose = page.substr(0, page.find("\nExample\n"));
  for (const std::string& line : linesOf(prose)) EXPECT_LE(lettersIn(line), 80) << line;
  for (const std::string& line : linesOf(page)) EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
}

class Pages : public testing::TestWithParam<const Command*> {};
INSTANTIATE_TEST_SUITE_P(Cli, Pages, testing::ValuesIn(commands()),
                         [](const auto& info) { return info.param->name; });

TEST_P(Pages, HaveEverySectionInOrder) {
  const std::string page = commandPage(*GetParam());
  EXPECT_EQ(page.rfind("dryfit " + GetParam()->name + " - ", 0), 0u);
  size_t last = 0;
  for (const char* title : {"Use", "What it does", "Options", "What it prints", "Exit status", "Example"}) {
    const size_t at = page.find("\n" + std::string(title) + "\n");
    ASSERT_NE(at, std::string::npos) << title;
    EXPECT_GT(at, last) << title;
    last = at;
  }
  expectTidy(page);
}

TEST_P(Pages, NameEveryOptionAndStatus) {
  const std::string page = commandPage(*GetParam());
  for (const OptionSpec& option : GetParam()->options)
    EXPECT_TRUE(has(page, "    " + option.names.substr(0, option.names.find(',')))) << option.names;
  for (const char* status : {"    0  ", "    1  ", "    2  ", "    3  "})
    EXPECT_TRUE(has(page, status)) << page;
  EXPECT_TRUE(has(page, "    $ dryfit " + GetParam()->name));
  EXPECT_TRUE(has(page, useLine(*GetParam())));
}

TEST(Help, TheProgramsPageListsEveryCommand) {
  const std::string page = programPage();
  for (const Command* command : commands())
    EXPECT_TRUE(has(page, "    " + command->name + " ")) << command->name;
  expectTidy(page);
}

TEST(Help, TextIsWrappedAtSpaces) {
  EXPECT_EQ(wrapped("one two three", 2, 9), "  one two\n  three\n");
  EXPECT_EQ(wrapped("averylongword b", 0, 4), "averylongword\nb\n");
  // Letters count, not bytes: each of these is three bytes long.
  EXPECT_EQ(wrapped("\u2013\u2013 \u2013\u2013", 0, 5), "\u2013\u2013 \u2013\u2013\n");
}

TEST(Table, ColumnsStandUnderTheirHeads) {
  EXPECT_EQ(table({{"id"}, {"mm", true}}, {{"rail", "7"}, {"\u00e9", "1000"}}),
            "id      mm\n"
            "rail     7\n"
            "\u00e9     1000\n");
}

TEST(Table, FiguresHaveNoNeedlessDigits) {
  EXPECT_EQ(figure(44), "44");
  EXPECT_EQ(figure(44.5), "44.5");
  EXPECT_EQ(figure(1.0 / 3), "0.33");
  EXPECT_EQ(figure(100), "100");
  EXPECT_EQ(figure(-0.0001), "0");
  EXPECT_EQ(figure(99.999), "100");
  EXPECT_EQ(figure(1200, 0), "1200");
}

TEST(Reports, PiecesAreATableWithTheirMass) {
  const std::string text = piecesText(handMadeWork(), {{"a", 1, {}}, {"b", 1, 2}, {"c", 1, 1}, {"d", 1, {}}});
  const auto lines = linesOf(text);
  EXPECT_EQ(lines[0], "Post and bar: 3 pieces, sizes in mm");
  EXPECT_EQ(lines[2], "piece  name  material  length  width  thickness  alike     kg");
  EXPECT_EQ(lines[3], "post   post  beech        400     95         44      1  0.836");
  EXPECT_TRUE(has(text, "bar and peg are a handed pair\n"));
  // The floor is formed in place: on no list, weighed by nobody.
  EXPECT_TRUE(has(text, "\nformed in place: floor (beech)\n"));
  // 500 kg/m3 of 400x95x44 + 300x60x20 + 100x10x10 mm3.
  EXPECT_EQ(lines.back(), "together 1.021 kg");
}

TEST(Reports, FitSaysYesOrNo) {
  const Assembly assembly = handMadeWork().assembly;
  const std::string no = fitText(assembly, handMadeFit());
  EXPECT_TRUE(has(no, "post and bar share 12.5 mm3.\n"));
  EXPECT_TRUE(has(no, "\nfits: no, 2 faults\n"));
  FitReport clean = handMadeFit();
  clean.faults.clear();
  EXPECT_TRUE(has(fitText(assembly, clean), "\nfits: yes"));
}

TEST(Reports, BlocksTellStoppedAndFree) {
  const std::string text = blocksText(handMadeWork().assembly, handMadeBlocks());
  EXPECT_TRUE(has(text, "stopped after 0.1 mm  end.low on edge.high\n")) << text;
  EXPECT_TRUE(has(text, "bar    post    -X")) << text;
  EXPECT_TRUE(has(text, "0.707 0 0.707  free after 30 mm\n")) << text;
}

TEST(Reports, StepsAreNumberedUnderTheirStages) {
  const std::string text = orderText(handMadeWork().assembly, handMadeOrder());
  EXPECT_EQ(
      text.substr(0, text.find("  2. ")),
      "Post and bar: order of work, 7 steps\n\nFraming (whole)\n  1. Do the fit.\n     Why: It is next.\n");
  EXPECT_TRUE(has(text, "\nPegging (whole)\n  3. "));
  EXPECT_TRUE(has(text, "     Caution: Mind the grain.\n"));
}

}  // namespace
}  // namespace dryfit::cli
