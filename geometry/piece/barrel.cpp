#include "piece/barrel.h"

#include <cmath>
#include <numbers>

#include "base/require.h"
#include "base/tolerance.h"
#include "solid/circle.h"

namespace dryfit {

namespace {

constexpr double kTiny = tolerance::kPoint;

/// Seen along x as (y, w): w is z, turned over where needed, so that the plate's outer side lies at -radius.
class BarrelCutter {
 public:
  BarrelCutter(const Barrel& feature, const Box3& blank, Carving& carving)
      : f_(feature), blank_(blank), carving_(carving) {
    outerIsBack_ = std::abs(f_.plate.from + f_.radius) < kTiny;
    inner_ = outerIsBack_ ? f_.plate.to : -f_.plate.from;
    const double outer = outerIsBack_ ? f_.plate.from : -f_.plate.to;
    const double back = outerIsBack_ ? blank_.low.z : -blank_.high.z,
                 face = outerIsBack_ ? blank_.high.z : -blank_.low.z;
    REQUIRE(std::abs(outer + f_.radius) < kTiny && std::abs(back - outer) < kTiny);
    REQUIRE(std::abs(inner_) < f_.radius && f_.radius < f_.clearance);
    REQUIRE(blank_.low.y < -f_.radius + kTiny && face > f_.radius - kTiny);
  }

  void run() {
    const std::vector<Vec2> corners = roundCorners();
    double from = blank_.low.x;
    for (size_t i = 0; i < f_.knuckles.size(); ++i) {
      const Span& knuckle = f_.knuckles[i];
      REQUIRE(knuckle.from > from - kTiny && knuckle.size() > kTiny && knuckle.to < blank_.high.x + kTiny);
      addGap(from, knuckle.from, i);
      for (size_t k = 0; k + 1 < corners.size(); ++k) addWaste(corners[k], corners[k + 1], i);
      addStrip(i);
      from = knuckle.to;
    }
    addGap(from, blank_.high.x, f_.knuckles.size());
  }

 private:
  double turn() const { return 1.5 * std::numbers::pi - std::asin(inner_ / f_.radius); }

  /// From the plate's outer side round to its inner one, clockwise: the corners of a rod's mesh but for the
  /// last, which may stand anywhere; one too near to it is left out.
  std::vector<Vec2> roundCorners() const {
    constexpr int kSides = tolerance::kCircleSegments;
    constexpr double kStep = 2 * std::numbers::pi / kSides;
    std::vector<Vec2> corners;
    for (int k = 0; k * kStep < turn() - kStep / 4; ++k)
      corners.push_back(unitCircle(-kSides / 4 - k, kSides) * f_.radius);
    corners.push_back({std::sqrt(f_.radius * f_.radius - inner_ * inner_), inner_});
    return corners;
  }

  Vec3 placed(Vec2 across) const { return {0, across.x, outerIsBack_ ? across.y : 0 - across.y}; }
  std::string role(size_t knuckle, const char* plane) const {
    return f_.role + "." + std::to_string(knuckle + 1) + plane;
  }
  Side pastInner() const { return {placed({0, -1}), -inner_, f_.role + ".inner"}; }

  void addEnds(std::vector<Side>& sides, double from, const std::string& low, double to,
               const std::string& high) const {
    if (from > blank_.low.x + kTiny) sides.push_back({{-1, 0, 0}, -from, low});
    if (to < blank_.high.x - kTiny) sides.push_back({{1, 0, 0}, to, high});
  }

  /// Between knuckles `next` - 1 and `next`, counted from 0: nothing of the barrel, and the plate's own
  /// waste.
  void addGap(double from, double to, size_t next) {
    if (to - from < kTiny) return;
    std::vector<Side> ends;
    addEnds(ends, from, next > 0 ? role(next - 1, ".end.high") : "", to, role(next, ".end.low"));
    std::vector<Side> barrel = ends, plate = ends;
    barrel.push_back({{0, 1, 0}, f_.clearance, f_.role + ".clear"});
    plate.push_back(pastInner());
    carving_.cutters.push_back({std::move(barrel)});
    carving_.cutters.push_back({std::move(plate)});
  }

  /// All beyond a chord of the round; beside the plate only what lies past its inner side.
  void addWaste(Vec2 a, Vec2 b, size_t knuckle) {
    const Vec2 way = b - a, out = Vec2{-way.y, way.x} * (1 / length(way));
    std::vector<Side> sides{{placed(out) * -1, -(dot(out, a) + dot(out, b)) / 2, role(knuckle, ".round")}};
    if (out.x > 0) sides.push_back(pastInner());
    const Span& x = f_.knuckles[knuckle];
    addEnds(sides, x.from, role(knuckle, ".end.low"), x.to, role(knuckle, ".end.high"));
    carving_.cutters.push_back({std::move(sides)});
  }

  void addStrip(size_t knuckle) {
    StripCut strip;
    strip.role = role(knuckle, ".round");
    strip.axis = {outerIsBack_ ? -1.0 : 1.0, 0, 0};
    strip.from = placed({0, -f_.radius});
    strip.radius = f_.radius;
    strip.turn = turn();
    carving_.strips.push_back(std::move(strip));
  }

  const Barrel& f_;
  Box3 blank_;
  Carving& carving_;
  bool outerIsBack_ = true;
  double inner_ = 0;  ///< w of the plate's inner side
};

}  // namespace

void addBarrel(const Barrel& feature, const Box3& blank, Carving& carving) {
  BarrelCutter(feature, blank, carving).run();
}

}  // namespace dryfit
