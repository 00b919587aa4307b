// Where sections go: by hand for a corner, a groove, a notch and a mitre of the shipped works.
#include "scene/section_places.h"

#include <gtest/gtest.h>

#include "scene/names.h"
#include "scene/staging.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

struct Shown {
  CutWork work;
  Scene scene;
  explicit Shown(const std::string& name)
      : work(tests::shippedWork(name)), scene(Staging(work, nullptr).scene({})) {}

  CutPlane throughJoint(const std::string& id, std::optional<SectionWay> way = {}) const {
    SectionPlace place;
    place.way = way;
    place.joint = jointCalled(work.assembly, id);
    EXPECT_TRUE(place.joint) << id;
    return planeOf(place, work, scene).value();
  }
  CutPlane throughPiece(const std::string& id, std::optional<SectionWay> way = {}) const {
    SectionPlace place;
    place.way = way;
    place.piece = tests::pieceOf(work, id);
    return planeOf(place, work, scene).value();
  }
  CutPlane at(SectionWay way, double mm) const {
    SectionPlace place;
    place.way = way;
    place.atMm = mm;
    return planeOf(place, work, scene).value();
  }
};

void expectPlane(const CutPlane& plane, Vec3 normal, double offset) {
  EXPECT_NEAR(length(plane.normal - normal), 0, 1e-9)
      << plane.normal.x << " " << plane.normal.y << " " << plane.normal.z;
  EXPECT_NEAR(plane.offset, offset, 1e-6);
}

TEST(SectionPlaces, AreOpenedUpwardsToTheRightAndToTheFront) {
  const Shown corner("practice-corner");
  expectPlane(corner.at(SectionWay::Plan, 120), {0, 0, 1}, 120);
  expectPlane(corner.at(SectionWay::Height, -3), {1, 0, 0}, -3);
  expectPlane(corner.at(SectionWay::Across, 7), {0, -1, 0}, -7);  // what lies at y < 7 is taken away
}

TEST(SectionPlaces, ThroughAPieceIsSquareToItsGrainInItsMiddle) {
  const Shown corner("practice-corner");
  // The stile stands from 0 to 400 when its horn is off. The rail's tenon ends flush with the stile's outer
  // edge, at 0 - 45 = -45; its sawn end is 320 from the shoulder at +45: 365, so the middle is at 160.
  expectPlane(corner.throughPiece("stile"), {0, 0, 1}, 200);
  expectPlane(corner.throughPiece("rail"), {1, 0, 0}, 160);
  expectPlane(corner.throughPiece("stile", SectionWay::Across), {0, -1, 0}, 0);
}

TEST(SectionPlaces, ATenonIsCutHalfWayBetweenItsCheeksWhereItsWedgesShow) {
  const Shown corner("practice-corner");
  expectPlane(corner.throughJoint("rail+stile"), {0, -1, 0}, 0);
  expectPlane(corner.throughPiece("wedge.rail.stile.1.upper"), {0, -1, 0}, 0);
  // Level, between the tenon's edges: it stands from 310 to 355 (half the rail's 90 above is haunch).
  expectPlane(corner.throughJoint("rail+stile", SectionWay::Plan), {0, 0, 1}, 332.5);
}

TEST(SectionPlaces, AGrooveIsCutSquareToItsRun) {
  const Shown frame("panel-frame");
  const CutPlane plane = frame.throughJoint("panel+rail.top");
  EXPECT_NEAR(length(plane.normal - Vec3{1, 0, 0}), 0, 1e-9);  // the rail runs along X
  EXPECT_NEAR(length(frame.throughJoint("panel+stile.left").normal - Vec3{0, 0, 1}), 0, 1e-9);
}

TEST(SectionPlaces, ADovetailAndAMitreShowTheirSlope) {
  // Backings are dovetailed along the wall's thickness (Y), their slope on edges that look up and down (Z).
  const Shown grounds("hatch-grounds");
  EXPECT_NEAR(length(grounds.throughJoint("backing.left.1+grounds.front.jamb.left").normal - Vec3{1, 0, 0}),
              0, 1e-9);
  const Shown notice("notice-frame");
  EXPECT_NEAR(length(notice.throughJoint("bead.top+bead.left").normal - Vec3{0, -1, 0}), 0, 1e-9);
}

