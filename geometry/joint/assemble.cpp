#include "joint/assemble.h"

#include <algorithm>
#include <map>

#include "joint/assembly_links.h"
#include "joint/edge_bevels.h"
#include "joint/formed_body.h"
#include "joint/laid_contacts.h"
#include "joint/piece_stages.h"
#include "joint/rebates.h"
#include "joint/unit_work.h"
#include "timber/moisture.h"
#include "timber/species.h"

namespace dryfit {

namespace {

constexpr int kPlacesAMember = 10000;  // room between members for joints' own pieces, in file order

std::optional<double> densityOf(const std::string& timber, double moisturePercent) {
  const Species* species = findSpecies(timber);
  if (!species) return std::nullopt;
  return densityKgM3(*species, moisturePercent);
}

/// What is done to a piece on the bench of a unit comes before what is done to it in the units above.
StateKey inUnit(const SettingOut& work, int unit, StateKey key) {
  constexpr int kOrdersAUnit = 100;  // more than any joint's own order
  for (; unit >= 0; unit = work.units[static_cast<size_t>(unit)].parent) key.order -= kOrdersAUnit;
  return key;
}

/// Horns are cut as the last change of a member.
void addHornCuts(const SettingOut& work, const Member& m, const LaidMember& laid, StagedRecipe& recipe) {
  const int unit = hornsUnit(work, m);
  if (unit < 0 || (m.hornLowMm <= 0 && m.hornHighMm <= 0)) return;
  const StateKey key{hornsKey(work, m), 30, "horns off"};
  auto cut = [&](Towards end, double at, const std::optional<HornSlope>& slope) {
    const double out = end == Towards::High ? 1 : -1, loss = slope ? slope->lossMm : 0;
    const double lean = !slope || slope->backNarrower ? loss : -loss;
    const std::string& role = recipe.base.blankRoles[end == Towards::Low ? 0 : 1];
    recipe.features.push_back({CutOff{role, end, at - out * loss / 2, out * lean}, key, {}});
  };
  if (m.hornLowMm > 0) cut(Towards::Low, laid.finishedX.from, m.hornSlopeLow);
  if (m.hornHighMm > 0) cut(Towards::High, laid.finishedX.to, m.hornSlopeHigh);
  recipe.addChange(inUnit(work, unit, key));
}

/// Edges planed to a bevel: before all else, or when the member's unit is cleaned off.
void addEdgeBevels(const SettingOut& work, const Member& m, const LaidMember& laid, StagedRecipe& recipe) {
  for (const BevelledEdge& bevel : bevelledEdges(m, laid.worldFromPiece, laid.blankMm.z)) {
    const std::string& role = recipe.base.blankRoles[bevel.edge == Towards::Low ? 2 : 3];
    const EdgeBevel planed{role, bevel.edge, bevel.lossMm, bevel.narrow};
    if (bevel.mark->first) {
      recipe.base.features.push_back(planed);
      continue;
    }
    const StateKey key = bevelled(work, m);
    recipe.features.push_back({planed, key, {}});
    recipe.addChange(inUnit(work, m.unit, key));
  }
}

/// On whose bench a joint makes a change: that of its operation, where it names one.
int unitOfChange(const SettingOut& work, const JointWork& joint, int unit, const StateKey& key) {
  for (const JointOperation& op : joint.operations)
    for (const auto& change : op.changes)
      if (!op.unit.empty() && change.state.key == key.key) return unitNamed(work, op.unit);
  return unit;
}

/// A face that any joint calls inner is inner, whatever another calls it.
void nameFace(Recipe& recipe, int face, const std::string& name) {
  std::string& role = recipe.blankRoles[static_cast<size_t>(face)];
  if (role != "edge.inner") role = name;
}

struct Maker {
  const SettingOut& work;
  const std::vector<LaidMember>& laid;
  const std::vector<JointWork>& made;
  const std::vector<int>& units;
  CutCache& cache;
  CutWork out{};
  std::vector<StagedRecipe> recipes{};  ///< one a piece
  std::vector<Diagnostic> faults{};

