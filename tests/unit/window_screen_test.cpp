// Where things stand in the window: nothing over another, nothing outside, text never too small.
#include <gtest/gtest.h>

#include "ui/screen.h"

namespace dryfit::ui {
namespace {

bool overlap(const Rect& a, const Rect& b) {
  return a.width > 0 && b.width > 0 && a.height > 0 && b.height > 0 && a.x < b.right() - 1e-9 &&
         b.x < a.right() - 1e-9 && a.y < b.bottom() - 1e-9 && b.y < a.bottom() - 1e-9;
}

TEST(Screen, HasNothingOverAnotherAtAnySize) {
  for (const auto& [width, height] : {std::pair{3840, 2160},
                                      {2560, 1440},
                                      {1920, 1080},
                                      {1600, 900},
                                      {1366, 768},
                                      {1280, 720},
                                      {1024, 768},
                                      {800, 600},
                                      {640, 480}})
    for (const double ratio : {1.0, 2.0}) {
      SCOPED_TRACE(testing::Message() << width << " x " << height << ", ratio " << ratio);
      const Screen s = screenOf(width * ratio, height * ratio, 1, ratio);
      EXPECT_GE(17 * s.text / ratio, 15 - 1e-9);  // body text
      EXPECT_GE(16 * s.text / ratio, 14 - 1e-9);  // the smallest
      const Rect whole{0, 0, s.width, s.height};
      Rect card = s.card;
      if (!s.cardBelow && !s.pictureOnly) card.height = s.looks.y - s.card.y;
      const std::vector<Rect> all = {s.topLine, s.pictureOnly ? Rect{} : s.views, s.looks, s.strip, card};
      for (size_t i = 0; i < all.size(); ++i) {
        if (all[i].width == 0 || all[i].height == 0) continue;
        EXPECT_GE(all[i].x, -1e-9) << i;
        EXPECT_LE(all[i].right(), whole.right() + 1e-9) << i;
        EXPECT_LE(all[i].bottom(), whole.bottom() + 1e-9) << i;
        for (size_t j = i + 1; j < all.size(); ++j)
          EXPECT_FALSE(overlap(all[i], all[j])) << i << " and " << j;
      }
      // Half of the window is the picture's, at the least.
      const double wide = s.width - s.picture.left - s.picture.right,
                   high = s.height - s.picture.top - s.picture.bottom;
      EXPECT_GT(wide * high, 0.35 * s.width * s.height);
    }
}

TEST(Screen, TextGrowsWithTheScaleAskedFor) {
  const Screen one = screenOf(1920, 1080, 1, 1), two = screenOf(1920, 1080, 2, 1);
  EXPECT_DOUBLE_EQ(two.text, 2 * one.text);
  EXPECT_DOUBLE_EQ(two.u, one.u);
}

}  // namespace
}  // namespace dryfit::ui