TEST(SectionPlaces, EveryJointOfEveryWorkIsCutByItsOwnPlane) {
  std::vector<std::string> paths = tests::shippedWorks();
  for (const std::string& path : tests::shippedDoorSets()) paths.push_back(path);
  for (const std::string& path : paths) {
    const CutWork work = tests::cutFile(path);
    Staging staging(work, nullptr);
    const Scene scene = staging.scene({});
    for (size_t j = 0; j < work.assembly.joints.size(); ++j) {
      SectionPlace place;
      place.joint = static_cast<int>(j);
      const auto plane = planeOf(place, work, scene);
      ASSERT_TRUE(plane) << work.assembly.joints[j].id;
      int cut = 0;
      for (const int body : work.assembly.joints[j].bodies) {
        const Item& item = scene.items[static_cast<size_t>(body)];
        cut += !capOf(*item.shape, item.worldFromPiece, *plane).triangles.empty();
      }
      EXPECT_GE(cut, 2) << path << ": " << work.assembly.joints[j].id;
    }
  }
}

TEST(SectionPlaces, APieceThatIsNotShownCannotBeCut) {
  const CutWork work = tests::shippedWork("practice-corner");
  StagingRequest request;
  request.hidden = {tests::pieceOf(work, "rail"), tests::pieceOf(work, "wedge.rail.stile.1.upper"),
                    tests::pieceOf(work, "wedge.rail.stile.1.lower")};
  const Scene scene = Staging(work, nullptr).scene(request);
  SectionPlace piece, joint;
  piece.piece = request.hidden[0];
  joint.joint = 0;
  EXPECT_FALSE(planeOf(piece, work, scene));
  EXPECT_FALSE(planeOf(joint, work, scene));
}

TEST(SectionPlaces, APieceSpreadApartIsCutWhereItStands) {
  const CutWork work = tests::shippedWork("practice-corner");
  StagingRequest request;
  request.offsets.assign(work.pieces.size(), {1000, 20, 300});
  const Scene scene = Staging(work, nullptr).scene(request);
  SectionPlace place;
  place.piece = tests::pieceOf(work, "stile");
  expectPlane(planeOf(place, work, scene).value(), {0, 0, 1}, 500);
  SectionPlace joint;
  joint.joint = jointCalled(work.assembly, "rail+stile");
  expectPlane(planeOf(joint, work, scene).value(), {0, -1, 0}, -20);
}

TEST(SectionPlaces, TheSideTowardsTheLookerIsTakenAway) {
  const CutPlane plan{{0, 0, 1}, 120, "plan"};
  EXPECT_EQ(turnedTo(plan, {0, -0.9, 0.4}).offset, 120);
  EXPECT_EQ(turnedTo(plan, {0, -0.9, -0.4}).normal, (Vec3{0, 0, -1}));
  EXPECT_EQ(turnedTo(plan, {0, -0.9, -0.4}).offset, -120);
  EXPECT_EQ(turnedTo(plan, {0, -1, 0}).offset, 120);  // edge on
}

TEST(SectionPlaces, ViewsAreSquareOn) {
  EXPECT_EQ(squareOn({{0, 0, 1}, 0, ""}).name, "plan");
  EXPECT_EQ(squareOn({{1, 0, 0}, 0, ""}).name, "side");
  EXPECT_EQ(squareOn({{0, -1, 0}, 0, ""}).name, "front");
  EXPECT_EQ(squareOn({{0, 1, 0}, 0, ""}).name, "back");
  const Vec3 slanted = normalized({1, -2, 0.5});
  const View view = squareOn({slanted, 0, ""});
  EXPECT_NEAR(length(towardsLookerOf(view) - slanted), 0, 1e-9);
  EXPECT_TRUE(view.parallel);
}

}  // namespace
}  // namespace dryfit::scene
