// Leaves from short door set files.
#include <gtest/gtest.h>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

void expectSound(const CutWork& work) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const auto order = plan(work.assembly);
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
}

// Goring, Manual of Purpose-Made Woodworking Joinery: stile blank 1981 + 80; the rest by arithmetic from the
// widths.
TEST(Leaf, OfOneLineIsTheTradesUsualOne) {
  const CutWork work = cutLeafAlone("title = \"Trial\"\n");
  expectSound(work);
  EXPECT_DOUBLE_EQ(sizeOf(piece(work, "leaf.stile.hanging").last().shell).x, 2061);
  EXPECT_DOUBLE_EQ(sizeOf(piece(work, "leaf.rail.top").last().shell).x, 762);
  // Between groove bottoms 762 - 190 + 24 = 596; plain-sawn coast Douglas-fir from 12 to 14 %: 596 x 0.00267
  // x 2 / 2 an edge (Wood Handbook, Eq. 13-2).
  EXPECT_NEAR(sizeOf(piece(work, "leaf.panel.1.1").last().shell).y, 596 - 2 * (596 * 0.00267 * 2 / 2), 1e-9);
  // Openings: 1981 - 95 - 965 = 921 high above the middle rail, 965 - 195 - 195 = 575 below; 12 of groove
  // each way.
  EXPECT_NEAR(sizeOf(piece(work, "leaf.panel.1.1").last().shell).x, 921 + 24 - 3, 1e-9);
  EXPECT_NEAR(sizeOf(piece(work, "leaf.panel.2.1").last().shell).x, 575 + 24 - 3, 1e-9);
}

TEST(Leaf, PlaceOfTheMiddleRailIsItsTopEdgeAboveTheLeafsBottom) {
  const CutWork work = cutLeafAlone("title = \"Trial\"\n[leaf]\ngap_floor = 8\n");
  EXPECT_NEAR(piece(work, "leaf.rail.middle").worldFromPiece.origin.z, 8 + 965 - 195.0 / 2, 1e-9);
  EXPECT_NEAR(piece(work, "leaf.stile.hanging").worldFromPiece.origin.x, -762.0 / 2 + 95.0 / 2, 1e-9);
  EXPECT_NEAR(piece(work, "leaf.stile.hanging").worldFromPiece.origin.y, 22, 1e-9);  // front face at Y = 0
}

TEST(Leaf, OfTheOtherHandIsMirrored) {
  const std::string sizes = "stile = { hanging = 95, closing = 120 }\n[[leaf.row]]\nmuntins = 1\n";
  const CutWork left = cutLeafAlone("title = \"L\"\n[leaf]\nhand = \"left\"\n" + sizes);
  const CutWork right = cutLeafAlone("title = \"R\"\n[leaf]\nhand = \"right\"\n" + sizes);
  ASSERT_EQ(left.pieces.size(), right.pieces.size());
  expectSound(right);
  for (size_t i = 0; i < left.pieces.size(); ++i) {
    const Piece &l = left.pieces[i], &r = right.pieces[i];
    EXPECT_EQ(l.id, r.id);
    EXPECT_EQ(shapeKey({&l.last().shell}), mirroredShapeKey({&r.last().shell})) << l.id;
    EXPECT_NEAR(l.worldFromPiece.origin.x, -r.worldFromPiece.origin.x, 1e-9) << l.id;
  }
}

TEST(Leaf, HasAsManyPanelsAsItsRowsAsk) {
  const std::string two = "[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"bottom\"\n";
  const std::vector<std::pair<std::string, std::pair<int, int>>> cases = {
      {two, {1, 0}},
      {"", {2, 0}},
      {two + "[[leaf.row]]\nmuntins = 2\n", {3, 2}},
      {"[[leaf.row]]\nmuntins = 1\n[[leaf.row]]\nmuntins = 1\n", {4, 2}},
      {"[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"frieze\"\nwidth = 95\n[[leaf.rail]]\nname = "
       "\"lock\"\n"
       "width = 195\ntop_edge = 965\n[[leaf.rail]]\nname = \"bottom\"\n[[leaf.row]]\nmuntins = "
       "1\n[[leaf.row]]\nmuntins = 1\n"
       "[[leaf.row]]\nmuntins = 1\n",
       {6, 3}},
  };
  for (const auto& [text, counts] : cases) {
    const CutWork work = cutLeafAlone("title = \"Trial\"\n[leaf]\n" + text);
    int panels = 0, muntins = 0;
    for (const Piece& p : work.pieces) {
      panels += p.id.rfind("leaf.panel.", 0) == 0;
      muntins += p.id.rfind("leaf.muntin.", 0) == 0;
    }
    EXPECT_EQ(panels, counts.first) << text;
    EXPECT_EQ(muntins, counts.second) << text;
    expectSound(work);
  }
}

