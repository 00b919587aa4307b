// Every size that `explain` tells, measured back from the cut pieces.
#include "explain_measure.h"

#include <gtest/gtest.h>

#include <set>

#include "support/random_leaf.h"

namespace dryfit::cli {
namespace {

struct Trial {
  std::string name, text;
};
void PrintTo(const Trial& trial, std::ostream* out) {
  *out << trial.name;
}

std::string leafOf(const char* doorSet) {
  return tests::withoutDoorway(contentOf(std::string(DRYFIT_ROOT "/assets/doorsets/") + doorSet + ".toml"));
}

class EverySize : public testing::TestWithParam<Trial> {};

/// 1e-6: coordinates are doubles of at most a few thousand mm (tolerance::kPoint).
TEST_P(EverySize, IsMeasuredBackFromThePieces) {
  const Explanation all = explained(GetParam().text);
  const Bench bench(GetParam().text);
  const Measure measure(bench, all);
  int measured = 0;
  for (const Explained& size : all.sizes) {
    if (size.unit != "mm") continue;
    const auto found = measure.of(size.key);
    if (!found) continue;
    EXPECT_NEAR(*found, std::get<double>(size.value), 1e-6) << size.key;
    ++measured;
  }
  EXPECT_GE(measured, 60);
}
INSTANTIATE_TEST_SUITE_P(
    Explain, EverySize,
    testing::Values(
        Trial{"default", "title = \"T\"\n"}, Trial{"oar_store", leafOf("oar-store")},
        Trial{"boat_hall", leafOf("boat-hall")}, Trial{"rigging_loft", leafOf("rigging-loft")},
        Trial{
            "fills",
            "title = \"T\"\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"lock\"\nwidth = \"fill\"\n"
            "[[leaf.rail]]\nname = \"bottom\"\n[[leaf.row]]\nheight = 900\n[[leaf.row]]\nheight = "
            "520\nmuntins = 2\nwidth = 80\n"}),
    [](const auto& info) { return info.param.name; });

/// What any leaf has; what hangs on fixing, kind of panel or section is measured on the leaves above.
const std::set<std::string> kMeasured{
    "width",    "height", "thickness", "hanging",         "closing",          "length",      "horns",
    "top_edge", "centre", "depth",     "clearance_along", "clearance_across", "tenon_width", "haunch_width"};

/// The same of leaves nobody has drawn; by hand with DRYFIT_LEAVES=100.
TEST(Explain, EverySizeOfRandomLeavesIsMeasuredBack) {
  tests::Chance chance{std::mt19937(1981)};
  const int leaves = tests::leavesAsked(3);
  int measured = 0;
  for (int n = 0; n < leaves;) {
    const std::string text = tests::doorSetOf(tests::randomLeaf(chance));
    if (!tests::faultsOfLeafAlone(text).empty()) continue;
    ++n;
    SCOPED_TRACE(text);
    const Explanation all = explained(text);
    const Bench bench(text);
    const Measure measure(bench, all);
    const bool across = text.find("grain = \"across\"") != std::string::npos;
    for (const Explained& size : all.sizes) {
      // The rule is laid on panels whose grain stands upright.
      if (across && begins(size.key, "leaf.panel.clearance")) continue;
      const std::string tail = size.key.substr(size.key.rfind('.') + 1);
      if (size.unit != "mm" || !kMeasured.count(tail) || begins(size.key, "leaf.moulding")) continue;
      const auto found = measure.of(size.key);
      if (!found) continue;
      EXPECT_NEAR(*found, std::get<double>(size.value), 1e-6) << size.key;
      ++measured;
    }
  }
  EXPECT_GE(measured, 20 * leaves);
}

}  // namespace
}  // namespace dryfit::cli
