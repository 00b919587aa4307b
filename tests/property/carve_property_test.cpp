// Identities of carving over seeded random blanks and cutters, coordinates mostly on a coarse grid so that
// coincident planes are the rule. Independent routes to the volume: cells of the boxes' own arrangement,
// counted one by one; and inclusion-exclusion over convex intersections, whose volumes a small clipper in
// this file computes. DRYFIT_CARVE_SEEDS sets how many seeds run (300 unless told).
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <numbers>
#include <random>

#include "solid/carve.h"
#include "solid/solid.h"
#include "solid_checks.h"

namespace dryfit {
namespace {

/// Rounding only: volumes up to 1e7 mm3, summed from a few hundred products of doubles.
constexpr double kVolume = 1e-6;

int seedCount() {
  const char* text = std::getenv("DRYFIT_CARVE_SEEDS");
  return text == nullptr ? 300 : std::atoi(text);
}

class Maker {
 public:
  explicit Maker(unsigned seed) : random_(seed) {}
  int number(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  double real(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

  Carving boxes(int most) {
    size_ = {10.0 * number(4, 10), 10.0 * number(2, 6), 10.0 * number(2, 4)};
    Carving c{boxBody(-size_ * 0.5, size_ * 0.5), {}, {}};
    const int count = number(1, most);
    for (int i = 0; i < count; ++i) c.cutters.push_back(box("c" + std::to_string(i)));
    return c;
  }

  /// Boxes whose sides miss each other by anything from nothing to a hundredth.
  Carving almostEqual(int most) {
    Carving c = boxes(most);
    for (ConvexBody& cutter : c.cutters)
      for (Side& side : cutter.sides) side.offset += number(-1, 1) * std::pow(10, real(-13, -2));
    return c;
  }

  /// Boxes with one or two slanted sides more, which cut their corners off.
  Carving slanted(int most) {
    Carving c = boxes(most);
    for (ConvexBody& cutter : c.cutters)
      for (int k = number(0, 2); k > 0; --k) {
        const Vec3 normal{1.0 * number(-2, 2), 1.0 * number(-2, 2), 1.0 * number(-2, 2)};
        if (length(normal) == 0) continue;
        const Vec3 unit = normalized(normal);
        cutter.sides.push_back({unit, dot(unit, {at(0), at(1), at(2)}), cutter.sides[0].role + ".slant"});
      }
    return c;
  }

 private:
  double at(int axis) {
    const double half = size_[axis] / 2;
    return number(0, 9) == 0 ? real(-half, half) : -half + 5.0 * number(0, static_cast<int>(size_[axis] / 5));
  }

  ConvexBody box(const std::string& name) {
    Vec3 low, high;
    for (int i = 0; i < 3; ++i) {
      double a = at(i), b = at(i);
      while (std::abs(a - b) < 1) b = at(i);
      low[i] = std::min(a, b);
      high[i] = std::max(a, b);
      if (number(0, 3) == 0) low[i] = -size_[i] / 2 - 5;
      if (number(0, 3) == 0) high[i] = size_[i] / 2 + 5;
    }
    return testing_solid::box(name, low, high);
  }

  std::mt19937 random_;
  Vec3 size_;
};

/// The cells that the boxes' own planes make of the blank.
class Cells {
 public:
  explicit Cells(const Carving& carving) {
    const Box3 blank = boxOf(carving.blank);
    for (int i = 0; i < 3; ++i) at_[i] = {blank.low[i], blank.high[i]};
    for (const ConvexBody& cutter : carving.cutters) {
      const Box3 box = boxOf(cutter);
      for (int i = 0; i < 3; ++i)
        for (double v : {box.low[i], box.high[i]})
          if (v > blank.low[i] && v < blank.high[i]) at_[i].push_back(v);
    }
    for (auto& v : at_) {
      std::sort(v.begin(), v.end());
      v.erase(std::unique(v.begin(), v.end()), v.end());
    }
    timber_.assign(count(0) * count(1) * count(2), true);
    for (const ConvexBody& cutter : carving.cutters) takeOut(boxOf(cutter));
  }

  double volume() const {
    double sum = 0;
    each([&](int x, int y, int z) {
      if (timber_[index(x, y, z)]) sum += step(0, x) * step(1, y) * step(2, z);
    });
    return sum;
  }

  /// How much timber a line along `axis` through p runs in, between two places along it; p on no plane of the
  /// cells.
  double timberAlong(int axis, Vec3 p, double from = -1e9, double to = 1e9) const {
    double sum = 0;
    each([&](int x, int y, int z) {
      const int cell[] = {x, y, z};
      bool met = timber_[index(x, y, z)];
      for (int i = 0; i < 3; ++i)
        met = met && (i == axis || (p[i] > at_[i][cell[i]] && p[i] < at_[i][cell[i] + 1]));
      if (met)
        sum += std::max(0.0, std::min(to, at_[axis][cell[axis] + 1]) - std::max(from, at_[axis][cell[axis]]));
    });
    return sum;
  }

  int lumps() const { return groups(true, false); }
  /// Groups of empty cells that do not reach the blank's outside.
  int hollows() const { return groups(false, true); }

 private:
  static Box3 boxOf(const ConvexBody& body) {
    Box3 box;
    box.low = {-body.sides[0].offset, -body.sides[2].offset, -body.sides[4].offset};
    box.high = {body.sides[1].offset, body.sides[3].offset, body.sides[5].offset};
    return box;
  }
  size_t count(int axis) const { return at_[axis].size() - 1; }
  size_t index(int x, int y, int z) const { return (x * count(1) + y) * count(2) + z; }
  double step(int axis, int i) const { return at_[axis][i + 1] - at_[axis][i]; }
  double middle(int axis, int i) const { return (at_[axis][i + 1] + at_[axis][i]) / 2; }

  template <class Visit>
  void each(Visit visit) const {
    for (int x = 0; x < static_cast<int>(count(0)); ++x)
      for (int y = 0; y < static_cast<int>(count(1)); ++y)
        for (int z = 0; z < static_cast<int>(count(2)); ++z) visit(x, y, z);
  }

  void takeOut(const Box3& box) {
    each([&](int x, int y, int z) {
      const Vec3 p{middle(0, x), middle(1, y), middle(2, z)};
      bool in = true;
      for (int i = 0; i < 3; ++i) in = in && p[i] > box.low[i] && p[i] < box.high[i];
      if (in) timber_[index(x, y, z)] = false;
    });
  }

  int groups(bool ofTimber, bool closedOnly) const {
    std::vector<bool> seen(timber_.size(), false);
    int found = 0;
    each([&](int x0, int y0, int z0) {
      if (seen[index(x0, y0, z0)] || timber_[index(x0, y0, z0)] != ofTimber) return;
      bool reachesOut = false;
      std::vector<std::array<int, 3>> open{{x0, y0, z0}};
      seen[index(x0, y0, z0)] = true;
      while (!open.empty()) {
        const auto cell = open.back();
        open.pop_back();
        for (int axis = 0; axis < 3; ++axis)
          for (int by : {-1, 1}) {
            auto next = cell;
            next[axis] += by;
            if (next[axis] < 0 || next[axis] >= static_cast<int>(count(axis))) {
              reachesOut = true;
              continue;
            }
            const size_t at = index(next[0], next[1], next[2]);
            if (seen[at] || timber_[at] != ofTimber) continue;
            seen[at] = true;
            open.push_back(next);
          }
      }
      if (!closedOnly || !reachesOut) ++found;
    });
    return found;
  }

  std::vector<double> at_[3];
  std::vector<bool> timber_;
};

/// Volume of an intersection of half spaces by its own route: each side's polygon, clipped without any
/// tolerance, is the base of a cone from the origin. Equal sides are taken once.
double convexVolume(std::vector<Side> sides) {
  std::vector<Side> once;
  for (const Side& side : sides) {
    const bool known = std::any_of(once.begin(), once.end(), [&](const Side& s) {
      return length(s.normal - side.normal) < 1e-9 && std::abs(s.offset - side.offset) < 1e-9;
    });
    if (!known) once.push_back(side);
    for (const Side& s : once)  // both sides of one plane: flat
      if (length(s.normal + side.normal) < 1e-9 && s.offset + side.offset < 1e-9) return 0;
  }
  double sum = 0;
  for (size_t i = 0; i < once.size(); ++i) {
    const Vec3 n = once[i].normal;
    const Vec3 other = std::abs(n.x) < 0.6 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
    const Vec3 u = normalized(cross(n, other)) * 1000, v = cross(n, u), m = n * once[i].offset;
    std::vector<Vec3> polygon{m + u + v, m - u + v, m - u - v, m + u - v};
    for (size_t k = 0; k < once.size() && !polygon.empty(); ++k) {
      if (k == i) continue;
      std::vector<Vec3> kept;
      for (size_t c = 0; c < polygon.size(); ++c) {
        const Vec3 a = polygon[c], b = polygon[(c + 1) % polygon.size()];
        const double da = dot(once[k].normal, a) - once[k].offset,
                     db = dot(once[k].normal, b) - once[k].offset;
        if (da <= 0) kept.push_back(a);
        if (da * db < 0) kept.push_back(a + (b - a) * (da / (da - db)));
      }
      polygon.swap(kept);
    }
    Vec3 area;
    for (size_t c = 1; c + 1 < polygon.size(); ++c)
      area = area + cross(polygon[c] - polygon[0], polygon[c + 1] - polygon[0]);
    sum += once[i].offset * length(area) / 6;
  }
  return sum;
}

/// Blank less the union of the cutters, by inclusion and exclusion over all their meetings.
double volumeByMeetings(const Carving& c) {
  double sum = 0;
  for (unsigned chosen = 0; chosen < (1u << c.cutters.size()); ++chosen) {
    std::vector<Side> sides = c.blank.sides;
    int count = 0;
    for (size_t k = 0; k < c.cutters.size(); ++k)
      if ((chosen >> k & 1) != 0) {
        sides.insert(sides.end(), c.cutters[k].sides.begin(), c.cutters[k].sides.end());
        ++count;
      }
    sum += (count % 2 == 0 ? 1 : -1) * convexVolume(sides);
  }
  return sum;
}

std::string kindOf(const std::string& fault) {
  for (const char* kind : {"nothing is left", "parts", "closed hollow", "touches itself", "mm long",
                           "disagrees", "breaks through", "not square", "runs into"})
    if (fault.find(kind) != std::string::npos) return kind;
  return "other: " + fault;
}

void expectIdentities(const Carving& c, const Shell& shell) {
  EXPECT_TRUE(isClosed(shell));
  const Result<PlanningMesh> mesh = planningMesh(c);
  ASSERT_TRUE(mesh.ok());
  EXPECT_NEAR(dryfit::volume(mesh.value()), volume(shell), kVolume);
  double meshArea = 0;
  for (const Facet& facet : mesh.value().facets) meshArea += area(facet);
  EXPECT_NEAR(meshArea, area(shell), kVolume);
  const Shell turned = mirrored(shell), back = mirrored(turned);
  EXPECT_TRUE(isClosed(turned));
  EXPECT_NEAR(volume(turned), volume(shell), kVolume);
  EXPECT_EQ(back.vertices, shell.vertices);
  for (size_t f = 0; f < shell.flats.size(); ++f) EXPECT_EQ(back.flats[f].loops, shell.flats[f].loops);
  testing_solid::genus(shell);  // expects Euler's count to be even
}

void expectOrderFree(Carving c, const Shell& shell) {
  std::reverse(c.cutters.begin(), c.cutters.end());
  const Result<Shell> other = carve(c);
  if (!other) {  // the last owner's borders may run otherwise, and come out too short
    EXPECT_NE(toText(other.faults()[0]).find("mm long"), std::string::npos) << toText(other.faults()[0]);
    return;
  }
  EXPECT_NEAR(volume(other.value()), volume(shell), kVolume);
  EXPECT_NEAR(area(other.value()), area(shell), kVolume);
}

TEST(CarveProperty, BoxesAgreeWithTheirCells) {
  std::map<std::string, int> outcomes;
  for (int seed = 0; seed < seedCount(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Carving c = Maker(seed).boxes(12);
    const Cells cells(c);
    const Result<Shell> shell = carve(c);
    if (shell) {
      ++outcomes["sound"];
      EXPECT_NEAR(volume(shell.value()), cells.volume(), kVolume);
      EXPECT_EQ(cells.lumps(), 1);
      EXPECT_EQ(cells.hollows(), 0);
      expectIdentities(c, shell.value());
      expectOrderFree(c, shell.value());
    } else {
      const std::string kind = kindOf(toText(shell.faults()[0]));
      ++outcomes[kind];
      EXPECT_FALSE(planningMesh(c).ok());
      if (kind == "nothing is left") {
        EXPECT_EQ(cells.lumps(), 0);
      } else if (kind == "parts") {
        EXPECT_GT(cells.lumps(), 1);
      } else if (kind == "closed hollow") {
        EXPECT_GT(cells.hollows(), 0);
      } else {
        EXPECT_TRUE(kind == "touches itself" || kind == "mm long") << toText(shell.faults()[0]);
      }
    }
    if (testing::Test::HasFailure()) break;
  }
  for (const auto& [kind, count] : outcomes) std::cout << "  " << kind << ": " << count << "\n";
  EXPECT_GT(outcomes["sound"], seedCount() / 5);  // the cases must not all be faults
}

/// Each hole takes its circle, and in the mesh its polygon, times the timber on its axis, counted in the
/// cells.
TEST(CarveProperty, HolesTakeTheTimberOnTheirAxis) {
  constexpr double kPi = std::numbers::pi;
  std::map<std::string, int> outcomes;
  for (int seed = 0; seed < seedCount(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Maker maker(seed);
    Carving c = maker.boxes(4);
    const Cells cells(c);
    double circles = cells.volume(), polygons = circles;
    for (int k = maker.number(1, 3); k > 0; --k) {
      const int axis = maker.number(0, 2);
      RoundCut hole{{}, {}, maker.real(0.3, 2), "bore" + std::to_string(k)};
      for (int i = 0; i < 3; ++i) hole.through[i] = maker.real(-20, 20);
      hole.axis[axis] = maker.number(0, 1) == 0 ? 1 : -1;
      c.holes.push_back(hole);
      const double timber = cells.timberAlong(axis, hole.through);
      circles -= timber * kPi * hole.radius * hole.radius;
      polygons -= timber * 32 * hole.radius * hole.radius * std::sin(2 * kPi / 64);
    }
    const Result<Shell> shell = carve(c);
    const Result<PlanningMesh> mesh = planningMesh(c);
    ASSERT_EQ(shell.ok(), mesh.ok());
    ++outcomes[shell ? "sound" : kindOf(toText(shell.faults()[0]))];
    if (!shell) continue;
    EXPECT_TRUE(isClosed(shell.value()));
    EXPECT_NEAR(volume(shell.value()), circles, kVolume);
    EXPECT_NEAR(dryfit::volume(mesh.value()), polygons, kVolume);
    Vec3 closing;  // outward areas of a closed body cancel
    for (const Facet& f : mesh.value().facets) closing = closing + f.normal * area(f);
    EXPECT_LT(length(closing), kVolume);
    if (testing::Test::HasFailure()) break;
  }
  for (const auto& [kind, count] : outcomes) std::cout << "  " << kind << ": " << count << "\n";
  EXPECT_GT(outcomes["sound"], seedCount() / 10);
  EXPECT_EQ(outcomes["disagrees"], 0);
}

/// The same of holes that end in the wood or before it; every tenth body is bored by the kernel's booleans
/// too.
TEST(CarveProperty, BlindHolesTakeTheTimberBeforeTheirBottom) {
  constexpr double kPi = std::numbers::pi;
  std::map<std::string, int> outcomes;
  int bottoms = 0, judged = 0;
  for (int seed = 0; seed < seedCount(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Maker maker(seed + 70000);
    Carving c = maker.boxes(3);
    const Cells cells(c);
    double circles = cells.volume(), polygons = circles;
    for (int k = maker.number(1, 3); k > 0; --k) {
      const int axis = maker.number(0, 2);
      RoundCut hole{{}, {}, maker.real(0.3, 2), "bore" + std::to_string(k)};
      for (int i = 0; i < 3; ++i) hole.through[i] = maker.real(-20, 20);
      const double way = maker.number(0, 1) == 0 ? 1 : -1;
      hole.axis[axis] = way;
      hole.end = maker.real(-20, 20);
      c.holes.push_back(hole);
      const double bottom = hole.through[axis] + way * *hole.end;
      const double timber = way > 0 ? cells.timberAlong(axis, hole.through, -1e9, bottom)
                                    : cells.timberAlong(axis, hole.through, bottom, 1e9);
      circles -= timber * kPi * hole.radius * hole.radius;
      polygons -= timber * 32 * hole.radius * hole.radius * std::sin(2 * kPi / 64);
    }
    const Result<Shell> shell = carve(c);
    const Result<PlanningMesh> mesh = planningMesh(c);
    ASSERT_EQ(shell.ok(), mesh.ok());
    ++outcomes[shell ? "sound" : kindOf(toText(shell.faults()[0]))];
    if (!shell) continue;
    EXPECT_TRUE(isClosed(shell.value()));
    EXPECT_TRUE(isClosed(mirrored(shell.value())));
    EXPECT_NEAR(volume(shell.value()), circles, kVolume);
    EXPECT_NEAR(volume(mirrored(shell.value())), circles, kVolume);
    EXPECT_NEAR(dryfit::volume(mesh.value()), polygons, kVolume);
    Vec3 closing;
    for (const Facet& f : mesh.value().facets) closing = closing + f.normal * area(f);
    EXPECT_LT(length(closing), kVolume);
    for (const FlatFace& f : shell.value().flats) bottoms += f.loops.empty() ? 1 : 0;
    if (seed % 10 == 0) {
      const auto made = solidFromShell(shell.value());
      const auto plain = solidByBooleans(c);
      ASSERT_TRUE(made.ok() && plain.ok());
      EXPECT_EQ(faultsOf(made.value()), std::vector<std::string>{});
      const auto common = commonVolume(made.value(), {}, plain.value(), {});
      ASSERT_TRUE(common.ok());
      for (double mm3 : {measure(made.value()).volumeMm3, measure(plain.value()).volumeMm3, common.value()})
        EXPECT_NEAR(mm3, circles, 1e-8 * circles);  // the kernel's 1e-7 mm over some 1e4 mm2
      ++judged;
    }
    if (testing::Test::HasFailure()) break;
  }
  for (const auto& [kind, count] : outcomes) std::cout << "  " << kind << ": " << count << "\n";
  EXPECT_GT(outcomes["sound"], seedCount() / 10);
  EXPECT_EQ(outcomes["disagrees"], 0);
  EXPECT_GT(bottoms, seedCount() / 10);
  EXPECT_GE(judged, seedCount() / 100);
}

/// Below tolerance sides count as one plane, above it they do not; whatever is made is closed and of the
/// right size.
TEST(CarveProperty, AlmostEqualSizesAreSoundOrFaults) {
  // Planes up to kPlane apart become one: each side may so shift by 1e-6 over at most 6000 mm2, 12 cutters
  // of 6.
  constexpr double kShifted = 72 * 6000 * 1e-6;
  std::map<std::string, int> outcomes;
  for (int seed = 0; seed < seedCount(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Carving c = Maker(seed).almostEqual(12);
    const Result<Shell> shell = carve(c);
    ++outcomes[shell ? "sound" : kindOf(toText(shell.faults()[0]))];
    if (!shell) continue;
    EXPECT_NEAR(volume(shell.value()), Cells(c).volume(), kShifted);
    expectIdentities(c, shell.value());
    if (testing::Test::HasFailure()) break;
  }
  for (const auto& [kind, count] : outcomes) std::cout << "  " << kind << ": " << count << "\n";
  EXPECT_GT(outcomes["sound"], seedCount() / 10);
}

TEST(CarveProperty, SlantedCuttersAgreeWithInclusionAndExclusion) {
  std::map<std::string, int> outcomes;
  for (int seed = 0; seed < seedCount(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Carving c = Maker(seed).slanted(seed % 4 == 0 ? 8 : 4);
    const Result<Shell> shell = carve(c);
    if (shell) {
      ++outcomes["sound"];
      EXPECT_NEAR(volume(shell.value()), volumeByMeetings(c), kVolume);
      expectIdentities(c, shell.value());
      expectOrderFree(c, shell.value());
    } else {
      const std::string kind = kindOf(toText(shell.faults()[0]));
      ++outcomes[kind];
      if (kind == "disagrees") std::cout << "  " << seed << " " << toText(shell.faults()[0]) << "\n";
      EXPECT_NE(kind.substr(0, 5), "other") << kind;
    }
    if (testing::Test::HasFailure()) break;
  }
  for (const auto& [kind, count] : outcomes) std::cout << "  " << kind << ": " << count << "\n";
  EXPECT_GT(outcomes["sound"], seedCount() / 5);
  EXPECT_EQ(outcomes["disagrees"], 0);
}

}  // namespace
}  // namespace dryfit
