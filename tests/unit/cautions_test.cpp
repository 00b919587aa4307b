// What each step tells to take care of. The mass of what is lifted is worked out from the solids; the figures
// it is held against are from outside: a solid leaf of 762 x 1981 x 44 at 538 kg/m3 weighs 35.7 kg
// (0.762 * 1.981 * 0.044 * 538 = 35.73), and one lifts 16 kg at most alone (the lower guideline figure of
// HSE's manual handling guidance, from memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "order/order.h"
#include "order_blocks.h"
#include "piece/piece.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

using ordertest::add;
using ordertest::boxes;

TEST(Mass, OfASolidLeafIsTheHandbooks) {
  Recipe slab;
  slab.blank = BoxBlank{1981, 762, 44};
  CutCache cache;
  Piece leaf;
  leaf.states = {{"", cache.cut(slab, "leaf").value()}};
  EXPECT_FALSE(massKg(leaf, leaf.states[0]));
  leaf.densityKgM3 = 538;
  EXPECT_NEAR(*massKg(leaf, leaf.states[0]), 35.7, 0.05);  // told to a tenth
}

/// A post and a bar that is put on it.
std::string barsCaution(std::optional<double> massKg) {
  ordertest::World w;
  w.piece("post", boxes({add({0, 0, 0}, {100, 100, 10})}));
  const int bar = w.piece("bar", boxes({add({0, 0, 10}, {100, 100, 20})}));
  w.assembly.bodies[0].states[0].massKg = 1;
  w.assembly.bodies[static_cast<size_t>(bar)].states[0].massKg = massKg;
  const auto planned = plan(w.assembly);
  return std::get<OrderOfWork>(planned).steps.at(1).caution;
}

TEST(Cautions, TellTheMassOfWhatOneDoesNotLift) {
  EXPECT_EQ(barsCaution({}), "");
  EXPECT_EQ(barsCaution(16), "");
  EXPECT_EQ(
      barsCaution(35.73),
      "It weighs about 36 kg: two or more lift it, or it is lifted with help; your employer's and local "
      "rules come first.");
}

OrderOfWork orderOf(const CutWork& work) {
  const auto planned = plan(work.assembly);
  return std::get<OrderOfWork>(planned);
}

class CautionsOf : public testing::TestWithParam<std::string> {
 protected:
  const CutWork work = cutWholeSet(GetParam());
  const OrderOfWork order = orderOf(work);
};

// Mortise chisels, saws, planes, hammers, glue, plaster: whatever is done with them has its caution, and it
// is short enough to be read.
TEST_P(CautionsOf, WhateverIsDrivenFixedCutGluedOrFormedHasAShortOne) {
  for (const Step& s : order.steps) {
    for (const char* event : {"drive", "fasten", "glue", "trim", "form"})
      if (s.event == event) {
        EXPECT_NE(s.caution, "") << s.text;
      }
    EXPECT_LT(s.caution.size(), 240u) << s.caution;
  }
}

TEST_P(CautionsOf, WhatMovesTellsTheMassOfItsPieces) {
  for (const Step& s : order.steps) {
    double kg = 0;
    for (const int b : s.bodies)
      if (!work.pieces[static_cast<size_t>(b)].formed)
        kg += massKg(work.pieces[static_cast<size_t>(b)], work.pieces[static_cast<size_t>(b)].states.back())
                  .value_or(0);
    std::smatch told;
    const bool tells = std::regex_search(s.caution, told, std::regex("weighs about ([0-9]+) kg"));
    if (s.event != "fit" && s.event != "form") {
      EXPECT_FALSE(tells) << s.text;
      continue;
    }
    EXPECT_TRUE(tells || kg <= 16) << s.text << " " << kg;
    // Horns and what stands proud weigh a little more than the last state.
    if (tells) {
      EXPECT_GE(std::stod(told[1]), kg - 0.5) << s.text;
      EXPECT_LE(std::stod(told[1]), 1.06 * kg + 0.5) << s.text;
    }
  }
}

TEST_P(CautionsOf, CuttingIntoALeafDefersToAFireDoorsCertificate) {
  int cuts = 0;
  for (const Step& s : order.steps) {
    if (work.assembly.units[static_cast<size_t>(s.unit)].name != "leaf") continue;
    const bool cut = s.text.rfind("Screw hinge", 0) == 0 || s.text.rfind("Saw off the horns", 0) == 0;
    if (!cut) continue;
    ++cuts;
    EXPECT_NE(s.caution.find("fire door"), std::string::npos) << s.text;
  }
  EXPECT_GE(cuts, 3);
}

INSTANTIATE_TEST_SUITE_P(DoorSets, CautionsOf, testing::ValuesIn(shippedDoorSets()), [](const auto& info) {
  std::string name = info.param.substr(info.param.rfind('/') + 1);
  name.resize(name.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace dryfit::tests
