#include "proof/places.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "proof/judge.h"

namespace dryfit::proof {

namespace {

constexpr double kNearEndMm[] = {0.1, 1, 3};
/// Places of a turn are no further apart.
constexpr double kMostRad = 5 * std::numbers::pi / 180;

/// How far the farthest corner of the boxes lies from the leg's axis.
double reachMm(const Leg& leg, const std::vector<Box3>& movers) {
  double reach = 0;
  for (const Box3& box : movers)
    for (int corner = 0; corner < 8; ++corner) {
      const Vec3 p{corner & 1 ? box.high.x : box.low.x, corner & 2 ? box.high.y : box.low.y,
                   corner & 4 ? box.high.z : box.low.z};
      reach = std::max(reach, length(cross(leg.direction, p - leg.through)));
    }
  return reach;
}

/// Length of the leg as the farthest point of what moves travels it.
double lengthMm(const Leg& leg, const std::vector<Box3>& movers) {
  const double along = leg.kind == Leg::Kind::Turn ? 0 : std::abs(leg.travelMm);
  const double round = leg.kind == Leg::Kind::Straight ? 0 : std::abs(leg.angleRad) * reachMm(leg, movers);
  return std::hypot(along, round);
}

int stretchesOf(const Leg& leg, const std::vector<Box3>& movers, int samples) {
  double stretches = samples + 1.0;
  if (leg.kind != Leg::Kind::Straight)
    stretches = std::max(stretches, std::ceil(std::abs(leg.angleRad) / kMostRad - 1e-9));
  if (leg.kind != Leg::Kind::Turn)
    for (const Box3& box : movers)
      stretches =
          std::max(stretches, std::ceil(std::abs(leg.travelMm) / extentAlong(box, leg.direction) - 1e-9));
  return static_cast<int>(stretches);
}

/// Parts of the leg still to go, from its end outwards.
std::vector<double> partsOf(const Leg& leg, const std::vector<Box3>& movers, int samples) {
  std::vector<double> parts;
  const double whole = lengthMm(leg, movers);
  for (double mm : kNearEndMm)
    if (mm < whole) parts.push_back(mm / whole);
  const int stretches = stretchesOf(leg, movers, samples);
  for (int i = 1; i < stretches; ++i) parts.push_back(static_cast<double>(i) / stretches);
  std::sort(parts.begin(), parts.end());
  parts.push_back(1);
  return parts;
}

}  // namespace

Placement undone(const Leg& leg, double part) {
  Placement out;
  if (leg.kind != Leg::Kind::Turn) out = translation(leg.direction * (-leg.travelMm * part));
  if (leg.kind != Leg::Kind::Straight) out = out * rotation(leg.direction, leg.through, -leg.angleRad * part);
  return out;
}

std::vector<Place> placesAlong(const std::vector<Leg>& legs, const std::vector<Box3>& movers, int samples) {
  std::vector<Place> places;
  Placement after;  // what the legs nearer home undo
  for (int l = static_cast<int>(legs.size()); l-- > 0;) {
    const Leg& leg = legs[static_cast<size_t>(l)];
    const double whole = leg.kind == Leg::Kind::Turn ? leg.angleRad : leg.travelMm;
    for (double part : partsOf(leg, movers, samples))
      places.push_back({undone(leg, part) * after, l, std::abs(whole) * part});
    after = undone(leg, 1) * after;
  }
  return places;
}

std::string toText(const Place& place, const std::vector<Leg>& legs) {
  const bool turn = legs.at(static_cast<size_t>(place.leg)).kind == Leg::Kind::Turn;
  const int count = static_cast<int>(legs.size());
  return (turn ? plainNumber(place.back * 180 / std::numbers::pi) + " degrees"
               : plainNumber(place.back) + " mm") +
         (place.leg + 1 == count ? " before home"
                                 : fmt::format(" before the end of leg {} of {}", place.leg + 1, count));
}

}  // namespace dryfit::proof
