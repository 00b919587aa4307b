// Two pieces pushed into each other by a stated amount: the volume they then share, as fit finds it from
// planning meshes and as the kernel's boolean finds it, against CGAL's exact intersection (Nef polyhedra) of
// the same pieces put together from the work files' plain sizes.
#include <gtest/gtest.h>

#include "fit/fit.h"
#include "plain_pieces.h"
#include "solid/solid.h"

namespace dryfit::tests {
namespace {

/// mm3. fit's sums run over some hundred terms of at most 1e5, doubles: 1e-8. Overlaps count from 0.001 on.
constexpr double kFit = 1e-6;
/// mm3. The kernel takes points within 1e-7 mm for one; shared bodies here have faces up to 2e4 mm2.
constexpr double kKernel = 2e-3;

struct Push {
  std::string work, stays, moved;
  Placement by;  ///< in the world
  std::string what;
};

void expectShared(const Push& push) {
  SCOPED_TRACE(push.work + ": " + push.what);
  const Piece &a = pieceIn(push.work, push.stays), &b = pieceIn(push.work, push.moved);
  const Placement worldFromB = push.by * b.worldFromPiece;
  const ExactBody moved = plainPiece(push.work, push.moved).body.placed(push.by);
  const double exact = (plainPiece(push.work, push.stays).body * moved).volumeMm3();
  EXPECT_GT(exact, 100) << "too little is shared: the test asks nothing";
  const auto shared =
      sharedVolume(placed(*a.last().mesh, a.worldFromPiece), placed(*b.last().mesh, worldFromB));
  EXPECT_NEAR(shared.volumeMm3, exact, kFit);
  const auto solidA = solidFromShell(a.last().shell), solidB = solidFromShell(b.last().shell);
  ASSERT_TRUE(solidA && solidB);
  const auto common = commonVolume(solidA.value(), a.worldFromPiece, solidB.value(), worldFromB);
  ASSERT_TRUE(common) << toText(common.faults().front());
  EXPECT_NEAR(common.value(), exact, kKernel);
}

TEST(OverlapsByCgal, RailPushedIntoItsStile) {
  expectShared({"practice-corner", "stile", "rail", translation({-3, 0, 0}), "3 past the shoulder"});
  expectShared(
      {"practice-corner", "stile", "rail", translation({0, 0, -4}), "4 down: tenon into the mortise's end"});
  expectShared(
      {"practice-corner", "stile", "rail", translation({-1.5, 0.75, 2.25}), "askew, up and forward"});
  expectShared(
      {"panel-frame", "stile.right", "rail.bottom", translation({2, 0, 1}), "pair pushed in and up"});
}

TEST(OverlapsByCgal, WedgeDrivenTooFar) {
  expectShared({"practice-corner", "stile", "wedge.rail.stile.1.upper", translation({5, 0, 0}),
                "5 past home: the slope"});
  expectShared({"practice-corner", "rail", "wedge.rail.stile.1.upper", translation({0, 0, -0.5}),
                "0.5 into the tenon"});
}

TEST(OverlapsByCgal, PanelPushedThroughItsGroove) {
  expectShared({"panel-frame", "stile.right", "panel", translation({4, 0, 0}),
                "4 right: 2.5 into the groove's bottom"});
  expectShared(
      {"panel-frame", "rail.bottom", "panel", translation({0, 1, -6}), "6 down, 1 back: cheek and bevel"});
  expectShared(
      {"panel-frame", "rail.top", "panel", translation({0, -2.5, 10}), "10 up: bevel into the arris"});
}

TEST(OverlapsByCgal, StubPushedThroughItsMortise) {
  expectShared({"muntin-frame", "rail.top", "muntin", translation({0, 0, 5}), "5 up: shoulders and stub"});
  expectShared({"muntin-frame", "rail.bottom", "muntin", translation({1.25, 0, 0}), "1.25 aside"});
  expectShared(
      {"muntin-frame", "muntin", "panel.1", translation({7, 0.5, 0}), "panel into the muntin's groove"});
}

TEST(OverlapsByCgal, BackingPulledOutOfItsNotch) {
  expectShared({"hatch-grounds", "grounds.front.jamb.left", "backing.left.1", translation({0, 6, 0}),
                "6 into the wall"});
  expectShared({"hatch-grounds", "grounds.front.jamb.left", "backing.left.1", translation({-2, -1, 3}),
                "out, in and up"});
}

// Nothing parallel any more: two degrees or so askew.
TEST(OverlapsByCgal, TurnedAskew) {
  expectShared(
      {"practice-corner", "stile", "rail", rotation({0, 1, 0}, {45, 0, 355}, 0.03), "rail out of square"});
  expectShared(
      {"practice-corner", "stile", "rail", rotation({1, 0, 0}, {0, 0, 332.5}, 0.04), "rail in wind"});
  expectShared(
      {"panel-frame", "stile.left", "panel", rotation({0, 1, 0}, {0, 0, 450}, 0.025), "panel out of square"});
  expectShared({"hatch-grounds", "grounds.front.jamb.left", "backing.left.1",
                rotation(normalized({1, 2, 2}), {-411, 126.5, 250}, 0.05), "backing every way"});
}

// At home no two pieces share anything, by any of the three. By the plain sizes: the works are set out right.
TEST(OverlapsByCgal, AtHomeNothingIsShared) {
  const auto& all = plainPieces();
  int pairs = 0;
  for (size_t i = 0; i < all.size(); ++i)
    for (size_t j = i + 1; j < all.size(); ++j) {
      if (all[i].work != all[j].work) continue;
      SCOPED_TRACE(all[i].work + ": " + all[i].id + " and " + all[j].id);
      // A wedge's slope is 1/19 of a width, no finite double: the bodies may cross by its rounding.
      EXPECT_LT((all[i].body * all[j].body).volumeMm3(), 1e-9);
      const Piece &a = pieceIn(all[i].work, all[i].id), &b = pieceIn(all[j].work, all[j].id);
      const auto shared =
          sharedVolume(placed(*a.last().mesh, a.worldFromPiece), placed(*b.last().mesh, b.worldFromPiece));
      EXPECT_LT(shared.volumeMm3, kFit);
      ++pairs;
    }
  EXPECT_EQ(pairs, 3 + 15 + 6 + 6);
}

}  // namespace
}  // namespace dryfit::tests
