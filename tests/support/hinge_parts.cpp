#include "support/hinge_parts.h"

#include <utility>

namespace dryfit::tests {

namespace {

/// From the hinge's middle and in from the leaf's face, which lies 5 behind the pin.
constexpr std::pair<double, double> kScrewAt[] = {{38, 10}, {19, 20}, {0, 10}, {-19, 20}, {-38, 10}};
constexpr double kPinProud = 5;

}  // namespace

Recipe hingePlate(bool jamb, const HingeSizes& s) {
  Recipe recipe;
  recipe.blank = CastBlank{{-s.length / 2, -s.radius, -s.radius}, {s.length / 2, s.reach, s.radius}};
  Barrel barrel;
  const double knuckle = (s.length - (s.knuckles - 1) * s.between) / s.knuckles;
  for (int i = jamb ? 0 : 1; i < s.knuckles; i += 2) {
    const double from = -s.length / 2 + i * (knuckle + s.between);
    barrel.knuckles.push_back({from, from + knuckle});
  }
  barrel.radius = s.radius;
  barrel.clearance = s.clearance;
  barrel.plate = jamb ? Span{-s.radius, -s.radius + s.plate} : Span{s.radius - s.plate, s.radius};
  recipe.features.push_back(barrel);
  RoundHole hole;
  hole.role = "pin";
  hole.axis = 0;
  hole.side = Towards::Low;
  hole.radius = s.pin;
  recipe.features.push_back(hole);
  if (!s.screws) return recipe;
  const double inner = 2 * s.radius - s.plate;  // from the blank's own side
  for (const auto& [x, in] : kScrewAt) {
    TurnedHole bored;
    bored.role = "screw." + std::to_string(recipe.features.size() - 1);
    bored.axis = 2;
    bored.side = jamb ? Towards::High : Towards::Low;
    bored.at = {x, kPinProud + in, 0};
    bored.stations = {{inner, 4.2}, {inner + 2.1, 2.1}, {2 * s.radius + 1, 2.1}};
    bored.through = true;
    recipe.features.push_back(bored);
  }
  return recipe;
}

Recipe hingePin(const HingeSizes& s) {
  Recipe recipe;
  recipe.blank = RodBlank{s.length, 2 * s.pin};
  return recipe;
}

Stations screwStations() {
  return {{0, 4.2}, {2.1, 2.1}, {27, 2.1}, {32, 0.2}};
}

Recipe screw() {
  Recipe recipe;
  recipe.blank = TurnedBlank{screwStations()};
  return recipe;
}

std::vector<Placement> screwPlaces(bool jamb, const HingeSizes& s) {
  std::vector<Placement> places;
  for (const auto& [x, in] : kScrewAt) {
    Placement p;
    p.xAxis = {0, 0, jamb ? -1.0 : 1.0};
    p.yAxis = {0, 1, 0};
    p.zAxis = cross(p.xAxis, p.yAxis);
    p.origin = {x, kPinProud + in, jamb ? -s.radius + s.plate : s.radius - s.plate};
    places.push_back(p);
  }
  return places;
}

}  // namespace dryfit::tests
