#include "scene/size_row.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dryfit::scene {

namespace {

using namespace dimension;

constexpr double kSameWay = 1 - 1e-9;
constexpr double kSamePlaneMm = 0.5;  ///< stands in planes so near lie on one line to the eye

/// Costs in pixels of the design: a pixel of extension line, one of it over the work, a crossed line, figures
/// beside their size, a line over the work, the sides of second choice.
constexpr double kLength = 0.3, kOver = 0.5, kCrossing = 45, kBeside = 12, kInside = 150, kSecondSide = 10;

/// One try at one level.
class Draft {
 public:
  Draft(const SizeRow& row, const std::vector<SizeStand>& stands, double levelMm, const Sight& sight,
        const Lettering& lettering)
      : row_(row), stands_(stands), sight_(sight), lettering_(lettering), u_(sight.unit) {
    made_.out = stands.front().out;
    made_.levelMm = levelMm;
    for (const SizeStand& s : stands) {
      from_.push_back(sight.camera.project(s.fromAt(levelMm - s.reach)).at);
      to_.push_back(sight.camera.project(s.toAt(levelMm - s.reach)).at);
    }
    const Vec2 whole = to_.back() - from_.front();
    along_ = whole * (1 / length(whole));
    // Read from the foot or the right: figures never hang more than a few degrees past upright.
    angle_ = std::atan2(-along_.y, along_.x);
    constexpr double kUpright = std::numbers::pi / 2, kLean = 0.09;
    if (angle_ > kUpright + kLean) angle_ -= std::numbers::pi;
    if (angle_ <= -kUpright + kLean) angle_ += std::numbers::pi;
    reading_ = wayOf(angle_);
    up_ = {reading_.y, -reading_.x};
  }

  /// The dimension lines with arrows alone; enough to see whether the level is free.
  void drawLines() {
    for (std::size_t i = 0; i < from_.size(); ++i) {
      made_.lines.push_back({from_[i], to_[i]});
      if (!isShort(i)) {
        arrow(from_[i], along_);
        arrow(to_[i], along_ * -1);
        continue;
      }
      end(i, i == 0, i > 0 && isShort(i - 1), from_[i], along_);
      end(i, i + 1 == from_.size(), false, to_[i], along_ * -1);
    }
  }

  bool placeFigures(const Board& board, double clearPx) {
    for (std::size_t i = 0; i < from_.size(); ++i)
      if (!placeFigures(i, board, clearPx)) return false;
    return true;
  }

  void drawExtensions() {
    for (std::size_t i = 0; i < stands_.size(); ++i) {
      const bool meetsNext = i + 1 < stands_.size();
      if (i == 0) extension(stands_[i].from, from_[i]);
      // Where two sizes meet, one line from the feature that lies further out.
      const bool nextIsOut = meetsNext && dot(stands_[i + 1].from, made_.out) > dot(stands_[i].to, made_.out);
      extension(nextIsOut ? stands_[i + 1].from : stands_[i].to, to_[i]);
    }
  }

  double addToCost(double cost) { return made_.cost += cost; }
  const RowLayout& made() const { return made_; }
  bool isUpright() const { return std::abs(reading_.y) > std::abs(reading_.x); }

 private:
  double sizePx(std::size_t i) const { return length(to_[i] - from_[i]); }
  bool isShort(std::size_t i) const { return sizePx(i) < kArrowsInside * u_; }

  void arrow(Vec2 point, Vec2 way) {
    const Vec2 tail = point + way * (kArrowLong * u_), half = Vec2{-way.y, way.x} * (kArrowWide / 2 * u_);
    made_.arrows.push_back({point, tail + half, tail - half});
  }
  /// A short size's end: from outside where nothing follows, a dot towards another short one.
  void end(std::size_t i, bool isFree, bool meetsShort, Vec2 point, Vec2 inwards) {
    if (isFree) {
      arrow(point, inwards * -1);
      made_.lines[i] = i == 0 && point == from_[i]
                           ? Segment{point - inwards * ((kArrowLong + 8) * u_), made_.lines[i].to}
                           : Segment{made_.lines[i].from, point - inwards * ((kArrowLong + 8) * u_)};
    } else if (meetsShort) {
      made_.dots.push_back(point);
    }
  }

  Figures figuresAt(const std::string& text, Vec2 foot, double raisedPx) const {
    const TextExtent e = lettering_.measure(text, Face::Lettering, figuresPx(u_));
    const Vec2 at = foot + up_ * (e.descent + 2 * u_ + raisedPx);
    return {at, angle_, text, textBox(at, angle_, e.width, e.ascent, e.descent)};
  }
  bool fits(const Figures& f, const Board& board, double clearPx) const {
    if (!board.isFree(f.box) || !board.isClearOfWork(f.box, clearPx)) return false;
    return std::none_of(made_.figures.begin(), made_.figures.end(),
                        [&](const Figures& g) { return overlap(grown(f.box, 3 * u_), g.box); });
  }

