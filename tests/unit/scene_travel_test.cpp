#include "scene/travel.h"

#include <gtest/gtest.h>

#include <numbers>

namespace dryfit::scene {
namespace {

Leg straight(Vec3 way, double mm) {
  Leg leg;
  leg.direction = way;
  leg.travelMm = mm;
  return leg;
}
void expectAt(const std::vector<Leg>& legs, double part, Vec3 point, Vec3 expected) {
  const Vec3 at = awayFromHome(legs, part).point(point);
  EXPECT_NEAR(length(at - expected), 0, 1e-9) << part << ": " << at.x << " " << at.y << " " << at.z;
}

TEST(Travel, LegsAreGoneOneAfterAnother) {
  const std::vector<Leg> legs = {straight({0, 1, 0}, 60), straight({-1, 0, 0}, 20)};  // in, then to the left
  expectAt(legs, 0, {0, 0, 0}, {20, -60, 0});
  expectAt(legs, 0.375, {0, 0, 0}, {20, -30, 0});
  expectAt(legs, 0.75, {0, 0, 0}, {20, 0, 0});
  expectAt(legs, 0.875, {0, 0, 0}, {10, 0, 0});
  expectAt(legs, 1, {3, 4, 5}, {3, 4, 5});
}

TEST(Travel, ATurnAndAScrewAreUndoneAboutTheirAxis) {
  Leg turn;
  turn.kind = Leg::Kind::Turn;
  turn.through = {10, 0, 0};
  turn.angleRad = std::numbers::pi / 2;  // home is a quarter turn left of outside
  expectAt({turn}, 0, {10, 5, 0}, {15, 0, 0});
  expectAt({turn}, 1, {10, 5, 0}, {10, 5, 0});
  Leg screw = turn;
  screw.kind = Leg::Kind::Screw;
  screw.travelMm = 8;
  expectAt({screw}, 0, {10, 5, 0}, {15, 0, -8});
  // Turned in place first, then pushed up: undone the other way round.
  expectAt({turn, straight({0, 0, 1}, 30)}, 0, {10, 5, 0}, {15, 0, -30});
}

TEST(Travel, MovesFollowOneAnotherByTheirWays) {
  const std::vector<Move> moves = {{{0}, -1, {straight({1, 0, 0}, 30)}},
                                   {{1}, -1, {straight({1, 0, 0}, 90)}}};
  EXPECT_EQ(partsOfMoves(moves, 0), (std::vector<double>{0, 0}));
  EXPECT_EQ(partsOfMoves(moves, 0.125), (std::vector<double>{0.5, 0}));
  EXPECT_EQ(partsOfMoves(moves, 0.625), (std::vector<double>{1, 0.5}));
  EXPECT_EQ(partsOfMoves(moves, 1), (std::vector<double>{1, 1}));
}

TEST(Travel, OnlyTheOutermostLegIsLengthened) {
  const auto legs = lengthened({straight({0, 1, 0}, 10), straight({-1, 0, 0}, 20)}, 70);
  EXPECT_DOUBLE_EQ(legs[0].travelMm, 80);
  EXPECT_DOUBLE_EQ(legs[1].travelMm, 20);
  EXPECT_TRUE(lengthened({}, 50).empty());
  // A screw is brought straight to where it bites.
  Leg screw = straight({0, 0, -1}, 30);
  screw.kind = Leg::Kind::Screw;
  screw.angleRad = 12;
  const auto driven = lengthened({screw}, 70);
  ASSERT_EQ(driven.size(), 2u);
  EXPECT_EQ(driven[0].kind, Leg::Kind::Straight);
  EXPECT_DOUBLE_EQ(driven[0].travelMm, 70);
  EXPECT_DOUBLE_EQ(driven[1].travelMm, 30);
}

TEST(Travel, ArrowsRunFromWhereItIsToHome) {
  const std::vector<Leg> legs = {straight({0, 1, 0}, 60), straight({-1, 0, 0}, 20)};
  const auto arrows = arrowsHome(legs, 0.375, {1, 1, 1});
  ASSERT_EQ(arrows.size(), 2u);
  EXPECT_NEAR(length(arrows[0].from - Vec3{21, -29, 1}), 0, 1e-9);
  EXPECT_NEAR(length(arrows[0].to - Vec3{21, 1, 1}), 0, 1e-9);
  EXPECT_NEAR(length(arrows[1].to - Vec3{1, 1, 1}), 0, 1e-9);
  EXPECT_EQ(arrowsHome(legs, 0.875, {}).size(), 1u);
  EXPECT_TRUE(arrowsHome(legs, 1, {}).empty());
}

}  // namespace
}  // namespace dryfit::scene
