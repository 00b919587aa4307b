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

/// And this share when they only pass each other on later ways, or turn.
constexpr double kPassShare = 0.1;
/// A group that is clear only so many stand-offs farther than it should be, and its own length, is not apart;
/// small ones that turn aside have to get past greater ones.
constexpr double kFarShare = 4, kFarAside = 12;
/// And so many times the depth of all that stands in a wall.
constexpr double kWallShare = 2;
/// Travels tried to keep out of the way of what moves later.
constexpr int kMostTries = 40;

Box3 shifted(Box3 box, Vec3 by) {
  box.low = box.low + by;
  box.high = box.high + by;
  return box;
}

/// Travels at which a box going along `way` stands within `clearMm` of one that stands (across the way:
/// `besideMm`): from, to; empty when to <= from.
std::pair<double, double> tooNear(const Box3& moving, const Box3& standing, Vec3 way, double clearMm,
                                  double besideMm) {
  double from = -kNever, to = kNever;
  for (int i = 0; i < 3; ++i) {
    const bool across = std::abs(way[i]) < tolerance::kDirection;
    const double low = standing.low[i] - (across ? besideMm : clearMm) - moving.high[i];
    const double high = standing.high[i] + (across ? besideMm : clearMm) - moving.low[i];
    if (across) {
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
  Layout(Engagement& engagement, TakenApart& apart)
      : engagement_(engagement), apart_(apart), laid_(apart.departures.size()) {}

  std::vector<Clash> run() {
    for (size_t level = apart_.levels.size(); level-- > 0;) lay(apart_.levels[level]);
    return std::move(clashes_);
  }

 private:
  using Span = std::pair<double, double>;
  /// A stretch of the way of `a` past `b` on which they meet.
  struct Meets {
    Clash clash;
    Vec3 from, to;
  };

  void lay(const SpreadLevel& level) {
    std::vector<int> placed = level.base;
    for (size_t i = level.departures.size(); i-- > 0;) {
      const int d = level.departures[i];
      if (apart_.departures[d].ways.empty()) giveAnyWay(apart_.departures[d], placed);
      if (const auto clash = lay(d, placed)) clashes_.push_back(*clash);
      placed.insert(placed.end(), apart_.departures[d].pieces.begin(), apart_.departures[d].pieces.end());
    }
  }

  /// A loose group that should stay: the shortest way clear, mostly none.
  void giveAnyWay(Departure& d, const std::vector<int>& placed) const {
    double least = kNever;
    for (const Vec3 way : engagement_.ways()) {
      Departure trial = d;
      trial.ways = {way};
      trial.travelsMm = {0};
      trial.gapMm = 0;
      const double mm = leastOutside(tooNearPlaced(trial, placed, 0), 0);
      if (mm >= least - tolerance::kSize) continue;
      least = mm;
      d.ways = {way};
      d.travelsMm = {0};
    }
    d.stays = true;
  }

  std::optional<Clash> lay(int departure, const std::vector<int>& placed) {
    Departure& d = apart_.departures[departure];
    const auto clash = goOut(departure, placed, d.stays ? 0 : d.slidesMm + d.gapMm);
    if (!clash || d.stays || d.ways.size() > 1) return clash;
    return turnAside(departure, placed) ? std::nullopt : clash;
  }

  /// Sets the travel of the last way. What stands against it: a meeting, or clear only far out.
  std::optional<Clash> goOut(int departure, const std::vector<int>& placed, double leastMm) {
    Departure& d = apart_.departures[departure];
    laid_[departure] = false;
    std::vector<Span> barred = tooNearPlaced(d, placed, leastMm);
    laid_[departure] = true;
    for (int tries = 0; tries < kMostTries; ++tries) {
      d.travelsMm.back() = leastOutside(barred, leastMm);
      if (d.travelsMm.back() > leastMm + farMm(d)) break;
      const auto met = firstMet(d, placed);
      if (!met) return {};
      const Span span = reach(*met, d);
      if (met->clash.departure == departure || span.second <= d.travelsMm.back() + tolerance::kPlane)
        return met->clash;
      barred.push_back(span);
    }
    return Clash{d.pieces[0], placed.empty() ? d.pieces[0] : placed[0], departure};
  }

  double farMm(const Departure& d) const {
    Box3 box;
    for (const int p : d.pieces) box.add(engagement_.box(p));
    return (d.ways.size() > 1 ? kFarAside : kFarShare) * d.gapMm + std::abs(dot(box.size(), d.ways.back())) +
           throughWallMm(d.ways.back());
  }

  /// All that stands in a wall may have to come out of it on one side: each further out by the depth of what
  /// comes after it.
  double throughWallMm(Vec3 way) const {
    Box3 moved;
    bool formed = false;
    for (int p = 0; p < engagement_.count(); ++p)
      if (engagement_.stays(p))
        formed = true;
      else
        moved.add(engagement_.box(p));
    return formed && !moved.empty() ? kWallShare * std::abs(dot(moved.size(), way)) : 0;
  }

  /// Where there is no room to stand off straight ahead: just out, then square to it, the shortest way.
  bool turnAside(int departure, const std::vector<int>& placed) {
    Departure& d = apart_.departures[departure];
    const Departure straight = d;
    Departure best;
    double least = kNever;
    for (int way = 0; way < kWorldWays; ++way) {
      const Vec3 aside = engagement_.ways()[way];
      if (std::abs(dot(aside, straight.ways[0])) > tolerance::kParallel) continue;
      d = straight;
      d.ways.push_back(aside);
      d.travelsMm = {straight.slidesMm + kPassShare * straight.gapMm, 0};
      if (goOut(departure, placed, 0) || d.travelsMm[1] >= least - tolerance::kSize) continue;
      least = d.travelsMm[1];
      best = d;
    }
    d = least < kNever ? best : straight;
    return least < kNever;
  }

  /// Travels of the last way from `leastMm` on at which a piece of the group stands near one that is placed.
  std::vector<Span> tooNearPlaced(const Departure& d, const std::vector<int>& placed, double leastMm) const {
    Vec3 turned;
    for (size_t k = 0; k + 1 < d.ways.size(); ++k) turned = turned + d.ways[k] * d.travelsMm[k];
    std::vector<std::pair<int, Box3>> standing;
    for (const int q : placed)
      if (!engagement_.stays(q)) standing.emplace_back(q, shifted(engagement_.box(q), offset(q)));
    std::vector<Span> barred;
    for (const int p : d.pieces) {
      const Box3 moving = shifted(engagement_.box(p), offset(p) + turned);
      for (const auto& [q, box] : standing) {
        const bool layers = d.layer && !inLayerOf(p, q);
        const Span span = tooNear(moving, box, d.ways.back(), layers ? d.gapMm : kClearShare * d.gapMm,
                                  layers ? kNever : besideMm(d));
        if (span.second > leastMm && span.second > span.first) barred.push_back(span);
      }
    }
    return barred;
  }

  /// Layers off a wall stand one before another, whatever their shadows; pieces of one unit in one layer,
  /// with what they carry.
  bool inLayerOf(int piece, int placed) const {
    const int unit = engagement_.unitOf(piece);
    if (engagement_.scene().assembly().units[unit].parent < 0) return false;
    const auto isOfUnit = [&](int p) { return engagement_.unitOf(p) == unit; };
    const auto& all = apart_.departuresOf[placed];
    return isOfUnit(placed) || std::any_of(all.begin(), all.end(), [&](int i) {
             const Departure& d = apart_.departures[i];
             return d.layer && std::all_of(d.pieces.begin(), d.pieces.end(), isOfUnit);
           });
  }

  /// Trim off a wall stands round what goes out through the doorway, not before it.
  double besideMm(const Departure& d) const {
    const std::vector<int>& base = apart_.levels[d.level].base;
    const bool wall = std::any_of(base.begin(), base.end(), [&](int p) { return engagement_.stays(p); });
    return wall ? 0 : kClearShare * d.gapMm;
  }

  static double leastOutside(std::vector<Span> barred, double leastMm) {
    std::sort(barred.begin(), barred.end());
    double mm = leastMm;
    for (const auto& [from, to] : barred)
      if (from < mm + tolerance::kPlane) mm = std::max(mm, to);
    return mm;
  }

  /// Departures one after another, in order: what piece of the group meets what is placed.
  std::optional<Meets> firstMet(const Departure& d, const std::vector<int>& placed) {
    for (const int p : d.pieces)
      for (const int q : placed)
        if (auto met = firstMet(p, q)) return met;
    return {};
  }

  std::optional<Meets> firstMet(int a, int b) {
    const auto& ofA = apart_.departuresOf[a];
    Vec3 from;
    for (const int d : partingDepartures(apart_, a, b)) {
      if (!laid_[d]) continue;
      const double sense = std::binary_search(ofA.begin(), ofA.end(), d) ? 1 : -1;
      const Departure& e = apart_.departures[d];
      for (size_t k = 0; k < e.ways.size(); ++k) {
        const Vec3 to = from + e.ways[k] * (sense * e.travelsMm[k]);
        if (engagement_.meetsOnWay(a, b, from, to)) return Meets{{a, b, d}, from, to};
        from = to;
      }
    }
    return {};
  }

  /// Travels of `d` at which a later departure would bring them together so.
  Span reach(const Meets& met, const Departure& d) const {
    const Vec3 own = d.ways.back() * d.travelsMm.back();
    Box3 swept = shifted(engagement_.box(met.clash.a), met.from - own);
    swept.add(shifted(engagement_.box(met.clash.a), met.to - own));
    const double clearMm = kPassShare * d.gapMm;
    return tooNear(swept, engagement_.box(met.clash.b), d.ways.back(), clearMm, clearMm);
  }

  /// Of a piece, by all that is laid out already.
  Vec3 offset(int piece) const {
    Vec3 sum;
    for (const int d : apart_.departuresOf[piece])
      if (laid_[d]) sum = sum + shiftOf(apart_.departures[d]);
    return sum;
  }

  Engagement& engagement_;
  TakenApart& apart_;
  std::vector<bool> laid_;
  std::vector<Clash> clashes_;
};

}  // namespace

std::vector<Clash> standOff(Engagement& engagement, TakenApart& apart) {
  return Layout(engagement, apart).run();
}

bool moves(const TakenApart& apart, int departure) {
  return lengthMm(apart.departures[departure]) > 0;
}

std::vector<int> partingDepartures(const TakenApart& apart, int a, int b) {
  std::vector<int> all, moving;
  const auto &ofA = apart.departuresOf[a], &ofB = apart.departuresOf[b];
  std::set_symmetric_difference(ofA.begin(), ofA.end(), ofB.begin(), ofB.end(), std::back_inserter(all));
  std::copy_if(all.begin(), all.end(), std::back_inserter(moving), [&](int d) { return moves(apart, d); });
  return moving;
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
