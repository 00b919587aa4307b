#include "proof/held.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::proof {

namespace {

/// Grows from `reached` over `rest` as far as `linked(from, to)` leads; what is left of `rest` comes back.
template <class Linked>
std::vector<int> leftOver(std::vector<int> reached, std::vector<int> rest, Linked&& linked) {
  for (size_t next = 0; next < reached.size() && !rest.empty(); ++next) {
    std::vector<int> left;
    for (int b : rest) (linked(reached[next], b) ? reached : left).push_back(b);
    rest = std::move(left);
  }
  return rest;
}

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

/// Play of what is let in by intent: a panel's in its groove, a knuckle's between two others.
constexpr double kPlayMm = 1;

/// Neither to the one side nor to the other can `a` go so far without meeting `b`.
bool shutIn(Judge& judge, const Put& a, const Put& b, Vec3 side) {
  const auto meets = [&](double mm) {
    return judge.shared({a.body, a.state, translation(side * mm) * a.worldFromPiece}, b) >
           tolerance::kOverlapVolume;
  };
  return meets(kPlayMm) && meets(-kPlayMm);
}

/// Along an axis of either piece.
bool captive(Judge& judge, const Put& a, const Put& b) {
  if (!near(judge.box(a), judge.box(b), kPlayMm)) return false;
  for (const Placement& p : {a.worldFromPiece, b.worldFromPiece})
    for (const Vec3 side : {p.xAxis, p.yAxis, p.zAxis})
      if (shutIn(judge, a, b, side)) return true;
  return false;
}

/// Of a propped unit its first piece: the rest of it hangs on that one.
std::vector<int> groundOf(const Bench& bench, const std::vector<int>& standing) {
  std::vector<int> ground;
  for (int b : standing)
    if (bench.assembly.bodies[static_cast<size_t>(b)].formed) ground.push_back(b);
  if (ground.empty()) ground = bench.lain;
  for (int unit : bench.propped) {
    const auto first = std::find_if(standing.begin(), standing.end(),
                                    [&](int b) { return bench.within(b, unit) && !contains(ground, b); });
    if (first != standing.end()) ground.push_back(*first);
  }
  return ground;
}

}  // namespace

std::vector<int> unheld(Judge& judge, const Bench& bench) {
  const std::vector<int> standing = bench.standing(), ground = groundOf(bench, standing);
  std::vector<int> rest;
  for (int b : standing)
    if (!contains(ground, b)) rest.push_back(b);
  const auto bonded = [&](int a, int b) {
    return std::any_of(bench.bonds.begin(), bench.bonds.end(), [&](const Bond& bond) {
      return contains(bond.between, a) && contains(bond.between, b);
    });
  };
  return leftOver(ground, std::move(rest), [&](int a, int b) {
    return bonded(a, b) || judge.touch(bench.put(a), bench.put(b)) ||
           captive(judge, bench.put(a), bench.put(b));
  });
}

bool joinedByTouch(Judge& judge, const Bench& bench, const std::vector<int>& bodies) {
  if (bodies.size() < 2) return true;
  return leftOver({bodies.front()}, {bodies.begin() + 1, bodies.end()},
                  [&](int a, int b) { return judge.touch(bench.put(a), bench.put(b)); })
      .empty();
}

}  // namespace dryfit::proof
