// Face regions, worked out plane by plane, against the faces of the same recipe as carve() leaves them.
#include "piece/face_regions.h"

#include <gtest/gtest.h>

#include <map>

#include "base/planning_mesh.h"
#include "piece/piece.h"
#include "support/works.h"

namespace dryfit {
namespace {

std::map<std::string, double> areasOf(const std::vector<FaceRegion>& regions) {
  std::map<std::string, double> areas;
  for (const FaceRegion& r : regions)
    for (const FlatPolygon& p : r.parts) areas[r.role] += area(p);
  return areas;
}

std::map<std::string, double> areasOf(const PlanningMesh& mesh) {
  std::map<std::string, double> areas;
  for (const Facet& f : mesh.facets) areas[mesh.roles[static_cast<size_t>(f.role)]] += area(f);
  return areas;
}

/// Not for pieces with holes whose mouth lies on a round: regions know holes square to a face only.
/// Roles of round holes have no flat region: what is left over in the mesh must be theirs.
void expectSame(const Recipe& recipe, const PlanningMesh& mesh, const std::string& about) {
  const auto mine = areasOf(faceRegions(recipe)), carved = areasOf(mesh);
  for (const auto& [role, mm2] : mine)
    EXPECT_NEAR(mm2, carved.count(role) ? carved.at(role) : 0, 1e-5 + mm2 * 1e-9) << about << " " << role;
  for (const auto& [role, mm2] : carved)
    if (!mine.count(role)) {
      bool hole = false;
      for (const Feature& f : recipe.features) {
        const auto named = [&](const std::string& name) { return role == name || role == name + ".bottom"; };
        if (const auto* bore = std::get_if<Bore>(&f)) hole = hole || named(bore->role);
        if (const auto* round = std::get_if<RoundHole>(&f)) hole = hole || named(round->role);
      }
      EXPECT_TRUE(hole) << about << " has no region for " << role << ", " << mm2 << " mm2";
    }
}

TEST(FaceRegions, AgreeWithWhatIsCarvedInAllShippedWorks) {
  std::vector<std::string> files = tests::shippedWorks();
  for (const std::string& set : tests::shippedDoorSets()) files.push_back(set);
  for (const std::string& file : files) {
    const CutWork work = tests::cutFile(file);
    for (const Piece& piece : work.pieces)
      for (const PieceState& state : piece.states)
        if (std::holds_alternative<BoxBlank>(state.cut->recipe.blank) && state.cut->shell.openBores.empty())
          expectSame(state.cut->recipe, *state.cut->mesh, file + " " + piece.id + " " + state.name);
  }
}

TEST(FlatRegion, TakesConvexBodiesOut) {
  const FlatPolygon square{{0, 0, 0}, {10, 0, 0}, {10, 10, 0}, {0, 10, 0}};
  const std::vector<HalfSpace> corner{{{-1, 0, 0}, -6}, {{0, -1, 0}, -7}};  // x >= 6, y >= 7
  double left = 0;
  for (const FlatPolygon& p : less(square, corner)) left += area(p);
  EXPECT_NEAR(left, 100 - 4 * 3, 1e-12);
  const FlatPolygon other{{5, 5, 0}, {5, 20, 0}, {20, 20, 0}, {20, 5, 0}};  // runs the other way round
  EXPECT_NEAR(sharedArea(square, other), 25, 1e-12);
  EXPECT_NEAR(sharedArea(other, square), 25, 1e-12);
  EXPECT_TRUE(within(square, {{1, 0, 0}, 0}).empty());  // only an edge is left
}

}  // namespace
}  // namespace dryfit