  bool placeFigures(std::size_t i, const Board& board, double clearPx) {
    const std::string& text = row_[i].figures;
    const double width = lettering_.measure(text, Face::Lettering, figuresPx(u_)).width;
    const Vec2 middle = (from_[i] + to_[i]) * 0.5, start = middle - reading_ * (width / 2);
    if (width + 4 * u_ <= sizePx(i)) return take(figuresAt(text, start, 0), board, clearPx);
    const double tail = (kArrowLong + 5) * u_;
    const bool forwards = dot(along_, reading_) > 0;
    // Beyond the end that is read last, else the other; at least above its own size.
    for (const bool last : {true, false}) {
      const bool atTo = last == forwards;
      if (atTo ? i + 1 < from_.size() : i > 0) continue;
      const Vec2 end = atTo ? to_[i] : from_[i], away = atTo ? along_ : along_ * -1;
      const Vec2 foot = last ? end + away * tail : end + away * (tail + width);
      if (!take(figuresAt(text, foot, 0), board, clearPx)) continue;
      const Vec2 far = end + away * (tail + width + 3 * u_);
      made_.lines[i] = atTo ? Segment{made_.lines[i].from, far} : Segment{far, made_.lines[i].to};
      made_.cost += kBeside * u_;
      return true;
    }
    const TextExtent e = lettering_.measure(text, Face::Lettering, figuresPx(u_));
    made_.cost += 2 * kBeside * u_;
    return take(figuresAt(text, start, e.ascent + e.descent + 4 * u_), board, clearPx);
  }
  bool take(const Figures& f, const Board& board, double clearPx) {
    if (!fits(f, board, clearPx)) return false;
    made_.figures.push_back(f);
    return true;
  }

  void extension(Vec3 feature, Vec2 end) {
    const Vec2 from = sight_.camera.project(feature).at, way = end - from;
    const double size = length(way);
    if (size <= kGap * u_) return;
    made_.extensions.push_back({from + way * (kGap * u_ / size), end + way * (kOverrun * u_ / size)});
  }

  const SizeRow& row_;
  const std::vector<SizeStand>& stands_;
  const Sight& sight_;
  const Lettering& lettering_;
  double u_;
  std::vector<Vec2> from_, to_;
  Vec2 along_, reading_, up_;
  double angle_ = 0;
  RowLayout made_;
};

/// What it takes to keep off what is there; empty when it cannot be.
std::optional<RowLayout> tryLevel(const SizeRow& row, const std::vector<SizeStand>& stands, double levelMm,
                                  bool onWork, const Sight& sight, const Board& board,
                                  const Lettering& lettering) {
  const double u = sight.unit;
  Draft draft(row, stands, levelMm, sight, lettering);
  draft.drawLines();
  auto linesAreFree = [&] {
    return std::all_of(draft.made().lines.begin(), draft.made().lines.end(), [&](const Segment& line) {
      return board.isFree(line) && (onWork || board.isClearOfWork(line, 9 * u)) &&
             board.crossings(line, Board::Line::Dimension) + board.crossings(line, Board::Line::Arrow) == 0 &&
             !board.runsAlong(line, Board::Line::Dimension, (kRow - 0.5) * u);
    });
  };
  if (!linesAreFree() || !draft.placeFigures(board, onWork ? 0 : 5 * u) || !linesAreFree()) return {};
  draft.drawExtensions();
  draft.addToCost(onWork ? kInside * u : 0);
  for (const Segment& line : draft.made().extensions) {
    if (!board.isFree(line)) return {};
    const int crossed =
        board.crossings(line, Board::Line::Dimension) + board.crossings(line, Board::Line::Extension);
    draft.addToCost(kLength * length(line.to - line.from) + kOver * board.overWork(line) +
                    kCrossing * u * crossed);
  }
  return draft.made();
}

/// Pixels that the line moves away from itself for a millimetre along `out`.
double pixelsAcross(const std::vector<SizeStand>& stands, const Camera& camera) {
  const SizeStand& s = stands.front();
  const double mm = 20 / camera.scaleAt(s.from);
  const Vec2 from = camera.project(s.fromAt(0)).at;
  const Vec2 way =
      camera.project(stands.back().toAt(stands.back().reach > s.reach ? 0 : s.reach - stands.back().reach))
          .at -
      from;
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
  double first = -1;
  const double farPx = std::hypot(sight.size.width, sight.size.height) / 2;
  for (double px = 26 * u; px < farPx && first < 0; px += 4 * u)
    if (consider(base + px * perPx, false, 0)) first = px;
  if (first >= 0)
    for (const RowLayout& other : placed) {
      const double px = (other.levelMm - base) / perPx;
      if (dot(other.out, stands.front().out) > kSameWay && px > 0 && std::abs(px - first) < 20 * u)
        consider(other.levelMm, false, 20 * u);
    }
  if (!best || best->cost > kInside * u)
    for (double px = 26 * u; px < 130 * u; px += 13 * u)
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
