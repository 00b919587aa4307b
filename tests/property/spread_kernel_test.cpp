// The spread of every shipped work and leaf, judged by the kernel: at twenty percentages no two pieces share
// wood; and what it owes a picture: home at nought, clear of each other at the end, no larger than it need
// be.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "order/spread.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// mm3: the kernel's rounding on touching faces stays under it; a wedge 0.05 into its slope shares some 2.
constexpr double kShared = 1e-3;

class EverySpread : public testing::TestWithParam<std::string> {
 protected:
  EverySpread()
      : work_(cutFile(GetParam())),
        states_(lastStates(work_.assembly)),
        spread_(spreadOf(work_.assembly, states_)) {
    for (const Body& b : work_.assembly.bodies)
      home_.push_back(bounds(placed(*b.states.back().mesh, b.worldFromPiece)));
  }

  size_t count() const { return home_.size(); }
  std::vector<Box3> boxesAt(double part) const {
    const std::vector<Vec3> by = spread_.offsetsAt(part);
    std::vector<Box3> out;
    for (size_t i = 0; i < count(); ++i) out.push_back({home_[i].low + by[i], home_[i].high + by[i]});
    return out;
  }
  const std::string& id(size_t i) const { return work_.pieces[i].id; }

  CutWork work_;
  std::vector<int> states_;
  Spread spread_;
  std::vector<Box3> home_;
};

Box3 around(const std::vector<Box3>& boxes) {
  Box3 all;
  for (const Box3& b : boxes) all.add(b);
  return all;
}
double greatest(Vec3 size) {
  return std::max({size.x, size.y, size.z});
}

/// The kernel's general boolean of the exact solids. A pair is asked again only where it stands differently;
/// at home it is fit's affair (works_fit_test.cpp).
TEST_P(EverySpread, SharesNoWoodAtTwentyPercentages) {
  std::map<std::uint64_t, Solid> solids;
  const auto solid = [&](size_t i) -> const Solid& {
    const CutRecipe& cut = work_.pieces[i].last();
    auto known = solids.find(cut.hash);
    if (known == solids.end()) known = solids.emplace(cut.hash, solidFromShell(cut.shell).value()).first;
    return known->second;
  };
  std::map<std::pair<size_t, size_t>, Vec3> asked;
  int judged = 0;
  for (int percent = 5; percent <= 100; percent += 5) {
    const std::vector<Vec3> by = spread_.offsetsAt(percent / 100.0);
    const std::vector<Box3> boxes = boxesAt(percent / 100.0);
    for (size_t a = 0; a < count(); ++a)
      for (size_t b = a + 1; b < count(); ++b) {
        const Vec3 apart = by[a] - by[b];
        if (!near(boxes[a], boxes[b], 0) || length(apart - asked[{a, b}]) < 1e-9) continue;
        asked[{a, b}] = apart;
        const auto shared = commonVolume(solid(a), translation(by[a]) * work_.pieces[a].worldFromPiece,
                                         solid(b), translation(by[b]) * work_.pieces[b].worldFromPiece);
        ASSERT_TRUE(shared.ok()) << id(a) << ", " << id(b);
        EXPECT_LT(shared.value(), kShared) << id(a) << " and " << id(b) << " at " << percent << " %";
        ++judged;
      }
  }
  EXPECT_GE(judged, static_cast<int>(count())) << "every piece passes something on its way";
}

TEST_P(EverySpread, IsHomeAtNoughtAndGoesOnlyOutwards) {
  EXPECT_TRUE(spread_.held.empty());
  for (const Vec3 by : spread_.offsetsAt(0)) EXPECT_EQ(by, Vec3{});
  double last = 0, first = 1;
  for (const auto& stretches : spread_.bodies)
    for (const SpreadStretch& s : stretches) {
      EXPECT_NEAR(length(s.way), 1, 1e-9);
      EXPECT_GT(s.travelMm, 0);
      EXPECT_GE(s.from, 0);
      EXPECT_LT(s.from, s.to);
      EXPECT_LE(s.to, 1);
      first = std::min(first, s.from);
      last = std::max(last, s.to);
    }
  EXPECT_EQ(first, 0) << "it begins at once";
  EXPECT_EQ(last, 1) << "and moves to the end";
  for (size_t i = 0; i < count(); ++i)
    for (size_t k = 1; k < spread_.bodies[i].size(); ++k)
      EXPECT_LE(spread_.bodies[i][k - 1].from, spread_.bodies[i][k].from);
}

/// Boxes, not only shapes: then nothing hides in anything seen from the front, the side or above. The least
/// is between a nail of 25 and the bead it came out of.
TEST_P(EverySpread, IsClearAtTheEnd) {
  const std::vector<Box3> boxes = boxesAt(1);
  for (size_t a = 0; a < count(); ++a)
    for (size_t b = a + 1; b < count(); ++b)
      EXPECT_FALSE(near(boxes[a], boxes[b], 1.5)) << id(a) << " and " << id(b);
}

/// A frame grows most across: on each side a tenon's length, a wedge's beyond it, and twice the stand-off of
/// about 5 %; in height by grooves and stub tenons alone. A leaf is thin, so what leaves its faces is
/// measured by its greatest size. Seen from the front, pieces fill at least half as much of what they stand
/// in as at home.
TEST_P(EverySpread, IsNoLargerThanItNeedBe) {
  const Vec3 home = around(home_).size(), apart = around(boxesAt(1)).size();
  EXPECT_LE(apart.x, 1.75 * home.x);
  EXPECT_LE(apart.z, 1.3 * home.z);
  EXPECT_LE(apart.y, home.y + 0.2 * greatest(home));
  double seen = 0;
  for (const Box3& b : home_) seen += b.size().x * b.size().z;
  EXPECT_GE(seen / (apart.x * apart.z), 0.5 * seen / (home.x * home.z));
}

/// Who spreads what is a matter of shape: with other ids all stays as it is.
TEST_P(EverySpread, KnowsNoIds) {
  Assembly renamed = work_.assembly;
  for (size_t i = 0; i < renamed.bodies.size(); ++i) {
    renamed.bodies[i].id = "p" + std::to_string((i * 7919) % 1009);
    renamed.bodies[i].name = "piece";
  }
  const Spread again = spreadOf(renamed, states_);
  for (const double part : {0.3, 0.6, 1.0}) EXPECT_EQ(again.offsetsAt(part), spread_.offsetsAt(part));
}

std::vector<std::string> everyFile() {
  std::vector<std::string> all = shippedWorks();
  for (const std::string& path : shippedDoorSets()) all.push_back(path);
  return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EverySpread, testing::ValuesIn(everyFile()), [](const auto& info) {
  std::string name = std::filesystem::path(info.param).stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace dryfit::tests
