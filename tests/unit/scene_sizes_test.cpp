// Sizes found on shapes, chosen and drawn in rows. The custom is ISO 129-1's, from memory: extension lines
// with a gap at the feature and past the line, slim filled arrows from within or, where there is no room,
// from outside; figures above the line, read from the foot or the right; equal sizes said once.
#include "scene/sizes.h"

#include <gtest/gtest.h>

#include <numbers>
#include <set>

#include "picture_judge.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

constexpr PictureSize kSize{1920, 1080};

const Lettering& lettering() {
  static const Lettering made = Lettering::load().value();
  return made;
}

/// A scene looked at, with its map and board.
struct Looked {
  Scene scene;
  std::vector<CutPlane> sections;
  Camera camera;
  IdMap map;
  Sight sight;
  Board board;

  Looked(Scene what, const std::string& view, std::vector<CutPlane> cuts = {})
      : scene(std::move(what)),
        sections(std::move(cuts)),
        camera(tests::cameraOn(scene, view, kSize, {160, 160, 110, 110})),
        map(idMapOf(scene, sections, camera, kSize, 2)),
        sight{scene, sections, map, camera, kSize, 1},
        board(map, kSize, 1) {}
};

Scene sceneOf(const CutWork& work, StagingRequest request = {}) {
  return Staging(work, nullptr).scene(request);
}

