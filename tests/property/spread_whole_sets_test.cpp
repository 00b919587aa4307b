// The spread of whole door sets, in their walls: at five percentages nothing shares wood that does not at
// home, every unit leaves by one side of the wall and stands in the order it was put there, nothing comes
// back on its way off the wall. Judged by the planning meshes' closed formula, which the kernel judges
// elsewhere (fit_property_test.cpp).
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include "fit/fit.h"
#include "order/spread.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// mm3: planning meshes that touch share nothing; rounding of displaced corners is far below.
constexpr double kShared = 1e-3;
/// mm: coordinates of some thousands, a handful of sums.
constexpr double kSameMm = 1e-6;

std::string textOf(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

bool begins(const std::string& id, const std::string& head) {
  return id.compare(0, head.size(), head) == 0;
}

bool beginsWithOne(const std::string& id, const std::vector<std::string>& heads) {
  return std::any_of(heads.begin(), heads.end(), [&](const std::string& head) { return begins(id, head); });
}

class Set {
 public:
  explicit Set(const std::string& text)
      : work_(cutDoorSet(text)),
        spread_(spreadOf(work_.assembly, lastStates(work_.assembly))),
        by_(spread_.offsetsAt(1)) {
    for (const Body& b : bodies()) meshes_.push_back(placed(*b.states.back().mesh, b.worldFromPiece));
    for (size_t i = 0; i < count(); ++i) boxes_.push_back(bounds(placed(meshes_[i], translation(by_[i]))));
  }

  const CutWork& work() const { return work_; }
  const std::vector<Body>& bodies() const { return work_.assembly.bodies; }
  size_t count() const { return bodies().size(); }
  const std::string& id(size_t i) const { return bodies()[i].id; }
  const Spread& spread() const { return spread_; }
  Vec3 by(size_t i) const { return by_[i]; }
  const Box3& box(size_t i) const { return boxes_[i]; }  ///< apart
  Box3 home(size_t i) const { return bounds(meshes_[i]); }

  double shared(size_t a, size_t b, Vec3 byA, Vec3 byB) const {
    return sharedVolume(placed(meshes_[a], translation(byA)), placed(meshes_[b], translation(byB))).volumeMm3;
  }

  /// The boxes of all whose ids begin so, apart.
  Box3 apart(const std::vector<std::string>& heads) const {
    Box3 all;
    for (size_t i = 0; i < count(); ++i)
      if (beginsWithOne(id(i), heads)) all.add(boxes_[i]);
    return all;
  }

 private:
  CutWork work_;
  Spread spread_;
  std::vector<Vec3> by_;
  std::vector<PlanningMesh> meshes_;
  std::vector<Box3> boxes_;
};

void expectAllApartAndWhatIsFormedHome(const Set& set) {
  EXPECT_TRUE(set.spread().held.empty());
  for (size_t i = 0; i < set.count(); ++i)
    if (set.bodies()[i].formed) {
      EXPECT_TRUE(set.spread().bodies[i].empty()) << set.id(i);
    } else {
      EXPECT_GT(length(set.by(i)) + (begins(set.id(i), "grounds") ? 1 : 0), 0) << set.id(i);
    }
  for (size_t a = 0; a < set.count(); ++a)
    for (size_t b = a + 1; b < set.count(); ++b)
      if (!set.bodies()[a].formed && !set.bodies()[b].formed) {
        EXPECT_FALSE(near(set.box(a), set.box(b), 0.5)) << set.id(a) << " and " << set.id(b);
      }
}

void expectNoMoreSharedThanAtHome(const Set& set) {
  for (const double part : {0.25, 0.5, 0.75, 1.0}) {
    const std::vector<Vec3> by = set.spread().offsetsAt(part);
    for (size_t a = 0; a < set.count(); ++a)
      for (size_t b = a + 1; b < set.count(); ++b) {
        const double mm3 = set.shared(a, b, by[a], by[b]);
        if (mm3 < kShared) continue;
        EXPECT_LE(mm3, set.shared(a, b, {}, {}) + kShared)
            << set.id(a) << " and " << set.id(b) << " at " << part;
      }
  }
  for (const Vec3 by : set.spread().offsetsAt(0)) EXPECT_EQ(length(by), 0);
}

/// Off the wall one way only. Small pieces leave what carries them the other way: what is planted on a leaf's
/// back, screws.
void expectNothingComesBack(const Set& set) {
  for (size_t i = 0; i < set.count(); ++i) {
    const bool isMember =
        beginsWithOne(set.id(i), {"architrave", "skirting", "stop", "grounds", "lining", "backing",
                                  "leaf.stile", "leaf.rail", "leaf.panel", "leaf.muntin"}) &&
        set.id(i).find("wedge") == std::string::npos;
    for (const SpreadStretch& s : set.spread().bodies[i]) {
      EXPECT_LT(s.from, s.to) << set.id(i);
      EXPECT_GT(s.travelMm, 0) << set.id(i);
      EXPECT_TRUE(!isMember || s.way.y * set.by(i).y >= 0) << set.id(i);
    }
  }
}

/// Off the wall is along Y, the front towards -Y (the file format's own frame).
/// What stands on one face leaves by it, the leaf by the front, every unit by one side.
void expectEachOnItsSide(const Set& set) {
  Box3 wall;
  for (size_t i = 0; i < set.count(); ++i)
    if (beginsWithOne(set.id(i), {"wall", "plaster", "boarding"})) wall.add(set.home(i));
  std::map<int, std::pair<double, double>> ofUnit;  // least and most off the wall
  for (size_t i = 0; i < set.count(); ++i) {
    const Body& body = set.bodies()[i];
    const double off = set.by(i).y;
    if (body.formed) continue;
    if (begins(body.id, "leaf.")) {
      EXPECT_LT(off, 0) << body.id;
    } else if (set.home(i).high.y < wall.centre().y && !begins(body.id, "hinge")) {
      EXPECT_LE(off, 0) << body.id;
    } else if (set.home(i).low.y > wall.centre().y) {
      EXPECT_GE(off, 0) << body.id;
    }
    if (!begins(body.id, "lining.") && !begins(body.id, "grounds.")) continue;
    EXPECT_NE(off, 0) << body.id;
    auto& [least, most] = ofUnit.try_emplace(body.unit, off, off).first->second;
    least = std::min(least, off);
    most = std::max(most, off);
  }
  for (const auto& [unit, range] : ofUnit) EXPECT_GT(range.first * range.second, 0) << "unit " << unit;
}

/// The grounds nearest the wall, the trim outermost, on either side; between them what else there is.
void expectInOrder(const Set& set) {
  const std::vector<std::string> between = {"leaf.", "lining.", "stop."};
  for (const int side : {0, 1}) {
    const std::string name = side == 0 ? "front" : "back";
    const double way = side == 0 ? -1 : 1;
    const auto nearMm = [&](const Box3& box) { return side == 0 ? -box.high.y : box.low.y; };
    const auto farMm = [&](const Box3& box) { return side == 0 ? -box.low.y : box.high.y; };
    const Box3 trim = set.apart({"architrave." + name}), grounds = set.apart({"grounds." + name});
    ASSERT_FALSE(trim.empty());
    for (size_t i = 0; i < set.count(); ++i) {
      if (!beginsWithOne(set.id(i), between) || set.by(i).y * way <= 0) continue;
      EXPECT_LT(farMm(set.box(i)), nearMm(trim)) << set.id(i);
      if (grounds.empty()) continue;
      EXPECT_GT(nearMm(set.box(i)), farMm(grounds)) << set.id(i);
    }
  }
}

TEST(SpreadOfSets, EveryShippedSetStandsApartInLayers) {
  for (const std::string& path : shippedDoorSets()) {
    SCOPED_TRACE(path);
    const Set set(textOf(path));
    expectAllApartAndWhatIsFormedHome(set);
    expectNoMoreSharedThanAtHome(set);
    expectNothingComesBack(set);
    expectEachOnItsSide(set);
    expectInOrder(set);
  }
}

std::string otherId(std::string id) {
  if (!begins(id, "skirting.")) return id;
  for (const auto& [one, other] : {std::pair{".left", ".right"}, std::pair{".right", ".left"}})
    if (const size_t at = id.rfind(one); at != std::string::npos)
      return id.replace(at, std::string::npos, other);
  return id;
}

/// The same set, hung on the other side: its mirror image, and found again the same.
TEST(SpreadOfSets, TheOtherHandStandsApartMirrored) {
  const std::string left = "title = \"Store door\"\n[leaf]\nhand = \"left\"\n",
                    right = "title = \"Store door\"\n[leaf]\nhand = \"right\"\n";
  const Set one(left), other(right);
  const std::vector<Vec3> again = spreadOf(one.work().assembly, lastStates(one.work().assembly)).offsetsAt(1);
  std::map<std::string, size_t> others;
  for (size_t i = 0; i < other.count(); ++i) others[other.id(i)] = i;
  ASSERT_EQ(one.count(), other.count());
  for (size_t i = 0; i < one.count(); ++i) {
    ASSERT_TRUE(others.contains(otherId(one.id(i)))) << one.id(i);
    const Vec3 by = one.by(i), mirrored = other.by(others[otherId(one.id(i))]);
    EXPECT_NEAR(length(by - Vec3{-mirrored.x, mirrored.y, mirrored.z}), 0, kSameMm) << one.id(i);
    EXPECT_EQ(length(by - again[i]), 0) << one.id(i);
  }
}

}  // namespace
}  // namespace dryfit::tests
