#include "solid/circle.h"

#include <numbers>

namespace dryfit {

Vec2 unitCircle(int k, int n) {
  const int quarter = n / 4, turn = (k % n + n) % n / quarter, part = (k % n + n) % n % quarter;
  const bool upper = 2 * part > quarter;
  const double angle = 2 * std::numbers::pi * (upper ? quarter - part : part) / n;
  Vec2 at{std::cos(angle), std::sin(angle)};
  if (2 * part == quarter) at = {std::numbers::sqrt2 / 2, std::numbers::sqrt2 / 2};
  if (upper) at = {at.y, at.x};
  for (int i = 0; i < turn; ++i) at = {-at.y, at.x};
  return at;
}

Vec3 seamDirection(Vec3 axis) {
  int greatest = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(axis[i]) > std::abs(axis[greatest])) greatest = i;
  Vec3 next;
  next[(greatest + 1) % 3] = 1;
  const Vec3 square = next - axis * dot(axis, next);
  return square == next ? next : normalized(square);
}

}  // namespace dryfit
