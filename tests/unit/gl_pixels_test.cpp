// What pictures show, read from their pixels: grain, see-through, sections, marks, substances.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/pictures.h"

namespace dryfit::gl {
namespace {

using namespace scene;

constexpr PictureSize kSize{400, 300};

/// No lines, so that every pixel is a surface's.
LineWidths noLines() {
  return {0, 0, 0, 0, 0, 0, 0};
}

/// One flat tone.
Item plainBox(const std::string& id, Vec3 size, const Placement& at, Colour colour) {
  Item item = pictures::boxItem(id, size, at);
  item.surface.substance = Substance::Metal;
  item.surface.early = item.surface.late = colour;
  return item;
}

double brightness(const std::uint8_t* p) {
  return 0.2126 * p[0] + 0.7152 * p[1] + 0.0722 * p[2];
}

/// The way along which a patch changes least: radians from the picture's x axis, 0 to pi. Source: the
/// structure tensor's smaller eigenvector (Foerstner and Guelch, 1987).
double grainAngle(const Image& image, int left, int top, int right, int bottom) {
  double xx = 0, xy = 0, yy = 0;
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x) {
      const double dx = brightness(image.at(x + 1, y)) - brightness(image.at(x - 1, y));
      const double dy = brightness(image.at(x, y + 1)) - brightness(image.at(x, y - 1));
      xx += dx * dx;
      xy += dx * dy;
      yy += dy * dy;
    }
  const double most = 0.5 * std::atan2(2 * xy, xx - yy);  // where it changes most
  return std::fmod(most + 1.5 * std::numbers::pi, std::numbers::pi);
}
double apart(double a, double b) {
  const double d = std::fmod(std::abs(a - b), std::numbers::pi);
  return std::min(d, std::numbers::pi - d);
}

class GlPixels : public testing::Test {
 protected:
  void SetUp() override {
    auto context = Context::withoutDisplay();
    ASSERT_TRUE(context.ok()) << toText(context.faults().front());
    context_.emplace(std::move(context).value());
  }
  Image draw(const Scene& scene, Look look, const std::string& view = "front") {
    look.widths = noLines();
    return pictures::drawn(*context_, scene, look, pictures::cameraFor(scene, kSize, view), kSize);
  }
  std::optional<Context> context_;
};

TEST_F(GlPixels, GrainRunsAlongThePiece) {
  // Seen from the front with the grain turned in the picture's plane; both ways of sawing.
  for (const bool quarter : {false, true})
    for (const double turnDeg : {0.0, 30.0, 90.0, 135.0}) {
      const double turn = turnDeg * std::numbers::pi / 180;
      // The face that shows (+z) towards the front, then turned about the way one looks.
      const Placement upright{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {}};
      Scene scene;
      scene.items.push_back(
          pictures::boxItem("board", {400, 200, 30}, rotation({0, -1, 0}, {}, turn) * upright));
      Grain& grain = scene.items[0].surface.grain;
      if (quarter) grain.pithYMm = -160, grain.pithZMm = 5;
      Look look;
      look.passes = 4;
      const Image image = draw(scene, look);
      const double found = grainAngle(image, 160, 110, 240, 190);
      EXPECT_LT(apart(found, turn == 0 ? 0 : std::numbers::pi - turn),
                0.14)  // 8 degrees: plain-sawn figure wanders
          << turnDeg << " degrees, quarter-sawn " << quarter;
    }
}

TEST_F(GlPixels, FigureRunsOnRoundACorner) {
  // The last column of the face and the first of the edge beside it have the same rings: brightness goes
  // along both together. Looking at the arris between face and edge from 45 degrees.
  Scene scene;
  scene.items.push_back(pictures::boxItem("board", {300, 80, 80}));
  scene.items[0].surface.grain.tilt =
      0.5;  // rings cross the arris, each much wider than the few pixels beside it
  scene.items[0].surface.grain.ringMm = 40;
  scene.items[0].surface.grain.pithYMm = -300;
  Look look;
  look.passes = 1;
  look.widths = noLines();
  std::vector<Vec3> points = scene.items[0].shape->points;
  const Camera camera = framed({0, 45, true, 20, ""}, points, kSize, {20, 20, 20, 20});
  const Image image = pictures::drawn(*context_, scene, look, camera, kSize);
  const Vec2 arris = camera.project({0, -40, 40}).at;
  double sumA = 0, sumB = 0, aa = 0, bb = 0, ab = 0;
  int count = 0;
  for (int x = 60; x < 340; ++x, ++count) {
    const double a = brightness(image.at(x, static_cast<int>(arris.y) - 2)),
                 b = brightness(image.at(x, static_cast<int>(arris.y) + 2));
    sumA += a;
    sumB += b;
    aa += a * a;
    bb += b * b;
    ab += a * b;
  }
  const double n = count, covariance = ab / n - sumA / n * (sumB / n);
  const double correlation =
      covariance / std::sqrt((aa / n - sumA / n * (sumA / n)) * (bb / n - sumB / n * (sumB / n)));
  EXPECT_GT(correlation, 0.8);
}

TEST_F(GlPixels, EndGrainIsDarker) {
  Scene scene;
  scene.items.push_back(pictures::boxItem("board", {120, 120, 120}));
  Look look;
  look.passes = 2;
  const auto mean = [&](const std::string& view) {
    const Image image = draw(scene, look, view);
    double sum = 0;
    for (int y = 100; y < 200; ++y)
      for (int x = 150; x < 250; ++x) sum += brightness(image.at(x, y));
    return sum / 10000;
  };
  EXPECT_LT(mean("side"), 0.9 * mean("front"));  // the end looks along X
}

TEST_F(GlPixels, SeeThroughShowsWhatIsBehind) {
  const Colour red = rgb(0xC02020), blue = rgb(0x2020C0);
  Scene scene;
  scene.items.push_back(plainBox("behind", {40, 40, 40}, translation({0, 100, 0}), red));
  scene.items.push_back(plainBox("before", {120, 40, 120}, translation({0, 0, 0}), blue));
  Look look;
  look.passes = 2;
  const auto middle = [&] {
    const Image image = draw(scene, look);
    const std::uint8_t* p = image.at(kSize.width / 2, kSize.height / 2);
    return Vec3{static_cast<double>(p[0]), static_cast<double>(p[1]), static_cast<double>(p[2])};
  };
  const Vec3 hidden = middle();
  scene.items[1].shown = Shown::SeeThrough;
  const Vec3 through = middle();
  scene.items.pop_back();
  const Vec3 alone = middle();
  EXPECT_GT(hidden.z, hidden.x);    // blue before
  EXPECT_GT(through.x, through.z);  // red shows
  EXPECT_LT(length(through - alone), 0.45 * length(hidden - alone));
  EXPECT_GT(length(through - alone), 4);  // and yet the piece before is there
}

TEST_F(GlPixels, OnlyTheNearestLayerOfASeeThroughPieceIsDrawn) {
  // Behind the box's front is its back: with both drawn the ground would be dimmed twice.
  Scene scene;
  scene.items.push_back(plainBox("box", {120, 40, 120}, {}, rgb(0x000000)));
  scene.items[0].shown = Shown::SeeThrough;
  Look look;
  look.passes = 1;
  const Image image = draw(scene, look);
  const double ground = brightness(image.at(3, 3)), seen = brightness(image.at(200, 150));
  EXPECT_NEAR(seen / ground, 1 - 0.22, 0.02);
}

TEST_F(GlPixels, MarkedPiecesHaveTheirColourRoundThem) {
  for (const Mark mark : {Mark::Moving, Mark::Chosen, Mark::Blocked, Mark::Fits}) {
    Scene scene;
    scene.items.push_back(plainBox("box", {100, 40, 100}, {}, rgb(0xE0D0B0)));
    scene.items[0].mark = mark;
    Look look;
    look.passes = 4;
    look.widths.outline = 8;
    const Image image =
        pictures::drawn(*context_, scene, look, pictures::cameraFor(scene, kSize, "front"), kSize);
    const Colour wanted = colourOf(mark, Ground::Paper);
    const double left = 200 - 120;  // a tenth of the height free above and below: 240 pixels of box
    const std::uint8_t* p = image.at(static_cast<int>(left), 150);
    EXPECT_NEAR(p[0], wanted.red * 255, 3);
    EXPECT_NEAR(p[1], wanted.green * 255, 3);
    EXPECT_NEAR(p[2], wanted.blue * 255, 3);
  }
}

/// A wall cut level, seen from above; the face the section cuts fills the picture's middle.
Scene wallScene(Substance substance, Vec3 size, Look& look) {
  Scene scene;
  scene.items.push_back(pictures::boxItem("wall", size));
  Surface& s = scene.items[0].surface;
  s.substance = substance;
  s.early = rgb(0xE9E2D8);
  s.late = rgb(0xC3B6A6);
  look.passes = 2;
  look.sections.push_back({{0, 0, 1}, 10, ""});
  return scene;
}

TEST_F(GlPixels, BrickIsHatchedAtFortyFiveDegreesWhereItIsCut) {
  // Sections of materials: ISO 128-3 hatching at 45 degrees; the spacing of 11 is the house's.
  Look look;
  const Scene scene = wallScene(Substance::Brick, {300, 215, 200}, look);
  const Image image = draw(scene, look, "plan");
  EXPECT_LT(apart(grainAngle(image, 120, 80, 280, 220), std::numbers::pi / 4), 0.03);
  // Along a row a line is met each 11 times the square root of 2.
  const double pixelsPerMm = pictures::cameraFor(scene, kSize, "plan").pixelsPerMm;
  const auto dark = [&](int x) { return brightness(image.at(x, 150)); };
  double low = 255, high = 0;
  for (int x = 80; x < 320; ++x) low = std::min(low, dark(x)), high = std::max(high, dark(x));
  const double half = (low + high) / 2;
  int lines = 0;
  double last = dark(80);
  for (int x = 81; x < 320; ++x) {
    if (last > half && dark(x) <= half) ++lines;
    last = dark(x);
  }
  EXPECT_NEAR(lines, 240 / (11 * std::sqrt(2) * pixelsPerMm), 1);
  EXPECT_GT(high - low, 20);
}

TEST_F(GlPixels, PlasterIsDottedWhereItIsCut) {
  Look look;
  const Scene scene = wallScene(Substance::Plaster, {60, 43, 40}, look);
  const Image image = draw(scene, look, "plan");
  double high = 0;
  for (int x = 100; x < 300; ++x) high = std::max(high, brightness(image.at(x, 150)));
  int dotted = 0, plain = 0;
  for (int y = 80; y < 220; ++y)
    for (int x = 100; x < 300; ++x) {
      (brightness(image.at(x, y)) < high - 12 ? dotted : plain) += 1;
    }
  EXPECT_GT(dotted, 100);
  EXPECT_GT(plain, 10 * dotted);  // quiet
}

}  // namespace
}  // namespace dryfit::gl
