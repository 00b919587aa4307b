#include "scene/labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "scene/label_dots.h"
#include "scene/overlay_lines.h"

namespace dryfit::scene {

namespace {

constexpr std::size_t kMostLabels = 26, kManyLabels = 16;
constexpr double kNamePx = 17, kNameManyPx = 16, kFiguresPx = 19, kLeastPx = 15;
/// Of the design: the level run and the gap after it, the dot, what is too small to be pointed at.
constexpr double kRun = 14, kGap = 6, kDot = 3, kLeastArea = 14;
constexpr double kSliver = 0.08;  ///< of the box round a piece
/// Costs, pixels of the design: a pixel of leader, one of it over the work, crossing a leader or a dimension
/// or an extension line, running along another, a square pixel of work under the text, a pixel that the dot
/// is less deep than it should be; one more label than on the other
/// side; what a place in line with the others saves.
constexpr double kLength = 0.7, kOver = 0.3, kCrossing = 400, kDimension = 60, kExtension = 25, kAlong = 250,
                 kCover = 0.25, kShallow = 2.5, kUneven = 6, kInLine = 25;
/// A leader longer than this is not followed by the eye.
constexpr double kLongest = 560;
constexpr double kDeepEnough = 26, kNearWork = 10, kNearLine = 9;

/// A label's words, measured.
struct Block {
  double width = 0, nameWidth = 0, figuresWidth = 0;
  double above = 0, below = 0;           ///< from the leader's run to the block's top and foot
  double nameDrop = 0, figuresDrop = 0;  ///< from the run to the baselines
};

Block blockOf(const NamedParts& parts, double namePx, double figuresPx, const Lettering& lettering) {
  const TextExtent name = lettering.measure(parts.name, Face::Text, namePx);
  const TextExtent figures = lettering.measure(parts.size, Face::Lettering, figuresPx);
  Block b;
  b.nameWidth = name.width;
  b.figuresWidth = figures.width;
  b.width = std::max(name.width, figures.width);
  b.nameDrop = 0.3 * namePx;  // the run meets the middle of the small letters
  b.above = name.ascent - b.nameDrop;
  b.figuresDrop = b.nameDrop + name.descent + figures.ascent + 0.06 * namePx;
  b.below = parts.size.empty() ? b.nameDrop + name.descent : b.figuresDrop + figures.descent;
  return b;
}

/// A place for the bend, and the side of it the text is on.
struct Place {
  Vec2 knee;
  bool toRight = true;
  bool inLine = false;
};

class Placer {
 public:
  Placer(const Sight& sight, Board& board, const Lettering& lettering, double namePx, double figuresPx)
      : u_(sight.unit), board_(board), lettering_(lettering), namePx_(namePx), figuresPx_(figuresPx) {}

  /// `moreOnRight`: labels that stand to the right of their dots, less those to the left.
  std::optional<PlacedLabel> best(const NamedParts& parts, const LabelDots& dots, int moreOnRight) const {
    const Block block = blockOf(parts, namePx_, figuresPx_, lettering_);
    std::optional<PlacedLabel> best;
    double least = 1e300, deepest = 0;
    for (const LabelDot& dot : dots.dots)
      deepest = std::max(deepest, std::min(dot.depthPx, kDeepEnough * u_));
    for (const LabelDot& dot : dots.dots)
      for (const Place& place : placesFor(dot.at)) {
        if (length(place.knee - dot.at) > kLongest * u_) continue;
        const PlacedLabel label = labelAt(parts, block, dot.at, place);
        double cost = kShallow * std::max(0.0, deepest - dot.depthPx) +
                      kLength * length(place.knee - dot.at) - (place.inLine ? kInLine * u_ : 0) +
                      kUneven * u_ * std::max(0, place.toRight ? moreOnRight : -moreOnRight);
        if (cost >= least || !addCosts(label, cost, least)) continue;
        least = cost;
        best = label;
      }
    return best;
  }

  void put(const PlacedLabel& label) const {
    board_.put(label.box);
    board_.put(Segment{label.dot, label.knee}, Board::Line::Leader);
    board_.put(Segment{label.knee, label.run}, Board::Line::Leader);
  }

 private:
  PlacedLabel labelAt(const NamedParts& parts, const Block& block, Vec2 dot, const Place& place) const {
    PlacedLabel label{parts, dot, place.knee, {}, {}, {}, {}};
    const double side = place.toRight ? 1 : -1;
    label.run = place.knee + Vec2{side * kRun * u_, 0};
    const double start = label.run.x + side * kGap * u_, left = place.toRight ? start : start - block.width;
    label.nameAt = {place.toRight ? start : start - block.nameWidth, place.knee.y + block.nameDrop};
    label.sizeAt = {place.toRight ? start : start - block.figuresWidth, place.knee.y + block.figuresDrop};
    label.box = boxOf({left, place.knee.y - block.above}, {left + block.width, place.knee.y + block.below});
    return label;
  }

  std::vector<Place> placesFor(Vec2 dot) const {
    std::vector<Place> places;
    for (const double r : {45, 60, 80, 105, 135, 170, 210, 260, 320})
      for (int k = 0; k < 16; ++k) {
        const double angle = k * std::numbers::pi / 8;
        const Vec2 knee = dot + Vec2{std::cos(angle), std::sin(angle)} * (r * u_);
        if (k % 8 == 4) {
          places.push_back({knee, true, false});
          places.push_back({knee, false, false});
        } else {
          places.push_back({knee, k < 4 || k > 12, false});
        }
      }
    const Extent2& work = board_.workExtent();
    for (int k = -14; k <= 14; ++k) {
      const double y = dot.y + k * 18 * u_, x = dot.x + k * 24 * u_;
      places.push_back({{work.high.x + 26 * u_, y}, true, true});
      places.push_back({{work.low.x - 26 * u_, y}, false, true});
      for (const double row :
           {work.low.y - 40 * u_, work.high.y + 30 * u_, work.low.y - 90 * u_, work.high.y + 80 * u_})
        places.push_back({{x, row}, k >= 0, true});
    }
    return places;
  }

