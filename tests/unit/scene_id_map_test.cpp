// Which piece is seen where: against boxes whose picture is known, and against rays through every triangle.
#include "scene/id_map.h"

#include <gtest/gtest.h>

#include "picture_judge.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

constexpr PictureSize kSize{640, 480};
constexpr Margins kMargins{80, 80, 60, 60};

struct Two {
  Scene scene;
  Camera camera;
};
/// A board 200 x 100 and before it, nearer to the looker at the front, a smaller one.
Two twoBoards() {
  Two two;
  two.scene.items = {tests::boxItem("back board", {200, 10, 100}, {}),
                     tests::boxItem("front board", {40, 10, 60}, {30, -40, 0})};
  two.camera = tests::cameraOn(two.scene, "front", kSize, kMargins);
  return two;
}

int countOf(const std::vector<Seen>& layer, int item) {
  return static_cast<int>(
      std::count_if(layer.begin(), layer.end(), [&](const Seen& s) { return s.item == item; }));
}

TEST(IdMap, AreasAreThoseOfTheBoxes) {
  const Two two = twoBoards();
  const IdMap map = idMapOf(two.scene, {}, two.camera, kSize, 2);
  const double cellsPerMm2 = two.camera.pixelsPerMm * two.camera.pixelsPerMm / 4;
  // Cells on the border are in or out by their middles: half a cell along each side at most.
  const double border = two.camera.pixelsPerMm * 600 / 2 / 2;
  EXPECT_NEAR(countOf(map.solid, 1), 40 * 60 * cellsPerMm2, border);
  EXPECT_NEAR(countOf(map.solid, 0), (200 * 100 - 40 * 60) * cellsPerMm2, border);
  EXPECT_EQ(countOf(map.veil, 0) + countOf(map.veil, 1), 0);
}

TEST(IdMap, DepthIsTheCameras) {
  const Two two = twoBoards();
  for (const std::string view : {"front", "corner"}) {
    const Camera camera = tests::cameraOn(two.scene, view, kSize, kMargins);
    const IdMap map = idMapOf(two.scene, {}, camera, kSize, 2);
    const PicturePoint at = camera.project({30, -45, 0});  // the middle of the front board's face
    const Seen seen = map.solid[map.cellAt(at.at)];
    EXPECT_EQ(seen.item, 1);
    EXPECT_EQ(two.scene.items[1].shape->roles[seen.face], "edge.low");
    EXPECT_NEAR(seen.depthMm, at.depth, 2 / camera.scaleAt({30, -45, 0})) << view;  // a cell's slope
  }
}

TEST(IdMap, AVeilLiesBeforeWhatItShows) {
  Two two = twoBoards();
  two.scene.items[1].shown = Shown::SeeThrough;
  const IdMap map = idMapOf(two.scene, {}, two.camera, kSize, 2);
  const int cell = map.cellAt(two.camera.project({30, -45, 0}).at);
  EXPECT_EQ(map.veil[cell].item, 1);
  EXPECT_EQ(map.solid[cell].item, 0);
  EXPECT_TRUE(map.taken(cell));
  // seen from behind it is hidden
  const Camera behind = tests::cameraOn(two.scene, "back", kSize, kMargins);
  const IdMap back = idMapOf(two.scene, {}, behind, kSize, 2);
  EXPECT_EQ(countOf(back.veil, 1), 0);
}

TEST(IdMap, OutlinesAreNotInIt) {
  Two two = twoBoards();
  two.scene.items[1].shown = Shown::Outline;
  const IdMap map = idMapOf(two.scene, {}, two.camera, kSize, 2);
  EXPECT_EQ(countOf(map.solid, 1), 0);
  EXPECT_EQ(map.solid[map.cellAt(two.camera.project({30, -45, 0}).at)].item, 0);
}

TEST(IdMap, SectionsTakeAwayAndShowTheirCut) {
  const Two two = twoBoards();
  const std::vector<CutPlane> across = {{{0, -1, 0}, 40, "across"}};  // through the front board's middle
  const IdMap map = idMapOf(two.scene, across, two.camera, kSize, 2);
  const Seen seen = map.solid[map.cellAt(two.camera.project({30, -40, 0}).at)];
  EXPECT_EQ(seen.item, 1);
  EXPECT_EQ(seen.face, static_cast<int>(two.scene.items[1].shape->roles.size()));
  EXPECT_NEAR(seen.depthMm, two.camera.project({30, -40, 0}).depth, 1e-3);
  const std::vector<CutPlane> all = {{{0, -1, 0}, -100, "across"}};  // both stand before it
  EXPECT_EQ(countOf(idMapOf(two.scene, all, two.camera, kSize, 2).solid, -1), 320 * 240);
}

TEST(IdMap, DepthInsideIsTheWayToTheNearestBorder) {
  const Two two = twoBoards();
  const IdMap map = idMapOf(two.scene, {}, two.camera, kSize, 2);
  const std::vector<float> depth = depthInside(map);
  const int middle = map.cellAt(two.camera.project({30, -45, 0}).at);
  EXPECT_NEAR(depth[middle] * 2, 20 * two.camera.pixelsPerMm, 3);  // half its width, to a cell and a half
  const int edge = map.cellAt(two.camera.project({11, -45, 0}).at);
  EXPECT_NEAR(depth[edge] * 2, 1 * two.camera.pixelsPerMm, 3);
}

TEST(IdMap, AgreesWithRays) {
  const CutWork work = tests::shippedWork("panel-frame");
  Staging staging(work, nullptr);
  const Scene scene = staging.scene({});
  for (const std::string view : {"front", "corner"}) {
    const Camera camera = tests::cameraOn(scene, view, kSize, kMargins);
    const IdMap map = idMapOf(scene, {}, camera, kSize, 2);
    int agree = 0, all = 0;
    for (int cell = 0; cell < static_cast<int>(map.solid.size()); cell += 173, ++all)
      agree += map.solid[cell].item == tests::itemAlongRay(scene, camera, map.middleOf(cell));
    // A ray along a face seen on edge may go either way; nothing else may differ.
    EXPECT_GE(agree, all - 2) << view << " of " << all;
  }
}

}  // namespace
}  // namespace dryfit::scene
