// Labels, arrows and the layout as a whole on small scenes.
#include "scene/layout.h"

#include <gtest/gtest.h>

#include "picture_judge.h"
#include "scene/id_map.h"
#include "scene/labels.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

constexpr PictureSize kSize{1920, 1080};
constexpr Margins kMargins{250, 250, 90, 90};

const Lettering& lettering() {
  static const Lettering made = Lettering::load().value();
  return made;
}

PlacedLabels labelled(const Scene& scene, const Camera& camera) {
  static const std::vector<CutPlane> none;
  const IdMap map = idMapOf(scene, none, camera, kSize, 2);
  Board board(map, kSize, 1);
  return placeLabels(namedParts(scene, LengthUnit::Millimetre), {scene, none, map, camera, kSize, 1}, board,
                     lettering());
}

TEST(Labels, LeadersEndOnTheirPieces) {
  // The judge is a ray through every triangle, not the map that chose the place.
  for (const std::string name : {"panel-frame", "boat-chock", "hatch-grounds"}) {
    const CutWork work = tests::shippedWork(name);
    const Scene scene = Staging(work, nullptr).scene({});
    for (const std::string view : {"front", "side", "corner"}) {
      const Camera camera = tests::cameraOn(scene, view, kSize, kMargins);
      for (const PlacedLabel& label : labelled(scene, camera).labels) {
        const int hit = tests::itemAlongRay(scene, camera, label.dot);
        EXPECT_TRUE(std::count(label.parts.items.begin(), label.parts.items.end(), hit))
            << name << " " << view << " " << label.parts.name;
      }
    }
  }
}

TEST(Labels, DotsKeepOffEdges) {
  const CutWork work = tests::shippedWork("panel-frame");
  const Scene scene = Staging(work, nullptr).scene({});
  const Camera camera = tests::cameraOn(scene, "front", kSize, kMargins);
  for (const PlacedLabel& label : labelled(scene, camera).labels) {
    if (label.parts.name.rfind("wedges", 0) == 0) continue;  // narrower than the dot
    const int item = tests::itemAlongRay(scene, camera, label.dot);
    for (const Vec2 by : {Vec2{6, 0}, Vec2{-6, 0}, Vec2{0, 6}, Vec2{0, -6}})
      EXPECT_EQ(tests::itemAlongRay(scene, camera, label.dot + by), item) << label.parts.name;
  }
}

TEST(Labels, ALevelRunAndOneBend) {
  const CutWork work = tests::shippedWork("panel-frame");
  const Scene scene = Staging(work, nullptr).scene({});
  for (const PlacedLabel& l : labelled(scene, tests::cameraOn(scene, "corner", kSize, kMargins)).labels) {
    EXPECT_EQ(l.run.y, l.knee.y);
    EXPECT_NEAR(std::abs(l.run.x - l.knee.x), 14, 1e-9);
    const bool toRight = l.run.x > l.knee.x;
    EXPECT_EQ(toRight, l.box[0].x > l.run.x) << l.parts.name;
    // it never turns back on itself
    EXPECT_GE((l.run.x - l.knee.x) * (l.knee.x - l.dot.x), -1e-6) << l.parts.name;
  }
}

TEST(Labels, AtMostTwentySixLargestFirst) {
  Scene scene;
  for (int i = 0; i < 30; ++i)
    scene.items.push_back(tests::boxItem("slat no" + std::string(1, static_cast<char>('a' + i)) + " x",
                                         {40, 10, i < 4 ? 20.0 : 60.0},
                                         {(i % 6) * 120.0, 0, (i / 6) * 120.0}));
  const PlacedLabels placed = labelled(scene, tests::cameraOn(scene, "front", kSize, kMargins));
  EXPECT_LE(placed.labels.size(), 26u);
  EXPECT_EQ(placed.labels.size() + placed.leftOut.size(), 30u);
  EXPECT_EQ(placed.namePx, 16);  // over 16 labels
  for (const std::string name : {"slat noa x", "slat nob x", "slat noc x", "slat nod x"})
    EXPECT_TRUE(std::count(placed.leftOut.begin(), placed.leftOut.end(), name)) << name;
}

TEST(Labels, SliversAreNotPointedAt) {
  Scene scene;
  scene.items = {tests::boxItem("front board", {400, 10, 300}, {}),
                 tests::boxItem("hidden board", {401, 10, 301}, {0, 40, 0})};
  const PlacedLabels placed = labelled(scene, tests::cameraOn(scene, "front", kSize, kMargins));
  ASSERT_EQ(placed.labels.size(), 1u);
  EXPECT_EQ(placed.labels[0].parts.name, "front board");
  EXPECT_TRUE(placed.leftOut.empty());
}

Scene movingRail() {
  Scene scene;
  scene.items = {tests::boxItem("rail", {400, 40, 90}, {})};
  scene.arrows = {{{600, 0, 0}, {260, 0, 0}, "going in"}};
  return scene;
}
int marksOf(const PictureLayout& layout, auto is) {
  return static_cast<int>(std::count_if(layout.overlay.marks.begin(), layout.overlay.marks.end(), is));
}

