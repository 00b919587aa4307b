#include "scene/board.h"

#include <algorithm>
#include <cmath>

#include "scene/chamfer.h"

namespace dryfit::scene {

namespace {

/// Of the design: between two texts, and between a text and the picture's edge.
constexpr double kGap = 7, kEdge = 8;
/// Between a text and a line that passes it: what may be is less than what is chosen where there is room.
constexpr double kLineGap = 3;

/// Cells to the nearest of the work.
std::vector<float> awayFrom(const IdMap& map) {
  const int w = map.columns, h = map.rows;
  std::vector<float> away(map.solid.size());
  for (std::size_t c = 0; c < away.size(); ++c) away[c] = map.taken(static_cast<int>(c)) ? 0 : 1e6f;
  sweepTwice(w, h, [&](int x, int y, int dx, int dy, float step) {
    if (x + dx < 0 || x + dx >= w || y + dy < 0 || y + dy >= h) return;
    float& here = away[y * w + x];
    here = std::min(here, away[(y + dy) * w + x + dx] + step);
  });
  return away;
}

/// Points along a line, one every `stepPx` and both ends.
template <class Visit>
void along(const Segment& line, double stepPx, Visit visit) {
  const int steps = std::max(1, static_cast<int>(std::ceil(length(line.to - line.from) / stepPx)));
  for (int k = 0; k <= steps; ++k)
    if (!visit(line.from + (line.to - line.from) * (static_cast<double>(k) / steps))) return;
}

}  // namespace

Board::Board(const IdMap& map, PictureSize size, double unit)
    : map_(map), size_(size), unit_(unit), away_(awayFrom(map)) {
  const int w = map.columns, h = map.rows;
  summed_.assign(static_cast<std::size_t>(w + 1) * (h + 1), 0);
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      const bool taken = away_[y * w + x] == 0;
      summed_[(y + 1) * (w + 1) + x + 1] =
          summed_[y * (w + 1) + x + 1] + summed_[(y + 1) * (w + 1) + x] - summed_[y * (w + 1) + x] + taken;
      if (taken) extent_.add(map.middleOf(y * w + x));
    }
}

bool Board::isInside(Vec2 at, double edge) const {
  return at.x >= edge && at.y >= edge && at.x <= size_.width - edge && at.y <= size_.height - edge;
}

bool Board::isFree(const Quad& box) const {
  for (const Vec2 p : box)
    if (!isInside(p, kEdge * unit_)) return false;
  const Quad roomy = grown(box, kGap * unit_);
  for (const Taken& taken : boxes_)
    if (overlap(roomy, taken.box)) return false;
  const Quad close = grown(box, kLineGap * unit_);
  for (const Drawn& drawn : lines_)
    if (crosses(drawn.line, close)) return false;
  return true;
}

bool Board::isFree(const Segment& line) const {
  if (!isInside(line.from, 1) || !isInside(line.to, 1)) return false;
  return std::none_of(boxes_.begin(), boxes_.end(), [&](const Taken& taken) {
    return taken.kind == Box::Text && crosses(line, grown(taken.box, kLineGap * unit_));
  });
}

bool Board::crossesMark(const Segment& line) const {
  return std::any_of(boxes_.begin(), boxes_.end(),
                     [&](const Taken& taken) { return taken.kind == Box::Mark && crosses(line, taken.box); });
}

int Board::crossings(const Segment& line, Line kind) const {
  return static_cast<int>(std::count_if(lines_.begin(), lines_.end(), [&](const Drawn& drawn) {
    return drawn.kind == kind && crosses(line, drawn.line);
  }));
}

bool Board::runsAlong(const Segment& line, Line kind, double px) const {
  constexpr double kParallel = 0.1;  // sine, 6 degrees
  const double size = length(line.to - line.from);
  if (size == 0) return false;
  const Vec2 way = (line.to - line.from) * (1 / size);
  return std::any_of(lines_.begin(), lines_.end(), [&](const Drawn& drawn) {
    const Vec2 from = drawn.line.from - line.from, to = drawn.line.to - line.from;
    if (drawn.kind != kind || std::abs(cross(way, to - from)) > kParallel * length(to - from)) return false;
    if (std::min(std::abs(cross(way, from)), std::abs(cross(way, to))) >= px) return false;
    const double s = dot(way, from), t = dot(way, to);
    return std::max(s, t) > 0 && std::min(s, t) < size;
  });
}

double Board::awayFromWork(Vec2 at) const {
  const int cell = map_.cellAt(at);
  return cell < 0 ? 1e6 : away_[cell] * map_.cellPx;
}

bool Board::isClearOfWork(const Segment& line, double px) const {
  bool clear = true;
  along(line, 2 * map_.cellPx, [&](Vec2 p) { return clear = awayFromWork(p) >= px; });
  return clear;
}

bool Board::isClearOfWork(const Quad& box, double px) const {
  const int lines = std::max(1, static_cast<int>(std::ceil(length(box[3] - box[0]) / (4 * map_.cellPx))));
  for (int k = 0; k <= lines; ++k) {
    const double part = static_cast<double>(k) / lines;
    if (!isClearOfWork(Segment{box[0] + (box[3] - box[0]) * part, box[1] + (box[2] - box[1]) * part}, px))
      return false;
  }
  return true;
}

double Board::overWork(const Segment& line) const {
  int on = 0, all = 0;
  along(line, map_.cellPx, [&](Vec2 p) {
    ++all;
    on += awayFromWork(p) == 0;
    return true;
  });
  return length(line.to - line.from) * on / all;
}

double Board::workUnder(Vec2 low, Vec2 high) const {
  auto cellOf = [&](double px, int most) {
    return std::clamp(static_cast<int>(std::lround(px / map_.cellPx)), 0, most);
  };
  const int x0 = cellOf(low.x, map_.columns), x1 = cellOf(high.x, map_.columns);
  const int y0 = cellOf(low.y, map_.rows), y1 = cellOf(high.y, map_.rows), w = map_.columns + 1;
  const int cells = summed_[y1 * w + x1] - summed_[y0 * w + x1] - summed_[y1 * w + x0] + summed_[y0 * w + x0];
  return cells * map_.cellPx * map_.cellPx;
}

}  // namespace dryfit::scene
