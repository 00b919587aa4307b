// Formed bodies in pictures: the surroundings of what is made.
#include <gtest/gtest.h>

#include "scene/camera.h"
#include "scene/framing.h"
#include "scene/surface.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

Item boxItem(Vec3 low, Vec3 high, bool formed) {
  Shape shape;
  for (int i = 0; i < 8; ++i)
    shape.points.push_back({i & 1 ? high.x : low.x, i & 2 ? high.y : low.y, i & 4 ? high.z : low.z});
  for (int i = 0; i < 8; ++i)
    for (const int way : {1, 2, 4})
      if (!(i & way)) {
        Shape::Edge edge{};
        edge.from = i;
        edge.to = i | way;
        shape.edges.push_back(edge);
      }
  shape.box.add(low);
  shape.box.add(high);
  Item item;
  item.formed = formed;
  item.shape = std::make_shared<const Shape>(std::move(shape));
  return item;
}

Scene doorInAWall() {
  Scene scene;
  scene.items = {boxItem({-400, 0, 0}, {400, 100, 2000}, false),
                 boxItem({-1000, 20, 0}, {1000, 80, 2400}, true),
                 boxItem({-450, -1000, -50}, {450, 1000, 0}, true)};
  return scene;
}

TEST(Surroundings, AWallCountsOnlyALittleRoundWhatIsMade) {
  const Scene scene = doorInAWall();
  const double more = 0.06 * length(Vec3{800, 100, 2000});  // framing.cpp's share of the diagonal
  Box3 seen;
  for (const Vec3& p : pointsLeft(scene, {})) seen.add(p);
  EXPECT_NEAR(seen.low.y, -more, 1e-9);  // the floor's edges are cut off there
  EXPECT_GE(seen.low.x, -400 - more - 1e-9);
  EXPECT_LE(seen.high.x, 400 + more + 1e-9);
  EXPECT_LE(seen.high.z, 2000 + more + 1e-9);
  EXPECT_EQ(boundsOfMade(scene).high.z, 2000);
  EXPECT_EQ(boundsOfFormed(scene).high.z, 2400);
}

TEST(Surroundings, AloneTheyAreFramedWhole) {
  Scene scene = doorInAWall();
  scene.items.erase(scene.items.begin());
  Box3 seen;
  for (const Vec3& p : pointsLeft(scene, {})) seen.add(p);
  EXPECT_EQ(seen.low, (Vec3{-1000, -1000, -50}));
  EXPECT_EQ(seen.high, (Vec3{1000, 1000, 2400}));
}

TEST(Surroundings, AreDrawnThoughTheyRunOutOfThePicture) {
  const Scene scene = doorInAWall();
  for (const View& view : namedViews()) {
    const Camera narrow = framed(view, pointsLeft(scene, {}), {800, 600}, {});
    const Camera camera = reaching(narrow, boundsOfFormed(scene));
    EXPECT_EQ(camera.viewFromWorld, narrow.viewFromWorld);
    for (const Item& item : scene.items)
      for (const Vec3& p : item.shape->points) {
        EXPECT_GE(camera.project(p).depth, camera.nearMm) << view.name;
        EXPECT_LE(camera.project(p).depth, camera.farMm) << view.name;
      }
    EXPECT_EQ(reaching(narrow, {}).nearMm, narrow.nearMm);
  }
}

TEST(Surroundings, AreOfTheStuffTheirMaterialSays) {
  Piece piece = tests::shippedWork("practice-corner").pieces.front();
  const auto stuff = [&](const std::string& material) {
    piece.material = material;
    return surfaceOf(piece, "wall");
  };
  EXPECT_EQ(stuff("brick").substance, Substance::Brick);
  EXPECT_EQ(stuff("brick").coursing.courseMm, 75);  // of 65 bricks and joints of 10: common practice
  EXPECT_EQ(stuff("block").coursing.lengthMm, 450);
  EXPECT_EQ(stuff("plaster").substance, Substance::Plaster);
  EXPECT_EQ(stuff("boarding").substance, Substance::Boards);
  EXPECT_EQ(stuff("brass").substance, Substance::Metal);
  EXPECT_EQ(stuff("oak").substance, Substance::Timber);
}

}  // namespace
}  // namespace dryfit::scene
