#include "fit/face_distance.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/tolerance.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

using Face = std::vector<const Facet*>;

Face faceOf(const PlanningMesh& mesh, const std::string& role) {
  Face face;
  for (const Facet& f : mesh.facets)
    if (mesh.roles[f.role] == role && f.points.size() >= 3) face.push_back(&f);
  return face;
}

/// Facets f of A and g of B, parallel and before each other: `shared` is where, across f's normal.
struct Pair {
  int f = 0, g = 0;
  double mm = 0;
  std::vector<Vec3> shared;
  Vec3 at;
};

/// Wide enough to be no rounding: the same measure as for the sides of a real feature.
bool isReal(const Polygon2& polygon) {
  return width(polygon) > tolerance::kTouch && area(polygon) > tolerance::kTouchArea;
}

Rect2 boundsOf(const Polygon2& outline) {
  Rect2 box;
  for (const Vec2 p : outline) box.add(p);
  return box;
}

/// A facet seen across its own normal.
struct Seen {
  const Facet& facet;
  WayFrame frame;
  Polygon2 outline;
  Rect2 box;

  explicit Seen(const Facet& f)
      : facet(f), frame(frameAcross(f.normal)), outline(outlineAcross(f, frame)), box(boundsOf(outline)) {}
};

std::optional<Pair> pairOf(const Seen& f, const Facet& g, ClipScratch& scratch) {
  if (length(f.facet.normal + g.normal) > tolerance::kParallel) return std::nullopt;
  Rect2 box;
  for (const Vec3 p : g.points) box.add(f.frame.across(p));
  if (!near(f.box, box, 0)) return std::nullopt;
  const Polygon2 other = outlineAcross(g, f.frame);
  Polygon2 shared = f.outline;
  clipBy(shared, other, scratch);
  if (!isReal(shared)) return std::nullopt;
  const Vec2 middle = centroid(shared);
  const double from = depthOver(f.facet, f.frame).at(middle), to = depthOver(g, f.frame).at(middle);
  Pair pair{0, 0, to - from, {}, f.frame.point(middle, (from + to) / 2)};
  for (const Vec2 p : shared) pair.shared.push_back(f.frame.point(p, from));
  return pair;
}

std::vector<Pair> opposites(const Face& faceA, const Face& faceB) {
  std::vector<Pair> pairs;
  ClipScratch scratch;
  for (size_t i = 0; i < faceA.size(); ++i) {
    const Seen f(*faceA[i]);
    for (size_t j = 0; j < faceB.size(); ++j)
      if (auto pair = pairOf(f, *faceB[j], scratch)) {
        pair->f = static_cast<int>(i);
        pair->g = static_cast<int>(j);
        pairs.push_back(std::move(*pair));
      }
  }
  return pairs;
}

bool sharePlace(const Pair& one, const Pair& other, Vec3 normal) {
  const WayFrame frame = frameAcross(normal);
  auto across = [&](const Pair& pair) {
    Polygon2 outline;
    for (const Vec3 p : pair.shared) outline.push_back(frame.across(p));
    if (area(outline) < 0) std::reverse(outline.begin(), outline.end());
    return outline;
  };
  Polygon2 both = across(one);
  ClipScratch scratch;
  clipBy(both, across(other), scratch);
  return isReal(both);
}

/// True when another part of either face stands between the two in the same place.
bool hidden(const Pair& pair, const std::vector<Pair>& pairs, const Face& faceA) {
  return std::any_of(pairs.begin(), pairs.end(), [&](const Pair& other) {
    const bool rival = (other.f == pair.f) != (other.g == pair.g);
    return rival && std::abs(other.mm) < std::abs(pair.mm) - tolerance::kSize &&
           sharePlace(pair, other, faceA[pair.f]->normal);
  });
}

void keepWorst(std::optional<FaceDistance>& worst, double mm, Vec3 at, double statedMm) {
  if (!worst || std::abs(mm - statedMm) > std::abs(worst->mm - statedMm)) worst = FaceDistance{mm, at};
}

Vec3 middleOf(const Facet& f) {
  const WayFrame frame = frameAcross(f.normal);
  return frame.point(centroid(outlineAcross(f, frame)), frame.depth(f.points[0]));
}

/// A facet and the middle of it.
struct Part {
  const Facet* facet;
  Vec3 middle;
};

std::vector<Part> partsOf(const Face& face) {
  std::vector<Part> parts;
  for (const Facet* f : face) parts.push_back({f, middleOf(*f)});
  return parts;
}

double offset(const Part& from, const Part& to) {
  return dot(from.facet->normal, to.middle - from.facet->points[0]);
}

bool sameFacing(const Facet& f, const Facet& g) {
  return length(f.normal - g.normal) <= tolerance::kParallel;
}

}  // namespace

std::optional<FaceDistance> gapBetween(const PlanningMesh& a, const std::string& roleA, const PlanningMesh& b,
                                       const std::string& roleB, double statedMm) {
  const Face faceA = faceOf(a, roleA), faceB = faceOf(b, roleB);
  std::vector<Pair> passed = opposites(faceA, faceB), looking;
  const auto looks = [](const Pair& p) { return p.mm > -tolerance::kTouch; };
  std::copy_if(passed.begin(), passed.end(), std::back_inserter(looking), looks);
  std::optional<FaceDistance> worst;
  for (const Pair& pair : looking)
    if (!hidden(pair, looking, faceA)) keepWorst(worst, pair.mm, pair.at, statedMm);
  if (looking.empty())
    for (const Pair& pair : passed)
      if (!worst || pair.mm > worst->mm) worst = FaceDistance{pair.mm, pair.at};
  return worst;
}

std::optional<FaceDistance> stepBetween(const PlanningMesh& a, const std::string& roleA,
                                        const PlanningMesh& b, const std::string& roleB, double statedMm) {
  const std::vector<Part> partsA = partsOf(faceOf(a, roleA)), partsB = partsOf(faceOf(b, roleB));
  std::optional<FaceDistance> worst;
  // The partner nearest to the stated distance, for each part of one face; then the worst of those.
  auto measure = [&](const std::vector<Part>& parts, const std::vector<Part>& partners, bool partsAreA) {
    for (const Part& part : parts) {
      std::optional<double> best;
      for (const Part& partner : partners) {
        if (!sameFacing(*part.facet, *partner.facet)) continue;
        const double mm = partsAreA ? offset(part, partner) : offset(partner, part);
        if (!best || std::abs(mm - statedMm) < std::abs(*best - statedMm)) best = mm;
      }
      if (best) keepWorst(worst, *best, part.middle, statedMm);
    }
  };
  measure(partsB, partsA, false);
  measure(partsA, partsB, true);
  return worst;
}

}  // namespace dryfit
