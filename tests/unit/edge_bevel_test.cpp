// Edges planed to a bevel: the features, and the closing edge of leaves of both hands, all fixings and counts
// of tenons, before and after they are cleaned off. Expected figures are closed formulas of the sizes given.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-9;  // mm: plain sums of doubles

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

Shell cutOf(const Recipe& recipe) {
  CutCache cache;
  const auto cut = cache.cut(recipe, "trial");
  if (!cut) throw std::runtime_error(toText(cut.faults()[0]));
  return cut.value()->shell;
}

Recipe bar() {
  Recipe recipe;
  recipe.blank = BoxBlank{300, 95, 44};
  return recipe;
}

// A wedge of wood as long as the bar goes: half of loss times thickness.
TEST(EdgeBevel, TakesAThreeSidedPrismOffTheEdge) {
  for (Towards edge : {Towards::Low, Towards::High})
    for (Towards narrow : {Towards::Low, Towards::High}) {
      Recipe recipe = bar();
      recipe.features.push_back(EdgeBevel{"planed", edge, 2.5, narrow});
      const Shell shell = cutOf(recipe);
      EXPECT_NEAR(volume(shell), 300 * (95 * 44 - 2.5 * 44 / 2), 1e-6);
      EXPECT_EQ(shell.flats.size(), 6u);  // the square edge is gone to the last hair
      const double s = edge == Towards::High ? 1 : -1, n = narrow == Towards::High ? 1 : -1;
      for (const Vec3& v : shell.vertices)
        if (v.y * s > 0) {
          EXPECT_NEAR(v.y * s, 47.5 - (v.z * n > 0 ? 2.5 : 0), kExact);
        }
    }
}

TEST(EdgeBevel, MirroredTwiceIsItself) {
  Recipe recipe = bar();
  recipe.features.push_back(EdgeBevel{"edge.high", Towards::High, 3, Towards::Low});
  recipe.features.push_back(CutOff{"end.high", Towards::High, 140, -2});
  EXPECT_TRUE(mirrored(mirrored(recipe)) == recipe);
  const Shell turned = cutOf(mirrored(recipe)), shell = cutOf(recipe);
  EXPECT_EQ(shapeKey({&turned}), mirroredShapeKey({&shell}));
}

TEST(CutOff, LeansOverTheThickness) {
  for (Towards end : {Towards::Low, Towards::High}) {
    const double s = end == Towards::High ? 1 : -1;
    Recipe recipe = bar();
    recipe.features.push_back(CutOff{"sawn", end, s * 140, 4});
    const Shell shell = cutOf(recipe);
    EXPECT_NEAR(volume(shell), (150 + 140) * 95.0 * 44, 1e-6);  // the middle's length counts
    for (const Vec3& v : shell.vertices)
      if (v.x * s > 0) {
        EXPECT_NEAR(v.x, s * 140 + (v.z > 0 ? 2 : -2), kExact);
      }
  }
}

/// A leaf 762 x 1981 x 44, its closing edge at +X for the left hand.
std::string leaf(const std::string& hand, double bevel, const std::string& fixing, int tenons) {
  std::string text = fmt::format(
      "title = \"Trial\"\n[leaf]\nhand = \"{}\"\nclosing_bevel = {}\n[leaf.tenon]\nfixing = \"{}\"\n", hand,
      bevel, fixing);
  for (const char* rail : {"top", "middle", "bottom"})
    text += fmt::format("[[leaf.rail]]\nname = \"{}\"\nwidth = {}\n", rail, tenons == 1 ? 110 : 250) +
            fmt::format("tenon = {{ count = {} }}\n", tenons);
  return text;
}

/// Far faces of the closing side: the stile's outer edge, tenons' ends and wedges' heads there, world.
std::vector<Facet> closingEdge(const CutWork& work, double handSign, const std::vector<int>& states) {
  std::vector<Facet> all;
  for (size_t b = 0; b < work.assembly.bodies.size(); ++b) {
    const Body& body = work.assembly.bodies[b];
    const PlanningMesh world = placed(*body.states[static_cast<size_t>(states[b])].mesh, body.worldFromPiece);
    for (const Facet& f : world.facets) {
      const std::string& role = world.roles[static_cast<size_t>(f.role)];
      const bool far = role == "edge.outer" || role == "tenon.end" || role == "head";
      if (far && f.normal.x * handSign > 0.5) all.push_back(f);
    }
  }
  return all;
}

