// Leaves nobody has drawn, from random door set files: refused in plain words, or right all through, and
// mirrored by the other hand. DRYFIT_LEAVES=300 in the environment tries more by hand.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "fit/fit.h"
#include "order/order.h"
#include "settingout/tenon_rules.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Chance {
  std::mt19937 random;
  int whole(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); }
  bool oneIn(int n) { return whole(1, n) == 1; }
};

std::string author(Chance& c) {
  return tenonAuthors()[static_cast<size_t>(c.whole(0, static_cast<int>(tenonAuthors().size()) - 1))].word;
}

/// Now and then a rail's own tenons.
std::string randomTenon(Chance& c) {
  if (c.oneIn(4)) return fmt::format("tenon = {{ rule = \"{}\" }}\n", author(c));
  if (c.oneIn(8)) return fmt::format("tenon = {{ count = {} }}\n", c.whole(1, 4));
  if (c.oneIn(8)) return "tenon = { proud = 0 }\n";
  if (c.oneIn(8)) return "tenon = { haunch = false }\n";
  return "";
}

/// A door set file without its hand.
std::string randomLeaf(Chance& c) {
  std::string text = fmt::format("width = {}\nheight = {}\nthickness = {}\nhorns = {}\n", c.whole(450, 1100),
                                 c.whole(1200, 2600), c.whole(30, 60), c.oneIn(3) ? 0 : c.whole(20, 60));
  if (c.oneIn(2))
    text += fmt::format("stile = {{ hanging = {}, closing = {} }}\n", c.whole(60, 130), c.whole(60, 130));
  if (c.oneIn(2)) text += fmt::format("closing_bevel = {}\n", c.whole(1, 10) / 2.0);
  const char* fixings[] = {"wedged", "draw-bored", "glued", "dowelled"};
  const std::string fixing = fixings[c.whole(0, 3)];
  text += fmt::format("[leaf.tenon]\nfixing = \"{}\"\n", fixing);
  if (fixing != "dowelled") text += fmt::format("rule = \"{}\"\n", c.oneIn(2) ? "house" : author(c));
  text += fmt::format("[leaf.groove]\ndepth = {}\n[leaf.panel]\nkind = \"{}\"\ngrain = \"{}\"\n",
                      c.whole(6, 16), c.oneIn(3) ? "flat" : "raised", c.oneIn(4) ? "across" : "upright");
  const int rails = c.whole(2, 5);
  for (int i = 0; i < rails; ++i)
    text += fmt::format("[[leaf.rail]]\nname = \"r{}\"\nwidth = {}\n", i + 1,
                        c.whole(60, i + 1 == rails ? 240 : 150)) +
            (fixing == "dowelled" ? "" : randomTenon(c));
  for (int i = 0; i + 1 < rails; ++i)
    text += fmt::format("[[leaf.row]]\nmuntins = {}\nwidth = {}\n", c.whole(0, 2), c.whole(50, 100));
  return text;
}

TEST(RandomLeaves, AreRefusedInWordsOrRightAllThroughAndMirrored) {
  const char* asked = std::getenv("DRYFIT_LEAVES");
  const int leaves = asked ? std::atoi(asked) : 25;
  Chance c{std::mt19937(762)};
  int refused = 0;
  for (int n = 0; n < leaves; ++n) {
    const std::string body = randomLeaf(c), left = "title = \"L\"\n[leaf]\nhand = \"left\"\n" + body;
    SCOPED_TRACE(fmt::format("leaf {}\n{}", n, left));
    const auto faults = faultsOfDoorSet(left);
    if (!faults.empty()) {
      ++refused;
      for (const std::string& f : faults) {
        EXPECT_EQ(f.rfind("test.toml:", 0), 0u) << f;
        if (asked) std::printf("refused: %s\n", f.c_str());
      }
      continue;
    }
    const CutWork work = cutDoorSet(left),
                  other = cutDoorSet("title = \"R\"\n[leaf]\nhand = \"right\"\n" + body);
    for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
    std::vector<FitFault> before;  // everything in and fixed, nothing cleaned off yet
    fitBodies(work.assembly, statesBefore(work.assembly, "clean-off:"), "before cleaning off", before);
    for (const FitFault& f : before) ADD_FAILURE() << f.text;
    const auto order = plan(work.assembly);
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
    ASSERT_EQ(work.pieces.size(), other.pieces.size());
    for (size_t i = 0; i < work.pieces.size(); ++i) {
      const Shell& shell = work.pieces[i].last().shell;
      const auto solid = solidFromShell(shell);
      ASSERT_TRUE(solid.ok()) << work.pieces[i].id;
      for (const std::string& fault : faultsOf(solid.value()))
        ADD_FAILURE() << work.pieces[i].id << ": " << fault;
      EXPECT_EQ(shapeKey({&shell}), mirroredShapeKey({&other.pieces[i].last().shell})) << work.pieces[i].id;
    }
    if (HasFailure()) return;
  }
  EXPECT_LE(refused, leaves / 2);
}

}  // namespace
}  // namespace dryfit::tests
