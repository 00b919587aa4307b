#include "order/spread_times.h"

#include <algorithm>

#include "base/tolerance.h"
#include "order/stand_off.h"

namespace dryfit::order {

namespace {

/// The longest way takes 1; of a short one this is the least, so that it is seen to move.
constexpr double kLeastTime = 0.4;
/// Those of one wave set off one after another within this time.
constexpr double kStagger = 0.35;
/// A wave sets off at least so much after the one before it.
constexpr double kWaveStagger = 0.1;
/// What waits for another to be out waits for this share of its stand-off besides.
constexpr double kClearShare = 0.25;

/// The share of its way after which a departure is out.
double outAfter(const Departure& d) {
  if (d.ways.size() > 1) return 1;
  return std::min(1.0, (d.slidesMm + kClearShare * d.gapMm) / lengthMm(d));
}

class Timing {
 public:
  Timing(const Engagement& engagement, const TakenApart& apart, const Strict& strict)
      : engagement_(engagement), apart_(apart), strict_(strict), windows_(apart.departures.size()) {}

  std::vector<Window> run() {
    gatherWaits();
    double longest = 0;
    for (const Departure& d : apart_.departures) longest = std::max(longest, lengthMm(d));
    for (int d = 0; d < static_cast<int>(windows_.size()); ++d) {
      if (!moves(apart_, d)) continue;
      const double from = earliest(d) + stagger(d);
      const double takes = kLeastTime + (1 - kLeastTime) * lengthMm(apart_.departures[d]) / longest;
      windows_[d] = {from, from + takes};
    }
    double end = 0;
    for (const Window& w : windows_) end = std::max(end, w.to);
    for (Window& w : windows_)
      if (end > 0) w = {w.from / end, w.to == end ? 1 : w.to / end};
    return windows_;
  }

 private:
  /// A pair that is engaged goes one way after another, unless all go the same way.
  void gatherWaits() {
    for (const auto& [a, b] : engagement_.engagedPairs()) {
      const std::vector<int> all = partingDepartures(apart_, a, b);
      for (size_t i = 0; i < all.size(); ++i)
        for (size_t k = i + 1; k < all.size(); ++k)
          if (!sameWay(a, all[i], all[k])) waits_.insert({all[k], all[i]});
    }
  }

  bool sameWay(int a, int first, int second) const {
    const Departure &d = apart_.departures[first], &e = apart_.departures[second];
    if (d.ways.size() != 1 || e.ways.size() != 1) return false;
    const auto& ofA = apart_.departuresOf[a];
    const auto sense = [&](int x) { return std::binary_search(ofA.begin(), ofA.end(), x) ? 1.0 : -1.0; };
    return length(d.ways[0] * sense(first) - e.ways[0] * sense(second)) < tolerance::kParallel;
  }

  double earliest(int departure) const {
    const SpreadLevel& level = apart_.levels[apart_.departures[departure].level];
    double from = 0;
    for (const int d : level.departures)
      if (apart_.departures[d].wave < apart_.departures[departure].wave && moves(apart_, d))
        from = std::max(from, windows_[d].from + kWaveStagger);
    if (level.owner >= 0 && moves(apart_, level.owner)) from = outAt(level.owner);
    if (level.unit && level.above >= 0)
      for (const int d : apart_.levels[level.above].departures) from = std::max(from, windows_[d].to);
    for (auto w = waits_.lower_bound({departure, 0}); w != waits_.end() && w->first == departure; ++w)
      if (moves(apart_, w->second)) from = std::max(from, outAt(w->second));
    for (const auto& [first, second] : strict_)
      if (second == departure) from = std::max(from, windows_[first].to);
    return from;
  }

  double outAt(int d) const {
    return windows_[d].from + outAfter(apart_.departures[d]) * (windows_[d].to - windows_[d].from);
  }

