#include "support/brute_kernel.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace dryfit::tests {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
/// Boxes that share less than this on an axis do not overlap: pieces that touch alongside.
constexpr double kBoxMm = 1e-3;
constexpr double kSamePlaceMm = 1e-6;

Box3 boundsOf(const Shell& shell, const Placement& worldFromPiece) {
  Shell moved = shell;
  for (Vec3& v : moved.vertices) v = worldFromPiece.point(v);
  for (RoundFace& r : moved.rounds) {
    r.from = worldFromPiece.point(r.from);
    r.to = worldFromPiece.point(r.to);
  }
  for (StripFace& s : moved.strips) {
    s.centre = worldFromPiece.point(s.centre);
    s.axis = worldFromPiece.direction(s.axis);
    s.start = worldFromPiece.direction(s.start);
  }
  for (ArcEdge& a : moved.arcs) {
    const Vec3 onPlane = worldFromPiece.point(a.normal * a.offset);
    a.normal = worldFromPiece.direction(a.normal);
    a.offset = dot(a.normal, onPlane);
  }
  return bounds(moved);
}

struct Span1 {
  double from = 0, to = kNever;
  bool empty() const { return from >= to; }
};

/// Travels along `way` at which the boxes overlap.
Span1 boxesMeet(const Box3& mover, const Box3& stander, Vec3 shift, Vec3 way) {
  Span1 span;
  for (int i = 0; i < 3; ++i) {
    const double toEnter = stander.low[i] + kBoxMm - (mover.high[i] + shift[i]);
    const double toLeave = stander.high[i] - kBoxMm - (mover.low[i] + shift[i]);
    if (std::abs(way[i]) < 1e-12) {
      if (toEnter >= 0 || toLeave <= 0) return {0, 0};
      continue;
    }
    const double one = toEnter / way[i], other = toLeave / way[i];
    span.from = std::max(span.from, std::min(one, other));
    span.to = std::min(span.to, std::max(one, other));
  }
  return span;
}

/// Places within the span: those of `places`, and the middle when none falls in it.
void addPlaces(std::vector<double>& all, Span1 span, double travelMm, const Places& places) {
  const double end = std::min(span.to, travelMm + kSamePlaceMm);
  if (span.from >= end) return;
  const size_t before = all.size();
  for (double t : places.nearMm)
    if (t > span.from && t < end) all.push_back(t);
  const double last = places.nearMm.empty() ? 0 : places.nearMm.back();
  const double skipped = std::max(1.0, std::ceil((span.from - last) / places.everyMm));
  for (double t = last + skipped * places.everyMm; t < end; t += places.everyMm)
    if (t > span.from) all.push_back(t);
  if (all.size() == before) all.push_back((span.from + end) / 2);
}

/// A stop may lie between two places tried: it is tried itself.
bool standsClear(KernelScene& scene, const std::vector<PieceAt>& movers, const std::vector<PieceAt>& standers,
                 Vec3 shift) {
  for (const PieceAt& m : movers)
    for (const PieceAt& s : standers)
      if (scene.shared(m, shift, s) > kSharedMm3) return false;
  return true;
}

}  // namespace

KernelScene::KernelScene(const CutWork& work) {
  for (const dryfit::Piece& piece : work.pieces) {
    std::vector<const Shell*> shells;
    for (const PieceState& state : piece.states) shells.push_back(&state.cut->shell);
    add(piece.worldFromPiece, shells);
  }
}

const Solid& KernelScene::solidOf(const Shell* shell) {
  if (const auto known = solids_.find(shell); known != solids_.end()) return known->second;
  Result<Solid> made = solidFromShell(*shell);
  if (!made) throw std::runtime_error(toText(made.faults()[0]));
  return solids_.emplace(shell, std::move(made).value()).first->second;
}

int KernelScene::add(const Placement& worldFromPiece, const std::vector<const Shell*>& shells) {
  Piece piece;
  piece.shells = shells;
  for (const Shell* shell : shells) piece.states.push_back(solidOf(shell));
  placeOf(piece, worldFromPiece);
  pieces_.push_back(std::move(piece));
  return count() - 1;
}

