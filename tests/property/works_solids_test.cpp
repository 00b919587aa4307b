// Every piece of every shipped work, in every state, as a solid: judged by the kernel's checker and by the
// plain way.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

TEST(WorksSolids, AreValidClosedExactAndFullyNamed) {
  int solids = 0;
  for (const std::string& path : shippedWorks()) {
    const CutWork work = cutFile(path);
    for (const Piece& p : work.pieces) {
      EXPECT_TRUE(isProper(p.worldFromPiece)) << p.id;
      for (const PieceState& s : p.states) {
        SCOPED_TRACE(path + ": " + p.id + ", " + s.name);
        const Shell& shell = s.cut->shell;
        const auto made = solidFromShell(shell);
        ASSERT_TRUE(made.ok());
        for (const std::string& fault : faultsOf(made.value())) ADD_FAILURE() << fault;
        const Counts counts = countsOf(made.value());
        EXPECT_EQ(counts.solids, 1);
        EXPECT_EQ(counts.shells, 1);
        EXPECT_EQ(counts.faces, static_cast<int>(shell.flats.size() + shell.rounds.size() +
                                                 shell.strips.size() + shell.openBores.size()));
        EXPECT_GE(shortestEdge(made.value()), 0.01);
        EXPECT_TRUE(isClosed(shell));
        const auto roles = rolesOf(made.value());
        EXPECT_EQ(roles.size(), static_cast<size_t>(counts.faces));
        for (const std::string& role : roles) EXPECT_FALSE(role.empty());
        // The kernel measures the sizes the work states: 44 is 44.000000.
        const Vec3 size = measure(made.value()).box.size(), stated = sizeOf(shell);
        // Round what it bored itself it adds 1e-7, the tolerance of its edges.
        const double close = shell.openBores.empty() ? 1e-7 : 2e-7;
        for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(size[axis], stated[axis], close);
        ++solids;
      }
    }
  }
  EXPECT_GE(solids, 100);
}

/// The plain way cuts a round or a hollow by the chords of its cutters: at most the segments between them and
/// the arc, over the whole length, are between the two, all on one side unless rounds and hollows are mixed.
double chordsOff(const Shell& shell) {
  const double turn = 2 * std::numbers::pi / 64;
  double mm3 = 0;
  for (const StripFace& s : shell.strips)
    mm3 += s.radius * s.radius * s.turn / 2 * (1 - std::sin(turn) / turn) * sizeOf(shell).x;
  return mm3;
}
bool isMixed(const Shell& shell) {
  return std::any_of(shell.strips.begin(), shell.strips.end(),
                     [&](const StripFace& s) { return s.hollow != shell.strips[0].hollow; });
}

/// Rods and turned parts are made whole, not carved.
bool isTurned(const Recipe& recipe) {
  return std::holds_alternative<RodBlank>(recipe.blank) || std::holds_alternative<TurnedBlank>(recipe.blank);
}

/// Hinge plates are turned end for end, never mirrored.
bool isMirrorable(const Recipe& recipe) {
  return std::none_of(recipe.features.begin(), recipe.features.end(),
                      [](const Feature& f) { return std::holds_alternative<Barrel>(f); });
}

TEST(WorksSolids, AreThoseOfGeneralBooleans) {
  for (const std::string& path : shippedWorks()) {
    const CutWork work = cutFile(path);
    std::map<std::uint64_t, bool> done;
    for (const Piece& p : work.pieces)
      for (const PieceState& s : p.states) {
        if (isTurned(s.cut->recipe) || done[s.cut->hash]) continue;
        done[s.cut->hash] = true;
        const auto plain = solidByBooleans(carvingOf(s.cut->recipe));
        const auto made = solidFromShell(s.cut->shell);
        ASSERT_TRUE(plain.ok() && made.ok()) << p.id;
        const double exact = volume(s.cut->shell), off = chordsOff(s.cut->shell);
        const double plainMm3 = measure(plain.value()).volumeMm3;
        EXPECT_NEAR(plainMm3, exact, 1e-8 * exact + off) << p.id << ", " << s.name;
        const auto common = commonVolume(plain.value(), {}, made.value(), {});
        ASSERT_TRUE(common.ok()) << p.id;
        EXPECT_NEAR(common.value(), std::min(plainMm3, exact),
                    1e-8 * exact + (isMixed(s.cut->shell) ? off : 0))
            << p.id << ", " << s.name;  // the same wood, not only as much
      }
  }
}

TEST(WorksSolids, EqualRecipesAreCutOnceAndStilesMeasureWhatTheFileSays) {
  const CutWork work = shippedWork("panel-frame");
  std::map<std::uint64_t, const CutRecipe*> cut;
  for (const Piece& p : work.pieces)
    for (const PieceState& s : p.states) {
      const auto known = cut.emplace(s.cut->hash, s.cut.get());
      EXPECT_EQ(known.first->second, s.cut.get()) << p.id << " was cut again";
    }
  EXPECT_LT(cut.size(), 25u);
  const auto stile =
      solidFromShell(work.pieces[static_cast<size_t>(pieceOf(work, "stile.left"))].last().shell);
  ASSERT_TRUE(stile.ok());
  const Vec3 size = measure(stile.value()).box.size();
  EXPECT_DOUBLE_EQ(size.x, 820);
  EXPECT_DOUBLE_EQ(size.y, 90);
  EXPECT_DOUBLE_EQ(size.z, 44);
}

/// A handed recipe is the other's turned over, and turning over twice changes nothing.
TEST(WorksSolids, MirroredRecipesAreMirroredSolids) {
  for (const std::string& path : shippedWorks()) {
    const CutWork work = cutFile(path);
    CutCache cache;
    for (const Piece& p : work.pieces) {
      const Recipe& recipe = p.last().recipe;
      if (!isMirrorable(recipe)) continue;
      EXPECT_TRUE(mirrored(mirrored(recipe)) == recipe) << p.id;
      const auto turned = cache.cut(mirrored(recipe), p.id);
      ASSERT_TRUE(turned.ok()) << p.id;
      EXPECT_EQ(shapeKey({&turned.value()->shell}), mirroredShapeKey({&p.last().shell})) << p.id;
    }
  }
}

}  // namespace
}  // namespace dryfit::tests
