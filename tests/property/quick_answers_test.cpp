// The planner's short ways to an answer against the long ones: whether two meet, how far off, how long they
// slide, whether they stand clear, a mesh seen moved.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fit/apart.h"
#include "fit/fit.h"
#include "fit/mesh_along.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

const std::vector<Vec3> kWays = {{1, 0, 0}, {0, -1, 0}, {0, 0, 1}, {0.6, 0, -0.8}};

std::vector<PlanningMesh> homeMeshes(const CutWork& work) {
  std::vector<PlanningMesh> all;
  for (const Body& b : work.assembly.bodies) all.push_back(placed(*b.states.back().mesh, b.worldFromPiece));
  return all;
}

class QuickAnswers : public testing::TestWithParam<std::string> {
 protected:
  CutWork work = cutFile(GetParam());
  std::vector<PlanningMesh> meshes = homeMeshes(work);
  std::mt19937 random{7};

  size_t any() { return std::uniform_int_distribution<size_t>(0, meshes.size() - 1)(random); }
  Vec3 aside() {
    std::uniform_int_distribution<int> mm(-40, 40);
    return {mm(random) / 2.0, mm(random) / 2.0, mm(random) / 2.0};
  }
};

TEST_P(QuickAnswers, AreThoseOfTheWholeQuestion) {
  for (int i = 0; i < 400; ++i) {
    const Vec3 way = kWays[static_cast<size_t>(i) % kWays.size()];
    const MeshAlong a(meshes[any()], way, aside()), b(meshes[any()], way);
    const Blocking whole = blocking(a, b);
    EXPECT_EQ(meets(a, b), std::isfinite(whole.gapMm));
    EXPECT_EQ(freeAfter(a, b), whole.freeAfterMm);
    for (const double least : {0.0, 1.5, 20.0, 1e6})
      EXPECT_EQ(gapBeyond(a, b, least), std::max(whole.gapMm, least));
  }
}

TEST_P(QuickAnswers, AMeshSeenMovedIsTheMovedMeshSeen) {
  for (int i = 0; i < 200; ++i) {
    const Vec3 way = kWays[static_cast<size_t>(i) % kWays.size()], offset = aside();
    const PlanningMesh& mesh = meshes[any()];
    const MeshAlong home(mesh, way), moved(home, offset), anew(mesh, way, offset), b(meshes[any()], way);
    EXPECT_EQ(moved.lowMm(), anew.lowMm());
    EXPECT_EQ(moved.highMm(), anew.highMm());
    ASSERT_EQ(moved.shadows().size(), anew.shadows().size());
    for (size_t s = 0; s < anew.shadows().size(); ++s) {
      const auto &one = moved.shadows()[s], &other = anew.shadows()[s];
      EXPECT_TRUE(std::equal(one.outline.begin(), one.outline.end(), other.outline.begin(),
                             other.outline.end(), [](Vec2 p, Vec2 q) { return p.x == q.x && p.y == q.y; }));
    }
    EXPECT_EQ(blocking(moved, b).gapMm, blocking(anew, b).gapMm);
  }
}

TEST_P(QuickAnswers, WhatIsSurelyApartSharesNothing) {
  int apart = 0, sharing = 0;
  for (int i = 0; i < 600; ++i) {
    const PlanningMesh a = placed(meshes[any()], translation(aside())), &b = meshes[any()];
    const bool said = surelyApart(a, FacetBoxes(a), b, FacetBoxes(b));
    const double mm3 = sharedVolume(a, b).volumeMm3;
    apart += said && near(bounds(a), bounds(b), 0);
    sharing += mm3 > 1;
    if (!said) continue;
    EXPECT_LT(mm3, 1e-6);
    EXPECT_TRUE(touches(a, b).empty());
  }
  EXPECT_GT(apart, 0) << "some whose boxes meet are told apart";
  EXPECT_GT(sharing, 0) << "and some share wood";
}

INSTANTIATE_TEST_SUITE_P(Works, QuickAnswers,
                         testing::Values(DRYFIT_ROOT "/assets/works/panel-frame.toml",
                                         DRYFIT_ROOT "/assets/works/notice-frame.toml",
                                         DRYFIT_ROOT "/assets/works/boat-chock.toml"),
                         [](const auto& file) { return "of_" + std::to_string(file.index + 1); });

}  // namespace
}  // namespace dryfit::tests
