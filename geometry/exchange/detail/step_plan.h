// What goes into a STEP file, decided before any kernel: which pieces share a product, which units are
// assemblies, what everything is called, its colour and its layers.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "exchange/step.h"

namespace dryfit::detail {

/// A product with a solid: one shape in one material, however its pieces are turned about the grain.
struct StepPart {
  std::string name;                 ///< the id of its first piece
  int firstPiece = 0;               ///< index into StepInput::pieces
  std::vector<std::string> layers;  ///< stages of its pieces, each once, in the pieces' order
  std::array<double, 3> colour{};   ///< sRGB, 0 to 1
};

/// A product that is an assembly: a unit with pieces in it or below it.
struct StepAssembly {
  std::string name;
  std::vector<int> units;   ///< indices into StepPlan::assemblies
  std::vector<int> pieces;  ///< indices into StepInput::pieces
};

struct StepPlan {
  std::vector<StepPart> parts;
  std::vector<int> partOfPiece;          ///< one a piece, into `parts`
  std::vector<Placement> worldFromPart;  ///< one a piece: its product's frame is that of the product's first
  std::vector<StepAssembly> assemblies;  ///< one a unit; those with nothing in them are never reached
  int root = 0;
};

/// Fails: WorkFault when units make no tree, or there is nothing to write.
Result<StepPlan> stepPlan(const StepInput& input);

}  // namespace dryfit::detail
