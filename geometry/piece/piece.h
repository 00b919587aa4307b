// Piece: a recipe cut into solids, one for each of its states, and the cache that cuts equal recipes once.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/placement.h"
#include "base/planning_mesh.h"
#include "base/result.h"
#include "piece/recipe.h"
#include "solid/carve.h"
#include "solid/shell.h"

namespace dryfit {

/// A recipe cut: exact shell and planning mesh. Shared by every piece with an equal recipe.
struct CutRecipe {
  Recipe recipe;
  std::uint64_t hash = 0;
  Shell shell;
  std::shared_ptr<const PlanningMesh> mesh;
};

struct PieceState {
  std::string name;
  std::shared_ptr<const CutRecipe> cut;
};

struct Piece {
  std::string id, name;
  int unit = 0;
  std::string material;
  bool quarterSawn = true;  ///< rings square to the face that shows; else plain-sawn, rings along it
  std::optional<double> densityKgM3;  ///< empty: not known for this timber
  bool formed = false;                ///< made in place: no blank, not on the cutting list
  bool fastening = false;
  Placement worldFromPiece;
  std::vector<PieceState> states;  ///< in time order, at least one
  int position = 0;                ///< file order, for ties
  std::string joint;               ///< the joint that brought it, empty for a member

  const CutRecipe& last() const { return *states.back().cut; }
};

/// Cuts recipes, each once. Counts what it did, so that a test can see what was cut anew.
class CutCache {
 public:
  enum class Cuts {
    All,
    ShellsOnly  ///< CutRecipe::mesh stays empty: for comparing shapes. The same recipes fail.
  };
  explicit CutCache(Cuts cuts = Cuts::All) : cuts_(cuts) {}
  Cuts cuts() const { return cuts_; }

  /// Fails: WorkFault from carve(), the subject is `pieceId`.
  Result<std::shared_ptr<const CutRecipe>> cut(const Recipe& recipe, const std::string& pieceId);
  int cutCount() const { return cutCount_; }
  int hitCount() const { return hitCount_; }

 private:
  Cuts cuts_;
  std::map<std::uint64_t, std::shared_ptr<const CutRecipe>> known_;
  int cutCount_ = 0, hitCount_ = 0;
};

/// The features as convex cutters and round holes.
Carving carvingOf(const Recipe& recipe);

/// A text equal for two shape lists exactly when a turn that keeps the grain's line maps one onto the other.
std::string shapeKey(const std::vector<const Shell*>& states);
/// The same of the mirrored shapes: equal to another piece's shapeKey when the two are handed.
std::string mirroredShapeKey(const std::vector<const Shell*>& states);

/// Volume times density, kg; empty where the density is not known.
std::optional<double> massKg(const Piece& piece, const PieceState& state);

/// Extent of the shape along x, y, z: length, width, thickness in mm.
Vec3 sizeOf(const Shell& shell);

}  // namespace dryfit
