#include "base/station.h"

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"

namespace dryfit {

double radiusAt(const Stations& stations, double at) {
  if (at <= stations.front().at) return stations.front().radius;
  for (size_t i = 0; i + 1 < stations.size(); ++i) {
    const Station &a = stations[i], &b = stations[i + 1];
    if (at < b.at) return a.radius + (b.radius - a.radius) * (at - a.at) / (b.at - a.at);
  }
  return stations.back().radius;
}

bool isCone(const Stations& stations, int index) {
  const size_t i = static_cast<size_t>(index);
  return std::abs(stations[i + 1].radius - stations[i].radius) > tolerance::kPoint;
}

bool areFit(const Stations& stations) {
  for (size_t i = 0; i < stations.size(); ++i) {
    if (stations[i].radius < tolerance::kPoint) return false;
    if (i > 0 && stations[i].at - stations[i - 1].at < tolerance::kPoint) return false;
  }
  return stations.size() >= 2;
}

int coneNumber(const Stations& stations, int index) {
  int number = 0;
  for (int i = 0; i <= index; ++i) number += isCone(stations, i);
  return number;
}

}  // namespace dryfit
