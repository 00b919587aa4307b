// Formed bodies in pictures: the surroundings of what is made.
#include <gtest/gtest.h>

#include <cmath>

#include "picture_judge.h"
#include "scene/camera.h"
#include "scene/framing.h"
#include "scene/surface.h"
#include "scene/surroundings.h"
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

Item solidBox(const std::string& name, Vec3 low, Vec3 high, bool formed) {
  Item item = tests::boxItem(name, high - low, (low + high) * 0.5);
  item.formed = formed;
  return item;
}

/// A door in a wall of two pieces on a floor; the skirting runs on to the wall's end.
Scene doorOfSolids() {
  Scene scene;
  scene.items = {solidBox("door", {-400, 0, 0}, {400, 100, 2000}, false),
                 solidBox("skirting", {-1000, -20, 0}, {-400, 0, 150}, false),
                 solidBox("wall", {-1000, 0, 0}, {-400, 100, 2400}, true),
                 solidBox("wall", {400, 0, 0}, {1000, 100, 2400}, true),
                 solidBox("floor", {-1000, -900, -50}, {1000, 900, 0}, true)};
  return scene;
}

const Item* called(const Scene& scene, const std::string& name) {
  for (const Item& item : scene.items)
    if (item.name == name) return &item;
  return nullptr;
}

TEST(Surroundings, AreNotWhatThePictureIsAbout) {
  const Box3 focus = focusOf(doorOfSolids());
  EXPECT_EQ(focus.low, (Vec3{-400, 0, 0}));
  EXPECT_EQ(focus.high, (Vec3{400, 100, 2000}));
}

TEST(Surroundings, OfTheWholeAreCutStraight) {
  Scene scene = doorOfSolids();
  const Box3 made = boundsOfMade(scene);
  const double more = 0.10 * length(made.size());  // surroundings.cpp's share of the diagonal
  cutOffRound(scene, made);
  const Item& floor = *called(scene, "floor");
  const Box3 box = boundsOf(*floor.shape, floor.worldFromPiece);
  EXPECT_NEAR(box.low.y, made.low.y - more, 1e-9);
  EXPECT_NEAR(box.high.y, made.high.y + more, 1e-9);
  EXPECT_EQ(box.low.x, -1000);  // hardly beyond: left as it is
}

TEST(Surroundings, OfADrawnSectionEndInABreak) {
  Scene scene = doorOfSolids();
  const auto plan = drawnSection(namedViews()[3], {CutPlane{{0, 0, 1}, 1000, "plan"}});
  ASSERT_TRUE(plan);
  const Box3 focus = focusOf(scene);
  breakOffRound(scene, focus, *plan);
  EXPECT_FALSE(called(scene, "floor"));                 // wholly behind what is made
  const double more = 0.08 * std::hypot(800.0, 100.0);  // surroundings.cpp's share, in the picture's plane
  const double waves = 9;                               // half their height there
  for (const Item& item : scene.items) {
    if (item.name == "door") continue;
    const Box3 box = boundsOf(*item.shape, item.worldFromPiece);
    const double reach = std::max(-box.low.x, box.high.x);
    EXPECT_NEAR(reach, 400 + more, item.formed ? waves : 2 * waves + waves) << item.name;
    if (!item.formed) continue;
    // The cut face: 100 thick, as long as the break leaves it.
    const Cap cap = capOf(*item.shape, item.worldFromPiece, *plan);
    EXPECT_NEAR(cap.areaMm2, 100 * more, 100 * waves);
  }
}

TEST(Surroundings, ADrawingIsOneSectionSquareOn) {
  const CutPlane plan{{0, 0, 1}, 1000, "plan"};
  const View& above = namedViews()[3];
  ASSERT_EQ(above.name, "plan");
  EXPECT_TRUE(drawnSection(above, {plan}));
  EXPECT_FALSE(drawnSection(above, {plan, plan}));
  EXPECT_FALSE(drawnSection(namedViews()[0], {plan}));
  EXPECT_FALSE(drawnSection(namedViews()[4], {plan}));
  EXPECT_FALSE(drawnSection(above, {}));
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