TEST(ClosingBevel, StileTenonsAndWedgesLieOnOneSlopingPlane) {
  for (const char* hand : {"left", "right"})
    for (const char* fixing : {"wedged", "draw-bored", "glued"})
      for (double bevel : {0.5, 2.0, 3.0, 5.0}) {
        SCOPED_TRACE(fmt::format("{} {} {}", hand, fixing, bevel));
        const CutWork work = cutLeafAlone(leaf(hand, bevel, fixing, 2));
        const double side = std::string(hand) == "left" ? 1 : -1;
        const auto facets = closingEdge(work, side, lastStates(work.assembly));
        EXPECT_GE(facets.size(), std::string(fixing) == "wedged" ? 1u + 6 + 12 : 1u + 6);
        // Front arris at half the leaf's width, Y = 0; at the back, Y = 44, the bevel within it.
        for (const Facet& f : facets)
          for (const Vec3& v : f.points) EXPECT_NEAR(side * v.x, 381 - bevel * v.y / 44, kExact);
      }
}

TEST(ClosingBevel, BeforeCleaningOffTheEdgeIsSquareAndTenonsAndWedgesStandProud) {
  const CutWork work = cutLeafAlone(leaf("left", 3, "wedged", 1));
  int edges = 0, proud = 0;
  for (const Facet& f : closingEdge(work, 1, firstStates(work.assembly)))
    for (const Vec3& v : f.points) {
      edges += std::abs(v.x - 381) < kExact;
      proud += std::abs(v.x - 391) < kExact;
      EXPECT_TRUE(std::abs(v.x - 381) < kExact || std::abs(v.x - 391) < kExact) << v.x;
    }
  EXPECT_GE(edges, 4);
  EXPECT_GE(proud, 3 * 3 * 4);  // three tenons with two wedges each
}

TEST(ClosingBevel, FitsBeforeAndAfterWithAnyCountOfTenons) {
  for (const char* hand : {"left", "right"})
    for (const char* fixing : {"wedged", "draw-bored", "glued"})
      for (int tenons : {1, 2, 3})
        for (double bevel : {0.5, 2.0, 3.0, 5.0}) {
          SCOPED_TRACE(fmt::format("{} {} {} {}", hand, fixing, tenons, bevel));
          const CutWork work = cutLeafAlone(leaf(hand, bevel, fixing, tenons));
          for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
          // One state before the last: all together and fixed, nothing cleaned off yet. Horns stay on.
          std::vector<int> before = lastStates(work.assembly);
          for (int& state : before) state = std::max(0, state - 1);
          std::vector<FitFault> faults;
          fitBodies(work.assembly, before, "before", faults);
          for (const FitFault& f : faults) ADD_FAILURE() << "before: " << f.text;
          if (HasFailure()) return;
        }
}

TEST(ClosingBevel, IsFoundAnOrderAndPlanedAtCleaningOff) {
  for (const char* fixing : {"wedged", "draw-bored", "glued"}) {
    const CutWork work = cutLeafAlone(leaf("right", 2.5, fixing, 2));
    const auto order = plan(work.assembly);
    ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
    // The one trim: after all that holds the framing, before the mouldings.
    bool planed = false;
    for (const Step& s : std::get<OrderOfWork>(order).steps) {
      if (s.event == "drive" || s.event == "glue") {
        EXPECT_FALSE(planed) << s.text;
      }
      if (s.event == "fasten") {
        EXPECT_TRUE(planed) << s.text;
      }
      if (s.event != "trim") continue;
      planed = true;
      EXPECT_NE(s.text.find("Plane the edge of the closing stile to its bevel: 2.5 less at the back than at "
                            "the face."),
                std::string::npos)
          << s.text;
    }
    EXPECT_TRUE(planed);
  }
}