size_t KernelScene::placeOf(Piece& piece, const Placement& worldFromPiece) {
  for (size_t i = 0; i < piece.places.size(); ++i)
    if (piece.places[i].worldFromPiece == worldFromPiece) return i;
  Place place{worldFromPiece, {}};
  for (const Shell* shell : piece.shells) place.boxes.push_back(boundsOf(*shell, worldFromPiece));
  piece.places.push_back(std::move(place));
  return piece.places.size() - 1;
}

void KernelScene::stand(int piece, const Placement& worldFromHome) {
  Piece& p = pieces_.at(static_cast<size_t>(piece));
  p.at = placeOf(p, worldFromHome * p.places.front().worldFromPiece);
}

double KernelScene::shared(PieceAt a, Vec3 shift, PieceAt b) {
  if (b < a) return shared(b, -shift, a);
  Box3 moved = box(a);
  moved.low = moved.low + shift;
  moved.high = moved.high + shift;
  if (!near(moved, box(b), -kBoxMm)) return 0;
  const auto grid = [](double mm) { return std::llround(mm / kSamePlaceMm); };
  const Piece &pieceA = pieces_[a.first], &pieceB = pieces_[b.first];
  const Key key{a, b, pieceA.at, pieceB.at, grid(shift.x), grid(shift.y), grid(shift.z)};
  if (const auto known = known_.find(key); known != known_.end()) return known->second;
  const Result<double> volume =
      commonVolume(pieceA.states[a.second], translation(shift) * pieceA.now().worldFromPiece,
                   pieceB.states[b.second], pieceB.now().worldFromPiece);
  if (!volume) throw std::runtime_error(toText(volume.faults()[0]));
  return known_[key] = volume.value();
}

std::optional<double> firstHit(KernelScene& scene, const std::vector<PieceAt>& movers,
                               const std::vector<PieceAt>& standers, Vec3 shift, Vec3 way, double travelMm,
                               const Places& places) {
  std::vector<std::tuple<double, PieceAt, PieceAt>> tries;
  for (const PieceAt& m : movers)
    for (const PieceAt& s : standers) {
      std::vector<double> at;
      addPlaces(at, boxesMeet(scene.box(m), scene.box(s), shift, way), travelMm, places);
      for (double t : at) tries.push_back({t, m, s});
    }
  std::sort(tries.begin(), tries.end());  // the first hit saves all that come after
  for (const auto& [t, m, s] : tries)
    if (scene.shared(m, shift + way * t, s) > kSharedMm3) return t;
  return {};
}

bool leaves(KernelScene& scene, const std::vector<PieceAt>& movers, const std::vector<PieceAt>& standers,
            Vec3 shift, const Search& search, int legs) {
  std::vector<std::pair<Vec3, double>> goes;  // ways that go some way, and how far
  for (const Vec3 way : search.ways) {
    const auto hit = firstHit(scene, movers, standers, shift, way, kNever, search.places);
    if (!hit) return true;
    goes.push_back({way, *hit});
  }
  if (legs <= 1) return false;
  for (const auto& [way, hitMm] : goes) {
    std::vector<double> stops;
    if (search.stopEveryMm > 0)
      for (double t = search.stopEveryMm; t < hitMm; t += search.stopEveryMm) stops.push_back(t);
    for (const PieceAt& m : movers)
      for (const PieceAt& s : standers) {
        const Span1 span = boxesMeet(scene.box(m), scene.box(s), shift, way);
        if (search.stopEveryMm == 0 && !span.empty() && span.to < hitMm) stops.push_back(span.to);
      }
    for (double t : stops)
      if (standsClear(scene, movers, standers, shift + way * t) &&
          leaves(scene, movers, standers, shift + way * t, search, legs - 1))
        return true;
  }
  return false;
}

}  // namespace dryfit::tests
