// Pieces of whole door sets with flat faces only, in exact rational arithmetic (CGAL 5.5, Nef polyhedra): the
// blank less every body its recipe takes out, one after another, which is what the carving must come to. So
// the judge of the carving, of fit's shared volumes and of the kernel's booleans where a wall, its plaster,
// grounds, lining and leaf meet. That recipes are right is judged by other tests, from plain sizes.
#include <gtest/gtest.h>

#include <map>
#include <random>

#include "exact/exact.h"
#include "fit/fit.h"
#include "solid/solid.h"
#include "support/file_names.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Relative, as in volumes_cgal_test.cpp.
constexpr double kVolume = 1e-9;
/// mm: places of planes a metre or two from the origin, in doubles, after a dozen operations. Times the area
/// of the faces that meet, it is what a shared volume may be off.
constexpr double kPlane = 1e-10;
/// mm: points the kernel takes for one.
constexpr double kKernelPlace = 1e-7;

ExactBody exactBody(const ConvexBody& body, const ConvexBody* within) {
  std::vector<HalfSpace> sides;
  for (const Side& s : body.sides) sides.push_back({s.normal, s.offset});
  if (within)
    for (const Side& s : within->sides) sides.push_back({s.normal, s.offset});
  return ExactBody::inside(sides);
}

class WholeSetByCgal : public testing::TestWithParam<std::string> {
 protected:
  CutWork work = cutWholeSet(GetParam());

  /// In its own frame, in its last state.
  const ExactBody& exactOf(int piece) {
    const CutRecipe& cut = work.pieces[static_cast<size_t>(piece)].last();
    auto known = exact_.find(cut.hash);
    if (known != exact_.end()) return known->second;
    const Carving carving = carvingOf(cut.recipe);
    ExactBody body = exactBody(carving.blank, nullptr);
    for (const ConvexBody& cutter : carving.cutters) body = body - exactBody(cutter, &carving.blank);
    return exact_.emplace(cut.hash, std::move(body)).first->second;
  }

  /// Flat faces only; what has round ones is judged by the kernel elsewhere.
  std::vector<int> flatPieces() const {
    std::vector<int> all;
    for (int p = 0; p < static_cast<int>(work.pieces.size()); ++p) {
      const Shell& shell = work.pieces[static_cast<size_t>(p)].last().shell;
      if (shell.rounds.empty() && shell.strips.empty() && shell.openBores.empty()) all.push_back(p);
    }
    return all;
  }

 private:
  std::map<std::uint64_t, ExactBody> exact_;
};

TEST_P(WholeSetByCgal, PiecesAreTheirBlanksLessWhatIsTakenOut) {
  std::map<std::uint64_t, bool> seen;
  int least = 0;
  for (const int p : flatPieces()) {
    const Piece& piece = work.pieces[static_cast<size_t>(p)];
    if (std::exchange(seen[piece.last().hash], true)) continue;
    SCOPED_TRACE(piece.id);
    const double exact = exactOf(p).volumeMm3();
    EXPECT_NEAR(volume(piece.last().shell), exact, exact * kVolume);
    EXPECT_NEAR(volume(*piece.last().mesh), exact, exact * kVolume);
    const Vec3 centre = exactOf(p).centroid();
    const auto solid = solidFromShell(piece.last().shell);
    ASSERT_TRUE(solid.ok());
    EXPECT_NEAR(length(measure(solid.value()).centroid - centre), 0, 1e-6);
    ++least;
  }
  EXPECT_GE(least, 15);
}

/// Each of a sample of neighbours pushed a few millimetres into the other, askew for every second.
TEST_P(WholeSetByCgal, PushedIntoEachOtherTheyShareWhatTheyShare) {
  constexpr size_t kMostPairs = 60;
  std::mt19937 random(20260);
  std::uniform_real_distribution<double> any(-1, 1);
  const std::vector<int> flat = flatPieces();
  std::vector<std::pair<int, int>> pairs;
  for (size_t i = 0; i < flat.size(); ++i)
    for (size_t j = i + 1; j < flat.size(); ++j) {
      const auto box = [&](int p) {
        const Piece& piece = work.pieces[static_cast<size_t>(p)];
        return bounds(placed(*piece.last().mesh, piece.worldFromPiece));
      };
      if (near(box(flat[i]), box(flat[j]), 0.1)) pairs.emplace_back(flat[i], flat[j]);
    }
  std::shuffle(pairs.begin(), pairs.end(), random);
  EXPECT_GE(pairs.size(), 50u);
  pairs.resize(std::min(pairs.size(), kMostPairs));
  int asked = 0;
  for (const auto& [a, b] : pairs) {
    const Piece &one = work.pieces[static_cast<size_t>(a)], &other = work.pieces[static_cast<size_t>(b)];
    SCOPED_TRACE(one.id + " and " + other.id);
    Placement push = translation(Vec3{any(random), any(random), any(random)} * 4);
    if (asked % 2)
      push = push * rotation(normalized({any(random), any(random), 1}), other.worldFromPiece.origin,
                             0.02 * any(random));
    const Placement there = push * other.worldFromPiece;
    const ExactBody common = exactOf(a).placed(one.worldFromPiece) * exactOf(b).placed(there);
    const double exact = common.volumeMm3();
    const PlanningMesh meshA = placed(*one.last().mesh, one.worldFromPiece),
                       meshB = placed(*other.last().mesh, there);
    const Vec3 size = sizeOf(other.last().shell);
    const double areaMm2 = 2 * (size.x * size.y + size.y * size.z + size.z * size.x);
    EXPECT_NEAR(sharedVolume(meshA, meshB).volumeMm3, exact, kPlane * areaMm2);
    const auto solidA = solidFromShell(one.last().shell), solidB = solidFromShell(other.last().shell);
    ASSERT_TRUE(solidA.ok() && solidB.ok());
    const auto kernel = commonVolume(solidA.value(), one.worldFromPiece, solidB.value(), there);
    ASSERT_TRUE(kernel.ok()) << toText(kernel.faults().front());
    EXPECT_NEAR(kernel.value(), exact, kKernelPlace * areaMm2);
    asked += exact > 1;
  }
  EXPECT_GE(asked, 20) << "too few share anything";
}

INSTANTIATE_TEST_SUITE_P(DoorSets, WholeSetByCgal, testing::ValuesIn(shippedDoorSets()), namedAfterFile);

}  // namespace
}  // namespace dryfit::tests
