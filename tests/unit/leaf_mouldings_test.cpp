// Planted mouldings and bead-and-butt panels of a leaf: where they stand, measured on the pieces in the
// world; what they touch, what holds them. Sizes by arithmetic from the file's.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kPlace = 1e-9;  // mm: sums of a dozen doubles under 2000

/// One panel in a leaf 600 by 900 by 44; stiles 95 and 110, rails 95 and 195; grooves 14 wide, 12 deep, from
/// 15 to 29 behind the front face.
std::string leaf(const std::string& more, const std::string& hand = "left") {
  return "title = \"T\"\n[leaf]\nwidth = 600\nheight = 900\nthickness = 44\nhand = \"" + hand +
         "\"\nstile = { hanging = 95, closing = 110 }\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = "
         "\"bottom\"\n" +
         more;
}

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}
std::vector<Vec3> cornersOf(const Piece& p) {
  std::vector<Vec3> all;
  for (Vec3 v : p.last().shell.vertices) all.push_back(p.worldFromPiece.point(v));
  return all;
}
Box3 worldBox(const Piece& p) {
  Box3 box{{1e9, 1e9, 1e9}, {-1e9, -1e9, -1e9}};
  for (Vec3 v : cornersOf(p))
    for (int i = 0; i < 3; ++i) {
      box.low[i] = std::min(box.low[i], v[i]);
      box.high[i] = std::max(box.high[i], v[i]);
    }
  return box;
}
std::set<std::string> mouldingsOf(const CutWork& work) {
  std::set<std::string> ids;
  for (const Piece& p : work.pieces)
    if (p.id.rfind("leaf.moulding.", 0) == 0) ids.insert(p.id);
  return ids;
}
void expectSound(const CutWork& work) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const auto order = plan(work.assembly);
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
}

TEST(LeafMouldings, HaveTheirNamesOnTheFacesAskedFor) {
  auto ids = [](const std::string& more) { return mouldingsOf(cutLeafAlone(leaf(more))); };
  const std::set<std::string> front{"leaf.moulding.1.1.front.bottom", "leaf.moulding.1.1.front.closing",
                                    "leaf.moulding.1.1.front.hanging", "leaf.moulding.1.1.front.top"};
  std::set<std::string> back, both;
  for (std::string id : front) {
    both.insert(id);
    id.replace(id.find("front"), 5, "back");
    back.insert(id);
    both.insert(id);
  }
  EXPECT_EQ(ids(""), both);
  EXPECT_EQ(ids("[leaf.moulding]\nfaces = \"both\"\n"), both);
  EXPECT_EQ(ids("[leaf.moulding]\nfaces = \"front\"\n"), front);
  EXPECT_EQ(ids("[leaf.moulding]\nfaces = \"back\"\n"), back);
  EXPECT_EQ(ids("[leaf.moulding]\nkind = \"none\"\n"), std::set<std::string>{});
  EXPECT_EQ(ids("[leaf.panel]\nkind = \"bead-and-butt\"\n"), back);
  EXPECT_EQ(ids("[leaf.panel]\nkind = \"bead-and-butt\"\nfaces = \"back\"\n"), front);
  EXPECT_EQ(ids("[leaf.panel]\nkind = \"bead-and-butt\"\nfaces = \"both\"\n"), std::set<std::string>{});
}

/// In stuff of 18 the groove is 6: 5.7 stand beside the panel, less than the 6 that a moulding is worth.
TEST(LeafMouldings, AreLeftOutOfThinStuffUnlessAskedFor) {
  auto count = [](const std::string& more) {
    return mouldingsOf(cutLeafAlone("title = \"T\"\n[leaf]\nwidth = 600\nheight = 900\nthickness = 18\n"
                                    "[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"bottom\"\n"
                                    "[leaf.panel]\nkind = \"flat\"\n" +
                                    more))
        .size();
  };
  EXPECT_EQ(count(""), 0u);
  EXPECT_EQ(count("[leaf.moulding]\nkind = \"planted\"\nprofile = \"square\"\npin_diameter = 1.2\n"), 8u);
}

