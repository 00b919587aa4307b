#include "proof/judge.h"

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "solid/distance.h"

namespace dryfit::proof {

namespace {

/// Pieces put so near to how they lay before are asked about once.
constexpr double kSamePlaceMm = 1e-7;
/// Boxes that share less than this along an axis are those of pieces that touch alongside.
constexpr double kBoxMm = 1e-4;

}  // namespace

Box3 boxOf(const Box3& own, const Placement& worldFromPiece) {
  Box3 box;
  for (int corner = 0; corner < 8; ++corner)
    box.add(worldFromPiece.point({corner & 1 ? own.high.x : own.low.x, corner & 2 ? own.high.y : own.low.y,
                                  corner & 4 ? own.high.z : own.low.z}));
  return box;
}

double extentAlong(const Box3& box, Vec3 way) {
  double extent = 0;
  for (int i = 0; i < 3; ++i) extent += std::abs(way[i]) * (box.high[i] - box.low[i]);
  return extent;
}

Judge::Judge(const CutWork& work) {
  std::map<const Shell*, int> known;
  for (const Piece& piece : work.pieces) {
    auto& ofPiece = shapeOf_.emplace_back();
    for (const PieceState& state : piece.states) {
      const Shell& shell = state.cut->shell;
      const auto [at, fresh] = known.try_emplace(&shell, static_cast<int>(shapes_.size()));
      ofPiece.push_back(at->second);
      if (!fresh) continue;
      Result<Solid> made = solidFromShell(shell);
      if (!made) {
        if (!failure_) failure_ = made.faults().front();
        return;
      }
      shapes_.push_back({std::move(made).value(), bounds(shell),
                         std::holds_alternative<TurnedBlank>(state.cut->recipe.blank)});
    }
  }
}

Box3 Judge::box(const Put& p) const {
  return boxOf(shape(p).box, p.worldFromPiece);
}

bool Judge::roundAbout(const Put& p, Vec3 through, Vec3 direction) const {
  const auto onAxis = [&](Vec3 point) {
    return length(cross(direction, point - through)) < tolerance::kTouch;
  };
  const Box3& own = shape(p).box;
  return shape(p).turned && onAxis(p.worldFromPiece.point({own.low.x, 0, 0})) &&
         onAxis(p.worldFromPiece.point({own.high.x, 0, 0}));
}

Judge::Key Judge::keyOf(const Put& a, const Put& b) const {
  Key key{{shapeOf_[a.body][a.state], shapeOf_[b.body][b.state]}, {}};
  const auto numbers = rows(inverse(a.worldFromPiece) * b.worldFromPiece);
  for (size_t i = 0; i < numbers.size(); ++i) key.second[i] = std::llround(numbers[i] / kSamePlaceMm);
  return key;
}

template <class T>
T Judge::valueOf(Result<T> result, T otherwise) {
  ++asked_;
  if (result) return result.value();
  if (!failure_) failure_ = result.faults().front();
  return otherwise;
}

double Judge::shared(const Put& a, const Put& b) {
  if (b.body < a.body) return shared(b, a);
  if (failure_ || !near(box(a), box(b), -kBoxMm)) return 0;
  const auto [at, fresh] = shared_.try_emplace(keyOf(a, b), 0);
  if (fresh)
    at->second =
        valueOf(commonVolume(shape(a).solid, a.worldFromPiece, shape(b).solid, b.worldFromPiece), 0.0);
  return at->second;
}

bool Judge::touch(const Put& a, const Put& b) {
  if (b.body < a.body) return touch(b, a);
  if (failure_ || !near(box(a), box(b), tolerance::kTouch)) return false;
  const auto [at, fresh] = touch_.try_emplace(keyOf(a, b), false);
  if (fresh)
    at->second = valueOf(
        comeWithin(shape(a).solid, a.worldFromPiece, shape(b).solid, b.worldFromPiece, tolerance::kTouch),
        false);
  return at->second;
}

double Judge::distanceMm(const Put& a, const Put& b) {
  if (failure_) return 0;
  return valueOf(distanceBetween(shape(a).solid, a.worldFromPiece, shape(b).solid, b.worldFromPiece), 0.0);
}

double Judge::addedMm3(const Put& before, const Put& now) {
  if (failure_) return 0;
  const double common = valueOf(
      commonVolume(shape(now).solid, now.worldFromPiece, shape(before).solid, before.worldFromPiece), 0.0);
  return failure_ ? 0 : measure(shape(now).solid).volumeMm3 - common;
}

}  // namespace dryfit::proof
