// Rules of the trade as they are told of a work: those the trade knows are there, order what they say, and
// are broken when they are dropped; what shapes forbid is named. Where each comes from: the order of work of
// joinery courses and handbooks, as each rule's own source says.
#include "order/rules_told.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "cli/rules_report.h"
#include "order/unit_plan.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

const std::string kDoorSets = std::string(DRYFIT_ROOT) + "/assets/doorsets/";
const std::string kCramped = "the step \"Put it together dry and cramp up\"",
                  kFlush =
                      "the step \"Saw off what stands proud and plane it flush with the edges and faces\"",
                  kHorns = "the step \"Saw off the horns and clean the ends up square\"",
                  kDry = "the step \"Wait until the plaster is dry\"",
                  kTried = "the step \"On one screw a hinge try how the leaf hangs\"";

const CutWork& wholeSet(const std::string& name) {
  static std::map<std::string, CutWork> known;
  const auto found = known.find(name);
  return found != known.end() ? found->second
                              : known.emplace(name, cutWholeSet(kDoorSets + name + ".toml")).first->second;
}

std::vector<RuleTold> toldOf(const Assembly& assembly) {
  const auto told = rulesTold(assembly);
  if (const auto* locked = std::get_if<Locked>(&told)) throw std::runtime_error(locked->text);
  return std::get<std::vector<RuleTold>>(told);
}

const RuleTold* named(const std::vector<RuleTold>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const RuleTold& r) { return r.name == name; });
  return found == all.end() ? nullptr : &*found;
}

