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
constexpr double kWordsPx = 21, kLeastWordsPx = 19;
constexpr double kNear = 12, kFar = 60, kFurthest = 220;

struct Flat {
  std::vector<Vec2> path;  ///< from its tail to its point
  Vec2 from, to;
  bool comes = false;  ///< towards the looker
  bool endOn = false;
};

void drawArrow(const Flat& arrow, double u, Colour colour, Overlay& overlay) {
  // The head looks the way of the last of the shaft that is not under it.
  std::vector<Vec2> shaft = arrow.path;
  while (shaft.size() > 2 && length(arrow.to - shaft[shaft.size() - 2]) < kHeadLong * u)
    shaft.erase(shaft.end() - 2);
  const Vec2 last = shaft[shaft.size() - 2];
  const Vec2 way = (arrow.to - last) * (1 / length(arrow.to - last));
  const Vec2 neck = arrow.to - way * (kHeadLong * u), half = Vec2{-way.y, way.x} * (kHeadWide / 2 * u);
  shaft.back() = neck + way * u;
  addLine(overlay, shaft, kShaft * u, colour);
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

void putOn(Board& board, const Flat& arrow, double u) {
  if (arrow.endOn) {
    const Vec2 ring{kRing * u, kRing * u};
    board.put(boxOf(arrow.to - ring, arrow.to + ring), Board::Box::Mark);
    return;
  }
  const double head = kHeadLong * u;
  for (std::size_t i = 0; i + 1 < arrow.path.size(); ++i) {
    const Vec2 way = arrow.path[i + 1] - arrow.path[i];
    const double angle = std::atan2(-way.y, way.x), size = length(way);
    const bool last = i + 2 == arrow.path.size();
    if (size <= 0) continue;
    const double shaft = last ? size - head : size;
    board.put(textBox(arrow.path[i], angle, shaft, kShaft / 2 * u, kShaft / 2 * u), Board::Box::Mark);
    if (last)
      board.put(textBox(arrow.to - way * (head / size), angle, head, kHeadWide / 2 * u, kHeadWide / 2 * u),
                Board::Box::Mark);
  }
}

/// How far from an arrow words may stand, of the design; only about its tail, or its middle and point too;
/// how far from the work, pixels of the design.
struct Reach {
  double from = 0, to = 0;
  bool tailOnly = true;
  double clear = 0;
};

/// Middles for a box about an arrow, from straight behind its tail round to either side.
std::vector<Vec2> middlesAbout(const Flat& arrow, Vec2 halfBox, const Reach& reach, double u) {
  std::vector<Vec2> places;
  std::vector<Vec2> ends{arrow.from};
  if (!reach.tailOnly) ends = {(arrow.from + arrow.to) * 0.5, arrow.to, arrow.from};
  const Vec2 back = arrow.from - arrow.to;
  const double behind = arrow.endOn ? 0 : std::atan2(-back.y, back.x);
  for (const Vec2 end : ends)
    for (double gap = reach.from; gap < reach.to; gap += 8)
      for (int k = 0; k < 16; ++k) {
        // 0, 1, -1, 2, -2 ... sixteenths of a turn from straight behind
        const Vec2 way = wayOf(behind + (k % 2 ? k / 2 + 1 : -k / 2) * std::numbers::pi / 8);
        // So far that the box just clears the end.
        const double clear = std::min(halfBox.x / std::max(1e-9, std::abs(way.x)),
                                      halfBox.y / std::max(1e-9, std::abs(way.y)));
        places.push_back(end + way * (clear + gap * u));
      }
  return places;
}

/// Beside the work, about the tail or else anywhere near the arrow; else on it; else further off.
bool placeWords(const Flat& arrow, const std::string& text, double u, Board& board,
                const Lettering& lettering, std::vector<PlacedWords>& words) {
  const double sizePx = std::max(kLeastWordsPx, kWordsPx * u);
  const TextExtent e = lettering.measure(text, Face::TextStrong, sizePx);
  const Vec2 half{e.width / 2, (e.ascent + e.descent) / 2};
  const Reach tries[] = {{kNear, kFar, true, 4},
                         {kNear, kFar, false, 4},
                         {kNear, kFar, true, 0},
                         {kNear, kFar, false, 0},
                         {kFar, kFurthest, false, 0}};
  for (const Reach& reach : tries)
    for (const Vec2 middle : middlesAbout(arrow, half, reach, u)) {
      const Vec2 at{middle.x - half.x, middle.y - half.y + e.ascent};
      const Quad box = textBox(at, 0, e.width, e.ascent, e.descent);
      if (!board.isFree(box) || (reach.clear > 0 && !board.isClearOfWork(box, reach.clear * u))) continue;
      board.put(box);
      words.push_back({text, at, sizePx, box});
      return true;
    }
  return false;
}

}  // namespace

PlacedArrows placeArrows(const Look& look, const Sight& sight, Board& board, const Lettering& lettering,
                         Overlay& overlay) {
  const double u = sight.unit;
  const Colour colour = colourOf(Mark::Moving, look.ground);
  std::vector<Flat> flats;
  for (const Arrow& arrow : sight.scene.arrows) {
    const PicturePoint from = sight.camera.project(arrow.from), to = sight.camera.project(arrow.to);
    const bool endOn = length(to.at - from.at) < kEndOn * u;
    std::vector<Vec2> path{from.at};
    for (const Vec3 p : arrow.between) path.push_back(sight.camera.project(p).at);
    path.push_back(to.at);
    flats.push_back({std::move(path), from.at, to.at, to.depth < from.depth, endOn});
    endOn ? drawEndOn(flats.back(), u, colour, overlay) : drawArrow(flats.back(), u, colour, overlay);
    putOn(board, flats.back(), u);
  }
  PlacedArrows out;
  std::set<std::string> said;
  for (std::size_t i = 0; i < flats.size(); ++i) {
    const std::string& text = sight.scene.arrows[i].words;
    if (text.empty() || !said.insert(text).second) continue;
    if (!placeWords(flats[i], text, u, board, lettering, out.words)) out.leftOut.push_back(text);
  }
  for (const PlacedWords& w : out.words)
    overlay.marks.emplace_back(
        Text{w.at, 0, w.text, Face::TextStrong, w.sizePx, colour, 2.5 * u, coloursOf(look.ground).ground});
  return out;
}

}  // namespace dryfit::scene
