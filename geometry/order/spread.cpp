#include "order/spread.h"

#include <algorithm>

#include "base/require.h"
#include "order/spread_times.h"
#include "order/stand_off.h"

namespace dryfit {

namespace {

using namespace order;

/// Other ways looked for when a group meets something far off on the way it chose first.
constexpr int kMostBarred = 60;

std::vector<Placed> presentOf(const Assembly& assembly, const std::vector<int>& states) {
  REQUIRE(states.size() == assembly.bodies.size());
  std::vector<Placed> present;
  for (int b = 0; b < static_cast<int>(states.size()); ++b) {
    REQUIRE(states[b] < static_cast<int>(assembly.bodies[b].states.size()));
    if (states[b] >= 0) present.push_back({b, states[b]});
  }
  return present;
}

struct Planned {
  TakenApart apart;
  std::vector<Window> windows;
};

/// Apart, timed and swept; tried again with other ways until nothing meets. What meets all the same is kept
/// together.
class Planner {
 public:
  explicit Planner(Engagement& engagement) : engagement_(engagement) {
    for (int p = 0; p < engagement.count(); ++p)
      if (engagement.stays(p)) formed_.push_back(p);
    if (formed_.size() > 1) refused_.together.push_back(formed_);
  }

  Planned run() {
    for (;;) {
      Planned plan{takeApart(engagement_, refused_), {}};
      std::vector<Clash> clashes = standOff(engagement_, plan.apart);
      if (clashes.empty()) clashes = timed(plan);
      if (clashes.empty()) {
        for (const auto& set : refused_.together)
          if (set != formed_) plan.apart.held.insert(plan.apart.held.end(), set.begin(), set.end());
        return plan;
      }
      for (const Clash& clash : clashes) refuse(plan.apart, clash);
    }
  }

 private:
  /// Fills in the windows; a pair that meets is made to go strictly one after the other. What meets even so
  /// comes back.
  std::vector<Clash> timed(Planned& plan) {
    Strict strict;
    for (;;) {
      plan.windows = windowsOf(engagement_, plan.apart, strict);
      const std::vector<Clash> met = clashes(engagement_, plan.apart, plan.windows);
      if (met.empty()) return {};
      bool stricter = false;
      for (const Clash& c : met) {
        const auto all = partingDepartures(plan.apart, c.a, c.b);
        for (size_t i = 0; i < all.size(); ++i)
          for (size_t k = i + 1; k < all.size(); ++k) stricter |= strict.insert({all[i], all[k]}).second;
      }
      if (!stricter) return {met.front()};
    }
  }

  /// The least that may help: resting on all of a group instead of one piece of it; a loose group kept where
  /// it is; another way off; at last, not to part the two.
  void refuse(const TakenApart& apart, const Clash& clash) {
    const Departure& d = apart.departures[clash.departure];
    for (const int piece : {clash.a, clash.b})
      for (const int i : apart.departuresOf[piece]) {
        const Departure& e = apart.departures[i];
        if (e.restsOnPiece < 0 || !std::binary_search(d.pieces.begin(), d.pieces.end(), e.restsOnPiece) ||
            d.level <= e.level)
          continue;
        refused_.onPiece.push_back(e.pieces);
        return;
      }
    if (d.loose && std::find(refused_.still.begin(), refused_.still.end(), d.pieces) == refused_.still.end())
      refused_.still.push_back(d.pieces);
    else if (!d.loose && static_cast<int>(refused_.ways.size()) < kMostBarred)
      refused_.ways.emplace_back(d.pieces, d.way);
    else
      refused_.together.push_back({clash.a, clash.b});
  }

  Engagement& engagement_;
  std::vector<int> formed_;
  Refused refused_;
};

std::vector<SpreadStretch> stretchesOf(const Planned& plan, int piece) {
  std::vector<SpreadStretch> out;
  for (const int i : plan.apart.departuresOf[piece]) {
    const Departure& d = plan.apart.departures[i];
    const double whole = lengthMm(d);
    double gone = 0;
    const Window& w = plan.windows[i];
    for (size_t k = 0; k < d.ways.size(); ++k) {
      if (d.travelsMm[k] <= 0) continue;
      const double from = w.from + (w.to - w.from) * gone / whole;
      gone += d.travelsMm[k];
      const double to = k + 1 == d.ways.size() ? w.to : w.from + (w.to - w.from) * gone / whole;
      out.push_back({d.ways[k], d.travelsMm[k], from, to});
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const SpreadStretch& a, const SpreadStretch& b) { return a.from < b.from; });
  return out;
}

Spread spreadOfAll(Scene& scene, const std::vector<Placed>& present, bool allFormedStay) {
  Spread spread;
  spread.bodies.resize(scene.assembly().bodies.size());
  if (present.empty()) return spread;
  Engagement engagement(scene, present, allFormedStay);
  const Planned plan = Planner(engagement).run();
  for (int p = 0; p < engagement.count(); ++p) spread.bodies[present[p].body] = stretchesOf(plan, p);
  for (const int p : plan.apart.held) spread.held.push_back(present[p].body);
  std::sort(spread.held.begin(), spread.held.end());
  spread.held.erase(std::unique(spread.held.begin(), spread.held.end()), spread.held.end());
  return spread;
}

}  // namespace

Spread spreadOf(const Assembly& assembly, const std::vector<int>& states) {
  std::vector<Placed> present = presentOf(assembly, states);
  Scene scene(assembly);
  const auto formed = [&](const Placed& p) { return assembly.bodies[p.body].formed; };
  Spread best = spreadOfAll(scene, present, true);
  if (best.held.empty() || std::none_of(present.begin(), present.end(), formed)) return best;
  const auto orElse = [&](Spread other) {
    if (other.held.size() < best.held.size()) best = std::move(other);
  };
  orElse(spreadOfAll(scene, present, false));
  if (best.held.empty()) return best;
  std::erase_if(present, formed);
  orElse(spreadOfAll(scene, present, false));
  return best;
}

std::vector<Vec3> Spread::offsetsAt(double part) const {
  std::vector<Vec3> out;
  for (const std::vector<SpreadStretch>& stretches : bodies) {
    Vec3 sum;
    for (const SpreadStretch& s : stretches) {
      const double share = part >= s.to ? 1 : part <= s.from ? 0 : (part - s.from) / (s.to - s.from);
      sum = sum + s.way * (s.travelMm * share);
    }
    out.push_back(sum);
  }
  return out;
}

}  // namespace dryfit
