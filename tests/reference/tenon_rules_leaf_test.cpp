// Each author's tenons on one leaf, from a door set file, measured on the cut pieces. Leaf 762 x 1981 x 44;
// stiles, top rail and muntins 95, lock and bottom rails 195, groove 12. Sources, named beside each check:
//   Fairham, Woodwork Joints; Noyes, Handwork in Wood (1910); Rivington's Notes on Building Construction;
//   Goring, Manual of Purpose-Made Woodworking Joinery; Hasluck (ed.), Cassell's Carpentry and Joinery
//   (1907); Construction Superintendence; Building Construction vol. 2. The college and the CPWD rule are
//   from memory. Figures are plain sums, held to 1e-6 mm unless the author rounds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "fit/fit.h"
#include "order/order.h"
#include "reference/leaf_measures.h"
#include "settingout/tenon_rules.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kInch = 25.4;

/// The leaf under a rule for all of it; `bottom`, `lock`: more keys of those rails.
std::string leaf(const std::string& rule, const std::string& lock = "", const std::string& bottom = "") {
  return fmt::format(
      "title = \"Leaf\"\n[leaf]\nwidth = 762\nheight = 1981\nthickness = 44\nstile = 95\n[leaf.tenon]\nrule "
      "= "
      "\"{}\"\n[leaf.groove]\ndepth = 12\n"
      "[[leaf.rail]]\nname = \"top\"\nwidth = 95\n"
      "[[leaf.rail]]\nname = \"lock\"\n{}top_edge = 965\n"
      "[[leaf.rail]]\nname = \"bottom\"\n{}"
      "[[leaf.row]]\nmuntins = 1\nwidth = 95\n[[leaf.row]]\nmuntins = 1\nwidth = 95\n",
      rule, lock.empty() ? "width = 195\n" : lock, bottom.empty() ? "width = 195\n" : bottom);
}

void expectWidths(const CutWork& work, const std::string& rail, const std::vector<double>& expected,
                  double tolerance = kExact) {
  const auto found = widths(tonguesOf(work, rail, 50));  // half way through the stile: tenons only
  ASSERT_EQ(found.size(), expected.size()) << rail;
  for (size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], expected[i], tolerance) << rail << " " << i;
}

TEST(TenonRules, EveryOneFitsAndIsFoundAnOrder) {
  ASSERT_GE(tenonAuthors().size(), 10u);
  for (const TenonAuthor& author : tenonAuthors()) {
    SCOPED_TRACE(author.word);
    const CutWork work = cutLeafAlone(leaf(author.word));
    for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
    // Rivington, row of all: a bottom rail of 195 has a pair, a top rail of 95 one tenon.
    EXPECT_EQ(tonguesOf(work, "bottom", 50).size(), 2u);
    EXPECT_EQ(tonguesOf(work, "top", 50).size(), 1u);
  }
}

// Left out, or "house": what the leaf was without the key.
TEST(TenonRules, HouseIsTheDefault) {
  const std::string named = leaf("house"), key = "rule = \"house\"\n";
  std::string bare = named;
  bare.erase(bare.find(key), key.size());
  const CutWork a = cutLeafAlone(named), b = cutLeafAlone(bare);
  ASSERT_EQ(a.pieces.size(), b.pieces.size());
  for (size_t i = 0; i < a.pieces.size(); ++i)
    EXPECT_EQ(hashOf(a.pieces[i].last().recipe), hashOf(b.pieces[i].last().recipe)) << a.pieces[i].id;
  expectWidths(a, "top", {47.5});
  expectWidths(a, "lock", {57, 57});
  expectWidths(a, "bottom", {50, 50});
}

// Noyes: a haunched end tenon is half the rail less the groove: 95 / 2 - 12.
TEST(TenonRules, Noyes) {
  expectWidths(cutLeafAlone(leaf("noyes")), "top", {35.5});
}

// Cassell's: not more than half the rail. Rails up to 5 in (127) that are not haunched: half to all of it.
TEST(TenonRules, Cassell) {
  expectWidths(cutLeafAlone(leaf("cassell")), "top", {47.5});
  expectWidths(cutLeafAlone(leaf("cassell", "width = 127\n")), "lock", {127 - 24});
  expectWidths(cutLeafAlone(leaf("cassell", "width = 130\n")), "lock", {70});  // wider: the house's 5 x 14
}

// A common college rule, from memory: two thirds of what the groove leaves, (95 - 12) 2 / 3 = 55.33.
TEST(TenonRules, College) {
  const CutWork work = cutLeafAlone(leaf("college"));
  expectWidths(work, "top", {(95 - 12) * 2.0 / 3});
  EXPECT_NEAR(tonguesOf(work, "top", 50)[0].width(), 55.3, 0.05);  // told to 0.1
}