bool has(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// What the trade says, found in a door set.
struct OfTheTrade {
  std::string set, rule, unit, first, then;
  Confidence confidence;
  bool needed = true;  ///< else the file's own order keeps it
};
void PrintTo(const OfTheTrade& rule, std::ostream* out) {
  *out << rule.rule << " in " << rule.set;
}

class RulesOfADoorSet : public testing::TestWithParam<OfTheTrade> {};

TEST_P(RulesOfADoorSet, AreDataAndOrderWhatTheySay) {
  const OfTheTrade& want = GetParam();
  const Assembly& assembly = wholeSet(want.set).assembly;
  const auto all = toldOf(assembly);
  const RuleTold* rule = named(all, want.rule);
  ASSERT_TRUE(rule);
  EXPECT_EQ(rule->confidence, want.confidence);
  EXPECT_FALSE(rule->leftOut());
  const auto on = std::find_if(rule->benches.begin(), rule->benches.end(), [&](const RuleOnBench& b) {
    return assembly.units[static_cast<size_t>(b.unit)].name == want.unit;
  });
  ASSERT_NE(on, rule->benches.end());
  EXPECT_TRUE(has(on->first, want.first)) << testing::PrintToString(on->first);
  EXPECT_TRUE(has(on->then, want.then)) << testing::PrintToString(on->then);
}

/// Pairs that the rule wants in order, the other way round in a plan with these rules alone.
int brokenBy(const Assembly& assembly, const std::string& name, const std::vector<TradeRule>& rules) {
  Assembly other = assembly;
  other.rules = rules;
  order::Scene scene(other);
  int broken = 0;
  for (const int unit : order::unitsBottomUp(assembly)) {
    const order::UnitPlan plan = order::planUnit(scene, unit, false);
    const order::Bench asked = order::benchOf(assembly, unit, true);
    std::vector<size_t> place(plan.bench.events.size());
    for (size_t i = 0; i < plan.forwards.size(); ++i) place[plan.forwards[i].event] = i;
    for (const order::RuleEdge& e : asked.ruleEdges)
      broken += assembly.rules[e.rule].name == name && place[e.first] > place[e.then];
  }
  return broken;
}

// By itself each rule keeps what it says; what the file's own order keeps anyway is not broken without.
TEST_P(RulesOfADoorSet, KeepWhatTheySayAloneAndAreBrokenWithoutAny) {
  const Assembly& assembly = wholeSet(GetParam().set).assembly;
  const std::string& name = GetParam().rule;
  std::vector<TradeRule> alone = assembly.rules;
  std::erase_if(alone, [&](const TradeRule& r) { return r.name != name; });
  EXPECT_EQ(brokenBy(assembly, name, alone), 0);
  int holdsBack = 0;
  const auto all = toldOf(assembly);
  for (const RuleOnBench& on : named(all, name)->benches) holdsBack += on.holdsBack;
  EXPECT_EQ(brokenBy(assembly, name, {}) > 0, holdsBack > 0);
  EXPECT_EQ(holdsBack > 0, GetParam().needed);
}

constexpr auto kRead = Confidence::ReadInSource, kCommon = Confidence::CommonPractice;

INSTANTIATE_TEST_SUITE_P(
    Trade, RulesOfADoorSet,
    testing::Values(OfTheTrade{"boat-hall", "grounds before plaster", "doorway", "the front grounds",
                               "the front plaster", kRead, false},
                    OfTheTrade{"boat-hall", "lining after plaster", "doorway", kDry, "the lining", kCommon},
                    OfTheTrade{"boat-hall", "trim when the plaster is dry", "doorway", kDry,
                               "the front head architrave", kRead},
                    OfTheTrade{"oar-store", "wedge after cramping and squaring", "leaf", kCramped,
                               "the 20 wedges of the leaf", kRead},
                    OfTheTrade{"oar-store", "outer rails' wedges first", "leaf", "the 12 wedges of the leaf",
                               "the 8 wedges of the leaf", kRead},
                    OfTheTrade{"boat-hall", "pin after the frame is up", "leaf", kCramped,
                               "the 12 pins of the leaf", kCommon},
                    OfTheTrade{"boat-hall", "plant on finished work", "leaf", kFlush,
                               "front top moulding of panel 1.1", kCommon},
                    OfTheTrade{"boat-hall", "hinges on the finished leaf", "leaf", kHorns, "hinge 1",
                               kCommon},
                    OfTheTrade{"boat-hall", "one screw a hinge first", "doorway", kTried,
                               "the 4 screws of hinge 3", kCommon},
                    OfTheTrade{"rigging-loft", "plates before the leaf", "doorway", "the 5 screws of hinge 1",
                               "the leaf", kCommon},
                    OfTheTrade{"boat-hall", "lock after hanging", "doorway", "the 4 screws of hinge 1",
                               "the lock", kCommon, false},
                    OfTheTrade{"boat-hall", "plumb before it is nailed", "doorway",
                               "the step \"Plumb both jambs on face and edge\"",
                               "the step \"Nail the lining through to what stands behind it\"", kRead},
                    OfTheTrade{"boat-hall", "hang in a lining that is fixed", "doorway",
                               "the step \"Take the stretcher and the brace off\"", "the leaf", kCommon},
                    OfTheTrade{"boat-hall", "stops to the hung leaf", "doorway", "the leaf is swung shut",
                               "the head stop", kCommon, false},
                    OfTheTrade{"boat-hall", "architraves after hanging", "doorway", "the leaf",
                               "the front head architrave", kCommon, false},
                    OfTheTrade{"boat-hall", "skirtings last", "doorway", "the front head architrave",
                               "the front left skirting", kRead, false}));

// Bench before site: no step of a unit comes after one of the unit it goes into. That is no rule that could
// be dropped: the tree of units has it.
TEST(RulesTold, NameTheBenchesBeforeTheSite) {
  const Assembly& assembly = wholeSet("boat-hall").assembly;
  const std::string text = cli::rulesText(assembly, toldOf(assembly));
  EXPECT_NE(text.find("Bench before site: each of these is finished on its own bench"), std::string::npos);
  const auto planned = plan(assembly);
  std::vector<bool> begun(assembly.units.size(), false);
  for (const Step& s : std::get<OrderOfWork>(planned).steps) {
    begun[static_cast<size_t>(s.unit)] = true;
    const int parent = assembly.units[static_cast<size_t>(s.unit)].parent;
    if (parent >= 0) {
      EXPECT_FALSE(begun[static_cast<size_t>(parent)]) << s.text;
    }
  }
}

// Panels dry and unglued (Noyes, Handwork in Wood; Joyce, The Technique of Furniture Making: never glued or
// nailed): no bond ever holds one, and they are in before anything is glued.
TEST(RulesTold, PanelsGoInDryAndAreNeverBonded) {
  int panels = 0;
  for (const char* set : {"boat-hall", "oar-store", "rigging-loft"}) {
    const Assembly& assembly = wholeSet(set).assembly;
    const auto isPanel = [&](int b) {
      return assembly.bodies[static_cast<size_t>(b)].id.rfind("leaf.panel", 0) == 0;
    };
    const auto planned = plan(assembly);
    bool glued = false;
    for (const Step& s : std::get<OrderOfWork>(planned).steps) {
      const bool leaf = assembly.units[static_cast<size_t>(s.unit)].name == "leaf";
      glued = glued || (leaf && s.event == "glue");
      for (const Bond& bond : s.bonds)
        EXPECT_TRUE(std::none_of(bond.between.begin(), bond.between.end(), isPanel)) << s.text;
      if (!leaf || s.event != "fit" || std::none_of(s.bodies.begin(), s.bodies.end(), isPanel)) continue;
      ++panels;
      EXPECT_FALSE(glued) << s.text;
    }
  }
  EXPECT_EQ(panels, 6 + 2 + 4);
}

const std::string kCorner = R"(title = "Corner"
[[member]]
id = "stile"
section = [90, 44]
length = 400
origin = [0, 0, 200]
along = "+Z"
width_along = "+X"
[[member]]
id = "rail"
section = [90, 44]
shoulder = 320
origin = [205, 0, 255]
along = "+X"
width_along = "+Z"
[[joint]]
kind = "mortise-and-tenon"
tenon = "rail"
mortise = "stile"
haunch = false
fixing = "wedged"
[[rule]]
name = "NAME"
first = ["FIRST"]
then = ["THEN"]
because = "So it is done here"
)";