  double stagger(int departure) const {
    const Departure& d = apart_.departures[departure];
    int before = 0, all = 0;
    for (const int other : apart_.levels[d.level].departures) {
      if (apart_.departures[other].wave != d.wave || !moves(apart_, other)) continue;
      ++all;
      before += other < departure;
    }
    return kStagger * before / all;
  }

  const Engagement& engagement_;
  const TakenApart& apart_;
  const Strict& strict_;
  std::vector<Window> windows_;
  std::set<std::pair<int, int>> waits_;  ///< second first
};

/// A piece's way past another, as places one after another.
struct Bend {
  double part = 0;
  Vec3 offset;
};

class Sweeper {
 public:
  Sweeper(Engagement& engagement, const TakenApart& apart, const std::vector<Window>& windows)
      : engagement_(engagement), apart_(apart), windows_(windows) {}

  std::vector<Clash> run() {
    std::vector<Clash> found;
    for (int a = 0; a < engagement_.count(); ++a)
      for (int b = a + 1; b < engagement_.count(); ++b) {
        const std::vector<int> parting = partingDepartures(apart_, a, b);
        if (parting.empty()) continue;
        if (const auto part = meeting(a, b, parting)) found.push_back({a, b, movingAt(parting, *part)});
      }
    return found;
  }

 private:
  Vec3 offset(int a, const std::vector<int>& parting, double part) const {
    const auto& ofA = apart_.departuresOf[a];
    Vec3 sum;
    for (const int d : parting) {
      const double span = windows_[d].to - windows_[d].from;
      if (span <= 0) continue;
      const double share = std::clamp((part - windows_[d].from) / span, 0.0, 1.0);
      const Vec3 shift = shiftOf(apart_.departures[d], share);
      sum = std::binary_search(ofA.begin(), ofA.end(), d) ? sum + shift : sum - shift;
    }
    return sum;
  }

  std::vector<Bend> bends(int a, const std::vector<int>& parting) const {
    std::set<double> parts{0, 1};
    for (const int d : parting) {
      const Window& w = windows_[d];
      parts.insert(w.from);
      parts.insert(w.to);
      double gone = 0;
      for (const double mm : apart_.departures[d].travelsMm) {
        gone += mm;
        parts.insert(w.from + (w.to - w.from) * std::min(1.0, gone / lengthMm(apart_.departures[d])));
      }
    }
    std::vector<Bend> out;
    for (const double part : parts) {
      const Bend next{part, offset(a, parting, part)};
      if (!out.empty() && length(next.offset - out.back().offset) < tolerance::kPoint) continue;
      if (out.size() > 1 && straightOn(out[out.size() - 2].offset, out.back().offset, next.offset))
        out.back().offset = next.offset;
      else
        out.push_back(next);
    }
    return out;
  }

  static bool straightOn(Vec3 from, Vec3 by, Vec3 to) {
    return length(normalized(by - from) - normalized(to - by)) < tolerance::kDirection;
  }

  /// The part of the whole at which the stretch begins on which A meets B.
  std::optional<double> meeting(int a, int b, const std::vector<int>& parting) {
    const std::vector<Bend> way = bends(a, parting);
    for (size_t i = 0; i + 1 < way.size(); ++i)
      if (engagement_.meetsOnWay(a, b, way[i].offset, way[i + 1].offset)) return way[i].part;
    return {};
  }

  /// The last of those under way then.
  int movingAt(const std::vector<int>& parting, double part) const {
    int moving = parting.back();
    for (const int d : parting)
      if (windows_[d].from <= part && part < windows_[d].to) moving = d;
    return moving;
  }

  Engagement& engagement_;
  const TakenApart& apart_;
  const std::vector<Window>& windows_;
};

}  // namespace

std::vector<Window> windowsOf(const Engagement& engagement, const TakenApart& apart, const Strict& strict) {
  return Timing(engagement, apart, strict).run();
}

std::vector<Clash> clashes(Engagement& engagement, const TakenApart& apart,
                           const std::vector<Window>& windows) {
  return Sweeper(engagement, apart, windows).run();
}

}  // namespace dryfit::order