struct Opening {
  double left, right, low, high;
};
Opening openingOf(const CutWork& work) {
  const Box3 hanging = worldBox(piece(work, "leaf.stile.hanging")),
             closing = worldBox(piece(work, "leaf.stile.closing"));
  // Rails run on into the stiles; their edges are their extent in z.
  return {std::min(hanging.high.x, closing.high.x), std::max(hanging.low.x, closing.low.x),
          worldBox(piece(work, "leaf.rail.bottom")).high.z, worldBox(piece(work, "leaf.rail.top")).low.z};
}

/// Back edges on the framing's edges; 0.3 off the plane of the groove's cheek; 0.7 within the face.
TEST(LeafMouldings, StandWhereTheyShould) {
  for (const std::string hand : {"left", "right"})
    for (const std::string profile : {"ovolo", "ogee", "scotia", "bead", "chamfer", "square"}) {
      SCOPED_TRACE(hand + " " + profile);
      const CutWork work = cutLeafAlone(
          leaf("[leaf.moulding]\nprofile = \"" + profile + "\"\nwidth = 22\nthickness = 14\n", hand));
      const Opening o = openingOf(work);
      EXPECT_NEAR(o.right - o.left, 600 - 95 - 110, kPlace);
      EXPECT_NEAR(o.high - o.low, 900 - 95 - 195, kPlace);
      const bool hangingLeft = worldBox(piece(work, "leaf.stile.hanging")).low.x < 0;
      EXPECT_EQ(hangingLeft, hand == "left");

      for (bool front : {true, false}) {
        auto box = [&](const std::string& side) {
          return worldBox(piece(work, "leaf.moulding.1.1." + std::string(front ? "front." : "back.") + side));
        };
        const std::string left = hangingLeft ? "hanging" : "closing",
                          right = hangingLeft ? "closing" : "hanging";
        EXPECT_NEAR(box("top").high.z, o.high, kPlace);
        EXPECT_NEAR(box("top").low.z, o.high - 22, kPlace);
        EXPECT_NEAR(box("bottom").low.z, o.low, kPlace);
        EXPECT_NEAR(box("bottom").high.z, o.low + 22, kPlace);
        EXPECT_NEAR(box(left).low.x, o.left, kPlace);
        EXPECT_NEAR(box(left).high.x, o.left + 22, kPlace);
        EXPECT_NEAR(box(right).high.x, o.right, kPlace);
        EXPECT_NEAR(box(right).low.x, o.right - 22, kPlace);
        for (const std::string side : {"top", "bottom"}) {  // from corner to corner
          EXPECT_NEAR(box(side).low.x, o.left, kPlace);
          EXPECT_NEAR(box(side).high.x, o.right, kPlace);
        }
        for (const std::string side : {"hanging", "closing"}) {
          EXPECT_NEAR(box(side).low.z, o.low, kPlace);
          EXPECT_NEAR(box(side).high.z, o.high, kPlace);
        }
        for (const std::string side : {"top", "hanging", "closing", "bottom"}) {
          const double inner = front ? box(side).high.y : box(side).low.y;
          EXPECT_NEAR(inner, front ? 15 - 0.3 : 29 + 0.3, kPlace) << side;
          if (profile != "bead") {  // its crown lies between corners
            EXPECT_NEAR(box(side).size().y, 14, kPlace) << side;
          }
        }
      }
    }
}

/// The back edge, straight from back to face, is what touches the framing: its area is known.
TEST(LeafMouldings, TouchTheFramingAndEachOtherOnly) {
  const CutWork work = cutLeafAlone(leaf("[leaf.moulding]\nprofile = \"ovolo\"\n"));
  const FitReport report = fit(work.assembly);
  for (const FitFault& f : report.faults) ADD_FAILURE() << f.text;
  double onTop = 0;
  for (const Contact& c : report.stages.back().contacts) {
    const std::string a = work.pieces[static_cast<size_t>(c.a)].id,
                      b = work.pieces[static_cast<size_t>(c.b)].id;
    EXPECT_FALSE(a.rfind("leaf.panel.", 0) == 0 || b.rfind("leaf.panel.", 0) == 0) << a << ", " << b;
    if ((a == "leaf.rail.top" && b == "leaf.moulding.1.1.front.top") ||
        (b == "leaf.rail.top" && a == "leaf.moulding.1.1.front.top"))
      onTop += c.areaMm2;
  }
  EXPECT_NEAR(onTop, (600 - 95 - 110) * 14, 1e-6);
}