// Rivington: a third (to a quarter) thick, 44 / 3 = 14.67; at most five times that wide, 73.33; the bottom
// rail's net of 183 is more, so a pair; haunches project 1/2 in.
TEST(TenonRules, Rivington) {
  const CutWork work = cutLeafAlone(leaf("rivington"));
  EXPECT_NEAR(tenonThickness(work), 44.0 / 3, kExact);
  EXPECT_EQ(tonguesOf(work, "bottom", 50).size(), 2u);
  EXPECT_EQ(tonguesOf(work, "lock", 50).size(), 2u);
  EXPECT_NEAR(haunchProjection(work, "top"), kInch / 2, kExact);
  // One tenon asked for in the lock rail: five thicknesses, told to 0.1.
  const CutWork one = cutLeafAlone(leaf("rivington", "width = 195\ntenon = { count = 1 }\n"));
  expectWidths(one, "lock", {5 * 44.0 / 3});
  EXPECT_NEAR(tonguesOf(one, "lock", 50)[0].width(), 73.3, 0.05);
  // A middle rail of 98 has 74 net, more than 73.33: a pair; one of 97 has a single tenon of all its net.
  EXPECT_EQ(tonguesOf(cutLeafAlone(leaf("rivington", "width = 98\n")), "lock", 50).size(), 2u);
  expectWidths(cutLeafAlone(leaf("rivington", "width = 97\n")), "lock", {73});
}

// Goring: too narrow to split but over five thicknesses: 5 x 14, haunched at both edges.
TEST(TenonRules, Goring) {
  const CutWork work = cutLeafAlone(leaf("goring", "width = 120\n"));
  expectWidths(work, "lock", {70});
  const auto near = tonguesOf(work, "lock", 6);  // within the haunches
  ASSERT_EQ(near.size(), 3u);
  EXPECT_NEAR(near[0].width(), (120 - 24 - 70) / 2.0, kExact);
  EXPECT_NEAR(near[2].width(), (120 - 24 - 70) / 2.0, kExact);
}

// Fairham: a third thick; several tenons and the gaps between them equal, 171 / 3 in the lock rail and
// (183 - 40) / 3 in the bottom one, not rounded; the haunch as long as the groove is deep.
TEST(TenonRules, Fairham) {
  const CutWork work = cutLeafAlone(leaf("fairham"));
  EXPECT_NEAR(tenonThickness(work), 44.0 / 3, kExact);
  expectWidths(work, "lock", {57, 57});
  expectWidths(work, "bottom", {143.0 / 3, 143.0 / 3});
  const auto tenons = tonguesOf(work, "bottom", 50);
  EXPECT_NEAR(tenons[1].from - tenons[0].to, 143.0 / 3, kExact);
  EXPECT_NEAR(haunchProjection(work, "top"), 12, kExact);
}

// CPWD, from memory: no wider than three thicknesses, 42; two in a rail over 180.
TEST(TenonRules, Cpwd) {
  const CutWork work = cutLeafAlone(leaf("cpwd", "width = 120\n"));
  expectWidths(work, "top", {42});
  expectWidths(work, "lock", {42});
  expectWidths(work, "bottom", {42, 42});
  expectWidths(cutLeafAlone(leaf("cpwd", "width = 180\n")), "lock", {42});
  expectWidths(cutLeafAlone(leaf("cpwd", "width = 181\n")), "lock", {42, 42});
  expectWidths(cutLeafAlone(leaf("cpwd")), "lock", {42, 42});  // two, though 87 is left between them
}

// Construction Superintendence: about two thirds of the piece, at most 4 in (101.6); over 7 in (177.8) two.
TEST(TenonRules, Superintendence) {
  expectWidths(cutLeafAlone(leaf("superintendence")), "top", {95 * 2.0 / 3});
  expectWidths(cutLeafAlone(leaf("superintendence", "width = 150\n")), "lock", {100});
  expectWidths(cutLeafAlone(leaf("superintendence", "width = 177\n")), "lock", {4 * kInch});
  EXPECT_EQ(tonguesOf(cutLeafAlone(leaf("superintendence", "width = 178\n")), "lock", 50).size(), 2u);
}

// Building Construction vol. 2, a bottom rail of 8 1/2 in with a groove of 1/2 in: from its lower edge 1 1/2
// in of haunch, 2 1/2 in of tenon, 1 1/2 in, 2 1/2 in.
TEST(TenonRules, BuildingConstruction) {
  std::string text = leaf("building-construction", "", "width = \"8 1/2 in\"\n");
  text.replace(text.find("depth = 12"), 10, "depth = \"1/2 in\"");
  const auto tenons = tonguesOf(cutLeafAlone(text), "bottom", 50);
  ASSERT_EQ(tenons.size(), 2u);
  EXPECT_NEAR(tenons[0].from, 1.5 * kInch, kExact);
  EXPECT_NEAR(tenons[0].to, 4 * kInch, kExact);
  EXPECT_NEAR(tenons[1].from, 5.5 * kInch, kExact);
  EXPECT_NEAR(tenons[1].to, 8 * kInch, kExact);
}

// One rail may follow another author than the leaf.
TEST(TenonRules, ForOneRail) {
  std::string text = leaf("college");
  text.replace(text.find("name = \"top\"\n"), 13, "name = \"top\"\ntenon = { rule = \"noyes\" }\n");
  expectWidths(cutLeafAlone(text), "top", {35.5});
}

// Fairham: gaps never above 3 in: a rail too wide for three tenons has four.
TEST(TenonRules, FourTenonsInAVeryWideRail) {
  const CutWork work = cutLeafAlone(leaf("house", "", "width = 440\n"));
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const auto tenons = tonguesOf(work, "bottom", 50);
  ASSERT_EQ(tenons.size(), 4u);
  for (size_t i = 1; i < 4; ++i) EXPECT_LE(tenons[i].from - tenons[i - 1].to, 3 * kInch);
}

}  // namespace
}  // namespace dryfit::tests
