// Vectors of the plane and of space, in millimetres unless said otherwise. Standard library only.
#pragma once

#include <cmath>

namespace dryfit {

struct Vec2 {
  double x = 0, y = 0;
  friend Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend Vec2 operator*(Vec2 a, double s) { return {a.x * s, a.y * s}; }
  friend bool operator==(const Vec2&, const Vec2&) = default;
};

/// The z part of the cross product: positive when `b` lies to the left of `a`.
inline double cross(Vec2 a, Vec2 b) {
  return a.x * b.y - a.y * b.x;
}
inline double dot(Vec2 a, Vec2 b) {
  return a.x * b.x + a.y * b.y;
}
inline double length(Vec2 a) {
  return std::hypot(a.x, a.y);
}

struct Vec3 {
  double x = 0, y = 0, z = 0;
  double operator[](int i) const { return i == 0 ? x : i == 1 ? y : z; }
  double& operator[](int i) { return i == 0 ? x : i == 1 ? y : z; }
  friend Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
  friend Vec3 operator*(Vec3 a, double s) { return {a.x * s, a.y * s, a.z * s}; }
  friend bool operator==(const Vec3&, const Vec3&) = default;
};

inline double dot(Vec3 a, Vec3 b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(Vec3 a) {
  return std::sqrt(dot(a, a));
}
/// The unit vector along `a`; `a` must not be null.
inline Vec3 normalized(Vec3 a) {
  return a * (1.0 / length(a));
}

/// An axis-aligned box; empty until a point is added.
struct Box3 {
  Vec3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  bool empty() const { return low.x > high.x; }
  void add(Vec3 p) {
    for (int i = 0; i < 3; ++i) {
      if (p[i] < low[i]) low[i] = p[i];
      if (p[i] > high[i]) high[i] = p[i];
    }
  }
  void add(const Box3& b) {
    if (b.empty()) return;
    add(b.low);
    add(b.high);
  }
  Vec3 size() const { return high - low; }
  Vec3 centre() const { return (low + high) * 0.5; }
};

/// True when the boxes come within `marginMm` of each other on every axis.
inline bool near(const Box3& a, const Box3& b, double marginMm) {
  for (int i = 0; i < 3; ++i)
    if (a.low[i] > b.high[i] + marginMm || b.low[i] > a.high[i] + marginMm) return false;
  return true;
}

}  // namespace dryfit
