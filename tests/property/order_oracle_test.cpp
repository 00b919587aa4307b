// The planner against a brute-force judge that moves kernel solids about (support/brute_kernel.h): on the
// works that ship and on small works made by chance. The judge shares no code with the planner: it knows
// places and the kernel's `Common` only.
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

#include "cli/load_work.h"
#include "support/brute_kernel.h"
#include "support/random_work.h"

namespace dryfit::tests {
namespace {

std::string all(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

class ShippedWork : public testing::TestWithParam<const char*> {};

TEST_P(ShippedWork, PlanPlaysOnTheKernelAndBothFindAnOrder) {
  const auto work = cli::loadWork(std::string(DRYFIT_ROOT "/assets/works/") + GetParam() + ".toml");
  ASSERT_TRUE(work.ok()) << toText(work.faults()[0]);
  const Assembly& assembly = work.value().assembly;
  KernelScene scene(work.value());
  Places places;
  places.everyMm = 25;  // the shipped pieces are 44 and more across: nothing is passed between two places
  for (const bool byShape : {false, true}) {
    const auto planned = plan(assembly, {byShape});
    ASSERT_TRUE(std::holds_alternative<OrderOfWork>(planned)) << std::get<Locked>(planned).text;
    const auto faults = faultsOfPlan(scene, assembly, std::get<OrderOfWork>(planned), places);
    EXPECT_TRUE(faults.empty()) << all(faults);
  }
  Search search;
  search.places = places;
  const BruteOrder brute = bruteOrder(scene, assembly, search);
  EXPECT_TRUE(brute.solvable) << brute.left.size() << " pieces stay in unit " << brute.unit;
  std::cout << GetParam() << ": " << assembly.bodies.size() << " pieces, the kernel asked " << scene.asked()
            << " times\n";
}

INSTANTIATE_TEST_SUITE_P(Order, ShippedWork,
                         testing::Values("practice-corner", "draw-bored-frame", "hatch-grounds",
                                         "panel-frame", "muntin-frame"),
                         [](const auto& info) {
                           std::string name = info.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

constexpr int kWorksEach = 50;

/// Bars lie on the grid, so half a cell beyond each of its steps they show whatever is hit at the step before
/// or after; what is off the grid (tenons, splayed sides) is 5 thick and passes 10 thick wood over more than
/// a cell.
Search gridSearch() {
  Search search;
  search.places = {{kCellMm / 2}, kCellMm};
  search.mostLegs = 3;
  search.stopEveryMm = kCellMm;
  return search;
}

class RandomWorks : public testing::TestWithParam<int> {};

TEST_P(RandomWorks, PlannerAndJudgeAgreeOnLocked) {
  std::mt19937 random(GetParam());  // fixed: the same works on every machine
  int locked = 0, slanted = 0, slantedLocked = 0, asked = 0;
  for (int n = 0; n < kWorksEach; ++n) {
    SCOPED_TRACE("work " + std::to_string(n));
    const RandomWork work = randomWork(random, 3 + n % 4);
    KernelScene scene;
    for (const RandomPiece& p : work.pieces) scene.add(p.worldFromPiece, {&p.cut->shell});
    for (int a = 0; a < scene.count(); ++a)
      for (int b = 0; b < a; ++b)
        // Planes at whole and half millimetres and slopes of their own corners: rounding only.
        ASSERT_LT(scene.shared({a, 0}, {}, {b, 0}), 1e-3) << a << " and " << b;
    const Assembly assembly = work.assembly(n % 5 == 0);
    const auto planned = plan(assembly);
    const BruteOrder brute = bruteOrder(scene, assembly, gridSearch());
    const auto* lockedPlan = std::get_if<Locked>(&planned);
    EXPECT_EQ(lockedPlan == nullptr, brute.solvable)
        << (lockedPlan ? lockedPlan->text : "the judge is stuck");
    if (lockedPlan) {
      EXPECT_EQ(lockedPlan->bodies, brute.left) << lockedPlan->text;
      EXPECT_EQ(lockedPlan->unit, brute.unit);
    } else {
      const auto faults = faultsOfPlan(scene, assembly, std::get<OrderOfWork>(planned), gridSearch().places);
      EXPECT_TRUE(faults.empty()) << all(faults);
    }
    locked += !brute.solvable;
    slanted += work.slanted;
    slantedLocked += work.slanted && !brute.solvable;
    asked += scene.asked();
  }
  std::cout << kWorksEach << " works, " << locked << " locked; " << slanted << " with slanted faces, "
            << slantedLocked << " of them locked; the kernel asked " << asked << " times\n";
  // Both answers often, or agreement says little.
  EXPECT_GE(locked, kWorksEach * 30 / 100);
  EXPECT_GE(kWorksEach - locked, kWorksEach * 30 / 100);
}

/// The judge of plans is no yes-man.
TEST(OrderOracle, APlanTurnedRoundIsFoundOut) {
  const auto work = cli::loadWork(DRYFIT_ROOT "/assets/works/practice-corner.toml");
  ASSERT_TRUE(work.ok());
  const Assembly& assembly = work.value().assembly;
  KernelScene scene(work.value());
  const OrderOfWork good = std::get<OrderOfWork>(plan(assembly));
  ASSERT_TRUE(faultsOfPlan(scene, assembly, good, {}).empty());
  int moves = 0;
  for (size_t i = 0; i < good.steps.size(); ++i) {
    if (good.steps[i].moves.empty()) continue;
    ++moves;
    OrderOfWork bad = good;
    Leg& leg = bad.steps[i].moves[0].legs[0];
    leg.direction = -leg.direction;  // through the piece it should come to
    EXPECT_FALSE(faultsOfPlan(scene, assembly, bad, {}).empty()) << good.steps[i].text;
    bad = good;
    std::rotate(bad.steps.begin(), bad.steps.begin() + i, bad.steps.begin() + i + 1);  // before all others
    EXPECT_FALSE(faultsOfPlan(scene, assembly, bad, {}).empty()) << good.steps[i].text;
  }
  EXPECT_GE(moves, 2);  // the rail and the wedges
}

INSTANTIATE_TEST_SUITE_P(Order, RandomWorks, testing::Values(1, 2, 10, 13));

}  // namespace
}  // namespace dryfit::tests
