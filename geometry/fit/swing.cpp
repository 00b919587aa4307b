#include "fit/swing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/fit.h"
#include "fit/swing_bodies.h"

namespace dryfit {

namespace {

constexpr double kHalfTurn = std::numbers::pi;
/// The bevel is told in steps of this.
constexpr double kBevelStep = 0.1;

class Measuring {
 public:
  Measuring(const Assembly& assembly, int pivot, const BodyPairs& notMeasured)
      : pivot_(assembly.pivots[static_cast<size_t>(pivot)]), bodies_(assembly, pivot_, notMeasured) {
    swing_.pivot = pivot_.name;
    swing_.openRad = std::abs(pivot_.openRad);
  }

  Swing measured(const Assembly& assembly) {
    const std::optional<Nearness> met = bodies_.firstMeeting(kHalfTurn);
    if (met) swing_.stop = bodies_.place(*met);
    if (met && met->angleRad <= swing_.openRad)
      swing_.strike = strike(*met);
    else if (const auto nearest = bodies_.nearest(swing_.openRad))
      swing_.nearest = bodies_.place(*nearest);
    if (std::abs(pivot_.axis.z) > 1 - 1e-9) swing_.passageMm = passageOf(assembly, pivot_);
    return std::move(swing_);
  }

 private:
  SwingStrike strike(const Nearness& met) {
    SwingStrike out{bodies_.place(met), bodies_.passingDepth(met, swing_.openRad), {}};
    if (out.depthMm) out.bevel = bevel(met, *out.depthMm);
    return out;
  }

  /// Tries tenth by tenth, from below what the depth alone asks for, each measured on all bodies.
  std::optional<SwingBevel> bevel(const Nearness& met, double depthMm) {
    const std::optional<StruckEdge> edge = bodies_.struckEdge(met);
    if (!edge) return {};
    const int first = std::max(1, static_cast<int>(std::floor(depthMm / kBevelStep)));
    const int last = static_cast<int>(std::ceil(2 * depthMm / kBevelStep)) + 1;
    for (int tenths = first; tenths <= last; ++tenths) {
      const double loss = tenths * kBevelStep;
      const SwingBodies planed = bodies_.planed(*edge, loss);
      if (planed.firstMeeting(swing_.openRad)) continue;
      const auto nearest = planed.nearest(swing_.openRad);
      return SwingBevel{loss, edge->role, nearest ? nearest->mm : 0};
    }
    return {};
  }

  const Pivot& pivot_;
  SwingBodies bodies_;
  Swing swing_;
};

}  // namespace

bool turnsInTheWork(const Assembly& assembly, const Pivot& pivot) {
  const auto turns = [&](int body) {
    return std::find(pivot.bodies.begin(), pivot.bodies.end(), body) != pivot.bodies.end();
  };
  for (const Operation& operation : assembly.operations)
    for (const Bond& bond : operation.bonds) {
      const auto count = std::count_if(bond.between.begin(), bond.between.end(), turns);
      if (count != 0 && count != static_cast<std::ptrdiff_t>(bond.between.size())) return false;
    }
  return true;
}

Swing swingOf(const Assembly& assembly, int pivot, const BodyPairs& notMeasured) {
  REQUIRE(pivot >= 0 && pivot < static_cast<int>(assembly.pivots.size()));
  return Measuring(assembly, pivot, notMeasured).measured(assembly);
}

std::vector<Swing> swingsOf(const Assembly& assembly) {
  std::vector<Swing> out;
  for (size_t i = 0; i < assembly.pivots.size(); ++i) {
    const Pivot& pivot = assembly.pivots[i];
    if (pivot.openRad == 0 || pivot.bodies.empty() || !turnsInTheWork(assembly, pivot)) continue;
    out.push_back(swingOf(assembly, static_cast<int>(i), runningPairs(assembly, pivot)));
  }
  return out;
}

}  // namespace dryfit
