// Two pieces pushed into each other by a stated amount: the volume they then share, as fit finds it from
// planning meshes and as the kernel's boolean finds it, against CGAL's exact intersection (Nef polyhedra) of
// the same pieces put together from the work files' plain sizes.
#include <gtest/gtest.h>

#include "fit/fit.h"
#include "plain_pieces.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// fit tells overlaps from 0.001 mm3 on; its sums must be well under that.
constexpr double kFit = 1e-4;
/// The kernel's boolean works to 1e-7 mm on faces of at most 4e4 mm2, and over 10 faces.
constexpr double kKernel = 0.04;

struct Push {
  std::string work, stays, moved;
  Vec3 by;
  std::string what;
};

/// The kernel's placing asks for a shift, not for a mirrored copy: the piece's own placement, moved.
Placement moved(const Placement& worldFromPiece, Vec3 by) {
  return translation(by) * worldFromPiece;
}

void expectShared(const Push& push) {
  SCOPED_TRACE(push.work + ": " + push.what);
  const CutWork work = shippedWork(push.work);
  const Piece& a = work.pieces[static_cast<size_t>(pieceOf(work, push.stays))];
  const Piece& b = work.pieces[static_cast<size_t>(pieceOf(work, push.moved))];
  const Placement bPlace = moved(b.worldFromPiece, push.by);
  const double exact =
      (plainPiece(push.work, push.stays).body * plainPiece(push.work, push.moved).body.movedBy(push.by))
          .volumeMm3();
  EXPECT_GT(exact, 1) << "the pieces do not overlap: the test asks nothing";
  const double shared =
      sharedVolume(placed(*a.last().mesh, a.worldFromPiece), placed(*b.last().mesh, bPlace)).volumeMm3;
  EXPECT_NEAR(shared, exact, kFit);
  const auto solidA = solidFromShell(a.last().shell), solidB = solidFromShell(b.last().shell);
  ASSERT_TRUE(solidA && solidB);
  const auto common = commonVolume(solidA.value(), a.worldFromPiece, solidB.value(), bPlace);
  ASSERT_TRUE(common) << toText(common.faults().front());
  EXPECT_NEAR(common.value(), exact, kKernel);
}

TEST(OverlapsByCgal, RailPushedIntoItsStile) {
  expectShared({"practice-corner", "stile", "rail", {-3, 0, 0}, "3 past the shoulder"});
  expectShared({"practice-corner", "stile", "rail", {0, 0, -4}, "4 down: tenon into the mortise's end"});
  expectShared({"practice-corner", "stile", "rail", {-1.5, 0.75, 2.25}, "askew, up and forward"});
  expectShared({"panel-frame", "stile.right", "rail.bottom", {2, 0, 1}, "pair pushed in and up"});
}

TEST(OverlapsByCgal, WedgeDrivenTooFar) {
  expectShared({"practice-corner", "stile", "wedge.rail.stile.1.upper", {5, 0, 0}, "5 past home: the slope"});
  expectShared({"practice-corner", "rail", "wedge.rail.stile.1.upper", {0, 0, -0.5}, "0.5 into the tenon"});
}

TEST(OverlapsByCgal, PanelPushedThroughItsGroove) {
  expectShared({"panel-frame", "stile.right", "panel", {4, 0, 0}, "4 right: 2.5 into the groove's bottom"});
  expectShared({"panel-frame", "rail.bottom", "panel", {0, 1, -6}, "6 down, 1 back: cheek and bevel"});
  expectShared({"panel-frame", "rail.top", "panel", {0, -2.5, 10}, "10 up: bevel into the arris"});
}

TEST(OverlapsByCgal, StubPushedThroughItsMortise) {
  expectShared({"muntin-frame", "rail.top", "muntin", {0, 0, 5}, "5 up: shoulders and stub"});
  expectShared({"muntin-frame", "rail.bottom", "muntin", {1.25, 0, 0}, "1.25 aside"});
  expectShared({"muntin-frame", "muntin", "panel.1", {7, 0.5, 0}, "panel into the muntin's groove"});
}

TEST(OverlapsByCgal, BackingPulledOutOfItsNotch) {
  expectShared({"hatch-grounds", "grounds.front.jamb.left", "backing.left.1", {0, 6, 0}, "6 into the wall"});
  expectShared({"hatch-grounds", "grounds.front.jamb.left", "backing.left.1", {-2, -1, 3}, "out, in and up"});
}

}  // namespace
}  // namespace dryfit::tests
