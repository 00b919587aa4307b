// Faces that sections cut, counted in pixels, against the kernel's own sections of the exact solids.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "gl/renderer.h"
#include "scene/lights.h"
#include "scene/staging.h"
#include "support/pictures.h"
#include "support/section_kernel.h"
#include "support/works.h"

namespace dryfit {
namespace {

using namespace scene;

constexpr PictureSize kSize{1400, 1050};

/// Square on to a plane that looks along +z, +x or -y.
const char* viewOf(int axis) {
  return axis == 2 ? "plan" : axis == 0 ? "side" : "front";
}
Vec3 normalOf(int axis) {
  return axis == 2 ? Vec3{0, 0, 1} : axis == 0 ? Vec3{1, 0, 0} : Vec3{0, -1, 0};
}

double kernelArea(const CutWork& work, const CutPlane& plane) {
  double sum = 0;
  for (const Piece& p : work.pieces) {
    const auto solid = solidFromShell(p.last().shell);
    EXPECT_TRUE(solid.ok()) << p.id;
    const Vec3 normal = inverse(p.worldFromPiece).direction(plane.normal);
    sum +=
        tests::sectionArea(solid.value(), normal, plane.offset - dot(plane.normal, p.worldFromPiece.origin));
  }
  return sum;
}

/// sRGB of all faces before they are lit: three channels, each rounded at other lights.
constexpr std::array<int, 3> kPaint{255, 226, 201};

/// One flat colour; a cut face gets an even light of its own, so that its colour is one no lit face has.
Scene allPainted(const CutWork& work) {
  Staging staging(work, nullptr);
  Scene scene = staging.scene({});
  for (Item& item : scene.items) {
    item.surface.substance = Substance::Metal;
    item.surface.early = rgb(0xFFE2C9);
  }
  return scene;
}

/// sRGB to linear and back: IEC 61966-2-1.
std::array<std::uint8_t, 3> cutColour() {
  std::array<std::uint8_t, 3> out{};
  for (size_t i = 0; i < 3; ++i) {
    const double paint = std::pow((kPaint[i] / 255.0 + 0.055) / 1.055, 2.4);
    out[i] =
        static_cast<std::uint8_t>(std::lround((1.055 * std::pow(paint * kCutLight, 1 / 2.4) - 0.055) * 255));
  }
  return out;
}

/// Pixels of cut faces, the mean of pictures each moved by another part of a pixel: a leaf seen from the side
/// is 10 pixels wide, and one picture alone would be off by half a pixel at each border.
double cutPixels(gl::Renderer& renderer, const Scene& scene, const Look& look, const Camera& camera) {
  auto loaded = Lettering::load();
  const Lettering lettering = std::move(loaded).value();
  constexpr int kShifts = 16;
  const std::array<std::uint8_t, 3> colour = cutColour();
  long count = 0;
  for (int i = 0; i < kShifts; ++i) {
    Camera moved = camera;
    moved.centre = camera.centre + Vec2{std::fmod(0.7549 * i, 1), std::fmod(0.5698 * i, 1)};
    const Image image = renderer.draw(scene, look, moved, kSize, {}, lettering).value();
    for (size_t p = 0; p < image.rgb.size(); p += 3)
      count += std::equal(colour.begin(), colour.end(), image.rgb.begin() + static_cast<std::ptrdiff_t>(p));
  }
  return static_cast<double>(count) / kShifts;
}

class PictureSections : public testing::TestWithParam<std::string> {};

TEST_P(PictureSections, HaveTheSolidsOwnArea) {
  auto context = gl::Context::withoutDisplay();
  ASSERT_TRUE(context.ok());
  auto made = gl::Renderer::create();
  ASSERT_TRUE(made.ok());
  gl::Renderer renderer = std::move(made).value();
  const CutWork work = tests::cutFile(GetParam());
  const Scene scene = allPainted(work);
  const Box3 box = boundsOf(scene);
  std::mt19937 random(11);
  for (int axis = 0; axis < 3; ++axis) {
    const double part = std::uniform_real_distribution<double>(0.2, 0.8)(random);
    CutPlane plane{normalOf(axis), 0, ""};
    plane.offset = dot(plane.normal, box.low + box.size() * part);
    Look look;
    look.passes = 1;
    look.widths = {0, 0, 0, 0, 0, 0, 0};
    look.sections.push_back(plane);
    const Camera camera = pictures::cameraFor(scene, kSize, viewOf(axis));
    const double count = cutPixels(renderer, scene, look, camera);
    const double found = count / (camera.pixelsPerMm * camera.pixelsPerMm);
    const double area = kernelArea(work, plane);
    EXPECT_GT(count, 500) << "too few to judge by";
    EXPECT_NEAR(found, area, 0.01 * area) << viewOf(axis) << " at " << plane.offset;
  }
}

std::vector<std::string> allFiles() {
  std::vector<std::string> files = tests::shippedWorks();
  for (const std::string& f : tests::shippedDoorSets()) files.push_back(f);
  return files;
}
INSTANTIATE_TEST_SUITE_P(Shipped, PictureSections, testing::ValuesIn(allFiles()), [](const auto& info) {
  std::string name = info.param.substr(info.param.rfind('/') + 1);
  name = name.substr(0, name.find('.'));
  for (char& c : name)
    if (c == '-') c = '_';
  return name;
});

}  // namespace
}  // namespace dryfit
