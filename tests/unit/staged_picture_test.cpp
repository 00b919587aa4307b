// Pictures before they are drawn: what is refused, from where they are seen, one camera a unit.
#include "scene/staged_picture.h"

#include <gtest/gtest.h>

#include <map>

#include "cli/picture_options.h"
#include "scene/framing.h"
#include "support/works.h"

namespace dryfit::cli {
namespace {

using scene::StagedPicture;

struct Work {
  CutWork work;
  OrderOfWork order;
  scene::Staging staging;
  explicit Work(CutWork w)
      : work(std::move(w)), order(std::get<OrderOfWork>(plan(work.assembly))), staging(work, &order) {}
  explicit Work(const std::string& name) : Work(tests::shippedWork(name)) {}

  PictureOptions options(const PictureWords& words = {}) const { return pictureOptions(words, work).value(); }
  Result<StagedPicture> stage(const PictureOptions& options) {
    return scene::stagePicture(work, &order, staging, options);
  }
  std::string faultOf(const PictureWords& words) {
    const auto staged = stage(options(words));
    EXPECT_FALSE(staged.ok());
    return staged.ok() ? "" : toText(staged.faults().front());
  }
};

PictureWords section(const std::string& text) {
  PictureWords words;
  words.sections = {text};
  return words;
}

TEST(StagedPicture, ASectionThatMissesTellsTheRange) {
  Work corner("practice-corner");
  EXPECT_EQ(corner.faultOf(section("plan=900")),
            "--section: \"plan at 900 mm\" cuts nothing; the work stands from 0 mm to 400 mm");
  EXPECT_EQ(corner.faultOf(section("plan=0")),
            "--section: \"plan at 0 mm\" cuts nothing; the work stands from 0 mm to 400 mm");
  EXPECT_EQ(corner.faultOf(section("height=-46")),
            "--section: \"height at -46 mm\" cuts nothing; the work stands from -45 mm to 365 mm");
  EXPECT_EQ(corner.faultOf(section("across=23")),
            "--section: \"across at 23 mm\" cuts nothing; the work stands from -22 mm to 22 mm");
  CutWork inches = tests::shippedWork("practice-corner");
  inches.lengths = LengthUnit::Inch;
  Work inch(std::move(inches));
  EXPECT_EQ(inch.faultOf(section("plan=16")),
            "--section: \"plan at 16 in\" cuts nothing; the work stands from 0 in to 15.748 in");
}

/// Columns of the picture that the piece's box takes.
std::pair<double, double> columnsOf(const std::string& id, const StagedPicture& picture, const Work& w) {
  double low = 1e9, high = -1e9;
  for (const scene::Item& item : picture.scene.items)
    if (item.piece == tests::pieceOf(w.work, id))
      for (const Vec3& p : scene::cornersOf(scene::boundsOf(*item.shape, item.worldFromPiece))) {
        low = std::min(low, picture.camera.project(p).at.x);
        high = std::max(high, picture.camera.project(p).at.x);
      }
  return {low, high};
}

TEST(StagedPicture, NearAPieceItFillsThePicture) {
  Work frame("panel-frame");
  PictureWords words;
  words.view = "front";
  const double whole = frame.stage(frame.options(words)).value().camera.pixelsPerMm;
  words.near = {"rail.top"};
  const auto near = frame.stage(frame.options(words));
  ASSERT_TRUE(near.ok());
  const auto [low, high] = columnsOf("rail.top", near.value(), frame);
  EXPECT_GT(low, 0);
  EXPECT_LT(high, 1920);
  EXPECT_GT(high - low, 1920 * 0.6) << "long as it is, it fills the breadth";
  EXPECT_GT(near.value().camera.pixelsPerMm, 1.5 * whole);
}

TEST(StagedPicture, NearAJointTheRestRunsOut) {
  Work frame("panel-frame");
  PictureWords words;
  words.view = "front";
  words.near = {"rail.top+stile.left"};
  const auto near = frame.stage(frame.options(words));
  ASSERT_TRUE(near.ok());
  const auto [low, high] = columnsOf("rail.top", near.value(), frame);
  EXPECT_GT(low, 0) << "the end with the tenon is in the picture";
  EXPECT_GT(high, 1920) << "the other end is not";
}

TEST(StagedPicture, NearWhatIsHiddenIsRefused) {
  Work frame("panel-frame");
  PictureWords words;
  words.near = {"rail.top"};
  words.hide = {"rail.top"};
  EXPECT_EQ(frame.faultOf(words), "--near: it is not in this picture; it is hidden or not there yet");
}

TEST(StagedPicture, AStepThatIsNotThereTellsHowManyThereAre) {
  Work corner("practice-corner");
  PictureWords words;
  words.step = "8";
  EXPECT_EQ(corner.faultOf(words), "--step: there is no step 8; 1 to 7");
}

TEST(StagedPicture, NothingToSeeIsTold) {
  Work corner("practice-corner");
  PictureWords all;
  all.hide = {"stile", "rail", "wedge"};
  EXPECT_EQ(corner.faultOf(all), "--hide: nothing is left to see; hide less");
  PictureWords cut = section("through rail");
  cut.hide = {"rail"};
  EXPECT_EQ(corner.faultOf(cut),
            "--section: \"through rail\" is not in this picture; what it goes through is "
            "hidden, put away or not there yet");
  Work frame("panel-frame");  // step 1 is the left stile alone
  PictureWords early;
  early.step = "1";
  early.joint = "rail.top+stile.right";
  EXPECT_EQ(frame.faultOf(early), "--joint: none of its pieces is there at that step; ask for a later step");
}

TEST(StagedPicture, SectionsThatLeaveNothingAreRefused) {
  // Above 300 and left of 100 is all of it: the stile ends at 45 on the right, the rail at 310 below.
  Work corner("practice-corner");
  PictureWords words;
  words.sections = {"plan=300", "height=100"};
  words.view = "-45,20";  // from above and the left
  EXPECT_EQ(corner.faultOf(words), "--section: together the sections take everything away");
}

TEST(StagedPicture, WithOneSectionTheViewIsSquareOnElseCorner) {
  Work corner("practice-corner");
  const auto towards = [&](const PictureWords& words) {
    const StagedPicture p = corner.stage(corner.options(words)).value();
    return inverse(p.camera.viewFromWorld).zAxis;
  };
  EXPECT_NEAR(length(towards(section("plan=100")) - Vec3{0, 0, 1}), 0, 1e-9);
  EXPECT_NEAR(length(towards(section("height=100")) - Vec3{1, 0, 0}), 0, 1e-9);
  EXPECT_NEAR(length(towards(section("across=0")) - Vec3{0, -1, 0}), 0, 1e-9);
  const Vec3 usual = scene::towardsLookerOf(scene::namedViews().back());
  EXPECT_NEAR(length(towards({}) - usual), 0, 1e-9);
  PictureWords two = section("plan=100");
  two.sections.push_back("across=0");
  EXPECT_NEAR(length(towards(two) - usual), 0, 1e-9);
}

TEST(StagedPicture, TheSideOfTheLookerIsTakenAway) {
  Work corner("practice-corner");
  PictureWords words = section("across=0");
  words.view = "back";
  EXPECT_EQ(corner.stage(corner.options(words)).value().look.sections[0].normal, (Vec3{0, 1, 0}));
  words.view = "front";
  EXPECT_EQ(corner.stage(corner.options(words)).value().look.sections[0].normal, (Vec3{0, -1, 0}));
}

TEST(StagedPicture, AllStepsOfAUnitAreSeenFromOnePlace) {
  for (const char* name : {"practice-corner", "hatch-grounds", "draw-bored-frame"}) {
    Work w(name);
    std::map<int, scene::Camera> cameras;
    for (size_t i = 0; i < w.order.steps.size(); ++i) {
      PictureWords words;
      words.step = std::to_string(i + 1);
      const PictureOptions options = w.options(words);
      const StagedPicture p = w.stage(options).value();
      const auto& camera = cameras.try_emplace(w.order.steps[i].unit, p.camera).first->second;
      EXPECT_EQ(p.camera.viewFromWorld, camera.viewFromWorld) << name << " step " << i + 1;
      EXPECT_EQ(p.camera.pixelsPerMm, camera.pixelsPerMm);
      EXPECT_EQ(p.camera.centre, camera.centre);
      for (const Vec3& point : scene::pointsLeft(p.scene, {})) {
        const Vec2 at = p.camera.project(point).at;
        EXPECT_TRUE(at.x > 0 && at.y > 0 && at.x < options.size.width && at.y < options.size.height)
            << name << " step " << i + 1 << ": " << at.x << " " << at.y;
      }
    }
  }
}

TEST(StagedPicture, WhatIsPlantedOnTheBackIsSeenFromThere) {
  Work leaf(tests::cutWholeSet(std::string(DRYFIT_ROOT) + "/assets/doorsets/oar-store.toml"));
  std::map<bool, int> seen;  // from behind, by how the moulding's id says
  for (size_t i = 0; i < leaf.order.steps.size(); ++i) {
    const Step& step = leaf.order.steps[i];
    if (step.moves.empty()) continue;
    const std::string& id = leaf.work.pieces[static_cast<size_t>(step.bodies[0])].id;
    PictureWords words;
    words.step = std::to_string(i + 1);
    const StagedPicture p = leaf.stage(leaf.options(words)).value();
    const bool behind = inverse(p.camera.viewFromWorld).zAxis.y > 0;
    // A frame of grounds is made on its own bench, and seen from the front there, whatever it is for.
    const bool bench = leaf.work.assembly.units[static_cast<size_t>(step.unit)].name == "grounds.back";
    EXPECT_EQ(behind, !bench && id.find(".back.") != std::string::npos) << id;
    ++seen[behind];
  }
  EXPECT_EQ(seen[true], 8 + 1 + 3 + 2);  // sides of two panels; grounds, architraves and skirtings
}

TEST(StagedPicture, ASpreadIsWholeInThePictureAndHasNoFloor) {
  Work frame("panel-frame");
  PictureWords words;
  words.spread = "100";
  const PictureOptions options = frame.options(words);
  const StagedPicture p = frame.stage(options).value();
  EXPECT_FALSE(p.scene.benchMm);
  EXPECT_TRUE(p.ask.apart);
  EXPECT_GT(scene::boundsOf(p.scene).size().z,
            scene::boundsOf(frame.staging.scene({})).size().z + 50);  // rails stand apart in height
  for (const Vec3& point : scene::pointsLeft(p.scene, {})) {
    const Vec2 at = p.camera.project(point).at;
    EXPECT_TRUE(at.x > 0 && at.y > 0 && at.x < options.size.width && at.y < options.size.height);
  }
}

}  // namespace
}  // namespace dryfit::cli
