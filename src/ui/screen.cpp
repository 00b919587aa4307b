#include "ui/screen.h"

#include <algorithm>

namespace dryfit::ui {

namespace {

constexpr double kDesignHeight = 1080, kLeastU = 0.67, kMostU = 2;
/// Body text is 17 in the design and never under 15 on the screen.
constexpr double kBody = 17, kLeastBody = 15;

}  // namespace

Screen screenOf(double width, double height, double scale, double pixelRatio) {
  Screen s;
  s.width = width;
  s.height = height;
  const double w = width / pixelRatio, h = height / pixelRatio;
  s.u = std::clamp(h / kDesignHeight, kLeastU, kMostU) * pixelRatio;
  s.text = std::max(s.u, kLeastBody / kBody * pixelRatio) * scale;
  s.narrow = w < 1360 * scale || h < 800 * scale;
  s.cardBelow = w < 1120 * scale;
  s.pictureOnly = w < 760 || h < 520;
  const double u = s.u, t = s.text, margin = (s.narrow ? 22 : 32) * u;
  s.topLine = {margin, 0, width - 2 * margin, 56 * t};
  const double strip = (s.narrow ? 90 : 130) * std::max(u, 0.75 * t);
  s.strip = {0, height - strip, width, strip};
  const double looks = s.pictureOnly ? 0 : 40 * t;
  s.looks = {margin, s.strip.y - looks - 6 * u, width - 2 * margin, looks};
  if (s.narrow && !s.cardBelow)
    s.views = {width - margin - 330 * t, s.looks.y, 330 * t, looks};
  else
    s.views = {margin, s.topLine.bottom() + 8 * u, std::min(420 * t, width - 2 * margin), 34 * t};
  if (s.narrow && !s.cardBelow) s.looks.width = s.views.x - s.looks.x - 12 * t;
  const double cardWidth = (w < 1360 * scale ? 304 : w < 1600 * scale ? 360 : 440) * t;
  if (s.pictureOnly)
    s.card = {};
  else if (s.cardBelow)
    s.card = {margin, s.looks.y - 62 * t, width - 2 * margin, 54 * t};
  else
    s.card = {width - cardWidth - margin, s.topLine.bottom() + 20 * u, cardWidth, 0};
  s.picture.left = margin;
  s.picture.top = (s.narrow && !s.cardBelow ? s.topLine.bottom() : s.views.bottom()) + 12 * u;
  s.picture.right = s.cardBelow || s.pictureOnly ? margin : cardWidth + 2 * margin;
  s.picture.bottom = height - (s.pictureOnly ? s.strip.y : s.cardBelow ? s.card.y : s.looks.y) + 12 * u;
  return s;
}

}  // namespace dryfit::ui
