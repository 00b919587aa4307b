// Volumes of the shipped works' pieces, three ways: as the program cuts them, by closed formulas, and by
// exact rational arithmetic (CGAL 5.5, Nef polyhedra) on bodies put together from the same plain sizes.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

#include "plain_pieces.h"
#include "solid/solid.h"
#include "support/works.h"
#include "unit/temporary_folder.h"

namespace dryfit::tests {
namespace {

/// Relative. A hundredth of a millimetre on one wedge's thickness is 4e-7 of a practice stile; sums of a few
/// hundred products of doubles keep 1e-12.
constexpr double kVolume = 1e-9;
/// mm, world: sums as above over coordinates of a metre.
constexpr double kPlace = 1e-6;

void expectNearRelative(double found, double expected, double relative) {
  EXPECT_NEAR(found, expected, std::abs(expected) * relative);
}

// The two judges first: each formula against CGAL's body, so that a slip of the pen in either shows.
TEST(VolumesByCgal, FormulasAgreeWithExactBodies) {
  ASSERT_GE(plainPieces().size(), 17u);
  for (const PlainPiece& plain : plainPieces()) {
    SCOPED_TRACE(plain.work + " " + plain.id);
    expectNearRelative(plain.body.volumeMm3(), plain.volumeMm3, 1e-12);
  }
}

// Then every volume the program tells: the shell's, the planning mesh's, the kernel's.
TEST(VolumesByCgal, PiecesHaveTheirVolumes) {
  for (const PlainPiece& plain : plainPieces()) {
    SCOPED_TRACE(plain.work + " " + plain.id);
    const CutRecipe& cut = pieceIn(plain.work, plain.id).last();
    expectNearRelative(volume(cut.shell), plain.volumeMm3, kVolume);
    expectNearRelative(volume(*cut.mesh), plain.volumeMm3, kVolume);
    const auto solid = solidFromShell(cut.shell);
    ASSERT_TRUE(solid);
    expectNearRelative(measure(solid.value()).volumeMm3, plain.volumeMm3, kVolume);
  }
}

// Equal volumes may stand in the wrong place or the wrong way up: so centroids too, in the world.
TEST(VolumesByCgal, PiecesStandWhereTheyShould) {
  for (const PlainPiece& plain : plainPieces()) {
    SCOPED_TRACE(plain.work + " " + plain.id);
    const Piece& piece = pieceIn(plain.work, plain.id);
    const auto solid = solidFromShell(piece.last().shell);
    ASSERT_TRUE(solid);
    const Vec3 found = piece.worldFromPiece.point(measure(solid.value()).centroid);
    const Vec3 expected = plain.body.centroid();
    for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(found[axis], expected[axis], kPlace) << "axis " << axis;
  }
}

// Alike by symmetry: the pieces not written out by hand weigh what their twins do.
TEST(VolumesByCgal, TwinsHaveEqualVolumes) {
  const std::vector<std::array<std::string, 3>> twins{
      {"muntin-frame", "panel.1", "panel.2"},
      {"muntin-frame", "stile.left", "stile.right"},
      {"hatch-grounds", "grounds.front.head", "grounds.back.head"},
      {"hatch-grounds", "grounds.front.jamb.left", "grounds.front.jamb.right"},
      {"hatch-grounds", "backing.left.1", "backing.head.1"},
      {"hatch-grounds", "backing.left.1", "backing.right.2"}};
  for (const auto& [work, a, b] : twins)
    expectNearRelative(volume(pieceIn(work, b).last().shell), volume(pieceIn(work, a).last().shell), kVolume);
}

// The draw-bored frame: the panel frame's sizes, no wedging allowance, and a bore of 9.5 (pi r^2 h) through
// both cheeks of the stile (44 less the mortise's 14) and through each tenon (14). Pins 44 long, 54 before
// they are cut flush.
TEST(VolumesByCgal, BoresAndPinsByFormula) {
  const double round = std::numbers::pi * 4.75 * 4.75;
  const double groove = 12.0 * 14, mortise = 14.0 * 78 * 45;
  const double stile = 820 * (90.0 * 44 - groove) - 3 * mortise - 3 * round * (44 - 14);
  const double top = 380 * (90.0 * 44 - groove) + 2 * 14 * (90.0 * 45 + 12 * 33) - 2 * round * 14;
  const double bottom =
      380 * (180.0 * 44 - groove) + 2 * 14 * (2 * 90.0 * 45 + 12 * (40 + 38)) - 4 * round * 14;
  const std::map<std::string, double> expected{{"stile.left", stile},
                                               {"stile.right", stile},
                                               {"rail.top", top},
                                               {"rail.bottom", bottom},
                                               {"pin.rail.top.left.1", round * 44}};
  for (const auto& [id, mm3] : expected) {
    SCOPED_TRACE(id);
    const CutRecipe& cut = pieceIn("draw-bored-frame", id).last();
    expectNearRelative(volume(cut.shell), mm3, kVolume);
    const auto solid = solidFromShell(cut.shell);
    ASSERT_TRUE(solid);
    expectNearRelative(measure(solid.value()).volumeMm3, mm3, kVolume);
  }
  const Piece& pin = pieceIn("draw-bored-frame", "pin.rail.top.left.1");
  expectNearRelative(volume(pin.states.front().cut->shell), round * 54, kVolume);
}

void expectVolumes(const std::string& work, const std::map<std::string, double>& expected) {
  for (const auto& [id, mm3] : expected) {
    SCOPED_TRACE(work + " " + id);
    const CutRecipe& cut = pieceIn(work, id).last();
    expectNearRelative(volume(cut.shell), mm3, kVolume);
    const auto solid = solidFromShell(cut.shell);
    ASSERT_TRUE(solid);
    expectNearRelative(measure(solid.value()).volumeMm3, mm3, kVolume);
  }
}

// The dowelled cupboard front in 32: grooves 10 wide (the chisel nearest a third), 9 deep; tongues as wide as
// the rail less its groove; dowels of 6, 40 long, each hole 20 and half of 2 deep. Panel 10 less 0.3
// play, 1.5 clear at its ends; across it the movement of 316 + 18 of plain-sawn coast Douglas-fir from 12 to
// 14 % (Wood Handbook, 0.00267 a per cent), half at each edge, where that is over 1.5.
TEST(VolumesByCgal, BlindHolesAndDowelsByFormula) {
  const double hole = std::numbers::pi * 9 * 21, groove = 9.0 * 10;
  const double clear = std::max(1.5, 334 * 0.00267 * 2 / 2);
  const double panelLength = 560 - 62 - 86 + 18 - 3.0;
  expectVolumes("chart-cupboard-frame",
                {{"stile.left", 560 * (62.0 * 32 - groove) - 4 * hole},
                 {"stile.right", 560 * (62.0 * 32 - groove) - 4 * hole},
                 {"rail.top", 316 * (62.0 * 32 - groove) + 2 * groove * 53 - 4 * hole},
                 {"rail.bottom", 316 * (86.0 * 32 - groove) + 2 * groove * 77 - 4 * hole},
                 {"panel", panelLength * (334 - 2 * clear) * 9.7},
                 {"dowel.rail.top.left.1", std::numbers::pi * 9 * 40}});
}

// The chock: two dowels of 16 a hole of 51 deep in the post and of 26 in the sole; three nails 3 by 45, heads
// 2 under the surface of the stop's 18, so 29 in the post.
TEST(VolumesByCgal, NailsByFormula) {
  const double dowel = std::numbers::pi * 64, nail = std::numbers::pi * 2.25;
  expectVolumes("boat-chock", {{"sole", 420.0 * 120 * 45 - 2 * dowel * 26},
                               {"post", 300.0 * 90 * 60 - 2 * dowel * 51 - 3 * nail * 29},
                               {"stop", 180.0 * 28 * 18 - 3 * nail * 18},
                               {"batten", 220.0 * 40 * 16},
                               {"dowel.post.sole.2", dowel * 75},
                               {"nail.stop.post.3", nail * 45}});
}

// Before the last cuts: horns on, tenons and wedges 10 proud. Formulas from the same sizes; the grooves run
// out through the horns, a proud wedge goes on at its slope (90/19 in 67.5).
TEST(VolumesByCgal, FirstStatesByFormula) {
  const double section = 90.0 * 44, mouth = 67.5 * 90 / 19, groove = 12.0 * 14;
  const double slope = 90.0 / 19 / 67.5, tip = 4.5 * slope, head = 77.5 * slope;
  const double wedge = 14 * 73 * (tip + head) / 2;
  const double stileCorner = 440 * section - 14 * (90.0 * 45 + mouth) - 12 * 45 * 14;
  const double railCorner = 320 * section + 14 * (100.0 * 45 + 12 * 45);
  const double stile = 900 * (section - groove) - 3 * 14 * (78.0 * 45 + mouth);
  const double railTop = 380 * (section - groove) + 2 * 14 * (100.0 * 45 + 12 * 33);
  const std::vector<std::tuple<std::string, std::string, double>> expected{
      {"practice-corner", "stile", stileCorner},
      {"practice-corner", "rail", railCorner},
      {"practice-corner", "wedge.rail.stile.1.upper", wedge},
      {"practice-corner", "wedge.rail.stile.1.lower", wedge},
      {"panel-frame", "stile.left", stile},
      {"panel-frame", "rail.top", railTop}};
  for (const auto& [work, id, mm3] : expected) {
    SCOPED_TRACE(work + " " + id);
    expectNearRelative(volume(pieceIn(work, id).states.front().cut->shell), mm3, kVolume);
  }
}

// The practice corner with its stile's outer edge bevelled: each piece that comes to that edge is its square
// self less the exact prism of the bevel. The front is at -Y, 44 thick in the middle of Y = 0, the edge at X
// = -45.
TEST(VolumesByCgal, BevelledCorner) {
  const std::string text = contentOf(DRYFIT_ROOT "/assets/works/practice-corner.toml"),
                    line = "width_along = \"+X\"\n";
  const size_t after = text.find(line) + line.size();  // the stile's
  for (double bevel : {0.5, 2.5, 5.0}) {
    const CutWork work =
        cutText(text.substr(0, after) + fmt::format("bevel = {{ edge = \"-X\", back = {} }}\n", bevel) +
                text.substr(after));
    std::vector<Vec3> corners;
    for (double z : {-50.0, 500.0})
      for (const Vec3& c : {Vec3{-45, -22, z}, Vec3{-45, 22, z}, Vec3{-45 + bevel, 22, z}})
        corners.push_back(c);
    const ExactBody waste = ExactBody::hull(corners);
    for (const char* id : {"stile", "rail", "wedge.rail.stile.1.upper"}) {
      SCOPED_TRACE(fmt::format("{} {}", id, bevel));
      const ExactBody plain = plainPiece("practice-corner", id).body, left = plain - waste;
      EXPECT_LT(left.volumeMm3(), plain.volumeMm3() - bevel / 2 * 10);  // it does take something
      const Piece& piece = work.pieces[static_cast<size_t>(pieceOf(work, id))];
      expectNearRelative(volume(piece.last().shell), left.volumeMm3(), kVolume);
      expectNearRelative(volume(*piece.last().mesh), left.volumeMm3(), kVolume);
      const auto solid = solidFromShell(piece.last().shell);
      ASSERT_TRUE(solid);
      EXPECT_TRUE(faultsOf(solid.value()).empty());
      const Vec3 found = piece.worldFromPiece.point(measure(solid.value()).centroid),
                 expected = left.centroid();
      for (int axis = 0; axis < 3; ++axis)
        EXPECT_NEAR(found[axis], expected[axis], kPlace) << "axis " << axis;
    }
  }
}

// The planning mesh has 64 flats for a circle: its bore is the regular polygon's, 32 r^2 sin(2 pi / 64).
TEST(VolumesByCgal, PlanningMeshOfAPinIsAPrism) {
  const double polygon = 32 * 4.75 * 4.75 * std::sin(2 * std::numbers::pi / 64);
  expectNearRelative(volume(*pieceIn("draw-bored-frame", "pin.rail.top.left.1").last().mesh), polygon * 44,
                     kVolume);
}

}  // namespace
}  // namespace dryfit::tests