// Rails without a place stand so that the panels between them are equally high.
TEST(Leaf, UnplacedRailsShareOutTheHeight) {
  const CutWork work = cutLeafAlone(
      "title = \"Trial\"\n[leaf]\nheight = 2000\n[[leaf.rail]]\nname = \"top\"\nwidth = "
      "100\n[[leaf.rail]]\nname = \"a\"\n"
      "width = 100\n[[leaf.rail]]\nname = \"b\"\nwidth = 100\n[[leaf.rail]]\nname = \"bottom\"\nwidth = "
      "200\n");
  // 2000 - 500 of rails in three openings of 500.
  EXPECT_NEAR(piece(work, "leaf.rail.a").worldFromPiece.origin.z, 6 + 2000 - 100 - 500 - 50, 1e-9);
  EXPECT_NEAR(piece(work, "leaf.rail.b").worldFromPiece.origin.z, 6 + 200 + 500 + 50, 1e-9);
}

TEST(Leaf, InInchesIsTheSameLeaf) {
  const CutWork inches = cutLeafAlone(
      "title = \"T\"\nunit = \"in\"\n[leaf]\nwidth = 30\nheight = \"6 ft 8 in\"\nthickness = \"1 3/4 "
      "in\"\nstile = 4.5\n");
  const CutWork metric =
      cutLeafAlone("title = \"T\"\n[leaf]\nwidth = 762\nheight = 2032\nthickness = 44.45\nstile = 114.3\n");
  ASSERT_EQ(inches.pieces.size(), metric.pieces.size());
  for (size_t i = 0; i < inches.pieces.size(); ++i)
    EXPECT_NEAR(volume(inches.pieces[i].last().shell), volume(metric.pieces[i].last().shell), 1e-6)
        << inches.pieces[i].id;
}

TEST(Leaf, HasTheTimberOfEachKindOfPiece) {
  auto materials = [](const std::string& by) {
    const CutWork work = cutLeafAlone("title = \"T\"\n[leaf.tenon]\nfixing = \"" + by +
                                      "\"\n[timber]\nleaf = { framing = \"Oak, white\", panels = \"Cedar, "
                                      "western red\", wedges = \"Walnut, black\" }\n");
    for (const Piece& p : work.pieces) {
      const bool panel = p.id.rfind("leaf.panel.", 0) == 0;
      const bool fixing = p.id.rfind("leaf.wedge.", 0) == 0 || p.id.rfind("leaf.pin.", 0) == 0;
      const char* own = fixing ? "Walnut, black" : panel ? "Cedar, western red" : "Oak, white, commercial";
      EXPECT_EQ(p.material, own) << p.id;
    }
  };
  materials("wedged");
  materials("draw-bored");
}

TEST(Leaf, FaultsAreToldInTheTradesWords) {
  auto only = [](const std::string& text) {
    const auto faults = faultsOfLeafAlone("title = \"Trial\"\n[leaf]\n" + text);
    return faults.size() == 1 ? faults[0] : std::to_string(faults.size()) + " faults";
  };
  EXPECT_EQ(only("stile = 400\n"),
            "test.toml:2:1: leaf.stile: stiles of 400 and 400 leave -38 between them in a leaf 762 wide; at "
            "least 60: narrower "
            "stiles or a wider leaf");
  EXPECT_EQ(only("widht = 762\n"),
            "test.toml:3:1: leaf.widht: there is no such key here; did you mean \"width\"?");
  EXPECT_EQ(only("[[leaf.row]]\nmuntins = 9\n"),
            "test.toml:3:1: leaf.row[1]: panel 1.1 would be -28.3 wide between its framing; at least 30: "
            "fewer or narrower muntins");
  EXPECT_EQ(only("[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"middle\"\ntop_edge = "
                 "3000\n[[leaf.rail]]\nname = \"bottom\"\n"),
            "2 faults");
  EXPECT_EQ(only("[[leaf.row]]\n[[leaf.row]]\n[[leaf.row]]\n"),
            "test.toml:5:1: leaf.row[3]: 3 rows are given for the 2 openings between 3 rails; one row an "
            "opening, from the top");
}

}  // namespace
}  // namespace dryfit::tests