/// Under the mouldings the panel is flat: what stands out of its tongue begins where they end.
TEST(LeafMouldings, ARaisedPanelKeepsItsMargin) {
  for (const auto& [faces, frontMargin, backMargin] :
       {std::tuple{"both", 18.0, 18.0}, {"front", 18.0, 0.0}, {"back", 0.0, 18.0}}) {
    SCOPED_TRACE(faces);
    const CutWork work =
        cutLeafAlone(leaf(fmt::format("[leaf.moulding]\nwidth = 18\nfaces = \"{}\"\n", faces)));
    expectSound(work);
    const Piece& panel = piece(work, "leaf.panel.1.1");
    const Box3 whole = worldBox(panel);
    double front = 1e9, back = 1e9;
    for (Vec3 v : cornersOf(panel)) {
      const double inside =
          std::min({v.x - whole.low.x, whole.high.x - v.x, v.z - whole.low.z, whole.high.z - v.z});
      if (v.y < 22 - 6.85 - 1e-6) front = std::min(front, inside);
      if (v.y > 22 + 6.85 + 1e-6) back = std::min(back, inside);
    }
    // Some corner stands out on each side, and the first of them is where the bevel begins or rises: the
    // groove's 12, the margin and a bevel of 50 in.
    EXPECT_NEAR(front, 12 + frontMargin + 50, kPlace);
    EXPECT_NEAR(back, 12 + backMargin + 50, kPlace);
  }
}

TEST(LeafMouldings, OfTheOtherHandAreMirrored) {
  const std::string more = "[leaf.moulding]\nprofile = \"ogee\"\npins = \"pieces\"\n";
  const CutWork left = cutLeafAlone(leaf(more)), right = cutLeafAlone(leaf(more, "right"));
  ASSERT_EQ(left.pieces.size(), right.pieces.size());
  for (size_t i = 0; i < left.pieces.size(); ++i) {
    const Piece &a = left.pieces[i], &b = right.pieces[i];
    ASSERT_EQ(a.id, b.id);
    EXPECT_EQ(shapeKey({&a.last().shell}), mirroredShapeKey({&b.last().shell})) << a.id;
    const Box3 one = worldBox(a), other = worldBox(b);
    EXPECT_NEAR(one.low.x, -other.high.x, kPlace) << a.id;
    EXPECT_NEAR(one.high.x, -other.low.x, kPlace) << a.id;
    EXPECT_NEAR(one.low.z, other.low.z, kPlace) << a.id;
  }
}

/// Held by the framing alone, whether the pins are pieces or told.
TEST(LeafMouldings, ArePinnedToTheFramingNeverToThePanel) {
  for (bool pieces : {false, true}) {
    const CutWork work = cutLeafAlone(leaf(pieces ? "[leaf.moulding]\npins = \"pieces\"\n" : ""));
    expectSound(work);
    int nailed = 0, nails = 0, told = 0;
    for (const Operation& op : work.assembly.operations) {
      if (op.kind != Operation::Kind::Fasten) continue;
      ++told;
      for (const Bond& bond : op.bonds) {
        ++nailed;
        int mouldings = 0, framing = 0;
        for (int body : bond.between) {
          const std::string& id = work.pieces[static_cast<size_t>(body)].id;
          EXPECT_NE(id.rfind("leaf.panel.", 0), 0u) << id;
          mouldings += id.rfind("leaf.moulding.", 0) == 0;
          framing += id.rfind("leaf.stile.", 0) == 0 || id.rfind("leaf.rail.", 0) == 0;
        }
        EXPECT_EQ(mouldings, 1);
        EXPECT_EQ(framing, 1);
      }
    }
    for (const Piece& p : work.pieces) nails += p.material == "steel";
    EXPECT_EQ(nailed, 8);
    EXPECT_EQ(told, pieces ? 8 : 2);  // listed pins are told once for each face of the panel
    // Across 395 and 610 less 25 at each end, at most 300 apart: 3 nails in each.
    EXPECT_EQ(nails, pieces ? 8 * 3 : 0);
  }
}

// ---- bead and butt ----

