#include "scene/arrows.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "scene/overlay_lines.h"

namespace dryfit::scene {

namespace {

/// Of the design. An arrow shorter than its head twice over is seen end on.
constexpr double kHeadLong = 30, kHeadWide = 21, kShaft = 5, kEndOn = 40, kRing = 11;
constexpr double kWordsPx = 21, kLeastWordsPx = 19, kWordsGap = 12;

struct Flat {
  Vec2 from, to;
  bool comes = false;  ///< towards the looker
  bool endOn = false;
};

void drawArrow(const Flat& arrow, double u, Colour colour, Overlay& overlay) {
  const Vec2 way = (arrow.to - arrow.from) * (1 / length(arrow.to - arrow.from));
  const Vec2 neck = arrow.to - way * (kHeadLong * u), half = Vec2{-way.y, way.x} * (kHeadWide / 2 * u);
  addLine(overlay, {arrow.from, neck + way * u}, kShaft * u, colour);
  overlay.marks.emplace_back(Fill{{arrow.to, neck + half, neck - half}, colour});
}

/// As arrows square to the paper are drawn: a point that comes, a cross that goes.
void drawEndOn(const Flat& arrow, double u, Colour colour, Overlay& overlay) {
  Stroke ring;
  for (int k = 0; k < 32; ++k)
    ring.points.push_back(arrow.to + wayOf(k * std::numbers::pi / 16) * (kRing * u));
  ring.closed = true;
  ring.widthPx = 2.5 * u;
  ring.colour = colour;
  overlay.marks.emplace_back(std::move(ring));
  if (arrow.comes) {
    overlay.marks.emplace_back(Dot{arrow.to, 4 * u, colour});
    return;
  }
  const double arm = kRing * u * std::numbers::sqrt2 / 2;
  for (const double turn : {1.0, -1.0})
    addLine(overlay, {arrow.to - Vec2{arm, arm * turn}, arrow.to + Vec2{arm, arm * turn}}, 2.5 * u, colour);
}

/// Places for words about an arrow: behind its tail, beside it, before its point.
std::vector<Vec2> middlesAbout(const Flat& arrow, double halfWidth, double halfHeight, double u) {
  std::vector<Vec2> places;
  for (const Vec2 end : {arrow.from, (arrow.from + arrow.to) * 0.5, arrow.to})
    for (double gap = kWordsGap; gap < 160; gap += 16)
      for (int k = 0; k < 16; ++k) {
        const Vec2 way = wayOf(k * std::numbers::pi / 8);
        // So far that the box just clears the end.
        const double reach = std::min(halfWidth / std::max(1e-9, std::abs(way.x)),
                                      halfHeight / std::max(1e-9, std::abs(way.y)));
        places.push_back(end + way * (reach + gap * u));
      }
  return places;
}

}  // namespace

PlacedArrows placeArrows(const Look& look, const Sight& sight, Board& board, const Lettering& lettering,
                         Overlay& overlay) {
  const double u = sight.unit, sizePx = std::max(kLeastWordsPx, kWordsPx * u);
  const Colour colour = colourOf(Mark::Moving, look.ground);
  std::vector<Flat> flats;
  for (const Arrow& arrow : sight.scene.arrows) {
    const PicturePoint from = sight.camera.project(arrow.from), to = sight.camera.project(arrow.to);
    const bool endOn = length(to.at - from.at) < kEndOn * u;
    flats.push_back({from.at, to.at, to.depth < from.depth, endOn});
    endOn ? drawEndOn(flats.back(), u, colour, overlay) : drawArrow(flats.back(), u, colour, overlay);
    if (endOn)
      board.put(boxOf(to.at - Vec2{kRing * u, kRing * u}, to.at + Vec2{kRing * u, kRing * u}));
    else
      board.put(Segment{from.at, to.at}, Board::Line::Arrow);
  }
  PlacedArrows out;
  std::set<std::string> said;
  for (std::size_t i = 0; i < flats.size(); ++i) {
    const std::string& text = sight.scene.arrows[i].words;
    if (text.empty() || !said.insert(text).second) continue;
    const TextExtent e = lettering.measure(text, Face::TextStrong, sizePx);
    const double halfHeight = (e.ascent + e.descent) / 2;
    bool found = false;
    for (const bool onWork : {false, true}) {
      for (const Vec2 middle : middlesAbout(flats[i], e.width / 2, halfHeight, u)) {
        const Vec2 at{middle.x - e.width / 2, middle.y - halfHeight + e.ascent};
        const Quad box = textBox(at, 0, e.width, e.ascent, e.descent);
        if (!board.isFree(box) || (!onWork && !board.isClearOfWork(box, 2 * u))) continue;
        board.put(box);
        out.words.push_back({text, at, sizePx, box});
        found = true;
        break;
      }
      if (found) break;
    }
    if (!found) out.leftOut.push_back(text);
  }
  for (const PlacedWords& w : out.words)
    overlay.marks.emplace_back(
        Text{w.at, 0, w.text, Face::TextStrong, w.sizePx, colour, 2.5 * u, coloursOf(look.ground).ground});
  return out;
}

}  // namespace dryfit::scene
