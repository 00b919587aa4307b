// Bad command lines: one message, what is allowed, the nearest known name, status 2.
#include "cli/command_line.h"

#include <gtest/gtest.h>

#include "cli/help.h"

namespace dryfit::cli {
namespace {

using Words = std::vector<std::string>;

struct Bad {
  Words words;
  std::string message, hint;  ///< parts that must be there
};
void PrintTo(const Bad& bad, std::ostream* out) {
  for (const std::string& word : bad.words) *out << word << " ";
}

class BadLines : public testing::TestWithParam<Bad> {};
TEST_P(BadLines, AreToldOnce) {
  const Outcome outcome = runCommandLine(GetParam().words);
  EXPECT_EQ(outcome.status, 2);
  EXPECT_EQ(outcome.out, "");
  ASSERT_EQ(outcome.faults.size(), 1u);
  const Diagnostic& fault = outcome.faults[0];
  EXPECT_EQ(fault.fault, Fault::BadInput);
  EXPECT_NE(fault.message.find(GetParam().message), std::string::npos) << fault.message;
  EXPECT_NE(fault.hint.find(GetParam().hint), std::string::npos) << fault.hint;
}
INSTANTIATE_TEST_SUITE_P(
    Cli, BadLines,
    testing::Values(
        Bad{{}, "no command", "pieces, fit, blocks, order, try, rules, step, picture, steps, view, card"},
        Bad{{"peices", "a.toml"}, "\"peices\"", "did you mean pieces? commands: pieces, fit"},
        Bad{{"xyzzy"}, "\"xyzzy\"", "commands: pieces, fit"},
        Bad{{"--jsno"}, "\"--jsno\"", "options of dryfit: --version, --help"},
        Bad{{"--hepl"}, "\"--hepl\"", "did you mean --help?"},
        Bad{{"pieces"}, "needs the name of a work file", "dryfit pieces [--json] FILE"},
        Bad{{"pieces", "--jsno", "a.toml"}, "\"--jsno\"", "did you mean --json? options of dryfit pieces"},
        Bad{{"pieces", "--jsno"}, "\"--jsno\"", "did you mean --json?"},
        Bad{{"pieces", "--by-shape", "a.toml"}, "\"--by-shape\"", "--json, --help"},
        Bad{{"pieces", "a.toml", "b.toml"}, "\"b.toml\" is one file too many", "use: dryfit pieces"},
        Bad{{"pieces", "--json=maybe", "a.toml"}, "--json takes no value", "use: dryfit pieces"},
        Bad{{"order", "--by-shap", "a.toml"}, "\"--by-shap\"", "did you mean --by-shape?"},
        Bad{{"explain"}, "needs the name of a work file", "dryfit explain [--json] FILE [KEY]"},
        Bad{{"explain", "a.toml", "leaf", "x"}, "\"x\" is one file too many", "use: dryfit explain"},
        Bad{{"keys", "leaf.widht"}, "there is no key \"leaf.widht\"", "did you mean leaf.width?"},
        Bad{{"keys", "zzzz"}, "there is no key \"zzzz\"", "dryfit keys lists them all"},
        Bad{{"step", "a.toml"}, "needs -o OUT.step", "use: dryfit step -o OUT.step"},
        Bad{{"step", "a.toml", "-o"}, "-o needs OUT.step after it", "use: dryfit step"},
        Bad{{"step", "a.toml", "-o", ""}, "needs OUT.step", "use: dryfit step"},
        Bad{{"step", "a.toml", "-o", "a", "-o", "b"}, "-o may be given only once", "use: dryfit step"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", "101"},
            "\"101\" is no percentage",
            "from 0 (home) to 100"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", "-1"},
            "\"-1\" is no percentage",
            "from 0 (home) to 100"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", "70%"},
            "\"70%\" is no percentage",
            "such as --spread 70"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", "1e1"},
            "\"1e1\" is no percentage",
            "from 0 (home) to 100"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", "nan"},
            "\"nan\" is no percentage",
            "from 0 (home) to 100"},
        Bad{{"step", "a.toml", "-o", "a", "--spread", ""},
            "--spread needs P, not an empty word",
            "use: dryfit step"},
        Bad{{"step", "a.toml", "-o", "a", "--spread"}, "--spread needs P after it", "use: dryfit step"},
        Bad{{"step", "-o", "x.step"}, "needs the name of a work file", "use: dryfit step"},
        Bad{{"step", "a.toml", "--outptu", "x"}, "\"--outptu\"", "did you mean --output?"},
        Bad{{"picture", "a.toml"},
            "picture needs -o OUT.png",
            "use: dryfit picture -o OUT.png [options] FILE"},
        Bad{{"picture", "a.toml", "-o", "a.png", "--hide"},
            "--hide needs ID after it",
            "use: dryfit picture"},
        Bad{{"picture", "a.toml", "-o", "a.png", "--hide", "a", "b"}, "\"b\" is one file too many", "use:"},
        Bad{{"picture", "a.toml", "-o", "a.png", "--view", ""},
            "--view needs VIEW, not an empty word",
            "use:"},
        Bad{{"steps", "a.toml"}, "steps needs -o FOLDER", "use: dryfit steps -o FOLDER [options] FILE"},
        Bad{{"steps", "a.toml", "-o", "a", "--step", "1"}, "\"--step\"", "options of dryfit steps"},
        Bad{{"order", "a.toml", "--why", "rail"}, "--why needs A B after it", "use: dryfit order"},
        Bad{{"order", "a.toml", "--why", "a", "b", "--why", "c", "d"},
            "--why needs A B after it",
            "use: dryfit order"},
        Bad{{"order", "a.toml", "--why", "a", ""}, "--why needs A B, not an empty word", "use: dryfit order"},
        Bad{{"fit", "no/such/file.toml"}, "no/such/file.toml: No such file", ""}));

TEST(CommandLine, HelpAndVersion) {
  for (const char* word : {"--help", "-h"}) EXPECT_EQ(runCommandLine({word}).out, programPage());
  EXPECT_EQ(runCommandLine({"--version"}).out, versionLine());
  EXPECT_EQ(versionLine(), "dryfit 0.1.0\n");
  for (const Command* command : commands()) {
    for (const char* word : {"--help", "-h"}) {
      const Outcome outcome = runCommandLine({command->name, word});
      EXPECT_EQ(outcome.out, commandPage(*command));
      EXPECT_EQ(outcome.status, 0);
    }
    EXPECT_EQ(runCommandLine({command->name, "a.toml", "--help"}).out, commandPage(*command));
  }
}

TEST(CommandLine, EveryOptionOfAPageIsRead) {
  for (const Command* command : commands()) {
    if (command->about != "FILE") continue;
    Words words = {command->name, "no/such/file.toml"};
    for (const OptionSpec& option : command->options) {
      words.push_back(option.names.substr(option.names.rfind("--")));
      for (int i = 0; !option.flag && i < option.atOnce; ++i)
        words.push_back(option.value == "P" ? "50" : "value");  // step looks at it first
    }
    const Outcome outcome = runCommandLine(words);
    ASSERT_EQ(outcome.faults.size(), 1u);
    EXPECT_NE(outcome.faults[0].message.find("cannot read no/such/file.toml"), std::string::npos)
        << outcome.faults[0].message;
  }
}

TEST(CommandLine, JointsTellsAKindAndItsKeysOrAllOfThem) {
  const std::string all = runCommandLine({"joints"}).out, one = runCommandLine({"joints", "stub-tenon"}).out;
  EXPECT_EQ(one.rfind("stub-tenon\n", 0), 0u) << one;
  EXPECT_NE(one.find("\n    clearance = a length, 0.1 to 10 mm\n"), std::string::npos) << one;
  EXPECT_NE(all.find("\n" + one), std::string::npos);
  const Outcome wrong = runCommandLine({"joints", "stubtenon"});
  EXPECT_EQ(wrong.status, 2);
  ASSERT_EQ(wrong.faults.size(), 1u);
  EXPECT_NE(wrong.faults[0].hint.find("did you mean stub-tenon?"), std::string::npos);
}

TEST(CommandLine, TheWorkFileIsNotWrittenOver) {
  const std::string here = std::string(DRYFIT_ROOT) + "/CMakeLists.txt";
  const Outcome outcome = runCommandLine({"step", here, "-o", here});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_NE(outcome.faults.at(0).message.find("is the work file itself"), std::string::npos);
}

}  // namespace
}  // namespace dryfit::cli
