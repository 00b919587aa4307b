#include "joint/screws.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/tolerance.h"
#include "joint/let_in.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kPointLength = 5;     // last part of a screw, a cone: common practice
constexpr double kPointRadius = 0.25;  // a point of none could not be planned: common practice, blunt
constexpr double kSteelKgM3 = 7850;    // EN 1991-1-1, table A.4, from memory: 77 to 78.5 kN/m3

/// The stations from one depth to another.
Stations between(const Stations& all, double from, double to) {
  Stations part{{from, radiusAt(all, from)}};
  for (const Station& s : all)
    if (s.at > from + kTiny && s.at < to - kTiny) part.push_back(s);
  part.push_back({to, radiusAt(all, to)});
  return part;
}

/// Side of the prism or frustum that stands for a turned face in planning meshes.
double planningSide(const Station& a, const Station& b) {
  const double apothem = std::cos(std::numbers::pi / tolerance::kCircleSegments);
  return (planningPerimeter(a.radius) + planningPerimeter(b.radius)) / 2 *
         std::hypot(b.at - a.at, (a.radius - b.radius) * apothem);
}

}  // namespace

std::string screwFault(const ScrewSize& s) {
  if (s.headMm < s.diameterMm + 0.5)
    return fmt::format("a head of {:.4g} on a screw of {:.4g} holds nothing down", s.headMm, s.diameterMm);
  if (s.lengthMm < s.headDepthMm() + kPointLength + 1)
    return fmt::format("a screw of {:.4g} by {:.4g} has no shank between head and point", s.diameterMm,
                       s.lengthMm);
  return "";
}

Stations screwStations(const ScrewSize& s) {
  return {{0, s.headMm / 2},
          {s.headDepthMm(), s.diameterMm / 2},
          {s.lengthMm - kPointLength, s.diameterMm / 2},
          {s.lengthMm, kPointRadius}};
}

Recipe screwRecipe(const ScrewSize& s) {
  Recipe recipe;
  TurnedBlank blank;
  for (const Station& at : screwStations(s)) blank.stations.push_back({at.at - s.lengthMm / 2, at.radius});
  recipe.blank = blank;
  recipe.blankRoles[0] = "head";
  recipe.blankRoles[1] = "point";
  return recipe;
}

OwnPiece Screw::piece(const std::string& id) const {
  OwnPiece p;
  p.id = id;
  p.name = "screw";
  p.material = "steel";
  p.fastening = true;
  p.densityKgM3 = kSteelKgM3;
  p.recipe = screwRecipe(size);
  p.worldFromPiece.xAxis = way;
  p.worldFromPiece.yAxis = std::abs(way.z) > 0.5 ? Vec3{1, 0, 0} : Vec3{0, 0, 1};
  p.worldFromPiece.zAxis = cross(p.worldFromPiece.xAxis, p.worldFromPiece.yAxis);
  p.worldFromPiece.origin = head + way * (size.lengthMm / 2);
  return p;
}

bool Screw::endsIn(const ScrewLayer& layer) const {
  return size.lengthMm > layer.depth.from + kTiny && size.lengthMm < layer.depth.to - kTiny;
}

TurnedHole Screw::holeIn(const Placement& frame, const Box3& blank, const ScrewLayer& layer) const {
  const AxisAlong along = axisAlong(frame, way);
  const bool high = along.side == Towards::High;
  const Vec3 local = inverse(frame).point(head);
  const double entered = high ? blank.low[along.axis] : blank.high[along.axis];
  const double sideDepth = (entered - local[along.axis]) * (high ? 1 : -1);
  TurnedHole hole;
  hole.role = layer.role;
  hole.axis = along.axis;
  hole.side = opposite(along.side);
  hole.at = local;
  hole.at[along.axis] = 0;
  hole.through = !endsIn(layer);
  hole.stations = between(screwStations(size), layer.depth.from, std::min(layer.depth.to, size.lengthMm));
  for (Station& s : hole.stations) s.at -= sideDepth;
  return hole;
}

TurnedHole Screw::holeIn(const MemberView& member, const ScrewLayer& layer) const {
  const Vec3 half = member.laid->blankMm * 0.5;
  return holeIn(member.frame, {-half, half}, layer);
}

std::vector<JointContact> Screw::contacts(const std::string& joint, const std::string& id,
                                          const std::vector<ScrewLayer>& layers) const {
  std::vector<JointContact> found;
  const Stations all = screwStations(size);
  for (const ScrewLayer& layer : layers) {
    int cone = 0, holeCone = 0;
    for (size_t i = 0; i + 1 < all.size(); ++i) {
      const bool slants = isCone(all, static_cast<int>(i));
      cone += slants;
      const double from = std::max(all[i].at, layer.depth.from), to = std::min(all[i + 1].at, layer.depth.to);
      if (to - from < kTiny) continue;
      holeCone += slants;
      const double area = planningSide({from, radiusAt(all, from)}, {to, radiusAt(all, to)});
      found.push_back({joint,
                       {id, slants ? "cone." + std::to_string(cone) : "side"},
                       {layer.id, slants ? layer.role + ".cone." + std::to_string(holeCone) : layer.role},
                       area});
    }
    if (endsIn(layer))
      found.push_back({joint, {id, "point"}, {layer.id, layer.role + ".bottom"}, areaAt(size.lengthMm)});
  }
  return found;
}

double Screw::areaAt(double depthMm) const {
  return planningArea(radiusAt(screwStations(size), depthMm));
}

}  // namespace dryfit
