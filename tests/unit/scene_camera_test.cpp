// The camera: axes of the named views by the contract's world (X right, Y into the wall, Z up), framing,
// scale.
#include "scene/camera.h"

#include <gtest/gtest.h>

#include <random>

namespace dryfit::scene {
namespace {

constexpr PictureSize kSize{800, 600};

const View& viewCalled(const std::string& name) {
  for (const View& v : namedViews())
    if (v.name == name) return v;
  ADD_FAILURE() << name;
  return namedViews().front();
}

std::vector<Vec3> cornersOf(Vec3 low, Vec3 high) {
  std::vector<Vec3> out;
  for (int i = 0; i < 8; ++i)
    out.push_back({i & 1 ? high.x : low.x, i & 2 ? high.y : low.y, i & 4 ? high.z : low.z});
  return out;
}

struct AxisCase {
  const char* view;
  Vec3 right, up, towards;
};
class NamedView : public testing::TestWithParam<AxisCase> {};

TEST_P(NamedView, LooksAlongItsAxes) {
  const auto& [name, right, up, towards] = GetParam();
  const Camera c = framed(viewCalled(name), cornersOf({-300, 0, 0}, {300, 44, 900}), kSize, {});
  const Vec2 middle = c.project({0, 22, 450}).at;
  const Vec2 toRight = c.project(Vec3{0, 22, 450} + right).at - middle,
             toUp = c.project(Vec3{0, 22, 450} + up).at - middle;
  EXPECT_NEAR(toRight.x, c.pixelsPerMm, 1e-9);
  EXPECT_NEAR(toRight.y, 0, 1e-9);
  EXPECT_NEAR(toUp.x, 0, 1e-9);
  EXPECT_NEAR(toUp.y, -c.pixelsPerMm, 1e-9);  // the picture's y runs down
  EXPECT_EQ(c.towardsLooker({}), towards);
  EXPECT_LT(c.project(towards).depth, c.project({}).depth);
}
// Third-angle or first-angle does not come into it: each view stands alone. Plan has the back of the wall on
// top.
INSTANTIATE_TEST_SUITE_P(Camera, NamedView,
                         testing::Values(AxisCase{"front", {1, 0, 0}, {0, 0, 1}, {0, -1, 0}},
                                         AxisCase{"back", {-1, 0, 0}, {0, 0, 1}, {0, 1, 0}},
                                         AxisCase{"side", {0, 1, 0}, {0, 0, 1}, {1, 0, 0}},
                                         AxisCase{"plan", {1, 0, 0}, {0, 1, 0}, {0, 0, 1}}),
                         [](const auto& info) { return info.param.view; });

TEST(Camera, AParallelViewFillsTheRoomLeft) {
  const Margins margins{100, 60, 40, 20};
  const Camera c = framed(viewCalled("front"), cornersOf({-300, 0, 0}, {300, 44, 900}), kSize, margins);
  // 900 high in 540 pixels is what limits it.
  EXPECT_NEAR(c.pixelsPerMm, 540.0 / 900, 1e-12);
  EXPECT_NEAR(c.project({0, 0, 900}).at.y, 40, 1e-9);
  EXPECT_NEAR(c.project({0, 0, 0}).at.y, 580, 1e-9);
  EXPECT_NEAR(c.project({0, 0, 0}).at.x, 100 + 640 / 2.0, 1e-9);
}

TEST(Camera, APerspectiveViewTouchesTheMarginsAndCrossesNone) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-500, 500), angle(0, 360), high(-80, 80);
  for (int turn = 0; turn < 200; ++turn) {
    std::vector<Vec3> points;
    for (int i = 0; i < 12; ++i) points.push_back({any(random), any(random), any(random)});
    const Margins margins{50, 80, 30, 70};
    const Camera c = framed({angle(random), high(random), false, 20, ""}, points, kSize, margins);
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    for (const Vec3& p : points) {
      const PicturePoint q = c.project(p);
      ASSERT_GT(q.depth, c.nearMm);
      ASSERT_LT(q.depth, c.farMm);
      left = std::min(left, q.at.x);
      right = std::max(right, q.at.x);
      top = std::min(top, q.at.y);
      bottom = std::max(bottom, q.at.y);
    }
    const double slack[] = {left - 50, 720 - right, top - 30, 530 - bottom};
    for (const double s : slack) ASSERT_GT(s, -1e-6);
    // Both sides across or both sides up and down are touched: it could not be larger.
    const bool across = std::max(slack[0], slack[1]) < 1e-6, upAndDown = std::max(slack[2], slack[3]) < 1e-6;
    ASSERT_TRUE(across || upAndDown);
  }
}

TEST(Camera, ScaleIsWhatAMillimetreComesTo) {
  const Camera c = framed(viewCalled("corner"), cornersOf({-300, 0, 0}, {300, 44, 900}), kSize, {});
  const Vec3 at{10, 20, 300};
  const Placement worldFromView = inverse(c.viewFromWorld);
  const double step = length(c.project(at + worldFromView.xAxis).at - c.project(at).at);
  EXPECT_NEAR(step, c.scaleAt(at), 1e-9 * step);
}

TEST(Camera, ASinglePointIsFramedToo) {
  const Camera c = framed(viewCalled("corner"), {{1, 2, 3}}, kSize, {});
  EXPECT_NEAR(c.project({1, 2, 3}).at.x, 400, 1e-6);
  EXPECT_NEAR(c.project({1, 2, 3}).at.y, 300, 1e-6);
}

}  // namespace
}  // namespace dryfit::scene
