// A size changed by a millimetre leaves the order of work as it was: ties go by the file, not by numbers. Nor
// do threads side by side, or what lies in memory, change a figure of it.
#include <gtest/gtest.h>

#include <map>
#include <string>
#include <thread>
#include <variant>
#include <vector>

#include "cli/json.h"
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

/// All of it, to the last digit.
std::string printed(const CutWork& work) {
  const auto planned = plan(work.assembly);
  return cli::orderJson(work.assembly, std::get<OrderOfWork>(planned)).dump();
}

TEST(SteadyOrder, ThreadsSideBySideFindTheSame) {
  std::vector<std::string> files = shippedWorks();
  for (const std::string& set : shippedDoorSets()) files.push_back(set);
  std::map<std::string, std::string> alone;
  for (const std::string& file : files) alone[file] = printed(cutWholeSet(file));
  // Each thread takes the files in another order, so that different work goes on beside each.
  constexpr size_t kThreads = 4;
  std::vector<std::map<std::string, std::string>> found(kThreads);
  std::vector<std::thread> threads;
  for (size_t t = 0; t < kThreads; ++t)
    threads.emplace_back([&, t] {
      for (size_t i = 0; i < files.size(); ++i) {
        const std::string& file = files[(i * (t + 1) + t) % files.size()];
        if (!found[t].contains(file)) found[t][file] = printed(cutWholeSet(file));
      }
    });
  for (std::thread& thread : threads) thread.join();
  for (const auto& ofThread : found) {
    EXPECT_GT(ofThread.size(), files.size() / 4);
    for (const auto& [file, order] : ofThread) EXPECT_TRUE(order == alone[file]) << file;
  }
}

}  // namespace
}  // namespace dryfit::tests