TEST(Arrows, PointTheWayWithWords) {
  const Scene scene = movingRail();
  const Camera camera = tests::cameraOn(scene, "front", kSize, {600, 600, 200, 200});
  const PictureLayout layout = layOut(scene, {}, camera, kSize, {}, {}, lettering());
  ASSERT_EQ(layout.placed.size(), 1u);
  EXPECT_EQ(layout.placed[0].kind, PlacedText::Kind::Words);
  const Colour moving = colourOf(Mark::Moving, Ground::Paper);
  for (const OverlayMark& mark : layout.overlay.marks) {
    if (const Fill* fill = std::get_if<Fill>(&mark)) {
      EXPECT_EQ(fill->colour, moving);
      EXPECT_NEAR(length(fill->points[0] - camera.project({260, 0, 0}).at), 0, 1e-6);  // the point
      EXPECT_GT(fill->points[1].x, fill->points[0].x);
    }
    if (const Text* text = std::get_if<Text>(&mark)) {
      EXPECT_EQ(text->colour, moving);
      EXPECT_EQ(text->face, Face::TextStrong);
      EXPECT_GE(text->sizePx, 19);  // the colour is too pale for smaller words on paper
      EXPECT_GT(text->haloPx, 0);
    }
  }
  EXPECT_EQ(marksOf(layout, [](const OverlayMark& m) { return std::holds_alternative<Fill>(m); }), 1);
  EXPECT_EQ(tests::lengthInside(camera.project({600, 0, 0}).at, camera.project({260, 0, 0}).at,
                                layout.placed[0].box),
            0);
}

TEST(Arrows, SeenEndOnAreRings) {
  Scene scene = movingRail();
  scene.arrows = {{{0, -300, 0}, {0, -30, 0}, "going in"}, {{0, -300, 60}, {0, -30, 60}, "going in"}};
  const Camera camera = tests::cameraOn(scene, "front", kSize, kMargins);
  const PictureLayout layout = layOut(scene, {}, camera, kSize, {}, {}, lettering());
  const auto ring = [](const OverlayMark& m) {
    const Stroke* s = std::get_if<Stroke>(&m);
    return s && s->closed;
  };
  EXPECT_EQ(marksOf(layout, ring), 2);
  EXPECT_EQ(layout.placed.size(), 1u);  // the same words are said once
  EXPECT_EQ(marksOf(layout, [](const OverlayMark& m) { return std::holds_alternative<Dot>(m); }),
            0);  // going away
  const Camera behind = tests::cameraOn(scene, "back", kSize, kMargins);
  const PictureLayout coming = layOut(scene, {}, behind, kSize, {}, {}, lettering());
  EXPECT_EQ(marksOf(coming, [](const OverlayMark& m) { return std::holds_alternative<Dot>(m); }), 2);
}

TEST(Layout, NothingAskedIsNothingDrawn) {
  Scene scene = movingRail();
  scene.arrows.clear();
  const PictureLayout layout =
      layOut(scene, {}, tests::cameraOn(scene, "front", kSize, kMargins), kSize, {}, {}, lettering());
  EXPECT_TRUE(layout.overlay.marks.empty());
  EXPECT_TRUE(layout.placed.empty());
}

TEST(Layout, WhatFindsNoRoomIsListed) {
  const CutWork work = tests::cutFile(DRYFIT_ROOT "/assets/doorsets/boat-hall.toml");
  const Scene scene = Staging(work, nullptr).scene({});
  const PictureSize small{320, 200};
  LayoutAsk ask;
  ask.labels = ask.sizes = true;
  const PictureLayout layout = layOut(scene, {}, tests::cameraOn(scene, "front", small, {20, 20, 10, 10}),
                                      small, work.dimensions, ask, lettering());
  EXPECT_FALSE(layout.leftOut.empty());
  for (const std::string& text : layout.leftOut)
    EXPECT_TRUE(text.rfind("label: ", 0) == 0 || text.rfind("size: ", 0) == 0) << text;
}

TEST(Layout, InInchesOnAsking) {
  const CutWork work = tests::cutFile(DRYFIT_ROOT "/assets/doorsets/boat-hall.toml");
  const Scene scene = Staging(work, nullptr).scene({});
  LayoutAsk ask;
  ask.sizes = true;
  ask.unit = LengthUnit::Inch;
  const PictureLayout layout =
      layOut(scene, {}, tests::cameraOn(scene, "front", kSize, marginsFor(ask, kSize)), kSize,
             work.dimensions, ask, lettering());
  std::vector<std::string> figures;
  for (const PlacedText& p : layout.placed) figures.push_back(p.text);
  // the file's own: a leaf 38 wide, 9 1/2 bottom rail; 100 with horns
  for (const std::string figure : {"38", "9 1/2", "100"})
    EXPECT_TRUE(std::count(figures.begin(), figures.end(), figure)) << figure;
}

TEST(Layout, TwiceIsTheSame) {
  const CutWork work = tests::shippedWork("panel-frame");
  const Scene scene = Staging(work, nullptr).scene({});
  LayoutAsk ask;
  ask.labels = ask.sizes = true;
  const Camera camera = tests::cameraOn(scene, "corner", kSize, marginsFor(ask, kSize));
  const PictureLayout a = layOut(scene, {}, camera, kSize, work.dimensions, ask, lettering());
  const PictureLayout b = layOut(scene, {}, camera, kSize, work.dimensions, ask, Lettering::load().value());
  ASSERT_EQ(a.placed.size(), b.placed.size());
  for (size_t i = 0; i < a.placed.size(); ++i) {
    EXPECT_EQ(a.placed[i].text, b.placed[i].text);
    EXPECT_EQ(a.placed[i].box, b.placed[i].box);
  }
}

}  // namespace
}  // namespace dryfit::scene
