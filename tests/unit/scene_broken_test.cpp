// Pieces broken off near a joint: still closed bodies, waved only at the break.
#include "scene/broken.h"

#include <gtest/gtest.h>

#include <map>

#include "support/shells.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

using tests::boxShell;
using tests::pocketShell;
using tests::roundRodShell;

/// Sides that are not used once each way.
int openSides(const Shape& shape) {
  std::map<std::pair<int, int>, int> used;
  for (const auto& t : shape.triangles)
    for (size_t k = 0; k < 3; ++k) ++used[{t.points[k], t.points[(k + 1) % 3]}];
  int open = 0;
  for (const auto& [side, count] : used)
    if (count != 1 || used.count({side.second, side.first}) == 0) ++open;
  return open;
}

double volumeOf(const Shape& shape) {
  double sum = 0;
  for (const auto& t : shape.triangles) {
    const auto p = [&](size_t k) { return shape.points[static_cast<size_t>(t.points[k])]; };
    sum += dot(p(0), cross(p(1), p(2))) / 6;
  }
  return sum;
}

TEST(Broken, KeepsWhatItIsToldTo) {
  const Shape whole = shapeOf(boxShell({1000, 95, 44}));
  const Shape part = broken(whole, {-200, 300}, 5);
  EXPECT_EQ(openSides(part), 0);
  EXPECT_NEAR(part.box.low.x, -200, 10);
  EXPECT_NEAR(part.box.high.x, 300, 10);
  EXPECT_EQ(part.box.low.y, -47.5);
  EXPECT_EQ(part.box.high.z, 22);
  // The wave's mean is near none: 9 of height at most over the section.
  EXPECT_NEAR(volumeOf(part), 500.0 * 95 * 44, 2 * 9.0 * 95 * 44);
}

TEST(Broken, WavesAtTheBreakAndNowhereElse) {
  const Shape part = broken(shapeOf(boxShell({1000, 95, 44})), {{}, 300}, 5);
  double least = 1e9, most = -1e9;
  for (const auto& t : part.triangles) {
    const bool isBreak = part.roles[static_cast<size_t>(t.face)] == "break";
    for (const int i : t.points) {
      const Vec3 p = part.points[static_cast<size_t>(i)];
      if (isBreak) {
        least = std::min(least, p.x);
        most = std::max(most, p.x);
      }
      // Every point lies on the box's own faces still.
      EXPECT_TRUE(p.x > 280 || p.x == -500) << p.x;
      EXPECT_TRUE(std::abs(p.y) == 47.5 || std::abs(p.z) == 22);
    }
  }
  EXPECT_GT(most - least, 3);
  EXPECT_LT(most - least, 18);
}

TEST(Broken, HollowAndRoundPiecesStayClosed) {
  // Through the pocket's walls the break has a hole.
  const Shape hollow = broken(shapeOf(pocketShell({600, 200, 60}, 400, 80)), {-100, 120}, 3);
  EXPECT_EQ(openSides(hollow), 0);
  EXPECT_NEAR(volumeOf(hollow), 220.0 * (200 - 80) * 60, 2 * 9.0 * 120 * 60);
  const Shape rod = broken(shapeOf(roundRodShell(400, 12)), {{}, 50}, 3);
  EXPECT_EQ(openSides(rod), 0);
  EXPECT_LT(rod.box.high.x, 60);
}

TEST(Broken, AShortEndStaysWhole) {
  const Shape whole = shapeOf(boxShell({400, 95, 44}));
  EXPECT_EQ(broken(whole, {{}, 190}, 5).points.size(), whole.points.size());
}

TEST(Broken, TheSamePieceBreaksTheSameWay) {
  const Shape whole = shapeOf(boxShell({1000, 95, 44}));
  EXPECT_EQ(broken(whole, {{}, 100}, 5).points, broken(whole, {{}, 100}, 5).points);
  EXPECT_NE(broken(whole, {{}, 100}, 5).points, broken(whole, {{}, 100}, 6).points);
}

TEST(Broken, EveryShippedPieceStaysClosed) {
  std::vector<std::string> files = tests::shippedWorks();
  for (const std::string& f : tests::shippedDoorSets()) files.push_back(f);
  int brokenOff = 0;
  for (const std::string& file : files)
    for (const Piece& p : tests::cutFile(file).pieces) {
      const Shape whole = shapeOf(p.last().shell);
      const double middle = whole.box.centre().x, some = whole.box.size().x / 5;
      const Shape part = broken(whole, {middle - some, middle + some}, 9);
      EXPECT_EQ(openSides(part), 0) << file << " " << p.id;
      EXPECT_LE(volumeOf(part), volumeOf(whole) * (1 + 1e-9)) << p.id;
      if (part.points != whole.points) ++brokenOff;
    }
  EXPECT_GT(brokenOff, 100);
}

}  // namespace
}  // namespace dryfit::scene
