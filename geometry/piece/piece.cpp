#include "piece/piece.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace dryfit {

namespace {

/// A rod is only ever shortened; anything else asked of it is a joint author's slip.
struct RodEnds {
  double low, high;
  std::string lowRole, highRole;
};
RodEnds rodEnds(const Recipe& recipe, const RodBlank& rod) {
  RodEnds ends{-rod.length / 2, rod.length / 2, recipe.blankRoles[0], recipe.blankRoles[1]};
  for (const Feature& f : recipe.features) {
    const auto* cut = std::get_if<CutOff>(&f);
    REQUIRE(cut != nullptr && cut->lean == 0);
    if (cut->end == Towards::Low) {
      ends.low = cut->at;
      ends.lowRole = cut->role;
    } else {
      ends.high = cut->at;
      ends.highRole = cut->role;
    }
  }
  return ends;
}

void cutRod(CutRecipe& out, const RodBlank& rod) {
  const RodEnds ends = rodEnds(out.recipe, rod);
  auto named = [&](const std::string& role) {
    return role == "end.low" ? ends.lowRole : role == "end.high" ? ends.highRole : role;
  };
  const Vec3 by{(ends.low + ends.high) / 2, 0, 0};
  out.shell = rodShell(ends.high - ends.low, rod.diameter);
  for (FlatFace& f : out.shell.flats) {
    f.offset += dot(f.normal, by);
    f.role = named(f.role);
  }
  for (RoundFace& r : out.shell.rounds) {
    r.from = r.from + by;
    r.to = r.to + by;
  }
  PlanningMesh mesh = placed(rodMesh(ends.high - ends.low, rod.diameter), translation(by));
  for (std::string& role : mesh.roles) role = named(role);
  out.mesh = std::make_shared<const PlanningMesh>(std::move(mesh));
}

void cutTurned(CutRecipe& out, const TurnedBlank& turned) {
  REQUIRE(out.recipe.features.empty());
  const std::array<std::string, 6>& names = out.recipe.blankRoles;
  out.shell = turnedShell(turned.stations);
  out.shell.flats[0].role = names[0];
  out.shell.flats[1].role = names[1];
  PlanningMesh mesh = turnedMesh(turned.stations);
  mesh.roles[0] = names[0];
  mesh.roles[1] = names[1];
  out.mesh = std::make_shared<const PlanningMesh>(std::move(mesh));
}

std::vector<Diagnostic> about(const std::string& pieceId, std::vector<Diagnostic> faults) {
  for (Diagnostic& d : faults) d.subject = d.subject.empty() ? pieceId : pieceId + ": " + d.subject;
  return faults;
}

}  // namespace

Result<std::shared_ptr<const CutRecipe>> CutCache::cut(const Recipe& recipe, const std::string& pieceId) {
  const std::uint64_t hash = hashOf(recipe);
  if (auto known = known_.find(hash); known != known_.end()) {
    REQUIRE(known->second->recipe == recipe);
    ++hitCount_;
    return known->second;
  }
  auto made = std::make_shared<CutRecipe>();
  made->recipe = recipe;
  made->hash = hash;
  if (const auto* rod = std::get_if<RodBlank>(&recipe.blank)) {
    cutRod(*made, *rod);
  } else if (const auto* turned = std::get_if<TurnedBlank>(&recipe.blank)) {
    cutTurned(*made, *turned);
  } else {
    const Carving carving = carvingOf(recipe);
    if (cuts_ == Cuts::All) {
      auto both = carveWithMesh(carving);
      if (!both) return about(pieceId, both.faults());
      Carved carved = std::move(both).value();
      made->shell = std::move(carved.shell);
      made->mesh = std::make_shared<const PlanningMesh>(std::move(carved.mesh));
    } else {
      auto shell = carve(carving);
      if (!shell) return about(pieceId, shell.faults());
      made->shell = std::move(shell).value();
    }
  }
  ++cutCount_;
  known_[hash] = made;
  return std::shared_ptr<const CutRecipe>(made);
}

std::optional<double> massKg(const Piece& piece, const PieceState& state) {
  constexpr double kCubicMetresInMm3 = 1e-9;
  if (!piece.densityKgM3) return std::nullopt;
  return volume(state.cut->shell) * kCubicMetresInMm3 * *piece.densityKgM3;
}

Vec3 sizeOf(const Shell& shell) {
  return bounds(shell).size();
}

}  // namespace dryfit
