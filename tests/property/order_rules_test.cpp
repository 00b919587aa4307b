// Every shipped work and leaf: where its order of work differs from the order by shape alone, a rule of the
// trade is named that asks for it, and without that rule the step comes sooner.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "order/order.h"
#include "support/file_names.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

OrderOfWork orderOf(const Assembly& assembly, bool byShape = false) {
  auto result = plan(assembly, {byShape});
  if (const auto* locked = std::get_if<Locked>(&result)) throw std::runtime_error(locked->text);
  return std::get<OrderOfWork>(std::move(result));
}

/// What a step is, in any order of the same work: what is done to which pieces.
using Deed = std::tuple<int, std::string, std::vector<int>, std::vector<std::string>>;

Deed deedOf(const Step& step) {
  std::vector<int> bodies = step.bodies;
  std::sort(bodies.begin(), bodies.end());
  const bool fits = step.event == "fit" || step.event == "form";
  return {step.unit, step.event, bodies, fits ? std::vector<std::string>{} : step.joints};
}

/// Checks and waits are there by rule only: an order by shape has none.
bool isCard(const Step& step) {
  return step.event == "check" || step.event == "wait";
}

std::map<Deed, int> placesOf(const OrderOfWork& order) {
  std::map<Deed, int> places;
  for (const Step& s : order.steps)
    if (!isCard(s) && !places.insert({deedOf(s), static_cast<int>(places.size())}).second)
      throw std::runtime_error("two steps alike: " + s.text);
  return places;
}

/// Steps of the order that come after one they precede by shape, with one such.
struct Later {
  const Step* step;
  const Step* passed;
};
std::vector<Later> laterThanByShape(const OrderOfWork& order, const OrderOfWork& shape) {
  const auto shapePlace = placesOf(shape);
  std::vector<Later> later;
  std::vector<const Step*> before;
  for (const Step& s : order.steps) {
    if (isCard(s)) continue;
    const int at = shapePlace.at(deedOf(s));
    for (const Step* b : before)
      if (b->unit == s.unit && shapePlace.at(deedOf(*b)) > at) {
        later.push_back({&s, b});
        break;
      }
    before.push_back(&s);
  }
  return later;
}

class RulesOfTheTrade : public testing::TestWithParam<std::string> {
 protected:
  const CutWork work = cutFile(GetParam());
  const Assembly& assembly = work.assembly;
  const OrderOfWork order = orderOf(assembly), shape = orderOf(assembly, true);

  const Operation* operationOf(const Step& step) const {
    for (const Operation& o : assembly.operations)
      if (o.unit == step.unit && o.text == step.text) return &o;
    return nullptr;
  }

  /// Place of the step that does the operation; -1: none does.
  int placeOf(const std::string& key) const {
    for (size_t i = 0; i < order.steps.size(); ++i)
      if (const Operation* o = operationOf(order.steps[i]); o && o->key == key) return static_cast<int>(i);
    return -1;
  }
  /// Place of the step by which the piece comes.
  int placeOf(int body) const {
    for (size_t i = 0; i < order.steps.size(); ++i) {
      const Step& s = order.steps[i];
      const bool comes = s.event == "fit" || s.event == "form" || s.event == "drive" || s.event == "fasten";
      if (comes && std::count(s.bodies.begin(), s.bodies.end(), body)) return static_cast<int>(i);
    }
    return -1;
  }

  /// Is the step what the rule wants to come after?
  bool isThen(const TradeRule& rule, const Step& step) const {
    const Operation* o = operationOf(step);
    if (o) return std::count(rule.operationsThen.begin(), rule.operationsThen.end(), o->key) > 0;
    return std::any_of(step.bodies.begin(), step.bodies.end(), [&](int b) {
      return std::count(rule.bodiesThen.begin(), rule.bodiesThen.end(), b) > 0;
    });
  }

  /// An operation on a piece that a named rule held back can only follow it.
  bool followsAPieceHeldBack(const Step& step) const {
    const Operation* o = operationOf(step);
    return o && std::any_of(o->after.begin(), o->after.end(), [&](int b) {
             return !order.steps[static_cast<size_t>(placeOf(b))].rule.empty();
           });
  }

  std::set<std::string> rulesNamed() const {
    std::set<std::string> names;
    for (const Step& s : order.steps)
      if (!s.rule.empty()) names.insert(s.rule);
    return names;
  }
};

TEST_P(RulesOfTheTrade, AreNamedWhereverAStepComesLaterThanByShape) {
  for (const Later& l : laterThanByShape(order, shape))
    EXPECT_TRUE(!l.step->rule.empty() || followsAPieceHeldBack(*l.step))
        << l.step->text << " comes after: " << l.passed->text;
}

TEST_P(RulesOfTheTrade, AskForTheStepsThatNameThem) {
  for (const Step& s : order.steps) {
    if (s.rule.empty()) continue;
    const TradeRule* asks = nullptr;
    for (const TradeRule& r : assembly.rules)
      if (r.name == s.rule && isThen(r, s)) asks = &r;
    ASSERT_TRUE(asks) << s.rule << ": " << s.text;
    EXPECT_NE(s.why.find(asks->because + " (rule \"" + s.rule + "\"; " +
                         toldSource(asks->source, asks->confidence) + ")"),
              std::string::npos)
        << s.why;
  }
}

// None is left out in what is shipped: all that a rule wants first comes before all that it wants then.
TEST_P(RulesOfTheTrade, AreAllKept) {
  for (const TradeRule& r : assembly.rules) {
    int lastFirst = -1, firstThen = static_cast<int>(order.steps.size());
    for (int b : r.bodiesFirst) lastFirst = std::max(lastFirst, placeOf(b));
    for (const std::string& key : r.operationsFirst) lastFirst = std::max(lastFirst, placeOf(key));
    for (int b : r.bodiesThen) firstThen = std::min(firstThen, placeOf(b));
    for (const std::string& key : r.operationsThen) firstThen = std::min(firstThen, placeOf(key));
    EXPECT_GE(lastFirst, 0) << r.name;
    EXPECT_GE(firstThen, 0) << r.name;
    EXPECT_LT(lastFirst, firstThen) << r.name;
  }
  for (const Step& s : order.steps) EXPECT_EQ(s.why.find("cannot be kept"), std::string::npos) << s.why;
}

// Without the rule that they name, steps come sooner: it was that rule which held them back.
TEST_P(RulesOfTheTrade, HoldBackTheStepsThatNameThem) {
  const auto places = placesOf(order);
  for (const std::string& name : rulesNamed()) {
    SCOPED_TRACE(name);
    Assembly without = assembly;
    std::erase_if(without.rules, [&](const TradeRule& r) { return r.name == name; });
    const auto sooner = placesOf(orderOf(without));
    ASSERT_EQ(sooner.size(), places.size());
    for (const Step& s : order.steps)
      if (s.rule == name) {
        EXPECT_LT(sooner.at(deedOf(s)), places.at(deedOf(s))) << s.text;
      }
  }
}

TEST_P(RulesOfTheTrade, AllLeftOutLeaveTheOrderByShape) {
  Assembly without = assembly;
  without.rules.clear();
  EXPECT_EQ(placesOf(orderOf(without)), placesOf(shape));
}

std::vector<std::string> allShipped() {
  std::vector<std::string> all = shippedWorks();
  for (const std::string& leaf : shippedDoorSets()) all.push_back(leaf);
  return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, RulesOfTheTrade, testing::ValuesIn(allShipped()), namedAfterFile);

}  // namespace
}  // namespace dryfit::tests
