#include "proof/bench.h"

#include <fmt/format.h>

#include <algorithm>

namespace dryfit::proof {

Put Bench::put(int body) const {
  Placement turned;
  for (int p : pivotOrder) {
    const Pivot& pivot = assembly.pivots[static_cast<size_t>(p)];
    if (std::find(pivot.bodies.begin(), pivot.bodies.end(), body) != pivot.bodies.end())
      turned = turned * rotation(pivot.axis, pivot.through, anglesRad[static_cast<size_t>(p)]);
  }
  return {body, states[static_cast<size_t>(body)],
          turned * assembly.bodies[static_cast<size_t>(body)].worldFromPiece};
}

std::vector<int> Bench::standing() const {
  std::vector<int> all;
  for (int b = 0; b < static_cast<int>(stands.size()); ++b)
    if (stands[static_cast<size_t>(b)]) all.push_back(b);
  return all;
}

bool Bench::within(int body, int ofUnit) const {
  int u = assembly.bodies[static_cast<size_t>(body)].unit;
  while (u >= 0 && u != ofUnit) u = assembly.units[static_cast<size_t>(u)].parent;
  return u == ofUnit;
}

bool Bench::bondedHere(int ofUnit) const {
  return std::any_of(bonds.begin(), bonds.end(), [&](const Bond& bond) {
    bool in = false, out = false;
    for (int b : bond.between)
      (within(b, ofUnit) ? in : out) |= static_cast<bool>(stands[static_cast<size_t>(b)]);
    return in && out;
  });
}

std::string listed(const Bench& bench, const std::vector<int>& bodies) {
  constexpr size_t kMost = 3;
  std::string out;
  for (size_t i = 0; i < bodies.size() && i < kMost; ++i)
    out += (i == 0 ? "" : i + 1 == bodies.size() ? " and " : ", ") + bench.id(bodies[i]);
  return bodies.size() > kMost ? out + fmt::format(" and {} more", bodies.size() - kMost) : out;
}

}  // namespace dryfit::proof