std::vector<std::string> namesOf(const std::vector<ChosenRow>& rows) {
  std::vector<std::string> names;
  for (const ChosenRow& row : rows) names.insert(names.end(), row.names.begin(), row.names.end());
  return names;
}
bool has(const std::vector<std::string>& list, const std::string& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

TEST(Sizes, JointsListsAreMeasuredOnTheShapes) {
  // What a joint states is another route to the same size: both must come to one, to rounding.
  std::vector<std::string> files = tests::shippedWorks();
  for (const std::string& f : tests::shippedDoorSets()) files.push_back(f);
  for (const std::string& file : files) {
    const CutWork work = tests::cutFile(file);
    const Scene scene = sceneOf(work);
    std::vector<FoundSize> found = foundSizes(scene, {}, work.dimensions, {});
    std::erase_if(
        found, [](const FoundSize& f) { return f.what == "over all" || f.joint.empty() || f.kind.empty(); });
    for (const Dimension& d : work.dimensions) {
      const auto one = std::find_if(found.begin(), found.end(), [&](const FoundSize& f) {
        return f.joint == d.joint && f.what == d.what && std::abs(f.mm - d.statedMm) < 1e-6;
      });
      EXPECT_NE(one, found.end()) << file << ": " << d.joint << ", " << d.what << " " << d.statedMm;
    }
  }
}

TEST(Sizes, OverallAndOwnAreThoseOfTheBoxes) {
  Scene scene;
  scene.items = {tests::boxItem("rail", {400, 90, 44}, {0, 0, 0}),
                 tests::boxItem("stile", {90, 44, 700}, {245, 0, 0})};
  std::multiset<double> found;
  for (const FoundSize& f : foundSizes(scene, {}, {}, {})) found.insert(std::round(f.mm * 1e6) / 1e6);
  const std::multiset<double> expected = {490, 90, 700, 400, 90, 44, 90, 44, 700};
  EXPECT_EQ(found, expected);
}

TEST(Sizes, WhatASectionTookIsNotMeasured) {
  Scene scene;
  scene.items = {tests::boxItem("rail", {400, 90, 44}, {})};
  const std::vector<CutPlane> half = {{{0, 0, 1}, 0, "plan at 0"}};
  for (const FoundSize& f : foundSizes(scene, half, {}, {})) {
    EXPECT_NE(f.mm, 44) << f.what;  // its upper face is gone
    for (const FlatFaces& face : f.faces)
      for (const auto& part : face.parts)
        for (const Vec3& p : part.outline) EXPECT_LE(p.z, 1e-9);
  }
}

TEST(Sizes, ForeshortenedAndHiddenOnesAreNotDrawn) {
  const CutWork work = tests::shippedWork("panel-frame");
  const SizeAsk ask{};
  const Looked front(sceneOf(work), "front");
  const auto names = namesOf(chooseSizes(foundSizes(front.scene, {}, work.dimensions, {}), ask, front.sight));
  EXPECT_TRUE(has(names, "over all 580") || has(names, "over all 560")) << names.size();
  EXPECT_TRUE(has(names, "over all 820"));
  EXPECT_TRUE(has(names, "width 180, bottom rail"));
  for (const std::string& name : names) {
    EXPECT_EQ(name.find("thickness"), std::string::npos) << name;  // along the view
    EXPECT_EQ(name.find("tenon"), std::string::npos) << name;      // in the mortise
  }
  // From the side the tenons' ends are seen on the stile's edge.
  const Looked side(sceneOf(work), "side");
  const auto seen = namesOf(chooseSizes(foundSizes(side.scene, {}, work.dimensions, {}), ask, side.sight));
  EXPECT_TRUE(has(seen, "tenon width 45, top rail"));
}

TEST(Sizes, EachIsSaidOnce) {
  for (const std::string& file : tests::shippedDoorSets()) {
    const CutWork work = tests::cutFile(file);
    const Looked front(sceneOf(work), "front");
    const auto names =
        namesOf(chooseSizes(foundSizes(front.scene, {}, work.dimensions, {}), {}, front.sight));
    std::set<std::string> once(names.begin(), names.end());
    EXPECT_EQ(once.size(), names.size()) << file;
  }
}

/// A joint alone with its stile seen through.
struct JointAlone {
  CutWork work = tests::shippedWork("panel-frame");
  std::string id = "rail.bottom+stile.left";
  Scene scene() {
    StagingRequest request;
    request.joint = jointCalled(work.assembly, id);
    request.seeThrough = {tests::pieceOf(work, "stile.left")};
    return sceneOf(work, request);
  }
};

TEST(Sizes, OneJointHasItsChain) {
  JointAlone joint;
  const Looked front(joint.scene(), "front");
  SizeAsk ask;
  ask.search.joint = joint.id;
  const auto rows =
      chooseSizes(foundSizes(front.scene, {}, joint.work.dimensions, ask.search), ask, front.sight);
  const auto chain =
      std::find_if(rows.begin(), rows.end(), [](const ChosenRow& r) { return r.sizes.size() > 1; });
  ASSERT_NE(chain, rows.end());
  std::vector<std::string> figures;
  for (const DrawableSize& s : chain->sizes) figures.push_back(s.figures);
  // From the foot: haunch 40, tenon 45, haunch 38, tenon 45, as the rule sets out a rail 180 wide.
  EXPECT_EQ(figures, (std::vector<std::string>{"40", "45", "38", "45"}));
}

TEST(Sizes, LinesAreAsLongAsTheSizes) {
  const CutWork work = tests::shippedWork("panel-frame");
  for (const std::string view : {"front", "side", "plan"}) {
    Looked looked(sceneOf(work), view);
    const auto chosen = chooseSizes(foundSizes(looked.scene, {}, work.dimensions, {}), {}, looked.sight);
    const PlacedSizes placed = placeSizes(chosen, looked.sight, looked.board, lettering());
    for (const RowLayout& row : placed.rows) {
      if (row.figures.size() != 1) continue;
      ASSERT_EQ(row.arrows.size(), 2u);
      const double px = length(row.arrows[0][0] - row.arrows[1][0]);
      // what is written has one place: half a tenth
      EXPECT_NEAR(px / looked.camera.pixelsPerMm, std::stod(row.figures[0].text), 0.05 + 1e-6) << view;
    }
    EXPECT_TRUE(placed.leftOut.empty()) << view;
  }
}

TEST(Sizes, DrawnByTheCustom) {
  const CutWork work = tests::shippedWork("panel-frame");
  Looked looked(sceneOf(work), "front");
  const auto chosen = chooseSizes(foundSizes(looked.scene, {}, work.dimensions, {}), {}, looked.sight);
  for (const RowLayout& row : placeSizes(chosen, looked.sight, looked.board, lettering()).rows) {
    for (const auto& arrow : row.arrows) {
      EXPECT_NEAR(length((arrow[1] + arrow[2]) * 0.5 - arrow[0]), 15, 1e-6);
      EXPECT_NEAR(length(arrow[1] - arrow[2]), 5.4, 1e-6);
    }
    const Segment& line = row.lines.front();
    for (const Figures& f : row.figures) {
      EXPECT_GT(f.angleRad, -std::numbers::pi / 2 + 0.05);  // from the foot or the right, never from the left
      EXPECT_LE(f.angleRad, std::numbers::pi / 2 + 0.1);
      // above the line as it is read: all of the box lies on one side of it
      const Vec2 way{std::cos(f.angleRad), -std::sin(f.angleRad)};
      for (const Vec2 p : f.box) EXPECT_LT(cross(way, p - line.from), 0);
    }
    for (const Segment& e : row.extensions) {
      // past the line by 7
      const Vec2 along = line.to - line.from;
      EXPECT_NEAR(std::abs(cross(along, e.to - line.from)) / length(along), 7, 1e-6);
    }
  }
}

TEST(Sizes, ShortOnesHaveTheirArrowsOutside) {
  Scene scene;
  scene.items = {tests::boxItem("rail", {400, 44, 9}, {})};  // 9 mm is some 36 px
  Looked looked(scene, "front");
  const auto chosen = chooseSizes(foundSizes(scene, {}, {}, {}), {}, looked.sight);
  const PlacedSizes placed = placeSizes(chosen, looked.sight, looked.board, lettering());
  const auto low = std::find_if(placed.rows.begin(), placed.rows.end(),
                                [](const RowLayout& r) { return r.figures[0].text == "9"; });
  ASSERT_NE(low, placed.rows.end());
  const double px = 9 * looked.camera.pixelsPerMm;
  ASSERT_LT(px, 38);
  const Vec2 a = low->arrows[0][0], b = low->arrows[1][0];
  EXPECT_NEAR(length(a - b), px, 1e-6);
  EXPECT_GT(length(low->arrows[0][1] - b), px);  // the tails lie away from each other
  EXPECT_GT(length(low->arrows[1][1] - a), px);
  EXPECT_GT(length(low->lines[0].to - low->lines[0].from), px + 30);
}

TEST(Sizes, RowsOfOneSideKeepTheirDistance) {
  const CutWork work = tests::cutFile(DRYFIT_ROOT "/assets/doorsets/boat-hall.toml");
  for (const std::string view : {"front", "side"}) {
    Looked looked(sceneOf(work), view);
    const auto chosen = chooseSizes(foundSizes(looked.scene, {}, work.dimensions, {}), {}, looked.sight);
    const PlacedSizes placed = placeSizes(chosen, looked.sight, looked.board, lettering());
    std::vector<Segment> lines;
    for (const RowLayout& row : placed.rows) lines.push_back({row.lines.front().from, row.lines.back().to});
    for (size_t i = 0; i < lines.size(); ++i)
      for (size_t k = 0; k < i; ++k) {
        const Vec2 way = (lines[i].to - lines[i].from) * (1 / length(lines[i].to - lines[i].from));
        if (std::abs(cross(way, lines[k].to - lines[k].from)) > 1e-3) continue;
        const double apart = std::abs(cross(way, lines[k].from - lines[i].from));
        const double s = dot(way, lines[k].from - lines[i].from), t = dot(way, lines[k].to - lines[i].from);
        const bool beside = std::max(s, t) > 0 && std::min(s, t) < length(lines[i].to - lines[i].from);
        if (beside) {
          EXPECT_GE(apart, 27.5 - 1e-6) << view;
        }
      }
  }
}

}  // namespace
}  // namespace dryfit::scene
