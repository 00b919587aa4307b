// Dowelled ends: what the joint cuts, brings and states. Areas and volumes by closed formulas of the sizes in
// the file; a round hole's planning polygon has 64 corners.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "fit/fit.h"
#include "order/order.h"
#include "settingout/dowel_rules.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
/// mm3: sums of some dozen products of doubles over 2e6.
constexpr double kExact = 1e-6;

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}
double volumeOf(const CutWork& work, const std::string& id) {
  return volume(piece(work, id).last().shell);
}
double polygon(double radius) {
  return 32 * radius * radius * std::sin(2 * kPi / 64);
}

void expectSound(const CutWork& work) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const auto order = plan(work.assembly);
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
}

/// A post and a rail butted to its right edge; `more` goes to the joint.
std::string corner(const std::string& more, const std::string& railSection = "[80, 30]") {
  return "title = \"Corner\"\n[[member]]\nid = \"post\"\nsection = [70, 40]\nlength = 500\norigin = [0, 0, "
         "250]\nalong = \"+Z\"\nwidth_along = \"+X\"\n[[member]]\nid = \"rail\"\nsection = " +
         railSection +
         "\nshoulder = 300\norigin = [185, 0, 200]\nalong = \"+X\"\nwidth_along = \"+Z\"\n[[joint]]\nkind = "
         "\"dowelled\"\nrail = \"rail\"\nto = \"post\"\n" +
         more;
}

TEST(Dowelled, AButtedEndHasNothingButItsHoles) {
  const CutWork work = cutText(corner("diameter = 10\ndepth = 30\nclearance = 1.5\n"));
  ASSERT_EQ(work.pieces.size(), 4u);
  expectSound(work);
  EXPECT_NEAR(volumeOf(work, "rail"), 300.0 * 80 * 30 - 2 * kPi * 25 * 30.75, kExact);
  EXPECT_NEAR(volumeOf(work, "post"), 500.0 * 70 * 40 - 2 * kPi * 25 * 30.75, kExact);
  EXPECT_NEAR(volumeOf(work, "dowel.rail.post.1"), kPi * 25 * 60, kExact);
  double butt = 0;
  for (const ExpectedContact& c : work.assembly.contacts)
    if (c.roleA == "end.low") butt = c.areaMm2;
  EXPECT_NEAR(butt, 80 * 30 - 2 * polygon(5), 1e-9);
  for (const ExpectedGap& g : work.assembly.gaps) EXPECT_DOUBLE_EQ(g.statedMm, 0.75);
  EXPECT_EQ(work.assembly.gaps.size(), 4u);
}

TEST(Dowelled, AreNumberedFromTheTopWhateverWayTheRailIsDrawn) {
  std::string turned = corner("");
  const std::string way = "along = \"+X\"\nwidth_along = \"+Z\"";
  turned.replace(turned.find(way), way.size(), "along = \"-X\"\nwidth_along = \"-Z\"");
  for (const std::string& text : {corner(""), turned}) {
    const CutWork work = cutText(text);
    expectSound(work);
    // Rule: margin 1.5 x 10 from the rail's edges, so 50 between the two.
    EXPECT_NEAR(piece(work, "dowel.rail.post.1").worldFromPiece.origin.z, 225, 1e-9);
    EXPECT_NEAR(piece(work, "dowel.rail.post.2").worldFromPiece.origin.z, 175, 1e-9);
    for (const char* id : {"dowel.rail.post.1", "dowel.rail.post.2"}) {
      const Placement& at = piece(work, id).worldFromPiece;
      EXPECT_EQ(at.xAxis, (Vec3{-1, 0, 0}));  // from the rail into the post
      EXPECT_NEAR(at.origin.x, 35, 1e-9);     // the post's edge: as far into each
      EXPECT_NEAR(at.origin.y, 0, 1e-9);
    }
  }
}

TEST(Dowelled, GoIntoAFaceAsWell) {
  std::string text = corner("depth = 30\ndepth_to = 25\n", "[60, 30]");
  text.replace(text.find("width_along = \"+X\""), 18, "width_along = \"+Y\"");
  text.replace(text.find("origin = [185, 0, 200]"), 22, "origin = [170, 6, 200]");
  const CutWork work = cutText(text);
  expectSound(work);
  EXPECT_NEAR(volumeOf(work, "post"), 500.0 * 70 * 40 - 2 * kPi * 25 * 26, kExact);
  EXPECT_NEAR(volumeOf(work, "rail"), 300.0 * 60 * 30 - 2 * kPi * 25 * 31, kExact);
}

