// Pieces of the shipped works worked out by hand from the sizes in the work files, so that volumes and
// overlaps can be judged without the program's recipes and carving.
//
// World axes of the work, millimetres, the last state: horns, proud tenons and wedges cut off.
#pragma once

#include <string>
#include <vector>

#include "exact/exact.h"
#include "piece/piece.h"

namespace dryfit::tests {

struct PlainPiece {
  std::string work, id;  ///< "panel-frame", "stile.left"
  double volumeMm3 = 0;  ///< by a closed formula
  ExactBody body;        ///< the same piece put together from boxes and prisms
};

const std::vector<PlainPiece>& plainPieces();
/// Stops the test when there is none.
const PlainPiece& plainPiece(const std::string& work, const std::string& id);
/// The program's own piece, its work cut once: to hold against these.
const Piece& pieceIn(const std::string& work, const std::string& id);

}  // namespace dryfit::tests
