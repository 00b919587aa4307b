// A size changed by a millimetre leaves the order of work as it was: ties go by the file, not by numbers.
#include <gtest/gtest.h>

#include <string>
#include <variant>
#include <vector>

#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Unit, event and pieces of every step, in words.
std::vector<std::string> stepsOf(const std::string& sizes) {
  const CutWork work = cutDoorSet("title = \"Steady\"\n" + sizes);
  const auto planned = plan(work.assembly);
  std::vector<std::string> steps;
  for (const Step& s : std::get<OrderOfWork>(planned).steps) {
    std::string& one =
        steps.emplace_back(work.assembly.units[static_cast<size_t>(s.unit)].name + " " + s.event);
    for (const int body : s.bodies) one += " " + work.assembly.bodies[static_cast<size_t>(body)].id;
  }
  return steps;
}

TEST(SteadyOrder, AMillimetreMoreShufflesNothing) {
  const std::vector<std::string> usual = stepsOf("");
  for (const char* sizes :
       {"leaf.width = 763", "leaf.height = 1982", "wall.thickness = 216", "leaf.thickness = 45",
        "lining.thickness = 33", "architrave.margin = 7", "grounds.width = 77", "skirting.height = 146",
        "hinge.size.height = 101", "leaf.groove.depth = 13"})
    EXPECT_EQ(stepsOf(sizes), usual) << sizes;
}

}  // namespace
}  // namespace dryfit::tests
