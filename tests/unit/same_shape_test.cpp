// Shapes turned about the grain's line are recognised with their turn; mirrored ones and near ones are not.
#include "piece/same_shape.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/shells.h"

namespace dryfit::tests {
namespace {

/// A box with a square hole through it near one end and nearer one edge, and a blind one in its face: only
/// standing as it is does it look so, and its mirror image is another shape.
Shell lopsided() {
  Shell shell = pocketShell({400, 95, 44}, 60, 12);
  for (Vec3& p : shell.vertices)
    if (std::abs(p.x) < 199) p = p + Vec3{70, 15, 0};
  shell.rounds.push_back({"hole", {-150, -30, 22}, {-150, -30, 10}, 4});
  for (FlatFace& f : shell.flats)
    if (f.role == "face") f.rims.push_back({0, 0});
  shell.flats.push_back({"hole.bottom", {0, 0, 1}, 10, {}, {{0, 12}}});
  return shell;
}

Shell moved(const Shell& shell, const Placement& by) {
  Shell out = shell;
  for (Vec3& p : out.vertices) p = by.point(p);
  for (FlatFace& f : out.flats) {
    f.normal = by.direction(f.normal);
    f.offset += dot(f.normal, by.origin);
  }
  for (RoundFace& r : out.rounds) r.from = by.point(r.from), r.to = by.point(r.to);
  return out;
}

TEST(GrainTurns, AreEightProperOnesThatKeepTheGrainsLine) {
  const auto turns = grainTurns();
  EXPECT_EQ(turns[0], Placement{});
  for (size_t i = 0; i < turns.size(); ++i) {
    EXPECT_TRUE(isProper(turns[i]));
    EXPECT_EQ(std::abs(turns[i].xAxis.x), 1);
    for (size_t j = 0; j < i; ++j) EXPECT_FALSE(turns[i] == turns[j]);
  }
}

TEST(TurnOnto, GivesTheTurnAndTheShift) {
  const Shell shell = lopsided();
  for (Placement turn : grainTurns()) {
    turn.origin = {3, -20, 0.125};
    const auto found = turnOnto(shell, moved(shell, turn));
    ASSERT_TRUE(found);
    EXPECT_EQ(*found, turn);
  }
}

TEST(TurnOnto, LooksAtFacesInAnyOrderAndAtRoundingNot) {
  Shell shell = lopsided();
  std::reverse(shell.flats.begin(), shell.flats.end());
  for (FlatFace& f : shell.flats)
    for (auto& loop : f.loops) std::rotate(loop.begin(), loop.begin() + 1, loop.end());
  shell.vertices[2].y += 1e-12;
  EXPECT_EQ(turnOnto(lopsided(), shell), Placement{});
}

TEST(TurnOnto, RefusesWhatIsMirroredOrMadeOtherwise) {
  const Shell shell = lopsided();
  ASSERT_TRUE(isClosed(shell));
  EXPECT_FALSE(turnOnto(shell, mirrored(shell)));
  Shell wider = shell;
  wider.vertices.back().y += 1e-5;  // the least step of a size
  EXPECT_FALSE(turnOnto(shell, wider));
  EXPECT_FALSE(turnOnto(shell, boxShell({400, 95, 44})));
  // Set upright it is the same block, but its grain runs across.
  EXPECT_FALSE(turnOnto(boxShell({400, 95, 44}), boxShell({95, 400, 44})));
  EXPECT_TRUE(turnOnto(boxShell({400, 95, 44}), boxShell({400, 44, 95})));
}

TEST(TurnOnto, ComparesRoundsEitherWayAlongTheirAxis) {
  const Shell rod = roundRodShell(60, 5);
  const auto turned = turnOnto(rod, moved(rod, rotation({0, 0, 1}, {}, std::numbers::pi)));
  ASSERT_TRUE(turned);
  EXPECT_EQ(turned->origin, (Vec3{}));
  EXPECT_FALSE(turnOnto(rod, roundRodShell(60, 5.001)));
  const Shell bored = boredShell({300, 120, 44}, 5);
  Shell shifted = bored;
  for (RoundFace& r : shifted.rounds) r.from.x += 1, r.to.x += 1;
  EXPECT_TRUE(turnOnto(bored, bored));
  EXPECT_FALSE(turnOnto(bored, shifted));
}

}  // namespace
}  // namespace dryfit::tests
