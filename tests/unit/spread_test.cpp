// The spread of small works made by hand. Travels follow from the sizes written here: out, which is the
// length two pieces slide along each other, and the stand-off, 5 % of the mean (geometric) of the greatest
// sizes of what leaves and of the whole.
#include "order/spread.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "order_blocks.h"
#include "support/works.h"

namespace dryfit {
namespace {

using namespace ordertest;

/// Coordinates of a few hundred mm, a handful of sums.
constexpr double kExactMm = 1e-9;

double standOff(double pieceMm, double wholeMm) {
  return 0.05 * std::sqrt(pieceMm * wholeMm);
}

struct Apart {
  Spread spread;
  std::vector<Vec3> by;
  explicit Apart(const Assembly& a) : Apart(a, tests::lastStates(a)) {}
  Apart(const Assembly& a, const std::vector<int>& states)
      : spread(spreadOf(a, states)), by(spread.offsetsAt(1)) {}
};

void expectAt(Vec3 found, Vec3 expected) {
  EXPECT_NEAR(length(found - expected), 0, kExactMm) << found.x << ", " << found.y << ", " << found.z;
}

TEST(SpreadOffsets, AreTheStretchesRunSoFar) {
  Spread s;
  s.bodies = {{{{1, 0, 0}, 100, 0.2, 0.6}, {{0, 0, 1}, 40, 0.4, 1}}, {}};
  expectAt(s.offsetsAt(0)[0], {});
  expectAt(s.offsetsAt(0.2)[0], {});
  expectAt(s.offsetsAt(0.5)[0], {75, 0, 40.0 / 6});  // both under way
  expectAt(s.offsetsAt(0.8)[0], {100, 0, 40.0 * 4 / 6});
  expectAt(s.offsetsAt(1)[0], {100, 0, 40});
  expectAt(s.offsetsAt(1)[1], {});
}

/// The wedges go out the way they were driven, 0.7 of the stile's 90; then the rail by its tenon's 90. The
/// stile and the rail are 410 long and the whole 410 wide (joinery by the rule, sizes in the file).
TEST(SpreadByHand, PracticeCorner) {
  const CutWork work = tests::shippedWork("practice-corner");
  const Apart apart(work.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[tests::pieceOf(work, "stile")], {});
  expectAt(apart.by[tests::pieceOf(work, "rail")], {90 + standOff(410, 410), 0, 0});
  for (const char* wedge : {"wedge.rail.stile.1.upper", "wedge.rail.stile.1.lower"}) {
    const auto i = tests::pieceOf(work, wedge);
    expectAt(apart.by[i], {-63 - standOff(63, 410), 0, 0});
    ASSERT_EQ(apart.spread.bodies[i].size(), 1u);
  }
  const SpreadStretch& rail = apart.spread.bodies[tests::pieceOf(work, "rail")][0];
  const SpreadStretch& wedge = apart.spread.bodies[tests::pieceOf(work, "wedge.rail.stile.1.lower")][0];
  EXPECT_EQ(rail.to, 1);
  EXPECT_GT(rail.from, 0) << "the wedges set off first";
  EXPECT_LT(wedge.from, wedge.to);
}

/// Two stiles 50 wide, 500 high, two rails with tenons right through them, a panel 10 deep in all four.
struct Frame : World {
  int left, right, top, bottom, panel;
  Frame() {
    const auto stile = [](double x, double grooveX) {
      return boxes({add({x, 0, 0}, {x + 50, 40, 500}), cut({x, 13, 10}, {x + 50, 27, 40}),
                    cut({x, 13, 460}, {x + 50, 27, 490}), cut({grooveX, 13, 40}, {grooveX + 10, 27, 460})});
    };
    const auto rail = [](double z, double grooveZ) {
      return boxes({add({50, 0, z}, {350, 40, z + 50}), add({0, 13, z + 10}, {400, 27, z + 40}),
                    cut({50, 13, grooveZ}, {350, 27, grooveZ + 10})});
    };
    left = piece("left", stile(0, 40));
    right = piece("right", stile(350, 350));
    top = piece("top", rail(450, 450));
    bottom = piece("bottom", rail(0, 40));
    panel = piece("panel", boxes({add({40, 13, 40}, {360, 27, 460})}));
  }
};

TEST(SpreadByHand, StilesGoOffSidewaysThenRailsApartInHeight) {
  const Frame f;
  const Apart apart(f.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  const double stile = 50 + standOff(500, 500), rail = 10 + standOff(400, 500);
  expectAt(apart.by[f.left], {-stile, 0, 0});
  expectAt(apart.by[f.right], {stile, 0, 0});
  expectAt(apart.by[f.top], {0, 0, rail});
  expectAt(apart.by[f.bottom], {0, 0, -rail});
  expectAt(apart.by[f.panel], {});
  // A rail waits until the tenons are out, and no longer.
  const SpreadStretch& left = apart.spread.bodies[f.left][0];
  const SpreadStretch& top = apart.spread.bodies[f.top][0];
  EXPECT_GT(top.from, left.from + 50 / stile * (left.to - left.from));
  EXPECT_LT(top.from, left.to);
}

TEST(SpreadByHand, TrimGoesOffTheFace) {
  Frame f;
  const int trim = f.piece("trim", boxes({add({100, -5, 100}, {300, 13, 400})}));
  const Apart apart(f.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[f.panel], {});
  EXPECT_NEAR(apart.by[trim].x, 0, kExactMm);
  EXPECT_NEAR(apart.by[trim].z, 0, kExactMm);
  // It touches the panel's front and nothing holds it there: the stand-off alone.
  EXPECT_NEAR(apart.by[trim].y, -standOff(300, 500), kExactMm);
}

/// A nail comes out the way it went in, though it would be out of the batten sooner the other way, and stands
/// before the batten, which carries it along.
TEST(SpreadByHand, ANailComesOutAsItWasDriven) {
  World w;
  const int post =
      w.piece("post", boxes({add({0, 0, 0}, {100, 100, 400}), cut({48, 0, 198}, {52, 30, 202})}));
  const int batten =
      w.piece("batten", boxes({add({0, -20, 150}, {100, 0, 250}), cut({48, -20, 198}, {52, 0, 202})}));
  const int nail = w.piece("nail", boxes({add({48, -20, 198}, {52, 30, 202})}));
  w.operation(Operation::Kind::Fasten, "nail", 100, {nail}).way = Vec3{0, 1, 0};
  const Apart apart(w.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[post], {});
  // The two together are out of the post after the nail's 30 in it, sooner than the nail is out of both.
  expectAt(apart.by[batten], {0, -30 - standOff(100, 400), 0});
  expectAt(apart.by[nail], apart.by[batten] + Vec3{0, -50 - standOff(50, 400), 0});
}

/// Two frames of one piece and a tenon each, joined by a peg of the whole work's own: the peg, then the
/// units, each as it is, then what they are made of.
TEST(SpreadByHand, UnitsFirst) {
  World w;
  const int one = w.unit("one"), two = w.unit("two");
  const auto block = [](double x) { return add({x, 0, 0}, {x + 100, 40, 100}); };
  const int a = w.piece("a", boxes({block(0), cut({0, 10, 40}, {30, 30, 60})}), one);
  const int peg = w.piece("peg", boxes({add({-40, 10, 40}, {30, 30, 60})}), one);
  const int b = w.piece("b", boxes({block(100), cut({170, 10, 40}, {200, 30, 60})}), two);
  const int otherPeg = w.piece("other peg", boxes({add({170, 10, 40}, {240, 30, 60})}), two);
  const Apart apart(w.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  double unitsEnd = 0, piecesBegin = 1;
  for (const int i : {a, peg, b, otherPeg})
    for (const SpreadStretch& s : apart.spread.bodies[i])
      if (&s == &apart.spread.bodies[i].back() && (i == peg || i == otherPeg))
        piecesBegin = std::min(piecesBegin, s.from);
      else
        unitsEnd = std::max(unitsEnd, s.to);
  EXPECT_GT(unitsEnd, 0);
  EXPECT_GE(piecesBegin, unitsEnd);
  EXPECT_NEAR(apart.by[peg].x, apart.by[a].x - 30 - standOff(70, 280), kExactMm);
  EXPECT_NEAR(apart.by[otherPeg].x, apart.by[b].x + 30 + standOff(70, 280), kExactMm);
}

/// Up the shaft first, then out of the window: no straight way, two stretches one after the other.
TEST(SpreadByHand, ATurnWhereThereIsNoStraightWay) {
  World w;
  const int house = w.piece("house", boxes({add({0, 0, 0}, {100, 60, 100}), cut({20, 20, 20}, {40, 40, 80}),
                                            cut({20, 20, 60}, {100, 40, 80})}));
  const int slug = w.piece("slug", boxes({add({20, 20, 20}, {40, 40, 40})}));
  const Apart apart(w.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[house], {});
  ASSERT_EQ(apart.spread.bodies[slug].size(), 2u);
  const SpreadStretch &up = apart.spread.bodies[slug][0], &out = apart.spread.bodies[slug][1];
  expectAt(up.way, {0, 0, 1});
  EXPECT_NEAR(up.travelMm, 40, kExactMm);
  expectAt(out.way, {1, 0, 0});
  EXPECT_NEAR(out.travelMm, 80 + standOff(20, 100), kExactMm);  // its back edge past the window's sill
  EXPECT_EQ(up.to, out.from);
}

TEST(SpreadByHand, APieceThatNothingHoldsMovesOutFromTheMiddle) {
  World w;
  const int low = w.piece("low", boxes({add({0, 0, 0}, {100, 40, 40})}));
  const int high = w.piece("high", boxes({add({0, 0, 200}, {100, 40, 240})}));
  const Apart apart(w.assembly);
  expectAt(apart.by[low], {0, 0, -standOff(100, 240)});
  expectAt(apart.by[high], {0, 0, standOff(100, 240)});
}

/// Four members in a ring, each tenoned into the next: no single one comes out, but two by two they part.
TEST(SpreadByHand, ARingPartsInHalves) {
  const CutWork ring = tests::cutFile(DRYFIT_ROOT "/tests/corpus/order_works/pinwheel.toml");
  const Apart apart(ring.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  std::vector<Vec3> first = apart.spread.offsetsAt(0.1);
  std::sort(first.begin(), first.end(), [](Vec3 a, Vec3 b) { return length(a) < length(b); });
  expectAt(first[0], {});
  expectAt(first[1], {});
  EXPECT_GT(length(first[2]), 0);
  expectAt(first[2], first[3]);
}

/// Two links of a chain.
TEST(SpreadByHand, WhatCannotComeApartIsHeldAndStays) {
  World w;
  w.piece("link", boxes({add({0, 40, 0}, {100, 60, 100}), cut({20, 40, 20}, {80, 60, 80})}));
  w.piece("other link", boxes({add({40, 0, 50}, {60, 100, 150}), cut({40, 20, 70}, {60, 80, 130})}));
  w.piece("free", boxes({add({0, 40, 100}, {30, 60, 140})}));
  const Apart apart(w.assembly);
  EXPECT_EQ(apart.spread.held, (std::vector<int>{0, 1}));
  expectAt(apart.by[0], {});
  expectAt(apart.by[1], {});
  EXPECT_GT(length(apart.by[2]), 0);
}

TEST(SpreadByHand, PiecesThatAreNotThereAreLeftOut) {
  const Frame f;
  std::vector<int> states = tests::lastStates(f.assembly);
  states[f.panel] = -1;
  const Apart apart(f.assembly, states);
  EXPECT_TRUE(apart.spread.bodies[f.panel].empty());
  expectAt(apart.by[f.left], {-50 - standOff(500, 500), 0, 0});

  const Apart none(f.assembly, std::vector<int>(5, -1));
  for (const Vec3 by : none.by) expectAt(by, {});
  std::vector<int> one(5, -1);
  one[f.top] = 0;
  expectAt(Apart(f.assembly, one).by[f.top], {});
}

/// A wall with a doorway 400 wide, a backing in a pocket of its left reveal, a lining of three before that, a
/// ground on the front; the floor. Wall and floor are formed.
struct Doorway : World {
  int wall, floor, backing, left, right, head, ground;
  Doorway() {
    wall = formed("wall", boxes({add({0, 0, 0}, {1000, 200, 1000}), cut({300, 0, 0}, {700, 200, 900}),
                                 cut({280, 50, 400}, {300, 150, 460})}));
    floor = formed("floor", boxes({add({-500, -900, -50}, {1500, 900, 0})}));
    backing = piece("backing", boxes({add({280, 50, 400}, {300, 150, 460})}));
    left = piece("left", boxes({add({300, 0, 0}, {330, 200, 870})}));
    right = piece("right", boxes({add({670, 0, 0}, {700, 200, 870})}));
    head = piece("head", boxes({add({300, 0, 870}, {700, 200, 900})}));
    ground = piece("ground", boxes({add({230, -20, 0}, {300, 0, 900})}));
  }
};

TEST(SpreadFormed, StandsStillAndNothingPassesThroughIt) {
  const Doorway d;
  const Apart apart(d.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[d.wall], {});
  expectAt(apart.by[d.floor], {});
  // The backing slides 20 out of its pocket into the doorway; the whole of what is moved is 900 high.
  expectAt(apart.by[d.backing], {20 + standOff(100, 900), 0, 0});
  // The lining goes out of the doorway in Y or into it, the ground off the wall.
  for (const int b : {d.left, d.right, d.head, d.ground}) EXPECT_GT(length(apart.by[b]), 20) << b;
  EXPECT_LT(apart.by[d.ground].y, -20);
}

TEST(SpreadFormed, WhatItShutsInComesApartAsIfItWereNotThere) {
  World w;
  const int wall =
      w.formed("wall", boxes({add({0, 0, 0}, {300, 100, 100}), cut({50, 20, 20}, {250, 80, 80})}));
  const int a = w.piece("a", boxes({add({50, 20, 20}, {150, 80, 80})}));
  const int b = w.piece("b", boxes({add({150, 20, 20}, {250, 80, 80})}));
  const Apart apart(w.assembly);
  EXPECT_TRUE(apart.spread.held.empty());
  expectAt(apart.by[wall], {});
  EXPECT_NEAR(length(apart.by[a] - apart.by[b]), standOff(100, 200), kExactMm);
}

}  // namespace
}  // namespace dryfit
