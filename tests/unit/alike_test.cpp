// Alike and handed, on an irregular tetrahedron: the simplest solid that no turn maps onto its mirror image.
#include "piece/alike.h"

#include <gtest/gtest.h>

#include "unit/hand_made_work.h"

namespace dryfit {
namespace {

Shell tetrahedron() {
  Shell shell;
  shell.vertices = {{0, 0, 0}, {100, 0, 0}, {0, 40, 0}, {0, 0, 15}};
  for (const auto& loop : {std::vector<int>{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}}) {
    const auto at = [&](int i) { return shell.vertices[static_cast<size_t>(loop[static_cast<size_t>(i)])]; };
    const Vec3 normal = normalized(cross(at(1) - at(0), at(2) - at(0)));
    shell.flats.push_back({"face", normal, dot(normal, at(0)), {loop}, {}});
  }
  return shell;
}

Piece pieceOf(const Shell& shell) {
  auto cut = std::make_shared<CutRecipe>();
  cut->shell = shell;
  Piece piece;
  piece.states = {{"whole", cut}};
  return piece;
}

TEST(Alike, MirrorImagesAreHandedInTheirOrder) {
  const Shell one = tetrahedron(), other = mirrored(one);
  const auto found = alikes({pieceOf(one), pieceOf(other), pieceOf(one), pieceOf(other), pieceOf(one)});
  EXPECT_EQ(found[0].key, found[2].key);
  EXPECT_EQ(found[1].key, found[3].key);
  EXPECT_NE(found[0].key, found[1].key);
  EXPECT_EQ(found[0].count, 3);
  EXPECT_EQ(found[1].count, 2);
  EXPECT_EQ(found[0].handedWith, 1);
  EXPECT_EQ(found[1].handedWith, 0);
  EXPECT_EQ(found[2].handedWith, 3);
  EXPECT_EQ(found[3].handedWith, 2);
  EXPECT_EQ(found[4].handedWith, 3);
}

TEST(Alike, ASymmetricPieceIsItsOwnMirrorImage) {
  const auto found =
      alikes({pieceOf(boxShell(400, 95, 44)), pieceOf(boxShell(400, 95, 44)), pieceOf(tetrahedron())});
  EXPECT_EQ(found[0].count, 2);
  EXPECT_FALSE(found[0].handedWith);
  EXPECT_EQ(found[2].count, 1);
  EXPECT_FALSE(found[2].handedWith);
}

TEST(Alike, AnotherStateBeforeTheLastIsAnotherPiece) {
  Piece staged = pieceOf(boxShell(400, 95, 44));
  staged.states.insert(staged.states.begin(), pieceOf(boxShell(410, 95, 44)).states[0]);
  const auto found = alikes({staged, pieceOf(boxShell(400, 95, 44))});
  EXPECT_NE(found[0].key, found[1].key);
  EXPECT_EQ(found[0].key.size(), 16u);
}

}  // namespace
}  // namespace dryfit
