#include "cli/step_input.h"

#include "base/text.h"
#include "order/spread.h"

namespace dryfit::cli {

namespace {

/// The stage of the first step that puts a piece there; later trims do not move it.
std::vector<std::string> stagesOf(const CutWork& work, const OrderOfWork& order) {
  std::vector<std::string> out(work.pieces.size());
  for (const Step& step : order.steps) {
    const bool places =
        step.event == "fit" || step.event == "drive" || step.event == "fasten" || step.event == "form";
    if (!places) continue;
    for (const int body : step.bodies)
      if (auto& stage = out.at(static_cast<size_t>(body)); stage.empty()) stage = step.stage;
  }
  return out;
}

/// By piece, as the work stands when it is done.
std::vector<Vec3> standOffs(const CutWork& work, double apart) {
  std::vector<Vec3> none(work.pieces.size());
  if (apart == 0) return none;
  std::vector<int> last;
  for (const Body& body : work.assembly.bodies) last.push_back(static_cast<int>(body.states.size()) - 1);
  return spreadOf(work.assembly, last).offsetsAt(apart);
}

Diagnostic noneBeginsWith(const CutWork& work, const std::string& idPrefix) {
  std::vector<std::string> ids;
  for (const Piece& piece : work.pieces) ids.push_back(piece.id);
  const auto guess = nearestName(idPrefix, ids);
  return {Fault::BadInput,
          "--only",
          "no piece id begins with " + dryfit::quoted(idPrefix),
          guess ? "did you mean " + *guess + "?" : "dryfit pieces lists them",
          {}};
}

}  // namespace

Result<StepInput> stepInput(const CutWork& work, const OrderOfWork& order, const std::string& idPrefix,
                            double apart) {
  const auto stages = stagesOf(work, order);
  const auto offsets = standOffs(work, apart);
  StepInput out;
  out.title = work.title;
  out.units = work.assembly.units;
  for (size_t i = 0; i < work.pieces.size(); ++i) {
    if (work.pieces[i].id.rfind(idPrefix, 0) != 0) continue;
    out.pieces.push_back(work.pieces[i]);
    Vec3& origin = out.pieces.back().worldFromPiece.origin;
    origin = origin + offsets[i];
    out.stageOf.push_back(stages[i]);
  }
  if (out.pieces.empty()) return noneBeginsWith(work, idPrefix);
  return out;
}

}  // namespace dryfit::cli
