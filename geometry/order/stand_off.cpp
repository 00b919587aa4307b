#include "order/stand_off.h"

#include <algorithm>
#include <numeric>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
/// Boxes stand at least this share of a group's stand-off apart: less than that on purpose, so that what
/// leaves side by side is not staggered for a hair.
constexpr double kClearShare = 0.35;

Box3 shifted(Box3 box, Vec3 by) {
  box.low = box.low + by;
  box.high = box.high + by;
  return box;
}

/// Travels at which a box going along `way` stands within `clearMm` of one that stands: from, to; empty when
/// to <= from.
std::pair<double, double> tooNear(const Box3& moving, const Box3& standing, Vec3 way, double clearMm) {
  double from = -kNever, to = kNever;
  for (int i = 0; i < 3; ++i) {
    const double low = standing.low[i] - clearMm - moving.high[i];
    const double high = standing.high[i] + clearMm - moving.low[i];
    if (std::abs(way[i]) < tolerance::kDirection) {
      if (low > -tolerance::kPlane || high < tolerance::kPlane) return {0, 0};
    } else {
      from = std::max(from, std::min(low / way[i], high / way[i]));
      to = std::min(to, std::max(low / way[i], high / way[i]));
    }
  }
  return {from, to};
}

class Layout {
 public:
  Layout(const Engagement& engagement, TakenApart& apart)
      : engagement_(engagement), apart_(apart), laid_(apart.departures.size()) {}

  void run() {
    for (size_t level = apart_.levels.size(); level-- > 0;) lay(apart_.levels[level]);
  }

 private:
  void lay(const SpreadLevel& level) {
    std::vector<int> placed = level.base;
    for (size_t i = level.departures.size(); i-- > 0;) {
      Departure& d = apart_.departures[level.departures[i]];
      if (d.ways.empty())
        layAnyWay(d, placed);
      else
        d.travelsMm.back() = travel(d, placed, d.ways.back(), d.slidesMm + d.gapMm);
      laid_[level.departures[i]] = true;
      placed.insert(placed.end(), d.pieces.begin(), d.pieces.end());
    }
  }

  /// A loose group that should stay: the shortest way clear, mostly none.
  void layAnyWay(Departure& d, const std::vector<int>& placed) {
    double least = kNever;
    for (const Vec3 way : engagement_.ways()) {
      const double mm = travel(d, placed, way, 0);
      if (mm >= least - tolerance::kSize) continue;
      least = mm;
      d.ways = {way};
      d.travelsMm = {mm};
      if (mm == 0) break;
    }
  }

  /// The least travel from `leastMm` on at which every piece of the group stands clear of all placed ones.
  double travel(const Departure& d, const std::vector<int>& placed, Vec3 way, double leastMm) const {
    Vec3 turned;
    for (size_t k = 0; k + 1 < d.ways.size(); ++k) turned = turned + d.ways[k] * d.travelsMm[k];
    std::vector<std::pair<double, double>> barred;
    for (const int p : d.pieces) {
      const Box3 moving = shifted(engagement_.box(p), offset(p) + turned);
      for (const int q : placed) {
        const auto span = tooNear(moving, shifted(engagement_.box(q), offset(q)), way, kClearShare * d.gapMm);
        if (span.second > leastMm && span.second > span.first) barred.push_back(span);
      }
    }
    std::sort(barred.begin(), barred.end());
    double mm = leastMm;
    for (const auto& [from, to] : barred)
      if (from < mm + tolerance::kPlane) mm = std::max(mm, to);
    return mm;
  }

  /// Of a piece, by all that is laid out already.
  Vec3 offset(int piece) const {
    Vec3 sum;
    for (const int d : apart_.departuresOf[piece])
      if (laid_[d]) sum = sum + shiftOf(apart_.departures[d]);
    return sum;
  }

  const Engagement& engagement_;
  TakenApart& apart_;
  std::vector<bool> laid_;
};

}  // namespace

void standOff(const Engagement& engagement, TakenApart& apart) {
  Layout(engagement, apart).run();
}

double lengthMm(const Departure& departure) {
  return std::accumulate(departure.travelsMm.begin(), departure.travelsMm.end(), 0.0);
}

Vec3 shiftOf(const Departure& departure, double share) {
  double leftMm = share * lengthMm(departure);
  Vec3 sum;
  for (size_t k = 0; k < departure.ways.size(); ++k) {
    const double mm = share >= 1 ? departure.travelsMm[k] : std::min(leftMm, departure.travelsMm[k]);
    sum = sum + departure.ways[k] * mm;
    leftMm -= mm;
  }
  return sum;
}

}  // namespace dryfit::order
