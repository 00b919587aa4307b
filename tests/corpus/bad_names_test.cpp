// Names that mean nothing, several pieces, or one thing twice: what order --why and card say to each, in
// full.
#include <gtest/gtest.h>

#include "cli/command_line.h"

namespace dryfit::cli {
namespace {

std::string said(const std::vector<std::string>& words) {
  const Outcome outcome = runCommandLine(words);
  EXPECT_EQ(outcome.status, 2);
  EXPECT_EQ(outcome.out, "");
  std::string all;
  for (const Diagnostic& d : outcome.faults) all += toText(d) + "\n";
  return all;
}

const std::string kFrame = std::string(DRYFIT_ROOT) + "/assets/works/panel-frame.toml";

struct BadName {
  std::string a, b, said;
};
class BadNames : public testing::TestWithParam<BadName> {};
TEST_P(BadNames, OfAWhyAreToldWithTheNearest) {
  EXPECT_EQ(said({"order", kFrame, "--why", GetParam().a, GetParam().b}), GetParam().said);
}
INSTANTIATE_TEST_SUITE_P(
    Corpus, BadNames,
    testing::Values(
        BadName{"panl", "rail.top", "--why: there is no piece or unit \"panl\"; did you mean panel?\n"},
        BadName{
            "wedge", "panel",
            "--why: 12 pieces are called \"wedge\"; say which: wedge.rail.top.left.1.upper, "
            "wedge.rail.top.left.1.lower, wedge.rail.top.right.1.upper, wedge.rail.top.right.1.lower ...\n"},
        BadName{"panel", "panel",
                "--why: both names mean one and the same thing, \"panel\"; name two pieces or units\n"},
        BadName{"zzzz", "yyyy",
                "--why: there is no piece or unit \"zzzz\"; dryfit pieces lists the pieces\n--why: there is "
                "no piece or unit \"yyyy\"; dryfit pieces lists the pieces\n"},
        BadName{"the top rale", "panel",
                "--why: there is no piece or unit \"the top rale\"; did you mean top rail?\n"}));

TEST(BadNames, OfACardAreToldWithTheNearest) {
  EXPECT_EQ(said({"card", kFrame, "rail.tpo"}), "there is no piece \"rail.tpo\"; did you mean rail.top?\n");
  EXPECT_EQ(said({"card", kFrame}), "card needs a piece; use: dryfit card FILE PIECE\n");
}

}  // namespace
}  // namespace dryfit::cli
