// The spread beyond finished shipped works: as they stand after each step of their order, and leaves nobody
// has drawn. Judged by the planning meshes' closed formula, which the kernel judges elsewhere
// (fit_property_test.cpp).
#include <gtest/gtest.h>

#include <algorithm>

#include "fit/fit.h"
#include "order/order.h"
#include "order/spread.h"
#include "support/random_leaf.h"
#include "support/random_work.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// mm3: planning meshes share exactly nothing when they touch; rounding of displaced corners is far below.
constexpr double kShared = 1e-3;

class Judged {
 public:
  Judged(const Assembly& assembly, const std::vector<int>& states)
      : assembly_(assembly), spread_(spreadOf(assembly, states)) {
    for (int b = 0; b < static_cast<int>(states.size()); ++b)
      if (states[b] >= 0) {
        present_.push_back(b);
        meshes_.push_back(
            placed(*assembly.bodies[b].states[states[b]].mesh, assembly.bodies[b].worldFromPiece));
      }
  }

  const Spread& spread() const { return spread_; }

  void expectNothingShared(int percentages) const {
    for (int k = 1; k <= percentages; ++k) {
      const double part = static_cast<double>(k) / percentages;
      const auto there = at(part);
      for (size_t a = 0; a < there.size(); ++a)
        for (size_t b = a + 1; b < there.size(); ++b)
          EXPECT_LT(sharedVolume(there[a], there[b]).volumeMm3, kShared)
              << id(a) << " and " << id(b) << " at " << part;
    }
  }

  /// Boxes apart at the end, but for what is formed: a doorway is in its wall.
  void expectClear() const {
    std::vector<Box3> boxes;
    for (const PlanningMesh& m : at(1)) boxes.push_back(bounds(m));
    for (size_t a = 0; a < boxes.size(); ++a)
      for (size_t b = a + 1; b < boxes.size(); ++b)
        if (!formed(a) && !formed(b)) {
          EXPECT_FALSE(near(boxes[a], boxes[b], 0.5)) << id(a) << " and " << id(b);
        }
  }

 private:
  bool formed(size_t i) const { return assembly_.bodies[present_[i]].formed; }
  const std::string& id(size_t i) const { return assembly_.bodies[present_[i]].id; }
  std::vector<PlanningMesh> at(double part) const {
    const std::vector<Vec3> by = spread_.offsetsAt(part);
    std::vector<PlanningMesh> out;
    for (size_t i = 0; i < present_.size(); ++i)
      out.push_back(placed(meshes_[i], translation(by[present_[i]])));
    return out;
  }

  const Assembly& assembly_;
  Spread spread_;
  std::vector<int> present_;
  std::vector<PlanningMesh> meshes_;
};

/// What stands on the bench after each step, in the states it is in then.
std::vector<std::vector<int>> afterEachStep(const Assembly& assembly) {
  const auto planned = plan(assembly);
  std::vector<std::vector<int>> out;
  if (!std::holds_alternative<OrderOfWork>(planned)) return out;
  std::vector<int> states(assembly.bodies.size(), 0);
  std::vector<bool> there(states.size());
  int unit = -1;
  for (const Step& step : std::get<OrderOfWork>(planned).steps) {
    if (step.unit != unit) there.assign(there.size(), false);
    unit = step.unit;
    for (const int b : step.bodies) there[b] = true;
    for (const StateChange& c : step.changes) states[c.body] = c.from + 1;
    std::vector<int> now = states;
    for (size_t b = 0; b < now.size(); ++b)
      if (!there[b]) now[b] = -1;
    out.push_back(now);
  }
  return out;
}

