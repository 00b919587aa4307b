// STEP (ISO 10303-21, AP214) out and read back. A true assembly by units; one product a different shape,
// placed once for each piece of it, turned where the piece is; names are the pieces' ids.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"
#include "piece/piece.h"

namespace dryfit {

struct StepInput {
  std::string title;                 ///< root product
  std::vector<Piece> pieces;         ///< in their last state
  std::vector<Unit> units;           ///< Piece::unit indexes these
  std::vector<std::string> stageOf;  ///< one per piece: its layer's name
};

/// The whole file as bytes, the same from the same input in every process: millimetres, colours, layers,
/// materials with density, validation properties (volume, area, centroid), planes as planes, straight edges
/// as lines, 7-bit text. Source of the structure: ISO 10303-214; CAx-IF recommended practices for validation
/// properties. Fails: WorkFault when a solid cannot be made, SystemFault when the kernel cannot write.
Result<std::string> stepBytes(const StepInput& input);

/// What a STEP file holds, read back through the kernel.
struct StepContents {
  struct Occurrence {
    std::string name, product;
    Placement worldFromPart;
    double volumeMm3 = 0;
    bool valid = false;
  };
  std::vector<Occurrence> leaves;  ///< pieces, assemblies walked through
  int products = 0, assemblies = 0;
};
/// Fails: BadInput when it is not STEP the kernel can read; SystemFault when it cannot be opened.
Result<StepContents> readStep(const std::string& path);

}  // namespace dryfit
