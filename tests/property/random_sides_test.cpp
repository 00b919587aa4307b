// What features leave of flat sides, over seeded random boxes with random features on a coarse grid: against
// the facets that carving leaves on that side, and two such boxes laid together against what the fit finds.
// Carving compares whole planes in space; the sides are worked out in two dimensions, feature by feature.
#include <gtest/gtest.h>

#include <random>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "joint/side_overlap.h"
#include "piece/piece.h"
#include "settingout/moulding_profiles.h"

namespace dryfit {
namespace {

/// mm2, of up to 1e5: a few hundred clipped polygons, each rounded to 1e-9 or dropped below it.
constexpr double kArea = 1e-5;

class Maker {
 public:
  explicit Maker(unsigned seed) : random_(seed) {}
  int number(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  Towards side() { return number(0, 1) ? Towards::High : Towards::Low; }

  Recipe recipe() {
    size_ = {20.0 * number(10, 30), 10.0 * number(5, 12), 4.0 * number(5, 12)};
    Recipe r;
    r.blank = BoxBlank{size_.x, size_.y, size_.z};
    if (number(0, 5) == 0) r.features.push_back(section());
    for (int i = number(1, 4); i > 0; --i) r.features.push_back(feature(i));
    return r;
  }

 private:
  /// A span on the grid within the blank along an axis; often it reaches one of its sides.
  Span span(int axis) {
    const double half = size_[axis] / 2, step = size_[axis] / 10;
    const int from = number(0, 8), to = number(from + 1, 10);
    return {-half + step * from, -half + step * to};
  }
  Vec3 spot() {
    return {size_.x * number(-4, 4) / 10, size_.y * number(-3, 3) / 10, size_.z * number(-2, 2) / 10};
  }

  RunSection section() {
    const char* names[] = {"chamfer", "ovolo", "scotia", "ogee", "bead"};
    const auto path = namedProfile(names[number(0, 4)], size_.y, size_.z, {});
    return runSection("section", path.value(), size_.y, size_.z, number(0, 1));
  }

  PlanedWaste planed(const std::string& role) {
    PlanedWaste w{role, {}};
    const Vec3 n = normalized({1.0 * number(-2, 2), 1.0 * number(-2, 2) + 0.5, 1.0 * number(-2, 2)});
    w.sides.push_back({n, dot(n, spot()), "slant"});
    const Span x = span(0);
    w.sides.push_back({{1, 0, 0}, x.to, "high"});
    w.sides.push_back({{-1, 0, 0}, -x.from, "low"});
    return w;
  }

  Feature feature(int index) {
    const std::string role = "f" + std::to_string(index);
    switch (number(0, 12)) {
      case 0:
        return Groove{role, side(), size_.y / 10 * number(1, 4), span(2), {}};
      case 1:
        return Groove{role, side(), size_.y / 10 * number(1, 4), span(2), span(0)};
      case 2:
        return Mortise{role, side(), span(0), span(2), {}, size_.y / 4, 4, 6};
      case 3:
        return Mortise{role, side(), span(0), span(2), size_.y / 10 * number(2, 8), 0, 0, 0};
      case 4:
        return DovetailNotch{role, side(), size_.y / 10 * number(1, 4), span(0), 1.0 * number(-3, 3)};
      case 5: {
        const Towards end = side();
        const double at = size_.x / 10 * number(3, 5) * (end == Towards::High ? 1 : -1);
        return CutOff{end == Towards::High ? "end.high" : "end.low", end, at, 2.0 * number(-1, 1)};
      }
      case 6: {
        const Towards edge = side();
        return EdgeBevel{edge == Towards::High ? "edge.high" : "edge.low", edge, 3, side()};
      }
      case 7: {
        const Towards end = side();
        const double sign = end == Towards::High ? 1 : -1, half = size_.x / 2;
        return Mitre{role, end, sign * (half - 10 * number(0, 4)), sign * (half - 10 * number(0, 4) - 5)};
      }
      case 8:
        return planed(role);
      case 9: {
        const int axis = number(0, 2);
        return RoundHole{role,
                         axis,
                         side(),
                         spot(),
                         1.5 + number(0, 2),
                         number(0, 1) ? std::optional<double>() : size_[axis] / 3};
      }
      case 10:
        return Bore{role, size_.x * number(-4, 4) / 10, size_.y * number(-3, 3) / 10, 2.5};
      default:
        return Recess{role, span(0), span(1), span(2)};
    }
  }

  std::mt19937 random_;
  Vec3 size_;
};

/// The facets of that name in the side's plane.
double facetsOn(const PlanningMesh& mesh, const SideLeft& side, const std::string& role) {
  Vec3 out;
  out[side.axis] = side.side == Towards::High ? 1 : -1;
  double sum = 0;
  for (const Facet& f : mesh.facets)
    if (mesh.roles[static_cast<size_t>(f.role)] == role && length(f.normal - out) < tolerance::kDirection &&
        std::abs(f.points[0][side.axis] - side.plane) < tolerance::kPlane)
      sum += area(f);
  return sum;
}

TEST(RandomSides, AreWhatCarvingLeavesOfThem) {
  int made = 0;
  for (unsigned seed = 1; seed <= 1500; ++seed) {
    const Recipe recipe = Maker(seed).recipe();
    const auto mesh = planningMesh(carvingOf(recipe));
    if (!mesh) continue;  // a hole at an arris, an edge too short: refused for its own reasons
    ++made;
    for (int face = 0; face < 6; ++face) {
      const SideLeft side = sideLeft(recipe, face);
      EXPECT_NEAR(side.region.areaMm2(),
                  facetsOn(mesh.value(), side, recipe.blankRoles[static_cast<size_t>(face)]), kArea)
          << "seed " << seed << " face " << face << "\n"
          << toText(recipe);
    }
  }
  EXPECT_GT(made, 800);
}

/// The second box lies with one of its sides on one of the first's, moved along it.
TEST(RandomSides, LaidTogetherTouchAsTheFitFindsThem) {
  int touching = 0;
  for (unsigned seed = 1; seed <= 600; ++seed) {
    Maker maker(seed + 10000);
    const Recipe a = maker.recipe(), b = maker.recipe();
    const auto meshA = planningMesh(carvingOf(a)), meshB = planningMesh(carvingOf(b));
    if (!meshA || !meshB) continue;
    const int faceA = maker.number(0, 5), faceB = maker.number(0, 5);
    const SideLeft sideA = sideLeft(a, faceA), sideB = sideLeft(b, faceB);
    // b's axis onto a's the other way about, its next axis onto a's next.
    Vec3 axisA, nextA, axisB, nextB, along;
    axisA[sideA.axis] = sideA.side == Towards::High ? 1 : -1;
    nextA[(sideA.axis + 1) % 3] = 1;
    axisB[sideB.axis] = sideB.side == Towards::High ? -1 : 1;
    nextB[(sideB.axis + 1) % 3] = 1;
    const Placement inA{axisA, nextA, cross(axisA, nextA), {}}, inB{axisB, nextB, cross(axisB, nextB), {}};
    Placement aFromB = inA * inverse(inB);
    along[(sideA.axis + 1) % 3] = 5 * maker.number(-10, 10);
    along[(sideA.axis + 2) % 3] = 5 * maker.number(-10, 10);
    Vec3 onB;
    onB[sideB.axis] = sideB.plane;
    aFromB.origin = along - aFromB.direction(onB);
    aFromB.origin[sideA.axis] = sideA.plane - aFromB.direction(onB)[sideA.axis];
    double found = 0;
    for (const Touch& t : touches(meshA.value(), placed(meshB.value(), aFromB)))
      if (t.roleA == a.blankRoles[static_cast<size_t>(faceA)] &&
          t.roleB == b.blankRoles[static_cast<size_t>(faceB)])
        found += t.areaMm2;
    const double stated = overlapMm2(sideA, {}, sideB, aFromB);
    touching += stated > 1;
    // The fit leaves out what is under kTouchArea.
    EXPECT_NEAR(stated, found, kArea + tolerance::kTouchArea)
        << "seed " << seed << " faces " << faceA << " " << faceB << "\n"
        << toText(a) << toText(b);
  }
  EXPECT_GT(touching, 150);
}

}  // namespace
}  // namespace dryfit
