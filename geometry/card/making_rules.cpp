#include "card/making_rules.h"

#include "base/require.h"

namespace dryfit {

namespace {
constexpr const char* kCommon = "common practice";
constexpr const char* kJoyce = "Joyce, The Technique of Furniture Making: the joint first, the groove after";
}  // namespace

const std::vector<MakingRule>& makingRules() {
  using enum Making;
  using Time = MakingTime;
  static const std::vector<MakingRule> rules = {
      {Saw, Time::Prepare, "saw out", kCommon},
      {Mark, Time::Prepare, "face and edge", kCommon},
      {SetOut, Time::SetOut, "set out", "Fairham, Woodwork Joints: stiles paired and marked together"},
      {Rebate, Time::Cut, "rebate", "common practice: before any joint"},
      {Section, Time::Cut, "section", "common practice: in one length, before it is mitred"},
      {EarlySplay, Time::Cut, "splay", kCommon},
      {Mortise, Time::Cut, "mortise", kJoyce},
      {Cheeks, Time::Cut, "tenon cheeks", kJoyce},
      {Plough, Time::Cut, "plough", kJoyce},
      {Trench, Time::Cut, "trench", "common practice: after the rebate, whose depth it has"},
      {Haunch, Time::Cut, "haunch", "common practice: when the groove it fills is there to try it in"},
      {Dovetail, Time::Cut, "dovetail", kCommon},
      {Raise, Time::Cut, "raise", "common practice: across the grain first, then along"},
      {Shoulders, Time::Cut, "shoulders",
       "Joyce, The Technique of Furniture Making: shoulders after moulding"},
      {Mitre, Time::Cut, "mitre", kCommon},
      {Taper, Time::Cut, "taper", kCommon},
      {Hole, Time::Cut, "holes", kCommon},
      {CleanOff, Time::Together, "clean off", kCommon},
      {Splay, Time::Together, "splay", kCommon},
      {Horns, Time::Hung, "horns", "common practice: left to the last, they keep the ends from harm"},
      {LetIn, Time::Hung, "let in", kCommon},
      {Lock, Time::Hung, "lock", kCommon},
      {Screws, Time::Hung, "screws", kCommon}};
  return rules;
}

const MakingRule& makingRule(Making making) {
  const MakingRule& rule = makingRules().at(static_cast<size_t>(making));
  REQUIRE(rule.making == making);
  return rule;
}

const char* headingOf(MakingTime time) {
  switch (time) {
    case MakingTime::Prepare:
      return "Prepare";
    case MakingTime::SetOut:
      return "Set out";
    case MakingTime::Cut:
      return "Cut";
    case MakingTime::Together:
      return "When it is put together";
    case MakingTime::Hung:
      return "When it is fixed or hung";
  }
  return "";
}

}  // namespace dryfit