TEST(BeadAndButt, IsFlushAndBeadedAlongTheGrainOnly) {
  for (const std::string grain : {"upright", "across"})
    for (const std::string faces : {"front", "back", "both"}) {
      SCOPED_TRACE(grain + " " + faces);
      const CutWork work = cutLeafAlone(leaf(fmt::format(
          "[leaf.panel]\nkind = \"bead-and-butt\"\ngrain = \"{}\"\nfaces = \"{}\"\n", grain, faces)));
      expectSound(work);
      const Piece& panel = piece(work, "leaf.panel.1.1");
      const Shell& shell = panel.last().shell;
      const Box3 box = worldBox(panel);
      const bool front = faces != "back", back = faces != "front";
      EXPECT_NEAR(box.low.y, front ? 0 : 22 - 6.85, kPlace);
      EXPECT_NEAR(box.high.y, back ? 44 : 22 + 6.85, kPlace);
      // Two beads a flush face, along the grain, 9 across, outermost at the shoulder.
      const size_t sides = faces == "both" ? 2 : 1;
      ASSERT_EQ(shell.strips.size(), 2 * sides);
      const Vec3 size = sizeOf(shell);
      for (const StripFace& s : shell.strips) {
        EXPECT_EQ(s.role, "bead.round");
        EXPECT_DOUBLE_EQ(s.radius, 4.5);
        EXPECT_NEAR(s.turn, kPi, 1e-12);
        const Vec3 way = panel.worldFromPiece.direction(s.axis);
        EXPECT_NEAR(std::abs(grain == "upright" ? way.z : way.x), 1, 1e-12);
        EXPECT_NEAR(std::abs(s.centre.y), size.y / 2 - 12 - 4.5, kPlace);
      }
      // The blank, less the rebate round each flush face and, for each bead, a corner 12 by 4.5 (bead 9,
      // quirk 3) that keeps half a round of 9.
      const double over = 22 - 6.85;
      const double rebate = (size.x * size.y - (size.x - 24) * (size.y - 24)) * over;
      const double bead = (12 * 4.5 - kPi * 4.5 * 4.5 / 2) * (size.x - 24);
      const double thick = 6.85 * 2 + over * static_cast<double>(sides);
      EXPECT_NEAR(volume(shell), size.x * size.y * thick - static_cast<double>(sides) * (rebate + 2 * bead),
                  1e-5);
    }
}

/// The shoulders stand off the framing by what the tongue stands off the groove's bottom.
TEST(BeadAndButt, ShouldersAreAsClearAsTheTongue) {
  const CutWork work =
      cutLeafAlone(leaf("[leaf.panel]\nkind = \"bead-and-butt\"\nfaces = \"both\"\nclearance_along = "
                        "2\nclearance_across = 3\n"));
  const Opening o = openingOf(work);
  const Piece& panel = piece(work, "leaf.panel.1.1");
  Box3 field{{1e9, 1e9, 1e9}, {-1e9, -1e9, -1e9}};
  for (Vec3 v : cornersOf(panel))
    if (std::abs(v.y - 22) > 7)
      for (int i = 0; i < 3; ++i) {
        field.low[i] = std::min(field.low[i], v[i]);
        field.high[i] = std::max(field.high[i], v[i]);
      }
  EXPECT_NEAR(field.low.x - o.left, 3, kPlace);
  EXPECT_NEAR(o.right - field.high.x, 3, kPlace);
  EXPECT_NEAR(field.low.z - o.low, 2, kPlace);
  EXPECT_NEAR(o.high - field.high.z, 2, kPlace);
  int shoulders = 0;
  const FitReport report = fit(work.assembly);
  for (const GapFound& g : report.stages.back().gaps)
    if (g.what == "shoulder clear of the framing") {
      ++shoulders;
      EXPECT_TRUE(g.found);
      EXPECT_NEAR(g.foundMm, g.statedMm, 1e-6);
    }
  EXPECT_EQ(shoulders, 8);
}

/// A panel shifted any way is seen: towards the framing by its gaps, out of its plane by its flush face.
TEST(BeadAndButt, NoShiftGoesUnseen) {
  const CutWork work = cutLeafAlone(leaf("[leaf.panel]\nkind = \"bead-and-butt\"\n"));
  const size_t panel = static_cast<size_t>(pieceOf(work, "leaf.panel.1.1"));
  for (int axis = 0; axis < 3; ++axis)
    for (double by : {0.05, -0.05}) {
      Assembly moved = work.assembly;
      moved.bodies[panel].worldFromPiece.origin[axis] += by;
      EXPECT_FALSE(fit(moved).clean()) << axis << " " << by;
    }
}

}  // namespace
}  // namespace dryfit::tests
