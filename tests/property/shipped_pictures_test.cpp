// What pictures of the shipped works measure: how they fill, what is kept free, contrast of lettering and
// lines.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gl/context.h"
#include "gl/renderer.h"
#include "scene/layout.h"
#include "scene/staged_picture.h"
#include "support/works.h"

namespace dryfit {
namespace {

using namespace scene;

/// Relative luminance and contrast. Source: WCAG 2.1, definitions of "relative luminance" and "contrast
/// ratio".
double luminance(const std::uint8_t* p) {
  return 0.2126 * linearOf(p[0] / 255.0) + 0.7152 * linearOf(p[1] / 255.0) + 0.0722 * linearOf(p[2] / 255.0);
}
double contrast(double a, double b) {
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

struct Drawn {
  scene::StagedPicture staged;
  PictureLayout layout;
  Image image;
};

class ShippedPictures : public testing::TestWithParam<std::string> {
 protected:
  Drawn draw(const scene::PictureOptions& options) {
    const CutWork work = tests::cutFile(GetParam());
    Staging staging(work, nullptr);
    auto staged = scene::stagePicture(work, nullptr, staging, options);
    EXPECT_TRUE(staged.ok());
    auto lettering = Lettering::load();
    const Lettering letters = std::move(lettering).value();
    auto context = gl::Context::withoutDisplay();
    auto renderer = gl::Renderer::create();
    Drawn d{std::move(staged).value(), {}, {}};
    d.layout = layOut(d.staged.scene, d.staged.look, d.staged.camera, options.size, work.dimensions,
                      d.staged.ask, letters);
    gl::Renderer machine = std::move(renderer).value();
    auto image =
        machine.draw(d.staged.scene, d.staged.look, d.staged.camera, options.size, d.layout.overlay, letters);
    EXPECT_TRUE(image.ok());
    d.image = std::move(image).value();
    return d;
  }
};

struct Extent {
  int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;
  long count = 0;
};
/// Of all that differs from the ground by more than soft shade does.
Extent inked(const Image& image) {
  Extent e;
  const double ground = luminance(image.at(0, 0));
  for (int y = 0; y < image.height; ++y)
    for (int x = 0; x < image.width; ++x) {
      if (contrast(luminance(image.at(x, y)), ground) < 1.35) continue;
      e.left = std::min(e.left, x);
      e.right = std::max(e.right, x);
      e.top = std::min(e.top, y);
      e.bottom = std::max(e.bottom, y);
      ++e.count;
    }
  return e;
}

scene::PictureOptions plainOptions() {
  scene::PictureOptions o;
  o.size = {960, 540};
  o.passes = 4;
  return o;
}

TEST_P(ShippedPictures, FillThePictureAndKeepItsMargins) {
  for (const double spread : {0.0, 1.0}) {
    scene::PictureOptions o = plainOptions();
    o.spread = spread;
    const Extent e = inked(draw(o).image);
    const double across = (e.right - e.left) / 960.0, high = (e.bottom - e.top) / 540.0;
    EXPECT_GT(std::max(across, high), 0.85) << "spread " << spread;  // as large as it goes one way
    EXPECT_GE(e.left, 0.015 * 960);
    EXPECT_LE(e.right, 0.985 * 960);
    EXPECT_GE(e.top, 0.02 * 540);
    EXPECT_LE(e.bottom, 0.98 * 540);
    EXPECT_GT(e.count, 0.03 * 960 * 540) << "a picture of nothing much";
  }
}

TEST_P(ShippedPictures, LetteringStandsOut) {
  for (const Ground ground : {Ground::Paper, Ground::Slate}) {
    scene::PictureOptions o = plainOptions();
    o.size = {1920, 1080};
    o.passes = 2;
    o.labels = o.sizes = true;
    o.ground = ground;
    const Drawn d = draw(o);
    EXPECT_FALSE(d.layout.placed.empty());
    for (const PlacedText& text : d.layout.placed) {
      // The strongest ink in its box against the ground, which its halo brings with it.
      double best = 1;
      const auto [low, high] = extentOf(text.box);
      const Colour g = coloursOf(ground).ground;
      const std::uint8_t groundBytes[] = {static_cast<std::uint8_t>(g.red * 255),
                                          static_cast<std::uint8_t>(g.green * 255),
                                          static_cast<std::uint8_t>(g.blue * 255)};
      for (int y = std::max(0, static_cast<int>(low.y)); y < std::min(1080.0, high.y); ++y)
        for (int x = std::max(0, static_cast<int>(low.x)); x < std::min(1920.0, high.x); ++x)
          best = std::max(best, contrast(luminance(d.image.at(x, y)), luminance(groundBytes)));
      EXPECT_GT(best, 7) << text.text;  // WCAG 2.1, success criterion 1.4.6, enhanced
    }
  }
}

/// Along rows from the ground into the work: the outline against the timber behind it and against the ground.
TEST_P(ShippedPictures, OutlinesStandOut) {
  for (const Ground ground : {Ground::Paper, Ground::Slate}) {
    scene::PictureOptions o = plainOptions();
    o.size = {1920, 1080};
    o.passes = 8;
    o.ground = ground;
    o.view = namedViews().front();
    const Image image = draw(o).image;
    const Extent e = inked(image);
    const double base = luminance(image.at(0, 0));
    std::vector<double> toTimber, toGround;
    for (int y = e.top + 20; y < e.bottom - 20; y += 7) {
      int x = e.left - 4;
      while (x < e.right && contrast(luminance(image.at(x, y)), base) < 1.1) ++x;
      if (x + 14 >= e.right) continue;
      double darkest = 1, timber = 0;
      for (int k = -1; k < 4; ++k) darkest = std::min(darkest, luminance(image.at(x + k, y)));
      for (int k = 5; k < 14; ++k) timber = std::max(timber, luminance(image.at(x + k, y)));
      toTimber.push_back(contrast(darkest, timber));
      toGround.push_back(std::max(contrast(darkest, base), contrast(timber, base)));
    }
    ASSERT_GT(toTimber.size(), 10u);
    const auto middle = [](std::vector<double>& v) {
      std::nth_element(v.begin(), v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2), v.end());
      return v[v.size() / 2];
    };
    // WCAG 2.1, success criterion 1.4.11, graphical objects: 3 to 1.
    EXPECT_GT(middle(toTimber), 3);
    EXPECT_GT(middle(toGround), 3);
  }
}

std::vector<std::string> allFiles() {
  std::vector<std::string> files = tests::shippedWorks();
  for (const std::string& f : tests::shippedDoorSets()) files.push_back(f);
  return files;
}
INSTANTIATE_TEST_SUITE_P(All, ShippedPictures, testing::ValuesIn(allFiles()), [](const auto& info) {
  std::string name = info.param.substr(info.param.rfind('/') + 1);
  name = name.substr(0, name.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace dryfit
