// The order in which a piece is made: rules of the bench as data, each with its source.
#pragma once

#include <string>
#include <vector>

namespace dryfit {

/// What is done to a piece, in the order of doing.
enum class Making {
  Saw,
  Mark,
  SetOut,
  Rebate,
  Section,
  EarlySplay,
  Mortise,
  Cheeks,
  Plough,
  Trench,
  Haunch,
  Dovetail,
  Raise,
  Shoulders,
  Mitre,
  Taper,
  Hole,
  CleanOff,
  Splay,
  Horns,
  LetIn,
  Lock,
  Screws
};

/// When: the headings of a card.
enum class MakingTime { Prepare, SetOut, Cut, Together, Hung };

struct MakingRule {
  Making making;
  MakingTime time;
  const char* name;    ///< one word or two: "mortise"
  const char* source;  ///< why it stands at this place: an author, or "common practice"
};

/// In order.
const std::vector<MakingRule>& makingRules();
const MakingRule& makingRule(Making making);
/// "Prepare", "Set out", "Cut", "When it is put together", "When it is fixed or hung".
const char* headingOf(MakingTime time);

}  // namespace dryfit