TEST(Dowelled, SpacingOrMarginPlacesThem) {
  auto heights = [](const std::string& more) {
    const CutWork work = cutText(corner(more));
    std::vector<double> z;
    for (const Piece& p : work.pieces)
      if (p.fastening) z.push_back(p.worldFromPiece.origin.z);
    return z;
  };
  EXPECT_EQ(heights("spacing = 30\n"), (std::vector<double>{215, 185}));
  EXPECT_EQ(heights("dowels = 3\nspacing = 25\ndiameter = 8\n"), (std::vector<double>{225, 200, 175}));
  EXPECT_EQ(heights("margin = 20\n"), (std::vector<double>{220, 180}));
}

/// In grooved framing the end fills the groove: tongue 44/3 to the chisel 14 thick, as wide as the rail less
/// its own groove, 12 long.
TEST(Dowelled, AnEndFillsTheGroove) {
  const CutWork work = cutLeafAlone("title = \"D\"\n[leaf.tenon]\nfixing = \"dowelled\"\ndowels = 2\n");
  expectSound(work);
  const double bored = 2 * 2 * kPi * 25 * 31;  // 10 thick in a 14 tongue; 30 deep and half of 2 clear
  const double top = 572 * (95.0 * 44 - 12 * 14) + 2 * 12 * 83.0 * 14;
  EXPECT_NEAR(volumeOf(work, "leaf.rail.top"), top - bored, kExact);
  const double stile = 2061 * (95.0 * 44 - 12 * 14) - 3 * 2 * kPi * 25 * 31;
  EXPECT_NEAR(volumeOf(work, "leaf.stile.hanging"), stile, kExact);
  EXPECT_DOUBLE_EQ(sizeOf(piece(work, "leaf.rail.top").last().shell).x, 572 + 24);
  int dowels = 0;
  for (const Piece& p : work.pieces) dowels += p.fastening ? 1 : 0;
  EXPECT_EQ(dowels, 12);
}

TEST(Dowelled, OneRailOfALeafWithTenons) {
  const CutWork work = cutLeafAlone(
      "title = \"D\"\n[leaf.tenon]\nthickness = 14\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = "
      "\"middle\"\ntenon = { fixing = \"dowelled\", dowel_diameter = 8 }\n[[leaf.rail]]\nname = "
      "\"bottom\"\n");
  expectSound(work);
  EXPECT_EQ(sizeOf(piece(work, "leaf.dowel.rail.middle.hanging.1").last().shell).y, 8);
  EXPECT_GT(sizeOf(piece(work, "leaf.rail.top").last().shell).x, 700);  // tenoned right through
}

/// The dowels go into one member, then the other comes on: the planner finds it, with rules and without.
TEST(Dowelled, StandInOneMemberBeforeTheOtherComes) {
  const CutWork work = shippedWork("chart-cupboard-frame");
  for (bool byShape : {false, true}) {
    const auto found = plan(work.assembly, {byShape});
    ASSERT_TRUE(std::holds_alternative<OrderOfWork>(found));
    std::vector<int> at(work.assembly.bodies.size(), -1);
    const auto& steps = std::get<OrderOfWork>(found).steps;
    for (size_t i = 0; i < steps.size(); ++i)
      if (steps[i].event == "fit" || steps[i].event == "drive") {
        for (int b : steps[i].bodies) at[static_cast<size_t>(b)] = static_cast<int>(i);
        if (steps[i].event == "drive") {
          EXPECT_EQ(steps[i].stage, "Front: put together");
        }
      }
    int joints = 0;
    for (const auto& joint : work.assembly.joints) {
      if (joint.bodies.size() < 4) continue;  // a panel's
      const int a = at[static_cast<size_t>(joint.bodies[0])], b = at[static_cast<size_t>(joint.bodies[1])];
      for (size_t i = 2; i < joint.bodies.size(); ++i) {
        const int dowel = at[static_cast<size_t>(joint.bodies[i])];
        EXPECT_TRUE(std::min(a, b) < dowel && dowel < std::max(a, b)) << joint.id << ", by shape " << byShape;
      }
      ++joints;
    }
    EXPECT_EQ(joints, 4);
  }
}

TEST(Dowelled, AreHeldByTheGlueOfTheFrame) {
  const CutWork work = shippedWork("chart-cupboard-frame");
  int bonds = 0;
  for (const Operation& op : work.assembly.operations)
    for (const Bond& b : op.bonds) {
      EXPECT_EQ(op.kind, Operation::Kind::Glue);
      EXPECT_EQ(b.kind, "glue");
      EXPECT_EQ(b.between.size(), 4u);  // both members and two dowels
      ++bonds;
    }
  EXPECT_EQ(bonds, 4);
}

}  // namespace
}  // namespace dryfit::tests