// Glued, so that the mortises run parallel: what the plane takes of the stile is half the bevel over the
// whole edge less the mortises, and of each tenon its 10 and the part of the slope.
TEST(ClosingBevel, VolumesAreClosedFormulas) {
  const double bevel = 3, t = 14, long_ = 1981 + 80;
  const CutWork work = cutLeafAlone(leaf("left", bevel, "glued", 1));
  const double tenon = 55;  // half of 110, for top and bottom; the middle's net of 86 gives 70 (5 x 14)
  const double mortises = 2 * tenon + 70;
  auto lost = [&](const std::string& id) {
    const auto& states = piece(work, id).states;
    return volume(states[states.size() - 2].cut->shell) - volume(states.back().cut->shell);
  };
  // Relative to volumes of 1e7 mm3, doubles' rounding.
  EXPECT_NEAR(lost("leaf.stile.closing"), bevel / 2 * (44 * long_ - t * mortises), 1e-5);
  EXPECT_NEAR(lost("leaf.rail.top"), 2 * 10 * tenon * t + bevel / 2 * t * tenon, 1e-5);
  EXPECT_NEAR(lost("leaf.rail.middle"), 2 * 10 * 70 * t + bevel / 2 * t * 70, 1e-5);
  EXPECT_EQ(piece(work, "leaf.stile.hanging").states.size(), 1u);
}

TEST(ClosingBevel, OfTheOtherHandIsMirrored) {
  const CutWork left = cutLeafAlone(leaf("left", 2.5, "wedged", 2)),
                right = cutLeafAlone(leaf("right", 2.5, "wedged", 2));
  ASSERT_EQ(left.pieces.size(), right.pieces.size());
  for (size_t i = 0; i < left.pieces.size(); ++i)
    for (size_t k = 0; k < left.pieces[i].states.size(); ++k)
      EXPECT_EQ(shapeKey({&left.pieces[i].states[k].cut->shell}),
                mirroredShapeKey({&right.pieces[i].states[k].cut->shell}))
          << left.pieces[i].id << " " << k;
}

TEST(ClosingBevel, InInchesIsTheSameLeaf) {
  const CutWork inches =
      cutLeafAlone("title = \"T\"\nunit = \"in\"\n[leaf]\nwidth = 30\nclosing_bevel = \"1/8 in\"\n");
  const CutWork metric = cutLeafAlone("title = \"T\"\n[leaf]\nwidth = 762\nclosing_bevel = 3.175\n");
  ASSERT_EQ(inches.pieces.size(), metric.pieces.size());
  for (size_t i = 0; i < inches.pieces.size(); ++i)
    EXPECT_NEAR(volume(inches.pieces[i].last().shell), volume(metric.pieces[i].last().shell), 1e-6);
}

constexpr const char* kPost = R"(title = "Post"
[[member]]
id = "post"
section = [90, 44]
length = 500
horns = [40, 0]
origin = [0, 0, 0]
along = "+Z"
width_along = "+X"
)";

// A member that meets nothing, bevelled on both edges; horns go after.
TEST(MemberBevel, MayStandAloneAndOnBothEdges) {
  const CutWork work =
      cutText(std::string(kPost) + "bevel = [{ edge = \"+X\", back = 2 }, { edge = \"-X\", face = 4 }]\n");
  const Piece& post = piece(work, "post");
  ASSERT_EQ(post.states.size(), 3u);
  EXPECT_EQ(post.states[1].name, "edge bevelled");
  EXPECT_EQ(post.states[2].name, "horns off");
  EXPECT_NEAR(volume(post.states[1].cut->shell), 500 * (90 * 44 - 44.0 * (2 + 4) / 2), 1e-6);
  const PlanningMesh world = placed(*post.last().mesh, post.worldFromPiece);
  for (const Facet& f : world.facets)
    for (const Vec3& v : f.points) {
      EXPECT_NEAR(v.x, v.x > 0 ? (v.y > 0 ? 43 : 45) : (v.y > 0 ? -45 : -41), kExact);  // the face is at -Y
    }
  const auto order = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order));
}

// A stopped tenon does not come through: the plane passes it by.
TEST(MemberBevel, OverAStoppedTenon) {
  const CutWork work = cutText(std::string(kPost) + R"(bevel = { edge = "-X", back = 5 }
[[member]]
id = "rail"
section = [90, 44]
shoulder = 300
origin = [195, 0, 100]
along = "+X"
width_along = "+Z"
[[joint]]
kind = "mortise-and-tenon"
tenon = "rail"
mortise = "post"
fixing = "glued"
length = 60
)");
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
}

}  // namespace
}  // namespace dryfit::tests
