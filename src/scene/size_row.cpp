#include "scene/size_row.h"

#include <algorithm>
#include <cmath>

#include "scene/size_draft.h"

namespace dryfit::scene {

namespace {

using namespace dimension;

constexpr double kSameWay = 1 - 1e-9;
constexpr double kSamePlaneMm = 0.5;  ///< stands in planes so near lie on one line to the eye

/// Costs in pixels of the design: a pixel of extension line, one of it over the work, a crossed line, a
/// dimension line over the work and each pixel of it, the sides of second choice.
constexpr double kLength = 0.3, kOver = 0.5, kCrossing = 45, kInside = 120, kInsideLength = 0.8,
                 kSecondSide = 10;

/// Levels of the design: the first, how much further is looked once one is free, how far rows draw each other
/// to their level, how far over the work.
constexpr double kFirst = 28, kFurther = 20, kDrawn = 20, kFurthestInside = 130;
constexpr double kMostOver = 240;       ///< of the design: more of an extension line over the work hides it
constexpr double kLongestInside = 220;  ///< of the design: a longer line over the work is in its way

/// What it takes to keep off what is there; empty when it cannot be.
std::optional<RowLayout> tryLevel(const SizeRow& row, const std::vector<SizeStand>& stands, double levelMm,
                                  bool onWork, const Sight& sight, const Board& board,
                                  const Lettering& lettering) {
  const double u = sight.unit;
  RowDraft draft(row, stands, levelMm, sight, lettering);
  draft.drawLines();
  auto linesAreFree = [&] {
    return std::all_of(draft.made().lines.begin(), draft.made().lines.end(), [&](const Segment& line) {
      return board.isFree(line) && (onWork || board.isClearOfWork(line, 9 * u)) &&
             board.crossings(line, Board::Line::Dimension) == 0 &&
             !board.runsAlong(line, Board::Line::Dimension, (kRow - 0.5) * u);
    });
  };
  const double longest = onWork ? kLongestInside * u : 1e300;
  for (const Segment& line : draft.made().lines)
    if (length(line.to - line.from) > longest) return {};
  if (!linesAreFree()) return {};
  draft.drawExtensions();
  // Figures beside their size make its line longer: it is looked at again.
  if (!draft.placeFigures(board, onWork ? 0 : 5 * u) || !linesAreFree()) return {};
  if (onWork)
    for (const Segment& line : draft.made().lines)
      draft.addToCost(kInside * u + kInsideLength * length(line.to - line.from));
  for (const Segment& line : draft.made().extensions) {
    const double over = board.overWork(line);
    if (!board.isFree(line) || over > kMostOver * u) return {};
    const int crossed =
        board.crossings(line, Board::Line::Dimension) + board.crossings(line, Board::Line::Extension);
    draft.addToCost(kLength * length(line.to - line.from) + kOver * over +
                    kCrossing * u * (crossed + board.crossesMark(line)));
  }
  return draft.made();
}

/// Pixels that the line moves away from itself for a millimetre along `out`.
double pixelsAcross(const std::vector<SizeStand>& stands, const Camera& camera) {
  const SizeStand& s = stands.front();
  const double mm = 20 / camera.scaleAt(s.from);
  const Vec2 from = camera.project(s.fromAt(0)).at;
  const Vec2 way = camera.project(stands.back().toAt(s.reach - stands.back().reach)).at - from;
  return std::abs(cross(way, camera.project(s.fromAt(mm)).at - from)) / length(way) / mm;
}

double levelOf(const std::vector<SizeStand>& stands) {
  double most = -1e300;
  for (const SizeStand& s : stands) most = std::max(most, s.reach);
  return most;
}

/// The nearest level clear of the work, drawn to that of a row already there, or one on the work.
std::optional<RowLayout> placeTowards(const SizeRow& row, const std::vector<SizeStand>& stands,
                                      const std::vector<RowLayout>& placed, const Sight& sight,
                                      const Board& board, const Lettering& lettering) {
  const double u = sight.unit, base = levelOf(stands), perPx = 1 / pixelsAcross(stands, sight.camera);
  std::optional<RowLayout> best;
  auto consider = [&](double levelMm, bool onWork, double towards) {
    auto made = tryLevel(row, stands, levelMm, onWork, sight, board, lettering);
    if (!made) return false;
    made->cost -= towards;
    if (!best || made->cost < best->cost) best = std::move(made);
    return true;
  };
  // The first level that is free, and some further: figures may find a better place there.
  double first = -1;
  const double farPx = std::hypot(sight.size.width, sight.size.height) / 2;
  for (double px = kFirst * u; px < (first < 0 ? farPx : first + kFurther * u); px += 4 * u)
    if (consider(base + px * perPx, false, 0) && first < 0) first = px;
  if (first >= 0)
    for (const RowLayout& other : placed) {
      const double px = (other.levelMm - base) / perPx;
      if (dot(other.out, stands.front().out) > kSameWay && px > 0 && std::abs(px - first) < kDrawn * u)
        consider(other.levelMm, false, kDrawn * u);
    }
  if (!best || best->cost > kInside * u)
    for (double px = kFirst * u; px < kFurthestInside * u; px += 13 * u)
      if (consider(base + px * perPx, true, 0)) break;
  return best;
}

bool inOnePlane(const SizeStand& a, const SizeStand& b, const Camera& camera) {
  return camera.parallel || std::abs(dot(cross(a.way, a.out), a.from - b.from)) < kSamePlaneMm;
}

}  // namespace

double figuresPx(double unit) {
  return std::max(kLeastFigures, kFigures * unit);
}

std::vector<std::vector<SizeStand>> sharedStands(const SizeRow& row, const Camera& camera) {
  std::vector<std::vector<SizeStand>> shared;
  for (const SizeStand& first : row.front().stands) {
    std::vector<SizeStand> all{first};
    for (std::size_t i = 1; i < row.size(); ++i)
      for (const SizeStand& s : row[i].stands)
        if (all.size() == i && dot(s.out, first.out) > kSameWay && inOnePlane(s, first, camera))
          all.push_back(s);
    if (all.size() == row.size()) shared.push_back(std::move(all));
  }
  return shared;
}

std::optional<RowLayout> placeRow(const SizeRow& row, const std::vector<RowLayout>& placed,
                                  const Sight& sight, const Board& board, const Lettering& lettering) {
  std::optional<RowLayout> best;
  for (const auto& stands : sharedStands(row, sight.camera)) {
    auto made = placeTowards(row, stands, placed, sight, board, lettering);
    if (!made) continue;
    const Vec2 out =
        sight.camera.project(stands.front().fromAt(1)).at - sight.camera.project(stands.front().fromAt(0)).at;
    const bool second = std::abs(out.x) > std::abs(out.y) ? out.x > 0 : out.y < 0;
    made->cost += second ? kSecondSide * sight.unit : 0;
    if (!best || made->cost < best->cost) best = std::move(made);
  }
  return best;
}

}  // namespace dryfit::scene
