#include "proof/poses.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "base/tolerance.h"

namespace dryfit::proof {

namespace {

/// Rounding of degrees: 1e-6 mm over a wide leaf.
constexpr double kSameAngleRad = 1e-9;

std::string degrees(double rad) {
  return plainNumber(rad * 180 / std::numbers::pi);
}

double angleIn(const Pose& pose, int pivot) {
  for (const PivotAt& p : pose)
    if (p.pivot == pivot) return p.angleRad;
  return 0;
}

}  // namespace

int pivotTurned(const Assembly& assembly, const Step& step) {
  if (step.moves.empty() || step.moves.front().legs.empty()) return -1;
  const Leg& leg = step.moves.front().legs.front();
  for (const PivotAt& p : step.pose) {
    const Pivot& pivot = assembly.pivots[static_cast<size_t>(p.pivot)];
    if (length(leg.direction - pivot.axis) < tolerance::kDirection &&
        length(cross(leg.through - pivot.through, pivot.axis)) < tolerance::kPoint &&
        std::all_of(step.moves.front().bodies.begin(), step.moves.front().bodies.end(), [&](int b) {
          return std::find(pivot.bodies.begin(), pivot.bodies.end(), b) != pivot.bodies.end();
        }))
      return p.pivot;
  }
  return -1;
}

void takePose(Bench& bench, const Step& step, Findings& findings) {
  const int turned = step.event == "turn" ? pivotTurned(bench.assembly, step) : -1;
  for (size_t p = 0; p < bench.anglesRad.size(); ++p) {
    const Pivot& pivot = bench.assembly.pivots[p];
    double kept = bench.anglesRad[p];
    const double now = angleIn(step.pose, static_cast<int>(p));
    if (static_cast<int>(p) == turned) kept += step.moves.front().legs.front().angleRad;
    const bool stands = std::any_of(pivot.bodies.begin(), pivot.bodies.end(),
                                    [&](int b) { return bench.stands[static_cast<size_t>(b)]; });
    if (stands && std::abs(kept - now) > kSameAngleRad)
      findings.add(ProofFault::Kind::OutOfTurn, pivot.bodies,
                   fmt::format("{} stands at {} degrees on its pivot and the step has it at {}", pivot.name,
                               degrees(kept), degrees(now)));
    bench.anglesRad[p] = now;
  }
  bench.pivotOrder.clear();
  for (const PivotAt& p : step.pose)
    if (std::abs(p.angleRad) > kSameAngleRad) bench.pivotOrder.push_back(p.pivot);
}

}  // namespace dryfit::proof
