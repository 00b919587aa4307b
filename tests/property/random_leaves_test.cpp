// Leaves nobody has drawn, from random door set files: refused in plain words, or right all through, and
// mirrored by the other hand. DRYFIT_LEAVES=300 in the environment tries more by hand.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <iostream>

#include "fit/fit.h"
#include "order/order.h"
#include "solid/solid.h"
#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

TEST(RandomLeaves, AreRefusedInWordsOrRightAllThroughAndMirrored) {
  const bool asked = std::getenv("DRYFIT_LEAVES");
  const int leaves = leavesAsked(25);
  Chance c{std::mt19937(762)};
  int refused = 0, shutOut = 0;
  for (int n = 0; n < leaves; ++n) {
    const std::string body = randomLeaf(c), left = doorSetOf(body);
    SCOPED_TRACE(fmt::format("leaf {}\n{}", n, left));
    const auto faults = faultsOfLeafAlone(left);
    if (!faults.empty()) {
      ++refused;
      for (const std::string& f : faults) {
        EXPECT_EQ(f.rfind("test.toml:", 0), 0u) << f;
        if (asked) std::printf("refused: %s\n", f.c_str());
      }
      continue;
    }
    const CutWork work = cutLeafAlone(left), other = cutLeafAlone(doorSetOf(body, "right"));
    for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
    std::vector<FitFault> before;  // everything in and fixed, nothing cleaned off yet
    fitBodies(work.assembly, statesBefore(work.assembly, "clean-off:"), "before cleaning off", before);
    for (const FitFault& f : before) ADD_FAILURE() << f.text;
    const auto order = plan(work.assembly);
    // Pins that are pieces go in straight: a raised field or a mitred neighbour may stand in their way.
    if (std::holds_alternative<Locked>(order) && body.find("pins = \"pieces\"") != std::string::npos)
      ++shutOut;
    else
      EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
    ASSERT_EQ(work.pieces.size(), other.pieces.size());
    for (size_t i = 0; i < work.pieces.size(); ++i) {
      const Shell& shell = work.pieces[i].last().shell;
      const auto solid = solidFromShell(shell);
      ASSERT_TRUE(solid.ok()) << work.pieces[i].id;
      for (const std::string& fault : faultsOf(solid.value()))
        ADD_FAILURE() << work.pieces[i].id << ": " << fault;
      EXPECT_EQ(shapeKey({&shell}), mirroredShapeKey({&other.pieces[i].last().shell})) << work.pieces[i].id;
    }
    if (HasFailure()) return;
  }
  EXPECT_LE(refused, leaves / 2);
  std::cout << leaves - refused << " leaves built, " << refused << " refused, " << shutOut
            << " with pins that find no way in\n";
}

}  // namespace
}  // namespace dryfit::tests
