// Why one thing goes before another, for pairs by chance on every shipped work and whole door set: the answer
// against plans of the same work. Orders shown are replayed by shared volume; that the other order cannot be
// had is asked again of a plan whose only rule of the trade wants it.
#include "order/why.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "order_replay.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

using Kind = WhyAnswer::Kind;

/// The steps of each bench together, sub-units before their parents, as the replay wants them.
OrderOfWork benchByBench(const Assembly& assembly, OrderOfWork work) {
  const auto depth = [&](int unit) {
    int d = 0;
    for (int u = unit; assembly.units[u].parent >= 0; u = assembly.units[u].parent) ++d;
    return std::pair(-d, unit);
  };
  std::stable_sort(work.steps.begin(), work.steps.end(),
                   [&](const Step& x, const Step& y) { return depth(x.unit) < depth(y.unit); });
  return work;
}

/// The step by which the piece itself comes: the first that brings it.
size_t placeOf(const OrderOfWork& work, int body) {
  for (size_t i = 0; i < work.steps.size(); ++i) {
    const Step& s = work.steps[i];
    const bool brings = s.event == "fit" || s.event == "drive" || s.event == "fasten" || s.event == "form";
    if (brings && std::count(s.bodies.begin(), s.bodies.end(), body)) return i;
  }
  throw std::runtime_error("never comes");
}

/// A finished unit comes after everything that is done on its bench.
void expectUnitsWhole(const Assembly& assembly, const OrderOfWork& work) {
  std::vector<size_t> last(assembly.units.size(), 0);
  for (size_t i = 0; i < work.steps.size(); ++i) last[work.steps[i].unit] = i;
  for (size_t i = 0; i < work.steps.size(); ++i)
    for (const Move& m : work.steps[i].moves)
      if (m.unit >= 0) {
        EXPECT_GT(i, last[m.unit]) << assembly.units[m.unit].name;
      }
}

void expectStands(const Assembly& assembly, const WhyOrder& order, int first, int then, bool asTold) {
  expectUnitsWhole(assembly, order.work);
  EXPECT_EQ(order.first, placeOf(order.work, first));
  EXPECT_EQ(order.then, placeOf(order.work, then));
  EXPECT_EQ(order.first < order.then, asTold);
}

void expectPlays(const Assembly& assembly, const WhyOrder& order, int first, int then, bool asTold) {
  expectStands(assembly, order, first, then, asTold);
  ordertest::Replay(assembly, benchByBench(assembly, order.work));
}

/// True when a plan with no other rule than this keeps `first` before `then`.
bool plannedBefore(Assembly assembly, int first, int then) {
  assembly.rules = {{"the one first", "", {first}, {}, {}, "", {then}}};
  const auto result = plan(assembly);
  const auto& order = std::get<OrderOfWork>(result);
  return placeOf(order, first) < placeOf(order, then);
}

/// One answer held to what it says.
Kind judged(const Assembly& assembly, int a, int b) {
  SCOPED_TRACE(assembly.bodies[a].id + " and " + assembly.bodies[b].id);
  const WhyAnswer answer = why(assembly, {a, -1}, {b, -1});
  const int first = answer.swapped ? b : a, then = answer.swapped ? a : b;
  EXPECT_FALSE(answer.text.empty());
  if (answer.kind == Kind::Either || answer.kind == Kind::ByRule) {
    EXPECT_EQ(answer.orders.size(), 2u);
    if (answer.orders.size() != 2u) return answer.kind;
    const bool asTold = answer.orders[0].first < answer.orders[0].then;
    if (answer.kind == Kind::ByRule) {
      EXPECT_TRUE(asTold);
    }
    expectStands(assembly, answer.orders[0], first, then, asTold);  // as planned anyway: others replay it
    expectPlays(assembly, answer.orders[1], first, then, !asTold);
  }
  for (const WhyOrder& order : answer.elsewhere) expectPlays(assembly, order, first, then, false);
  if (answer.kind == Kind::Forced || answer.kind == Kind::ByRule) {
    EXPECT_FALSE(answer.chain.empty());
    for (size_t i = 1; i < answer.chain.size(); ++i)
      EXPECT_EQ(answer.chain[i - 1].then, answer.chain[i].first);
    for (const WhyLink& link : answer.chain) EXPECT_FALSE(link.text.empty());
  }
  if (answer.kind == Kind::Forced && answer.elsewhere.empty() &&
      answer.chain[0].kind != WhyLink::Kind::Unit) {
    EXPECT_FALSE(plannedBefore(assembly, then, first)) << answer.text;
  }
  if (answer.kind == Kind::ByRule && answer.chain[0].kind != WhyLink::Kind::Unit) {
    EXPECT_TRUE(plannedBefore(assembly, then, first)) << answer.text;
  }
  return answer.kind;
}

