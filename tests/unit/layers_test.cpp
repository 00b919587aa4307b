// Holds the sources to the layers, and the checker to made-up sources that break them.
#include <gtest/gtest.h>

#include "unit/layers.h"

namespace dryfit::layers {
namespace {

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// One file with one include line, beside headers every case may want.
std::vector<std::string> faultsOf(const std::string& path, const std::string& include) {
  Sources sources = {
      {"geometry/base/vec.h", ""},    {"geometry/fit/fit.h", ""},     {"geometry/solid/solid.h", ""},
      {"geometry/piece/piece.h", ""}, {"geometry/joint/kind.h", ""},  {"src/cli/help.h", ""},
      {"geometry/order/order.h", ""}, {"geometry/order/scene.h", ""}, {"tests/unit/layers.h", ""}};
  sources[path] = "#include " + include + "\n";
  return violations(sources);
}

TEST(Layers, TheSourcesKeepThem) {
  const Sources sources = readSources(DRYFIT_ROOT);
  ASSERT_TRUE(sources.count("geometry/base/vec.h"));
  ASSERT_TRUE(sources.count("src/main.cpp"));
  const auto found = violations(sources);
  EXPECT_TRUE(found.empty()) << joined(found);
}

TEST(Layers, TheTopIsFixed) {
  const auto strangers = strangersAtTop(namesAtTop(DRYFIT_ROOT));
  EXPECT_TRUE(strangers.empty()) << joined(strangers);
}

TEST(Layers, StrangersAtTheTopAreSeen) {
  EXPECT_EQ(strangersAtTop({"src", ".ci", "LICENSE", "build", "docs", "notes.txt"}),
            (std::vector<std::string>{"docs", "notes.txt"}));
}

TEST(Layers, IncludeLinesAreRead) {
  const auto found =
      includesOf("// #include \"no.h\"\n  #  include <vector>\n#include \"a/b.h\"  // why\nint x;\n");
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].name, "vector");
  EXPECT_FALSE(found[0].quoted);
  EXPECT_EQ(found[1].name, "a/b.h");
  EXPECT_TRUE(found[1].quoted);
  EXPECT_EQ(found[1].line, 3);
}

struct Case {
  const char* path;
  const char* include;
};

class Broken : public testing::TestWithParam<Case> {};
TEST_P(Broken, IsSeenOnce) {
  const auto found = faultsOf(GetParam().path, GetParam().include);
  EXPECT_EQ(found.size(), 1u) << joined(found);
}
INSTANTIATE_TEST_SUITE_P(
    Layers, Broken,
    testing::Values(Case{"geometry/base/a.cpp", "<fmt/format.h>"},           // base: standard library only
                    Case{"geometry/base/a.cpp", "<unistd.h>"},               // likewise
                    Case{"geometry/base/a.cpp", "\"solid/solid.h\""},        // upwards
                    Case{"geometry/solid/a.cpp", "\"piece/piece.h\""},       // upwards
                    Case{"geometry/piece/a.cpp", "\"joint/kind.h\""},        // upwards
                    Case{"geometry/piece/a.cpp", "\"../joint/kind.h\""},     // by another spelling
                    Case{"geometry/settingout/a.cpp", "\"solid/solid.h\""},  // needs base only
                    Case{"geometry/fit/a.cpp", "\"solid/solid.h\""},         // no kernel behind fit
                    Case{"geometry/fit/a.cpp", "\"piece/piece.h\""},
                    Case{"geometry/order/a.cpp", "\"joint/kind.h\""},
                    Case{"geometry/fit/a.cpp", "\"order/order.h\""},  // no joints behind the order
                    Case{"geometry/exchange/a.cpp", "\"joint/kind.h\""},
                    Case{"geometry/proof/a.cpp", "\"fit/fit.h\""},  // the proof has a code path of its own
                    Case{"geometry/proof/a.cpp", "\"order/scene.h\""},
                    Case{"geometry/fit/a.cpp", "\"cli/help.h\""},       // back into the program
                    Case{"geometry/fit/a.cpp", "\"unit/layers.h\""},    // sources from tests
                    Case{"geometry/novelty/a.cpp", "\"base/vec.h\""},   // a folder nobody named
                    Case{"geometry/solid/a.cpp", "<gp_Pnt.hxx>"},       // kernel out of detail
                    Case{"geometry/fit/detail/a.cpp", "<gp_Pnt.hxx>"},  // not that detail
                    Case{"src/cli/a.cpp", "<TopoDS_Shape.hxx>"},
                    Case{"tests/unit/a_test.cpp", "<TopoDS_Shape.hxx>"},  // judges say so in their name
                    Case{"geometry/piece/a.cpp", "<nlohmann/json.hpp>"},
                    Case{"geometry/solid/a.cpp", "<GL/gl.h>"}, Case{"src/ui/a.cpp", "<epoxy/gl.h>"},
                    Case{"src/gl/a.cpp", "<imgui.h>"}, Case{"src/cli/a.cpp", "<imgui/imgui_internal.h>"},
                    Case{"src/scene/a.cpp", "\"cli/help.h\""},
                    Case{"src/cli/a.cpp", "\"cli/lost.h\""}));  // no such file

class Sound : public testing::TestWithParam<Case> {};
TEST_P(Sound, IsLetPass) {
  const auto found = faultsOf(GetParam().path, GetParam().include);
  EXPECT_TRUE(found.empty()) << joined(found);
}
INSTANTIATE_TEST_SUITE_P(
    Layers, Sound,
    testing::Values(Case{"geometry/base/a.cpp", "<vector>"}, Case{"geometry/fit/a.cpp", "\"base/vec.h\""},
                    Case{"geometry/exchange/a.cpp", "\"piece/piece.h\""},
                    Case{"geometry/proof/a.cpp", "\"order/order.h\""},
                    Case{"geometry/solid/detail/a.cpp", "<gp_Pnt.hxx>"},
                    Case{"tests/reference/step_kernel_test.cpp", "<gp_Pnt.hxx>"},
                    Case{"src/cli/a.cpp", "\"fit/fit.h\""}, Case{"src/cli/a.cpp", "<CLI/CLI.hpp>"},
                    Case{"src/gl/a.cpp", "<epoxy/gl.h>"}, Case{"src/ui/a.cpp", "<imgui.h>"},
                    Case{"src/cli/a.cpp", "\"help.h\""}));

TEST(Layers, ACycleIsSeenOnce) {
  const auto found = violations({{"geometry/fit/a.h", "#include \"fit/b.h\"\n"},
                                 {"geometry/fit/b.h", "#include \"fit/c.h\"\n"},
                                 {"geometry/fit/c.h", "#include \"fit/a.h\"\n"}});
  ASSERT_EQ(found.size(), 1u) << joined(found);
  EXPECT_EQ(found[0],
            "include cycle: geometry/fit/a.h -> geometry/fit/b.h -> geometry/fit/c.h -> geometry/fit/a.h");
}

TEST(Layers, TwoWaysToOneHeaderAreNoCycle) {
  EXPECT_TRUE(violations({{"src/a.h", "#include \"b.h\"\n#include \"c.h\"\n"},
                          {"src/b.h", "#include \"c.h\"\n"},
                          {"src/c.h", ""}})
                  .empty());
}

}  // namespace
}  // namespace dryfit::layers
