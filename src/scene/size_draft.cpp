#include "scene/size_draft.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dryfit::scene {

namespace {

using namespace dimension;

constexpr double kBeside = 12, kRaised = 24;  ///< costs, pixels of the design: figures not over their size
constexpr double kTail = 8;  ///< of the design: a dimension line beyond an arrow from outside

}  // namespace

RowDraft::RowDraft(const SizeRow& row, const std::vector<SizeStand>& stands, double levelMm,
                   const Sight& sight, const Lettering& lettering)
    : row_(row), stands_(stands), sight_(sight), lettering_(lettering), u_(sight.unit) {
  made_.out = stands.front().out;
  made_.levelMm = levelMm;
  for (const SizeStand& s : stands) {
    from_.push_back(sight.camera.project(s.fromAt(levelMm - s.reach)).at);
    to_.push_back(sight.camera.project(s.toAt(levelMm - s.reach)).at);
  }
  const Vec2 whole = to_.back() - from_.front();
  along_ = whole * (1 / length(whole));
  // Read from the foot or the right; uprights that lean in perspective are read as uprights are.
  constexpr double kUpright = std::numbers::pi / 2, kLean = 0.3;
  angle_ = std::atan2(-along_.y, along_.x);
  if (angle_ > kUpright + kLean) angle_ -= std::numbers::pi;
  if (angle_ <= -kUpright + kLean) angle_ += std::numbers::pi;
  reading_ = wayOf(angle_);
  up_ = {reading_.y, -reading_.x};
}

void RowDraft::arrow(Vec2 point, Vec2 way) {
  const Vec2 tail = point + way * (kArrowLong * u_), half = Vec2{-way.y, way.x} * (kArrowWide / 2 * u_);
  made_.arrows.push_back({point, tail + half, tail - half});
}

void RowDraft::drawLines() {
  for (std::size_t i = 0; i < from_.size(); ++i) {
    made_.lines.push_back({from_[i], to_[i]});
    if (isShort(i)) {
      endShort(i, false);
      endShort(i, true);
    } else {
      arrow(from_[i], along_);
      arrow(to_[i], along_ * -1);
    }
  }
}

/// An arrow from outside where nothing follows; a dot towards another short size; else the neighbour's arrow
/// does.
void RowDraft::endShort(std::size_t i, bool atTo) {
  const Vec2 point = atTo ? to_[i] : from_[i], away = atTo ? along_ : along_ * -1;
  const bool isFree = atTo ? i + 1 == from_.size() : i == 0;
  if (isFree) {
    arrow(point, away);
    (atTo ? made_.lines[i].to : made_.lines[i].from) = point + away * ((kArrowLong + kTail) * u_);
  } else if (!atTo && isShort(i - 1)) {
    made_.dots.push_back(point);
  }
}

Figures RowDraft::figuresAt(const std::string& text, Vec2 foot, double raisedPx) const {
  const TextExtent e = lettering_.measure(text, Face::Lettering, figuresPx(u_));
  const Vec2 at = foot + up_ * (e.descent + 2 * u_ + raisedPx);
  return {at, angle_, text, textBox(at, angle_, e.width, e.ascent, e.descent)};
}

bool RowDraft::take(const Figures& figures, const Board& board, double clearPx) {
  if (!board.isFree(figures.box) || !board.isClearOfWork(figures.box, clearPx)) return false;
  for (const Figures& other : made_.figures)
    if (overlap(grown(figures.box, 3 * u_), other.box)) return false;
  // Drawn aslant, its own extension lines may lean into it.
  for (const Segment& line : made_.extensions)
    if (crosses(line, grown(figures.box, 1.5 * u_))) return false;
  made_.figures.push_back(figures);
  return true;
}

bool RowDraft::placeBeside(std::size_t i, bool atTo, const Board& board, double clearPx) {
  const double width = lettering_.measure(row_[i].figures, Face::Lettering, figuresPx(u_)).width;
  const double tail = (kArrowLong + 5) * u_;
  const Vec2 end = atTo ? to_[i] : from_[i], away = atTo ? along_ : along_ * -1;
  const Vec2 foot = end + away * (dot(away, reading_) > 0 ? tail : tail + width);
  if (!take(figuresAt(row_[i].figures, foot, 0), board, clearPx)) return false;
  (atTo ? made_.lines[i].to : made_.lines[i].from) = end + away * (tail + width + 3 * u_);
  made_.cost += kBeside * u_;
  return true;
}

/// Over its size where there is room; else beyond the end that is read last, or the other; at least above its
/// size, a line higher.
bool RowDraft::placeFigures(std::size_t i, const Board& board, double clearPx) {
  const std::string& text = row_[i].figures;
  const TextExtent e = lettering_.measure(text, Face::Lettering, figuresPx(u_));
  const Vec2 start = (from_[i] + to_[i]) * 0.5 - reading_ * (e.width / 2);
  if (e.width + 4 * u_ <= sizePx(i) && take(figuresAt(text, start, 0), board, clearPx)) return true;
  const bool forwards = dot(along_, reading_) > 0;
  for (const bool atTo : {forwards, !forwards}) {
    const bool isFree = atTo ? i + 1 == from_.size() : i == 0;
    if (isFree && placeBeside(i, atTo, board, clearPx)) return true;
  }
  made_.cost += kRaised * u_;
  return take(figuresAt(text, start, e.ascent + e.descent + 4 * u_), board, clearPx);
}

bool RowDraft::placeFigures(const Board& board, double clearPx) {
  for (std::size_t i = 0; i < from_.size(); ++i)
    if (!placeFigures(i, board, clearPx)) return false;
  return true;
}

void RowDraft::extension(Vec3 feature, Vec2 end) {
  const Vec2 from = sight_.camera.project(feature).at, way = end - from;
  const double size = length(way);
  if (size <= kGap * u_) return;
  made_.extensions.push_back({from + way * (kGap * u_ / size), end + way * (kOverrun * u_ / size)});
}

void RowDraft::drawExtensions() {
  for (std::size_t i = 0; i < stands_.size(); ++i) {
    if (i == 0) extension(stands_[i].from, from_[i]);
    // Where two sizes meet, one line from the feature that lies further out.
    const bool nextIsOut =
        i + 1 < stands_.size() && dot(stands_[i + 1].from, made_.out) > dot(stands_[i].to, made_.out);
    extension(nextIsOut ? stands_[i + 1].from : stands_[i].to, to_[i]);
  }
}

}  // namespace dryfit::scene