TEST(SpreadProperty, EveryStepOfEveryWorkComesApart) {
  std::vector<std::string> files = shippedWorks();
  for (const std::string& path : shippedDoorSets()) files.push_back(path);
  for (const std::string& path : files) {
    SCOPED_TRACE(path);
    const CutWork work = cutFile(path);
    const auto all = afterEachStep(work.assembly);
    ASSERT_FALSE(all.empty());
    for (size_t i = 0; i < all.size(); ++i) {
      SCOPED_TRACE("after step " + std::to_string(i + 1));
      const Judged judged(work.assembly, all[i]);
      EXPECT_TRUE(judged.spread().held.empty());
      judged.expectClear();
      for (size_t b = 0; b < all[i].size(); ++b)
        EXPECT_TRUE(all[i][b] >= 0 || judged.spread().bodies[b].empty()) << "not there, and moves";
    }
  }
}

/// Proud tenons and wedges, horns, and the hole of a draw-bored tenon off centre until its pin is driven: a
/// frame as it stands right before that.
TEST(SpreadProperty, RoughStatesShareNothingOnTheWay) {
  for (const char* name : {"panel-frame", "draw-bored-frame", "hatch-grounds"}) {
    SCOPED_TRACE(name);
    const CutWork work = shippedWork(name);
    const auto all = afterEachStep(work.assembly);
    for (const size_t i : {all.size() / 2, all.size() - 3}) {
      SCOPED_TRACE("after step " + std::to_string(i + 1));
      Judged(work.assembly, all[i]).expectNothingShared(20);
    }
  }
}

TEST(SpreadProperty, RandomLeavesComeApartAndShareNothingOnTheWay) {
  Chance chance{std::mt19937(20)};
  int spread = 0;
  for (int tried = 0; spread < leavesAsked(12) && tried < 40 * leavesAsked(12); ++tried) {
    const std::string text = doorSetOf(randomLeaf(chance));
    if (!faultsOfLeafAlone(text).empty()) continue;
    SCOPED_TRACE(text);
    const CutWork work = cutLeafAlone(text);
    if (work.pieces.size() > 120 || !std::holds_alternative<OrderOfWork>(plan(work.assembly))) continue;
    const Judged judged(work.assembly, lastStates(work.assembly));
    EXPECT_TRUE(judged.spread().held.empty());
    judged.expectClear();
    judged.expectNothingShared(20);
    ++spread;
  }
  EXPECT_EQ(spread, leavesAsked(12));
}

/// Bars that cross, dovetails, wedges: many of these do not come apart at all, or only by turns.
TEST(SpreadProperty, RandomWorksShareNothingOnTheWayAndComeApartWhenTheyGoTogether) {
  std::mt19937 random(4);
  int parted = 0, held = 0;
  for (int i = 0; i < 80; ++i) {
    SCOPED_TRACE(i);
    const Assembly assembly = randomWork(random, 3 + i % 5).assembly(i % 4 == 0);
    const Judged judged(assembly, lastStates(assembly));
    judged.expectNothingShared(20);
    held += !judged.spread().held.empty();
    if (!std::holds_alternative<OrderOfWork>(plan(assembly))) continue;
    EXPECT_TRUE(judged.spread().held.empty());
    judged.expectClear();
    ++parted;
  }
  EXPECT_GE(parted, 20);
  EXPECT_GE(held, 5);
}

/// The leaf of the other hand is spread as its mirror image would be: the same travels.
TEST(SpreadProperty, TheOtherHandStandsApartAsFar) {
  const std::string body =
      "[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"bottom\"\n"
      "[[leaf.row]]\nmuntins = 1\n";
  double lengths[2] = {0, 0};
  for (const int hand : {0, 1}) {
    const CutWork work = cutLeafAlone(doorSetOf(body, hand == 0 ? "left" : "right"));
    const Spread s = spreadOf(work.assembly, lastStates(work.assembly));
    EXPECT_TRUE(s.held.empty());
    for (const Vec3 by : s.offsetsAt(1)) lengths[hand] += length(by);
  }
  EXPECT_NEAR(lengths[0], lengths[1], 1e-6 * lengths[0]);
}

}  // namespace
}  // namespace dryfit::tests
