// A place along an axis and the radius there: what a turned body and a turned hole are told by. Millimetres.
#pragma once

#include <vector>

namespace dryfit {

struct Station {
  double at = 0, radius = 0;
  friend bool operator==(const Station&, const Station&) = default;
};

/// Straight from station to station, at least two, rising; no radius is 0.
using Stations = std::vector<Station>;

/// Radius at a place; beyond the first and the last station that of the station.
double radiusAt(const Stations& stations, double at);
/// Is the stretch from station `index` to the next one a cone, not a cylinder?
bool isCone(const Stations& stations, int index);
/// At least two, rising by more than tolerance::kPoint, every radius more than that.
bool areFit(const Stations& stations);
/// Cylinders carry the name itself, cones NAME.cone.1, NAME.cone.2 ... from the first station.
/// The number of the cone from station `index` on, counted from 1.
int coneNumber(const Stations& stations, int index);

}  // namespace dryfit
