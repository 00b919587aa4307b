// Stub tenons of muntins in a leaf: 50 by rule (Allen, Practical Building Construction: about 2 in), never
// nearer than 20 to the rail's far edge, and where stubs from above and below meet, each to half of what that
// leaves (common practice). Measured on the cut pieces.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-9;

/// A leaf 900 wide with a middle rail of this width; rows as given.
CutWork leaf(double middle, const std::string& rows) {
  return cutLeafAlone(
      fmt::format("title = \"Trial\"\n[leaf]\nwidth = 900\n[[leaf.rail]]\nname = \"top\"\nwidth = "
                  "95\n[[leaf.rail]]\nname = "
                  "\"middle\"\nwidth = {}\ntop_edge = 965\n[[leaf.rail]]\nname = \"bottom\"\nwidth = 195\n{}",
                  middle, rows));
}

std::string row(double centre, const std::string& more = "") {
  return "[[leaf.row]]\n" + more + fmt::format("[[leaf.row.muntin]]\ncentre = {}\n", centre);
}

struct Stubs {
  double low = 0, high = 0;  ///< from the shoulder to the tenon's end
};

Stubs stubsOf(const CutWork& work, const std::string& muntin) {
  const Shell& shell = work.pieces[static_cast<size_t>(pieceOf(work, muntin))].last().shell;
  double low = 0, high = 0;
  for (const FlatFace& f : shell.flats)
    if (f.role == "shoulder.front") (f.normal.x < 0 ? low : high) = f.offset * f.normal.x;
  const Box3 box = bounds(shell);
  return {low - box.low.x, box.high.x - high};
}

void expectSound(const CutWork& work) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
}

TEST(StubTenons, InLineShareWhatAMiddleRailLeaves) {
  for (double middle : {70.0, 95.0, 110.0}) {
    SCOPED_TRACE(middle);
    const CutWork work = leaf(middle, row(450) + row(450));
    expectSound(work);
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").low, (middle - 20) / 2, kExact);
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").high, (middle - 20) / 2, kExact);
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").high, 50, kExact);  // alone in the top rail of 95
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").low, 50, kExact);
  }
}

TEST(StubTenons, InLineInAWideRailAreWhole) {
  const CutWork work = leaf(195, row(450) + row(450));
  expectSound(work);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").low, 50, kExact);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").high, 50, kExact);
}

TEST(StubTenons, OutOfLinePassEachOther) {
  for (double middle : {60.0, 70.0, 95.0}) {
    SCOPED_TRACE(middle);
    const CutWork work = leaf(middle, row(300) + row(600));
    expectSound(work);
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").low, std::min(50.0, middle - 20), kExact);
    EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").high, std::min(50.0, middle - 20), kExact);
  }
}

// Muntins of 95 meet when their middles are less than 95 apart.
TEST(StubTenons, PartlyInLineShareToo) {
  const CutWork beside = leaf(95, row(400) + row(400 + 95)), over = leaf(95, row(400) + row(400 + 94));
  expectSound(beside);
  expectSound(over);
  EXPECT_NEAR(stubsOf(beside, "leaf.muntin.1.1").low, 50, kExact);
  EXPECT_NEAR(stubsOf(over, "leaf.muntin.1.1").low, 37.5, kExact);
  EXPECT_NEAR(stubsOf(over, "leaf.muntin.2.1").high, 37.5, kExact);
}

TEST(StubTenons, OneMuntinAboveTwoIsSharedWithTheOneItMeets) {
  const CutWork work = leaf(95, row(450) +
                                    "[[leaf.row]]\n[[leaf.row.muntin]]\ncentre = 300\n[[leaf.row.muntin]]\n"
                                    "centre = 470\n");
  expectSound(work);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").low, 37.5, kExact);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").high, 50, kExact);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.2").high, 37.5, kExact);
}

TEST(StubTenons, GivenForARow) {
  const CutWork work = leaf(195, row(450, "stub = 60\n") + row(450, "stub = \"1 1/2 in\"\n"));
  expectSound(work);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").low, 60, kExact);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.1.1").high, 60, kExact);
  EXPECT_NEAR(stubsOf(work, "leaf.muntin.2.1").high, 38.1, kExact);
}

// Rails that stand edge to edge in one stile: the one true fault, none beside it.
TEST(RailsEdgeToEdge, AreOneFault) {
  std::string text = "title = \"Trial\"\n";
  auto member = [&](const std::string& id, const std::string& size, const std::string& origin,
                    const std::string& along, const std::string& across) {
    text += "[[member]]\nid = \"" + id + "\"\nsection = [95, 44]\n" + size + "\norigin = " + origin +
            "\nalong = \"" + along + "\"\nwidth_along = \"" + across + "\"\n";
  };
  member("stile", "length = 700", "[0, 0, 0]", "+Z", "+X");
  member("rail.upper", "shoulder = 300", "[197.5, 0, 47.5]", "+X", "+Z");
  member("rail.lower", "shoulder = 300", "[197.5, 0, -47.5]", "+X", "+Z");
  for (const char* rail : {"rail.upper", "rail.lower"})
    text += std::string("[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"") + rail +
            "\"\nmortise = \"stile\"\n";
  const auto faults = fit(cutText(text).assembly).faults;
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].kind, "unexplained-contact");
  EXPECT_EQ(faults[0].roleA, "edge.low");
  EXPECT_EQ(faults[0].roleB, "edge.high");
}

}  // namespace
}  // namespace dryfit::tests
