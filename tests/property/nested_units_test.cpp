// Joints within a unit and across units on one piece: its changes come bench by bench, in the order in which
// the units are put together, whatever the order of the joints in the file. Stopped tenons in a row.
#include <gtest/gtest.h>

#include <algorithm>

#include "fit/fit.h"
#include "order_replay.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

std::string member(const std::string& id, const std::string& origin, bool upright) {
  return "[[member]]\nid = \"" + id + "\"\nsection = [90, 44]\n" +
         (upright ? "length = 640\nhorns = 20\n" : "shoulder = 510\n") + "origin = " + origin +
         (upright ? "\nalong = \"+Z\"\nwidth_along = \"+X\"\n" : "\nalong = \"+X\"\nwidth_along = \"+Z\"\n");
}

std::string joint(const std::string& rail, const std::string& stile, const std::string& fixing) {
  return "[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"" + rail + "\"\nmortise = \"" + stile +
         "\"\nfixing = \"" + fixing + "\"\n";
}

/// Two halves of a frame, each a stile with one rail; the rails' other ends close the whole.
std::string halves(const std::string& fixing, const std::string& more = "") {
  std::string text = "title = \"Halves\"\n";
  text += member("s1", "[0, 0, 300]", true) + member("s2", "[600, 0, 300]", true) +
          member("r1", "[300, 0, 100]", false) + member("r2", "[300, 0, 500]", false);
  for (const char* rail : {"r1", "r2"})
    for (const char* stile : {"s1", "s2"}) text += joint(rail, stile, fixing);
  return text +
         "[[unit]]\nname = \"all\"\npieces = [\"left\", \"right\"]\n"
         "[[unit]]\nname = \"left\"\npieces = [\"s1\", \"r1\"]\nkeep_horns = true\n"
         "[[unit]]\nname = \"right\"\npieces = [\"s2\", \"r2\"]\n" +
         more;
}

OrderOfWork orderOf(const CutWork& work, bool byShape) {
  const auto result = plan(work.assembly, {byShape});
  const auto* locked = std::get_if<Locked>(&result);
  EXPECT_EQ(locked, nullptr) << (locked ? locked->text : "");
  return locked ? OrderOfWork{} : std::get<OrderOfWork>(result);
}

TEST(NestedUnits, APiecesChangesComeBenchByBench) {
  for (const char* fixing : {"wedged", "draw-bored"}) {
    const CutWork work = cutText(halves(fixing));
    for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << fixing << ": " << f.text;
    for (const bool byShape : {false, true}) {
      const OrderOfWork order = orderOf(work, byShape);
      ordertest::Replay(work.assembly, order);
      std::vector<int> states = firstStates(work.assembly);  // the changes, as they are told, make a chain
      for (const Step& step : order.steps)
        for (const StateChange& change : step.changes) {
          EXPECT_EQ(states[static_cast<size_t>(change.body)], change.from) << fixing << ": " << step.text;
          states[static_cast<size_t>(change.body)] = change.from + 1;
        }
      EXPECT_EQ(states, lastStates(work.assembly)) << fixing;
    }
  }
}

TEST(NestedUnits, ARailsOwnBenchDrawsItUpFirst) {
  // r2 stands with s2 in the unit "right", though its joint with s1 comes first in the file.
  const CutWork work = cutText(halves("draw-bored"));
  const Body& rail = work.assembly.bodies[static_cast<size_t>(pieceOf(work, "r2"))];
  std::vector<std::string> names;
  for (const BodyState& s : rail.states) names.push_back(s.name);
  EXPECT_EQ(names, (std::vector<std::string>{"as made", "drawn up at s2", "tenons flush", "drawn up at s1",
                                             "tenons flush"}));
}

TEST(NestedUnits, StagesGivenInPartLeaveTheRestToTheUnitsName) {
  const CutWork work = cutText(halves(
      "wedged", "[[stage]]\nname = \"On site\"\nunit = \"all\"\nevents = [\"fit\", \"check\", \"glue\"]\n"));
  std::vector<std::string> listed, told;
  for (const Stage& s : work.assembly.stages) listed.push_back(s.name);
  EXPECT_EQ(listed,
            (std::vector<std::string>{"On site", "All", "Left: put together", "Left: fix and clean off",
                                      "Right: put together", "Right: fix and clean off"}));
  for (const Step& step : orderOf(work, false).steps)
    EXPECT_EQ(std::count(listed.begin(), listed.end(), step.stage), 1) << step.stage;
}

TEST(StoppedTenons, ARowOfThemFits) {
  // The tenons of a row share the end of the blank: a rail cut to length, or longer and cut back.
  for (const char* tenons : {"2", "3"})
    for (const char* size :
         {"shoulder = 320\norigin = [205, 0, 250]", "length = 390\norigin = [180, 0, 250]"}) {
      const CutWork work = cutText(
          "title = \"Row\"\n[[member]]\nid = \"stile\"\nsection = [90, 44]\nlength = 700\n"
          "origin = [0, 0, 350]\nalong = \"+Z\"\nwidth_along = \"+X\"\n"
          "[[member]]\nid = \"rail\"\nsection = [300, 44]\nalong = \"+X\"\nwidth_along = \"+Z\"\n" +
          std::string(size) +
          "\n[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"rail\"\nmortise = \"stile\"\nlength = 60\n"
          "fixing = \"glued\"\ntenons = " +
          tenons + "\n");
      const FitReport report = fit(work.assembly);
      for (const FitFault& f : report.faults)
        ADD_FAILURE() << tenons << " tenons, " << size << ": " << f.text;
      const auto& gaps = work.assembly.gaps;
      EXPECT_EQ(std::count_if(gaps.begin(), gaps.end(), [](const auto& g) { return g.statedMm == 1; }),
                std::stoi(tenons));  // the mortise 1 deeper than the tenon is long (Noyes)
    }
}

}  // namespace
}  // namespace dryfit::tests
