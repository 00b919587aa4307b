#include "order/try_stops.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

Stop stopOf(const Meeting& m, Vec3 wayHome) {
  return {Stop::Kind::Meets, m.mover.body, m.stander.body, m.roleMover, m.roleStander, wayHome, m.gapMm, 0};
}

bool isAxis(Vec3 way) {
  return std::max({std::abs(way.x), std::abs(way.y), std::abs(way.z)}) > 1 - tolerance::kDirection;
}

const Placed* find(const std::vector<Placed>& all, int body) {
  const auto found = std::find_if(all.begin(), all.end(), [&](Placed p) { return p.body == body; });
  return found == all.end() ? nullptr : &*found;
}

/// Along the paths of several legs that joints state: a single sweep would tell what lies beyond a leg's end.
std::vector<Stop> alongPaths(Scene& scene, const std::vector<Placed>& movers,
                             const std::vector<Placed>& standing) {
  std::vector<Stop> all;
  for (const FittingPath& path : scene.assembly().paths) {
    const Placed* mover = find(movers, path.mover);
    if (path.legs.size() < 2 || !mover || !find(standing, path.stays)) continue;
    std::vector<Leg> legs = path.legs;
    if (std::any_of(legs.begin(), legs.end(), [](const Leg& l) { return l.kind != Leg::Kind::Straight; }))
      continue;
    for (Leg& leg : legs) leg.direction = scene.worldFromHome(mover->pose).direction(leg.direction);
    if (const auto met = obstructs(scene, movers, standing, legs))
      all.push_back(stopOf(met->meeting, met->wayHome));
  }
  return all;
}

}  // namespace

std::vector<Stop> stopsOf(Scene& scene, const std::vector<Placed>& movers,
                          const std::vector<Placed>& standing, const std::optional<Vec3>& wayHome) {
  std::vector<Stop> own = alongPaths(scene, movers, standing), others;
  for (const Way& way : waysOut(scene, movers, standing, wayHome)) {
    if (!way.own && !isAxis(way.way)) continue;
    const Sweep sweep = scene.sweep(movers, standing, {}, way.way);
    const Meeting* first = sweep.first();
    if (!first) continue;
    const Vec3 home = way.way * -1.0;
    const bool told = std::any_of(own.begin(), own.end(), [&](const Stop& s) {
      return length(s.wayHome - home) < tolerance::kDirection;
    });
    if (!told) (way.own ? own : others).push_back(stopOf(*first, home));
  }
  std::stable_sort(others.begin(), others.end(),
                   [](const Stop& a, const Stop& b) { return a.gapMm > b.gapMm + tolerance::kTouch; });
  own.insert(own.end(), others.begin(), others.end());
  for (Stop& s : own)
    for (int i = 0; i < 3; ++i) s.wayHome[i] += 0.0;
  return own;
}

}  // namespace dryfit::order
