#include "scene/travel.h"

#include <algorithm>

namespace dryfit::scene {

namespace {

/// Straight parts of a turn's arrow.
constexpr int kArcParts = 24;

double wayMm(const Leg& leg) {
  return leg.kind == Leg::Kind::Turn ? std::abs(leg.angleRad) * kTurnRadiusMm : leg.travelMm;
}
double wayMm(const std::vector<Leg>& legs) {
  double sum = 0;
  for (const Leg& leg : legs) sum += wayMm(leg);
  return sum;
}

/// The leg undone by a part of itself.
Placement undone(const Leg& leg, double part) {
  const bool travels = leg.kind != Leg::Kind::Turn, turns = leg.kind != Leg::Kind::Straight;
  const Placement shift =
      travels ? translation(leg.direction * (-leg.travelMm * part)) : translation({0, 0, 0});
  return turns ? shift * rotation(leg.direction, leg.through, -leg.angleRad * part) : shift;
}

/// Of each leg, how much is still to be done.
std::vector<double> leftOf(const std::vector<Leg>& legs, double part) {
  double done = wayMm(legs) * std::clamp(part, 0.0, 1.0);
  std::vector<double> left;
  for (const Leg& leg : legs) {
    const double way = wayMm(leg), here = std::min(done, way);
    left.push_back(way > 0 ? 1 - here / way : 0);
    done -= here;
  }
  if (part >= 1) std::fill(left.begin(), left.end(), 0.0);
  return left;
}

}  // namespace

Placement awayFromHome(const std::vector<Leg>& legs, double part) {
  const std::vector<double> left = leftOf(legs, part);
  Placement away;
  for (size_t i = legs.size(); i-- > 0;)
    if (left[i] > 0) away = undone(legs[i], left[i]) * away;
  return away;
}

std::vector<Leg> lengthened(std::vector<Leg> legs, double byMm) {
  if (legs.empty() || legs.front().kind == Leg::Kind::Turn) return legs;
  if (legs.front().kind == Leg::Kind::Screw)
    legs.insert(legs.begin(), {Leg::Kind::Straight, legs.front().direction, 0, {}, 0});
  legs.front().travelMm += byMm;
  return legs;
}

std::vector<double> partsOfMoves(const std::vector<Move>& moves, double part) {
  double whole = 0;
  for (const Move& move : moves) whole += wayMm(move.legs);
  double done = whole * std::clamp(part, 0.0, 1.0);
  std::vector<double> out;
  for (const Move& move : moves) {
    const double way = wayMm(move.legs);
    out.push_back(part >= 1 || way <= done ? 1 : done / way);
    done = std::max(0.0, done - way);
  }
  return out;
}

std::vector<Arrow> arrowsHome(const std::vector<Leg>& legs, double part, Vec3 pointAtHome) {
  const std::vector<double> left = leftOf(legs, part);
  std::vector<Arrow> out;
  Vec3 to = pointAtHome;
  for (size_t i = legs.size(); i-- > 0;) {
    if (left[i] <= 0) continue;
    const Vec3 from = undone(legs[i], left[i]).point(to);
    out.insert(out.begin(), {from, to, ""});
    if (legs[i].kind == Leg::Kind::Turn)
      for (int k = 1; k < kArcParts; ++k)
        out.front().between.push_back(undone(legs[i], left[i] * (kArcParts - k) / kArcParts).point(to));
    to = from;
  }
  return out;
}

}  // namespace dryfit::scene
