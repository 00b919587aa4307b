#include "cli/json.h"

namespace dryfit::cli {

namespace {

Json stateJson(const PieceState& state) {
  return {{"name", state.name},
          {"recipe", hexOf(state.cut->hash)},
          {"size_mm", point(sizeOf(state.cut->shell))},
          {"volume_mm3", number(volume(state.cut->shell))}};
}

Json pieceJson(const CutWork& work, const Piece& piece, const Alike& alike) {
  const CutRecipe& last = piece.last();
  const std::optional<double> mass = massKg(piece, piece.states.back());
  Json states = Json::array();
  for (const PieceState& state : piece.states) states.push_back(stateJson(state));
  return {{"id", piece.id},
          {"name", piece.name},
          {"unit", work.assembly.units.at(static_cast<size_t>(piece.unit)).name},
          {"material", piece.material},
          {"recipe", hexOf(last.hash)},
          {"alike", alike.key},
          {"handed_with",
           alike.handedWith ? Json(work.pieces.at(static_cast<size_t>(*alike.handedWith)).id) : Json()},
          {"size_mm", point(sizeOf(last.shell))},
          {"blank_mm", piece.formed ? Json() : point(blankSize(last.recipe.blank))},
          {"volume_mm3", number(volume(last.shell))},
          {"mass_kg", mass ? number(*mass) : Json(nullptr)},
          {"faces", last.shell.flats.size() + last.shell.rounds.size() + last.shell.strips.size() +
                        last.shell.openBores.size()},
          {"placement", matrix(piece.worldFromPiece)},
          {"states", std::move(states)}};
}

}  // namespace

Json piecesJson(const CutWork& work, const std::vector<Alike>& alikes) {
  REQUIRE(alikes.size() == work.pieces.size());
  Json pieces = Json::array();
  for (size_t i = 0; i < work.pieces.size(); ++i)
    pieces.push_back(pieceJson(work, work.pieces[i], alikes[i]));
  return {{"schema", "dryfit/pieces/1"}, {"pieces", std::move(pieces)}};
}

}  // namespace dryfit::cli
