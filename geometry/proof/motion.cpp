#include "proof/motion.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/text.h"
#include "base/tolerance.h"
#include "proof/places.h"

namespace dryfit::proof {

namespace {

/// So far to either side a piece must be free to go, past any one other, where its way begins: less than the
/// play of what is engaged by intent would not show it.
constexpr double kNudgeMm = 1;
/// A box thinner than this along the way still gets places this far apart.
constexpr double kLeastStepMm = 1;

std::string mm3(double volume) {
  return fmt::format("{:.3g} mm3", volume);
}

class Judging {
 public:
  Judging(Judge& judge, const Bench& bench, Motion motion, Findings& findings)
      : judge_(judge), motion_(std::move(motion)), bench_(bench), findings_(findings) {
    for (int b : motion_.movers) movers_.push_back(bench.put(b));
    for (int b : bench.standing())
      if (std::find(motion_.movers.begin(), motion_.movers.end(), b) == motion_.movers.end())
        standers_.push_back(bench.put(b));
    for (Leg& leg : motion_.legs)
      if (leg.kind == Leg::Kind::Screw && turnsInItself(leg)) leg.kind = Leg::Kind::Straight;
  }

  long run(int samples) {
    std::vector<Box3> boxes;
    for (const Put& m : movers_) boxes.push_back(judge_.box(m));
    const auto places = placesAlong(motion_.legs, boxes, samples);
    for (const Place& place : places)
      if (!clearAt(place)) return looks_;
    if (!motion_.comes || motion_.legs.empty()) return looks_;
    const Placement start = places.back().worldFromHome;
    if (motion_.legs.front().kind == Leg::Kind::Straight && !clearBeyond(start)) return looks_;
    freeAt(start);
    return looks_;
  }

 private:
  /// Only of a last leg: what comes after it might turn the line it is told about.
  bool turnsInItself(const Leg& leg) const {
    return &leg == &motion_.legs.back() && std::all_of(movers_.begin(), movers_.end(), [&](const Put& m) {
      return judge_.roundAbout(m, leg.through, leg.direction);
    });
  }

  static Put moved(const Put& p, const Placement& by) { return {p.body, p.state, by * p.worldFromPiece}; }

  bool clearAt(const Place& place) {
    ++looks_;
    for (const Put& m : movers_)
      for (const Put& s : standers_) {
        const double shared = judge_.shared(moved(m, place.worldFromHome), s);
        if (shared <= tolerance::kOverlapVolume) continue;
        passes(m, s, toText(place, motion_.legs), shared);
        return false;
      }
    return true;
  }

  void passes(const Put& m, const Put& s, const std::string& where, double shared) {
    const char* how = motion_.comes ? "would pass through" : "would turn through";
    findings_.add(ProofFault::Kind::Passes, {m.body, s.body},
                  fmt::format("{} {} {}: {} it shares {} with it", bench_.id(m.body), how, bench_.id(s.body),
                              where, mm3(shared)));
  }

  /// Travels beyond the start at which the two boxes overlap; empty when they never do.
  static std::optional<std::pair<double, double>> boxesMeet(const Box3& mover, const Box3& stander,
                                                            Vec3 way) {
    double from = 0, to = 1e300;
    for (int i = 0; i < 3; ++i) {
      const double enter = stander.low[i] - mover.high[i], leave = stander.high[i] - mover.low[i];
      if (std::abs(way[i]) < 1e-12) {
        if (enter >= 0 || leave <= 0) return {};
        continue;
      }
      from = std::max(from, std::min(enter / way[i], leave / way[i]));
      to = std::min(to, std::max(enter / way[i], leave / way[i]));
    }
    if (from >= to) return {};
    return std::pair{from, to};
  }

  /// On from the start, the way the first leg comes from, until every box is past.
  bool clearBeyond(const Placement& start) {
    const Vec3 out = -motion_.legs.front().direction;
    for (const Put& atHome : movers_) {
      const Put m = moved(atHome, start);
      const Box3 box = judge_.box(m);
      const double step = std::max(kLeastStepMm, extentAlong(box, out));
      for (const Put& s : standers_) {
        const auto meet = boxesMeet(box, judge_.box(s), out);
        if (!meet) continue;
        const auto [from, to] = *meet;
        const int stretches = static_cast<int>(std::ceil((to - from) / step)) + 1;
        for (int i = 0; i < stretches; ++i) {
          const double beyond = from + (to - from) * (i + 0.5) / stretches;
          ++looks_;
          const double shared = judge_.shared(moved(m, translation(out * beyond)), s);
          if (shared <= tolerance::kOverlapVolume) continue;
          passes(m, s, plainNumber(beyond) + " mm before its way begins", shared);
          return false;
        }
      }
    }
    return true;
  }

  /// Where the way begins no one piece may stand on both sides of a mover.
  void freeAt(const Placement& start) {
    const Leg& first = motion_.legs.front();
    for (const Put& atHome : movers_)
      for (const Put& s : standers_) {
        const Put m = moved(atHome, start);
        if (!near(judge_.box(m), judge_.box(s), kNudgeMm)) continue;
        for (const Vec3 side : {s.worldFromPiece.xAxis, s.worldFromPiece.yAxis, s.worldFromPiece.zAxis}) {
          const double along = dot(side, first.direction);
          if (first.kind == Leg::Kind::Straight && std::abs(along) > 0.7) continue;
          const Vec3 across =
              first.kind == Leg::Kind::Straight ? normalized(side - first.direction * along) : side;
          if (!meets(m, s, across * kNudgeMm) || !meets(m, s, across * -kNudgeMm)) continue;
          findings_.add(ProofFault::Kind::Held, {m.body, s.body},
                        fmt::format("the way of {} begins where {} still stands on both sides of it",
                                    bench_.id(m.body), bench_.id(s.body)));
          return;
        }
      }
  }

  bool meets(const Put& m, const Put& s, Vec3 nudge) {
    ++looks_;
    return judge_.shared(moved(m, translation(nudge)), s) > tolerance::kOverlapVolume;
  }

  Judge& judge_;
  Motion motion_;
  const Bench& bench_;
  Findings& findings_;
  std::vector<Put> movers_, standers_;
  long looks_ = 0;
};

}  // namespace

long judgeMotion(Judge& judge, const Bench& bench, const Motion& motion, int samples, Findings& findings) {
  return Judging(judge, bench, motion, findings).run(samples);
}

}  // namespace dryfit::proof
