// A panelled shutter of Indian component widths, from a door set file, measured on the cut solids. All
// figures from memory of IS 1003 (Part 1) and of the Central Public Works Department's specifications,
// chapter 9, that repeat them, and to be confirmed against the paper: stiles, top and frieze rails and
// muntins 100 +- 3, lock rail 150 +- 3, bottom rail 200 +- 3; 35 or 40 +- 1 thick; rails over 180 with two
// tenons, tenons through the stiles and at most three thicknesses wide; horns left on until it is put
// together; grooves 12 deep, 1.5 of air all round the panels, panels at least 15 thick, grain along the
// longer side, none over 0.5 m2. Leaf 700 x 1905: IS 4021's single shutter, from memory. Placing of the
// rails: our own.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "fit/fit.h"
#include "order/order.h"
#include "reference/leaf_measures.h"

namespace dryfit::tests {
namespace {

constexpr int kX = 0, kY = 1, kZ = 2;

CutWork shutter(double thickness) {
  return cutLeafAlone(fmt::format(R"(
title = "Shutter"
[leaf]
width = 700
height = 1905
thickness = {}
stile = 100
rail = [
  {{ name = "top", width = 100 }},
  {{ name = "frieze", width = 100, top_edge = 1480 }},
  {{ name = "lock", width = 150, top_edge = 900 }},
  {{ name = "bottom", width = 200 }},
]
row = [{{ muntins = 1, width = 100 }}, {{ muntins = 1, width = 100 }}, {{ muntins = 1, width = 100 }}]
[leaf.tenon]
rule = "cpwd"
[leaf.groove]
depth = 12
[leaf.panel]
clearance_across = 1.5
clearance_along = 1.5
[timber]
leaf = "Teak"
)",
                                  thickness));
}

class IndianShutter : public testing::TestWithParam<double> {
 protected:
  const CutWork work = shutter(GetParam());

  Vec3 extent(const std::string& id) const {
    const Box3 box = worldBox(work, id);
    return box.high - box.low;
  }
  double tenon() const { return tenonThickness(work); }
};

TEST_P(IndianShutter, FitsAndIsFoundAnOrder) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
}

TEST_P(IndianShutter, ComponentWidths) {
  for (const char* id :
       {"leaf.stile.hanging", "leaf.stile.closing", "leaf.muntin.1.1", "leaf.muntin.2.1", "leaf.muntin.3.1"})
    EXPECT_NEAR(extent(id).x, 100, kExact) << id;
  for (const char* id : {"leaf.rail.top", "leaf.rail.frieze"}) EXPECT_NEAR(extent(id).z, 100, kExact) << id;
  EXPECT_NEAR(extent("leaf.rail.lock").z, 150, kExact);
  EXPECT_NEAR(extent("leaf.rail.bottom").z, 200, kExact);
  for (const char* id : {"leaf.stile.hanging", "leaf.rail.lock", "leaf.muntin.1.1"})
    EXPECT_NEAR(extent(id).y, GetParam(), kExact) << id;
  const Box3 top = worldBox(work, "leaf.rail.top"), bottom = worldBox(work, "leaf.rail.bottom");
  EXPECT_NEAR(top.high.z - bottom.low.z, 1905, kExact);
  EXPECT_NEAR(worldBox(work, "leaf.stile.closing").high.x - worldBox(work, "leaf.stile.hanging").low.x, 700,
              kExact);
}

// Tenon: the chisel nearest a third (common practice): 12 in 35, 14 in 40 (13.3). Three of them: 36 and 42.
TEST_P(IndianShutter, TenonsOfThreeThicknessesThroughTheStiles) {
  EXPECT_NEAR(tenon(), GetParam() < 38 ? 12 : 14, kExact);
  for (const char* rail : {"top", "frieze", "lock", "bottom"}) {
    SCOPED_TRACE(rail);
    const std::string id = std::string("leaf.rail.") + rail;
    const auto tongues = tonguesOf(work, rail, 50);  // half way through the stile
    EXPECT_EQ(tongues.size(), extent(id).z > 180 ? 2u : 1u);
    for (const Tongue& t : tongues) EXPECT_NEAR(t.width(), 3 * tenon(), kExact);
    EXPECT_NEAR(faceAt(work, id, "tenon.end", kX, +1) - faceAt(work, id, "shoulder.front", kX, +1), 100,
                kExact);
    EXPECT_NEAR(faceAt(work, id, "shoulder.front", kX, -1) - faceAt(work, id, "tenon.end", kX, -1), 100,
                kExact);
  }
}

// Horns still on at the bench: longer than the shutter above and below (40 each: Goring's, not the
// Department's).
TEST_P(IndianShutter, HornsAreOnAtTheEndOfTheBench) {
  for (const char* id : {"leaf.stile.hanging", "leaf.stile.closing"}) {
    const Box3 stile = worldBox(work, id);
    EXPECT_NEAR(stile.high.z - worldBox(work, "leaf.rail.top").high.z, 40, kExact) << id;
    EXPECT_NEAR(worldBox(work, "leaf.rail.bottom").low.z - stile.low.z, 40, kExact) << id;
  }
}

// Openings, by sums: (700 - 300) / 2 = 200 wide; 1905 - 100 - 1480 = 325, 1480 - 100 - 900 = 480 and
// 900 - 150 - 200 = 550 high. Panels: 24 of groove and 3 of air each way: 221 by 346, 501, 571.
TEST_P(IndianShutter, PanelsKeepTheAirSpaceAllRound) {
  const std::vector<std::string> rails{"top", "frieze", "lock", "bottom"};
  const std::vector<double> openings{325, 480, 550};
  for (size_t row = 1; row <= 3; ++row)
    for (size_t column = 1; column <= 2; ++column) {
      const std::string id = fmt::format("leaf.panel.{}.{}", row, column);
      SCOPED_TRACE(id);
      const std::string muntin = fmt::format("leaf.muntin.{}.1", row);
      const std::string left = column == 1 ? "leaf.stile.hanging" : muntin,
                        right = column == 1 ? muntin : "leaf.stile.closing",
                        above = "leaf.rail." + rails[row - 1], below = "leaf.rail." + rails[row];
      const Box3 panel = worldBox(work, id);
      EXPECT_NEAR(panel.low.x - faceAt(work, left, "groove.bottom", kX, +1), 1.5, kExact);
      EXPECT_NEAR(faceAt(work, right, "groove.bottom", kX, -1) - panel.high.x, 1.5, kExact);
      EXPECT_NEAR(panel.low.z - faceAt(work, below, "groove.bottom", kZ, +1), 1.5, kExact);
      EXPECT_NEAR(faceAt(work, above, "groove.bottom", kZ, -1) - panel.high.z, 1.5, kExact);
      EXPECT_NEAR(faceAt(work, left, "edge.inner", kX, +1) - faceAt(work, left, "groove.bottom", kX, +1), 12,
                  kExact);
      const Vec3 size = extent(id);
      EXPECT_NEAR(size.x, 200 + 24 - 3, kExact);
      EXPECT_NEAR(size.z, openings[row - 1] + 24 - 3, kExact);
      EXPECT_GE(size.y, 15);
      EXPECT_NEAR(sizeOf(pieceNamed(work, id).last().shell).x, size.z, kExact);  // grain up, the longer side
      EXPECT_GE(size.z, size.x);
      EXPECT_LE(size.x * size.z, 0.5e6);
    }
}

INSTANTIATE_TEST_SUITE_P(Thick, IndianShutter, testing::Values(35.0, 40.0),
                         [](const auto& info) { return info.param < 38 ? "35" : "40"; });

}  // namespace
}  // namespace dryfit::tests