  void addMembers() {
    recipes.resize(work.members.size());
    for (size_t i = 0; i < work.members.size(); ++i) {
      StagedRecipe& r = recipes[i];
      const Vec3 b = laid[i].blankMm;
      r.base.blank = BoxBlank{b.x, b.y, b.z};
      if (const auto& run = work.members[i].profile)
        r.base.features.push_back(runSection(run->name, run->path, b.y, b.z, run->backAtHighEdge));
      for (Feature& opening : openingsOf(work.members[i], laid[i].worldFromPiece, b))
        r.base.features.push_back(std::move(opening));
      for (const Rebate& rebate : rebatesOf(work.members[i], laid[i].worldFromPiece))
        r.base.features.push_back(rebateFeature(rebate, b));
      for (const GrooveWork& g : laid[i].grooves)
        r.base.features.push_back(Groove{"groove", g.edge, g.depthMm, g.z, {}});
    }
    for (size_t j = 0; j < made.size(); ++j) {
      const JointWork& joint = made[j];
      for (const auto& name : joint.faceNames)
        nameFace(recipes[static_cast<size_t>(name.member)].base, name.face, name.name);
      for (const auto& [member, feature] : joint.features) {
        StagedRecipe& r = recipes[static_cast<size_t>(member)];
        r.features.push_back(feature);
        for (const auto& key : {feature.from, feature.until})
          if (key) r.addChange(inUnit(work, unitOfChange(work, joint, units[j], *key), *key));
      }
    }
    for (size_t i = 0; i < work.members.size(); ++i) {
      const Member& m = work.members[i];
      if (!m.formed) {
        addEdgeBevels(work, m, laid[i], recipes[i]);
        addHornCuts(work, m, laid[i], recipes[i]);
      }
      Piece p;
      p.id = m.id;
      p.name = m.name;
      p.unit = m.unit;
      p.material = m.timber;
      p.formed = m.formed;
      p.quarterSawn = m.sawn == Sawn::Quarter;
      p.worldFromPiece = laid[i].worldFromPiece;
      p.position = (m.position + 1) * kPlacesAMember;
      out.pieces.push_back(std::move(p));
    }
  }

  void addOwnPieces() {
    int running = 0;
    for (size_t j = 0; j < made.size(); ++j) {
      for (const OwnPiece& own : made[j].pieces) {
        Piece p;
        p.id = own.id;
        p.name = own.name;
        p.unit = own.unit.empty() ? units[j] : unitNamed(work, own.unit);
        p.material = own.material;
        p.fastening = own.fastening;
        p.densityKgM3 = own.densityKgM3;
        p.worldFromPiece = own.worldFromPiece;
        p.joint = made[j].joints.front().id;
        int last = 0;
        for (const std::string& id : made[j].joints.front().pieces)
          if (auto m = findMember(work, id))
            last = std::max(last, work.members[static_cast<size_t>(*m)].position);
        p.position = (last + 1) * kPlacesAMember + 1 + running++;
        StagedRecipe r;
        r.base = own.recipe;
        r.features = own.staged;
        for (const StagedFeature& f : own.staged)
          for (const auto& key : {f.from, f.until})
            if (key) r.addChange(inUnit(work, unitOfChange(work, made[j], units[j], *key), *key));
        recipes.push_back(std::move(r));
        out.pieces.push_back(std::move(p));
      }
    }
  }

  void refuseTwins() {
    std::map<std::string, int> seen;
    for (const Piece& p : out.pieces)
      if (++seen[p.id] == 2)
        faults.push_back({Fault::BadInput,
                          p.id,
                          "two pieces would have this id",
                          "give the members ids whose last words differ",
                          {work.file, 0, 0}});
  }

  void cutAll() {
    for (size_t i = 0; i < out.pieces.size(); ++i) {
      Piece& p = out.pieces[i];
      if (!p.densityKgM3 && !p.formed) p.densityKgM3 = densityOf(p.material, work.moisture.fitted);
      auto states = cutStates(recipes[i], p.id, cache);
      if (states)
        p.states = std::move(states).value();
      else
        faults.insert(faults.end(), states.faults().begin(), states.faults().end());
    }
  }
};

}  // namespace

Result<CutWork> assemble(const SettingOut& work, const std::vector<LaidMember>& laid,
                         const std::vector<JointWork>& made, const std::vector<int>& units, CutCache& cache) {
  Maker maker{work, laid, made, units, cache};
  maker.out.title = work.title;
  maker.out.lengths = work.lengths;
  maker.addMembers();
  maker.addOwnPieces();
  maker.refuseTwins();
  if (!maker.faults.empty()) return maker.faults;
  maker.cutAll();
  if (!maker.faults.empty()) return maker.faults;
  if (cache.cuts() == CutCache::Cuts::All) {
    maker.faults = linkAssembly(work, made, units, maker.recipes, maker.out);
    if (!maker.faults.empty()) return maker.faults;
    addLaidContacts(made, maker.recipes, maker.out);
  }
  return maker.out;
}

}  // namespace dryfit