class WhyOrders : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Works, WhyOrders, testing::ValuesIn(shippedWorks()));

TEST_P(WhyOrders, AgreeWithPlansOfTheOtherOrder) {
  const CutWork work = cutFile(GetParam());
  std::mt19937 random(7);
  const size_t count = work.assembly.bodies.size();
  for (int i = 0; i < 12; ++i) {
    const int a = static_cast<int>(random() % count), b = static_cast<int>(random() % count);
    if (a != b) judged(work.assembly, a, b);
  }
}

class OarStore : public testing::Test {
 protected:
  static const Assembly& assembly() {
    static const CutWork work = cutWholeSet(std::string(DRYFIT_ROOT) + "/assets/doorsets/oar-store.toml");
    return work.assembly;
  }
  static WorkThing thing(const std::string& word) { return thingNamed(assembly(), "", word).value(); }
  static WhyAnswer asked(const std::string& a, const std::string& b) {
    return why(assembly(), thing(a), thing(b));
  }
};

TEST_F(OarStore, PairsByChanceAgreeWithPlansOfTheOtherOrder) {
  std::mt19937 random(11);
  std::vector<int> bodies;
  for (int b = 0; b < static_cast<int>(assembly().bodies.size()); ++b)
    if (assembly().bodies[b].id.find(".screw.") == std::string::npos) bodies.push_back(b);
  for (int i = 0; i < 2; ++i) {
    const int a = bodies[random() % bodies.size()], b = bodies[random() % bodies.size()];
    if (a != b) judged(assembly(), a, b);
  }
}

TEST_F(OarStore, ThePanelGoesInBeforeTheClosingStile) {
  const WhyAnswer answer = asked("closing stile", "panel 1.1");
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_TRUE(answer.swapped);
  ASSERT_EQ(answer.chain.size(), 1u);
  const WhyStop& stop = answer.chain[0].stops.at(0);
  // Half the movement's clearance of 656.73 in 660 between groove bottoms (joinery, panels).
  EXPECT_NEAR(stop.afterMm, (636 + 2 * 12 - 656.733) / 2, 1e-3);
  EXPECT_EQ(stop.roleBy, "groove.bottom");
}

TEST_F(OarStore, TheBackingGoesInBeforeTheLining) {
  const WhyAnswer answer = asked("backing.hanging.2", "lining");
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_FALSE(answer.swapped);
  EXPECT_EQ(answer.chain.at(0).kind, WhyLink::Kind::Shape);
  EXPECT_TRUE(answer.elsewhere.empty());
}

TEST_F(OarStore, TheTrimWaitsForThePlasterByRule) {
  const WhyAnswer answer = asked("architrave.front.head", "plaster.front");
  EXPECT_EQ(answer.kind, Kind::ByRule);
  EXPECT_TRUE(answer.swapped);
  ASSERT_GE(answer.chain.back().rule, 0);
  EXPECT_EQ(assembly().rules[answer.chain.back().rule].name, "trim when the plaster is dry");
  EXPECT_NE(answer.chain.back().text.find("Rivington"), std::string::npos);
}

TEST_F(OarStore, ThePlasterIsFormedAfterTheGrounds) {
  const WhyAnswer answer = asked("plaster.front", "grounds.front");
  EXPECT_TRUE(answer.swapped);
  EXPECT_EQ(answer.kind, Kind::Forced);  // the horns are off before plaster stands where they were
  EXPECT_EQ(answer.chain.back().kind, WhyLink::Kind::Cut);
}

TEST_F(OarStore, WedgesAreDrivenOnceTheStileStands) {
  const WhyAnswer answer = asked("leaf.wedge.rail.top.closing.1.upper", "closing stile");
  EXPECT_TRUE(answer.swapped);
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_EQ(answer.chain.at(0).kind, WhyLink::Kind::Needs);
}

TEST_F(OarStore, ArchitravesAndGroundsGoEitherWay) {
  EXPECT_EQ(asked("architrave.front.jamb.hanging", "architrave.front.jamb.closing").kind, Kind::Either);
  EXPECT_EQ(asked("front grounds", "back grounds").kind, Kind::Either);
}

}  // namespace
}  // namespace dryfit::tests
