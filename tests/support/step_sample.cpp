#include "support/step_sample.h"

#include <numbers>

#include "support/shells.h"

namespace dryfit::tests {

namespace {

std::shared_ptr<const CutRecipe> cutOf(Shell shell, std::uint64_t hash) {
  auto cut = std::make_shared<CutRecipe>();
  cut->hash = hash;
  cut->shell = std::move(shell);
  return cut;
}

struct Sample {
  StepInput input;

  Piece& add(const std::string& id, int unit, std::shared_ptr<const CutRecipe> cut, const Placement& place,
             const std::string& stage) {
    Piece piece;
    piece.id = id;
    piece.name = id;
    piece.unit = unit;
    piece.material = "Douglas-fir, coast";
    piece.densityKgM3 = 510;
    piece.worldFromPiece = place;
    piece.states = {{"made", std::move(cut)}};
    piece.position = static_cast<int>(input.pieces.size());
    input.pieces.push_back(piece);
    input.stageOf.push_back(stage);
    return input.pieces.back();
  }
};

}  // namespace

StepInput stepSample() {
  constexpr double pi = std::numbers::pi;
  Sample s;
  s.input.title =
      "Joiner's bench \xE2\x80\x93 pr\xC3\xBC"
      "fung";  // a dash and an umlaut
  s.input.units = {{"site", -1, {}}, {"leaf", 0, {}}, {"pegs", 1, {}}, {"wall", 0, {}}, {"unused", 0, {}}};
  const auto stile = cutOf(pocketShell({400, 95, 44}, 60, 12), 11), rail = cutOf(boxShell({300, 95, 44}), 12);
  const auto drilled = cutOf(boredShell({300, 120, 44}, 5), 13),
             panel = cutOf(boxShell({280, 180, 12.5}), 14);
  const auto peg = cutOf(roundRodShell(60, 5), 15);
  s.add("stile.1", 1, stile, {}, "framing");  // the identity on purpose
  s.add("stile.2", 1, stile, translation({500, 0, 0}) * rotation({0, 0, 1}, {}, pi), "framing");
  s.add("rail.top", 1, rail, rotation({0, 1, 0}, {}, pi / 2), "framing");
  s.add("rail.bottom", 1, rail, translation({0.1, 0.2, -700}), "panelling");
  s.add("rail.drilled", 1, drilled, translation({0, 300, 0}) * rotation(normalized({1, 2, 3}), {}, 0.4),
        "framing");
  s.add("panel.1", 1, panel, translation({0, 0, 100}), "panelling").material = "Fir \xF0\x9F\x8C\xB2 wide";
  for (int i = 0; i < 7; ++i) {
    Piece& p = s.add("peg." + std::to_string(i + 1), 2, peg, translation({20. * i, 0, 200}), "pegging");
    p.material = "steel";
    p.densityKgM3 = 7850;
    p.fastening = true;
  }
  Piece& wall = s.add("wall", 3, cutOf(boxShell({3000, 2400, 215}), 16), {}, "wall");
  wall.material = "brickwork";
  wall.densityKgM3 = 1900;
  wall.formed = true;
  return s.input;
}

}  // namespace dryfit::tests
