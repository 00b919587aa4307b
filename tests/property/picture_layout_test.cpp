// Names and sizes over every shipped work and leaf, in many views and three sizes of picture: no two texts
// cross, none leaves the picture, no line runs through one, each is as large as its letters; nine in ten find
// room.
#include <gtest/gtest.h>

#include <map>

#include "order/order.h"
#include "order/spread.h"
#include "picture_judge.h"
#include "support/works.h"

namespace dryfit {
namespace {

using scene::PictureLayout;
using scene::PictureSize;
using scene::PlacedText;

const scene::Lettering& lettering() {
  static const scene::Lettering made = scene::Lettering::load().value();
  return made;
}

/// A way to look at a work: a named view; cut in the middle, or stood apart.
struct Way {
  std::string view;
  bool cut = false, apart = false;
};
const std::vector<Way> kWays = {{"front"},
                                {"back"},
                                {"side"},
                                {"plan"},
                                {"corner"},
                                {"plan", true},
                                {"corner", false, true},
                                {"front", false, true}};

std::string nameOf(const Way& way) {
  return way.view + (way.cut ? ", cut" : "") + (way.apart ? ", apart" : "");
}

const std::vector<CutWork>& works() {
  static const std::vector<CutWork> all = [] {
    std::vector<CutWork> made;
    for (const std::string& f : tests::shippedWorks()) made.push_back(tests::cutFile(f));
    for (const std::string& f : tests::shippedDoorSets()) made.push_back(tests::cutFile(f));
    return made;
  }();
  return all;
}

PictureLayout laidOut(const CutWork& work, const Way& way, PictureSize size) {
  static std::map<const CutWork*, std::vector<Vec3>> spread;
  scene::StagingRequest request;
  scene::LayoutAsk ask;
  ask.labels = ask.sizes = true;
  if (way.apart) {
    auto [place, isNew] = spread.try_emplace(&work);
    if (isNew) place->second = spreadOf(work.assembly, tests::lastStates(work.assembly)).offsetsAt(1);
    request.offsets = place->second;
    ask.apart = true;
  }
  const scene::Scene scene = scene::Staging(work, nullptr).scene(request);
  scene::Look look;
  if (way.cut) look.sections = {{{0, 0, 1}, boundsOf(scene).centre().z + 1, "plan"}};
  const scene::Camera camera = tests::cameraOn(scene, way.view, size, marginsFor(ask, size));
  return layOut(scene, look, camera, size, work.dimensions, ask, lettering());
}

void expectApartAndInside(const PictureLayout& layout, PictureSize size, const std::string& what) {
  for (size_t i = 0; i < layout.placed.size(); ++i) {
    for (const Vec2 p : layout.placed[i].box) {
      EXPECT_GE(std::min(p.x, p.y), 0) << what << ": " << layout.placed[i].text;
      EXPECT_LE(p.x, size.width) << what << ": " << layout.placed[i].text;
      EXPECT_LE(p.y, size.height) << what << ": " << layout.placed[i].text;
    }
    for (size_t k = 0; k < i; ++k)
      EXPECT_EQ(tests::sharedArea(layout.placed[i].box, layout.placed[k].box), 0)
          << what << ": " << layout.placed[i].text << " and " << layout.placed[k].text;
  }
}

/// No leader, dimension or extension line goes through a text.
void expectNoLineThroughText(const PictureLayout& layout, const std::string& what) {
  for (const scene::OverlayMark& mark : layout.overlay.marks) {
    const auto* stroke = std::get_if<scene::Stroke>(&mark);
    if (!stroke) continue;
    for (size_t i = 0; i + 1 < stroke->points.size(); ++i)
      for (const PlacedText& text : layout.placed)
        EXPECT_LT(tests::lengthInside(stroke->points[i], stroke->points[i + 1], text.box), 1e-6)
            << what << ": a line through " << text.text;
  }
}

/// Every text drawn lies in a box that was told, and a size's box is just as large as its figures.
void expectTextsAreTheirBoxes(const PictureLayout& layout, const std::string& what) {
  size_t sizes = 0, lines = 0;
  for (const scene::OverlayMark& mark : layout.overlay.marks) {
    const auto* text = std::get_if<scene::Text>(&mark);
    if (!text) continue;
    const scene::TextExtent e = lettering().measure(text->text, text->face, text->sizePx);
    const Vec2 way{std::cos(text->angleRad), -std::sin(text->angleRad)}, down{-way.y, way.x};
    const Vec2 corners[] = {text->at - down * e.ascent, text->at + way * e.width + down * e.descent};
    const auto home = std::find_if(layout.placed.begin(), layout.placed.end(), [&](const PlacedText& p) {
      return tests::isIn(corners[0], p.box, 1e-6) && tests::isIn(corners[1], p.box, 1e-6);
    });
    ASSERT_NE(home, layout.placed.end()) << what << ": " << text->text;
    ++lines;
    if (home->kind != PlacedText::Kind::Size) continue;
    ++sizes;
    EXPECT_EQ(text->text, home->text);
    EXPECT_NEAR(length(home->box[1] - home->box[0]), e.width, 1e-6) << what << ": " << text->text;
    EXPECT_NEAR(length(home->box[3] - home->box[0]), e.ascent + e.descent, 1e-6) << what;
    EXPECT_GE(text->sizePx, 15);  // no body text smaller
  }
  EXPECT_GE(lines, layout.placed.size()) << what;
  EXPECT_EQ(sizes, static_cast<size_t>(
                       std::count_if(layout.placed.begin(), layout.placed.end(),
                                     [](const PlacedText& p) { return p.kind == PlacedText::Kind::Size; })));
}

struct Count {
  int placed = 0, asked = 0;
};

/// How many of labels or of sizes found room.
Count countOf(const PictureLayout& layout, PlacedText::Kind kind) {
  Count c;
  for (const PlacedText& p : layout.placed) c.placed += p.kind == kind;
  c.asked = c.placed;
  const std::string head = kind == PlacedText::Kind::Label ? "label: " : "size: ";
  for (const std::string& text : layout.leftOut) c.asked += text.rfind(head, 0) == 0;
  return c;
}

/// `least`: part of all that must find room, over all works, in each way of looking.
void expectAll(PictureSize size, double least) {
  for (const Way& way : kWays) {
    Count labels, sizes;
    for (const CutWork& work : works()) {
      const std::string what = work.title + ", " + nameOf(way);
      const PictureLayout layout = laidOut(work, way, size);
      expectApartAndInside(layout, size, what);
      expectNoLineThroughText(layout, what);
      expectTextsAreTheirBoxes(layout, what);
      for (auto [sum, kind] :
           {std::pair{&labels, PlacedText::Kind::Label}, {&sizes, PlacedText::Kind::Size}}) {
        const Count c = countOf(layout, kind);
        EXPECT_GE(c.placed, std::min(c.asked, 1)) << what;
        sum->placed += c.placed;
        sum->asked += c.asked;
      }
    }
    EXPECT_GE(labels.placed, least * labels.asked) << nameOf(way) << ": labels of " << labels.asked;
    EXPECT_GE(sizes.placed, least * sizes.asked) << nameOf(way) << ": sizes of " << sizes.asked;
    // That much there is to say of eleven works, so that room is not found by asking little.
    EXPECT_GE(labels.asked, 30) << nameOf(way);
    EXPECT_GE(sizes.asked, 30) << nameOf(way);
  }
}

TEST(PictureLayout, Of1920By1080) {
  expectAll({1920, 1080}, 0.9);
}
TEST(PictureLayout, Of1280By720) {
  expectAll({1280, 720}, 0.9);
}
TEST(PictureLayout, Of3840By2160) {
  expectAll({3840, 2160}, 0.9);
}

// Every step of a small work and of a leaf, half way: pieces on their way with arrows and words, others still
// to come. The arrow's shaft is a line like others.
TEST(PictureLayout, Steps) {
  const PictureSize size{1280, 720};
  for (const CutWork& work :
       {tests::shippedWork("panel-frame"), tests::cutFile(DRYFIT_ROOT "/assets/doorsets/oar-store.toml")}) {
    const OrderOfWork order = std::get<OrderOfWork>(plan(work.assembly));
    scene::Staging staging(work, &order);
    int arrows = 0, words = 0;
    for (int step = 0; step < static_cast<int>(order.steps.size()); ++step) {
      scene::StagingRequest request;
      request.step = step;
      request.moving = 0.5;
      const scene::Scene scene = staging.scene(request);
      if (scene.items.empty()) continue;
      scene::LayoutAsk ask;
      ask.labels = ask.sizes = ask.apart = true;
      const std::string what = work.title + ", step " + std::to_string(step);
      const PictureLayout layout =
          layOut(scene, {}, tests::cameraOn(scene, "corner", size, marginsFor(ask, size)), size,
                 work.dimensions, ask, lettering());
      expectApartAndInside(layout, size, what);
      expectNoLineThroughText(layout, what);
      expectTextsAreTheirBoxes(layout, what);
      arrows += !scene.arrows.empty();
      words += std::any_of(layout.placed.begin(), layout.placed.end(),
                           [](const PlacedText& p) { return p.kind == PlacedText::Kind::Words; });
    }
    EXPECT_GE(arrows, 5) << work.title;
    EXPECT_EQ(words, arrows) << work.title;  // words find room at every step
  }
}

// One joint alone, its mortised member seen through: the whole of its list that can be seen is drawn.
TEST(PictureLayout, JointsAlone) {
  const CutWork work = tests::shippedWork("panel-frame");
  for (const auto& joint : work.assembly.joints)
    for (const std::string view : {"front", "corner"}) {
      scene::StagingRequest request;
      request.joint = scene::jointCalled(work.assembly, joint.id);
      request.seeThrough = {joint.bodies.at(1)};
      const scene::Scene scene = scene::Staging(work, nullptr).scene(request);
      scene::LayoutAsk ask;
      ask.labels = ask.sizes = true;
      ask.joint = joint.id;
      const PictureSize size{1920, 1080};
      const PictureLayout layout =
          layOut(scene, {}, tests::cameraOn(scene, view, size, marginsFor(ask, size)), size, work.dimensions,
                 ask, lettering());
      expectApartAndInside(layout, size, joint.id);
      expectNoLineThroughText(layout, joint.id);
      expectTextsAreTheirBoxes(layout, joint.id);
      EXPECT_GE(countOf(layout, PlacedText::Kind::Size).placed, 2) << joint.id << " " << view;
    }
}

}  // namespace
}  // namespace dryfit