std::string corner(const std::string& name, const std::string& first, const std::string& then) {
  std::string text = kCorner;
  for (const auto& [mark, word] : {std::pair{"NAME", name}, {"FIRST", first}, {"THEN", then}})
    text.replace(text.find(mark), std::string(mark).size(), word);
  return text;
}

// A wedge cannot be driven before its tenon is in: the rule that wants it is named, and left out.
TEST(RulesTold, WhatShapesForbidIsNamedAndLeftOut) {
  const CutWork work = cutText(corner("wedges before the rail", "wedge.rail.stile.1.upper", "rail"));
  const auto all = toldOf(work.assembly);
  const RuleTold* rule = named(all, "wedges before the rail");
  ASSERT_TRUE(rule);
  EXPECT_TRUE(rule->leftOut());
  EXPECT_FALSE(named(all, "wedge after cramping and squaring")->leftOut());
  const std::string text = cli::rulesText(work.assembly, all);
  const size_t at = text.find("\nwedges before the rail\n");
  ASSERT_NE(at, std::string::npos);
  EXPECT_NE(text.find("Left out here:", at), std::string::npos) << text;
  const auto planned = plan(work.assembly);
  bool said = false;
  for (const Step& s : std::get<OrderOfWork>(planned).steps)
    said = said || s.why.find("The rule \"wedges before the rail\" cannot be kept") != std::string::npos;
  EXPECT_TRUE(said);
}

TEST(RulesTold, ARuleOfTheFileIsKept) {
  const CutWork work = cutText(corner("stile first", "stile", "rail"));
  const auto all = toldOf(work.assembly);
  const RuleTold* rule = named(all, "stile first");
  ASSERT_TRUE(rule);
  EXPECT_FALSE(rule->leftOut());
  EXPECT_EQ(rule->confidence, kCommon);
  ASSERT_EQ(rule->benches.size(), 1u);
  EXPECT_EQ(rule->benches[0].first, std::vector<std::string>{"the stile"});
  EXPECT_EQ(rule->benches[0].then, std::vector<std::string>{"the rail"});
}

TEST(RulesTold, ARuleAboutNothingIsTheFilesFault) {
  const auto faults = faultsOfText(corner("stile first", "stlie", "rail"));
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_NE(faults[0].find("rule[1]: there is no piece or unit \"stlie\"; did you mean \"stile\"?"),
            std::string::npos)
      << faults[0];
}

TEST(Confidence, IsSaidInWords) {
  for (const Confidence c : {kRead, Confidence::FromMemory, kCommon}) EXPECT_EQ(confidenceOf(nameOf(c)), c);
  EXPECT_FALSE(confidenceOf("sure"));
  EXPECT_EQ(toldSource("Goring", kRead), "Goring, read there");
  EXPECT_EQ(toldSource("Goring", Confidence::FromMemory), "Goring, from memory");
  EXPECT_EQ(toldSource("", kCommon), "common practice");
  EXPECT_THROW(toldSource("", kRead), ContractViolation);
  EXPECT_THROW(toldSource("Goring", kCommon), ContractViolation);
}

}  // namespace
}  // namespace dryfit::tests