  /// False: cannot stand there, or costs more than `least`.
  bool addCosts(const PlacedLabel& label, double& cost, double least) const {
    const Extent2 box = extentOf(label.box);
    cost += kCover * board_.workUnder(box.low, box.high) / u_;
    if (cost >= least) return false;
    const Segment leader{label.dot, label.knee}, run{label.knee, label.run};
    if (!board_.isFree(label.box) || !board_.isFree(leader) || !board_.isFree(run)) return false;
    if (crosses(leader, grown(label.box, 2 * u_))) return false;
    using Line = Board::Line;
    for (const Segment& line : {leader, run}) {
      cost += u_ * (kCrossing * board_.crossings(line, Line::Leader) +
                    kDimension * board_.crossings(line, Line::Dimension) +
                    kExtension * board_.crossings(line, Line::Extension));
      if (board_.crossesMark(line)) cost += kDimension * u_;
      if (board_.runsAlong(line, Line::Leader, 6 * u_)) cost += kAlong * u_;
      if (board_.runsAlong(line, Line::Dimension, 5 * u_)) cost += kAlong * u_;
    }
    if (cost >= least) return false;
    cost += kOver * board_.overWork(leader);
    if (cost < least && !board_.isClearOfWork(label.box, kNearWork * u_)) cost += 90 * u_;
    if (cost < least && !board_.isFree(grown(label.box, kNearLine * u_))) cost += 70 * u_;
    return cost < least;
  }

  double u_;
  Board& board_;
  const Lettering& lettering_;
  double namePx_, figuresPx_;
};

/// Seen well enough to be pointed at: more than a sliver left over by what stands before it.
bool isSeen(const LabelDots& dots, double unit) {
  if (dots.areaPx2 < kLeastArea * unit * unit) return false;
  return dots.dots.front().depthPx >= kDot * unit || dots.areaPx2 >= kSliver * dots.wholePx2;
}

/// Indices of those seen, most seen first, at most as many as there may be; the others' names are listed.
std::vector<std::size_t> chosen(const std::vector<NamedParts>& parts, const std::vector<LabelDots>& dots,
                                double unit, std::vector<std::string>& leftOut) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (isSeen(dots[i], unit)) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return dots[a].areaPx2 > dots[b].areaPx2; });
  for (; order.size() > kMostLabels; order.pop_back()) leftOut.push_back(parts[order.back()].name);
  return order;
}

}  // namespace

PlacedLabels placeLabels(const std::vector<NamedParts>& parts, const Sight& sight, Board& board,
                         const Lettering& lettering) {
  PlacedLabels out;
  const std::vector<LabelDots> dots = labelDots(parts, sight);
  const std::vector<std::size_t> order = chosen(parts, dots, sight.unit, out.leftOut);
  out.namePx = std::max(kLeastPx, (order.size() > kManyLabels ? kNameManyPx : kNamePx) * sight.unit);
  out.figuresPx = std::max(kLeastPx, kFiguresPx * sight.unit);
  const Placer placer(sight, board, lettering, out.namePx, out.figuresPx);

  const Board::Mark start = board.mark();
  std::vector<std::optional<PlacedLabel>> labels(order.size());
  for (int pass = 0; pass < 2; ++pass)
    for (std::size_t i = 0; i < order.size(); ++i) {
      board.rewind(start);
      int moreOnRight = 0;
      for (std::size_t k = 0; k < order.size(); ++k) {
        if (k == i || !labels[k]) continue;
        placer.put(*labels[k]);
        moreOnRight += labels[k]->run.x > labels[k]->knee.x ? 1 : -1;
      }
      labels[i] = placer.best(parts[order[i]], dots[order[i]], moreOnRight);
    }
  board.rewind(start);
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (!labels[i]) {
      out.leftOut.push_back(parts[order[i]].name);
      continue;
    }
    placer.put(*labels[i]);
    out.labels.push_back(std::move(*labels[i]));
  }
  return out;
}

void drawLabels(const PlacedLabels& placed, const Look& look, double unit, Overlay& overlay) {
  const GroundColours& colours = coloursOf(look.ground);
  const double line = look.widths.leader * unit;
  for (const PlacedLabel& l : placed.labels) {
    addLine(overlay, {l.dot, l.knee, l.run}, line + 2.2 * unit, colours.ground);
    overlay.marks.emplace_back(Dot{l.dot, (kDot + 1.1) * unit, colours.ground});
  }
  for (const PlacedLabel& l : placed.labels) {
    addLine(overlay, {l.dot, l.knee, l.run}, line, colours.ink);
    overlay.marks.emplace_back(Dot{l.dot, kDot * unit, colours.ink});
    overlay.marks.emplace_back(
        Text{l.nameAt, 0, l.parts.name, Face::Text, placed.namePx, colours.ink, 2.5 * unit, colours.ground});
    if (!l.parts.size.empty())
      overlay.marks.emplace_back(Text{l.sizeAt, 0, l.parts.size, Face::Lettering, placed.figuresPx,
                                      colours.soft, 2.5 * unit, colours.ground});
  }
}

}  // namespace dryfit::scene
