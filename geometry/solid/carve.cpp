#include "solid/carve.h"

#include <algorithm>

#include "base/tolerance.h"
#include "solid/carve_boundary.h"
#include "solid/carve_checks.h"
#include "solid/carve_corners.h"
#include "solid/carve_hole_reach.h"
#include "solid/carve_holes.h"
#include "solid/carve_open_holes.h"
#include "solid/carve_shell.h"
#include "solid/carve_strips.h"

namespace dryfit {

namespace {

using namespace carver;

Result<Shell> flatShell(const Scene& scene, const Welded& welded) {
  Result<Boundary> merged = boundaryOf(scene, welded);
  if (!merged) return merged.faults();
  Boundary boundary = std::move(merged).value();
  if (auto fault = pairAndCheck(scene, boundary)) return *fault;
  return shellOf(scene, boundary);
}

RoundCut widestOf(const TurnedCut& hole) {
  RoundCut round{hole.through, hole.axis, 0, hole.role};
  for (const Station& s : hole.stations) round.radius = std::max(round.radius, s.radius);
  return round;
}

Diagnostic onSection(const TurnedCut& hole) {
  return {Fault::WorkFault,
          "",
          "the hole " + hole.role + " would stand in what is run along the piece",
          "only plain round holes can",
          {}};
}

/// The holes, each in its own way.
Result<Shell> withHoles(Shell shell, const Carving& carving) {
  std::vector<TurnedCut> plain;
  for (const RoundCut& hole : carving.holes) {
    if (!carving.run || !meetsSection(shell, hole, *carving.run)) {
      plain.push_back(turnedOf(hole));
      continue;
    }
    auto done = boredOpen(std::move(shell), hole, *carving.run);
    if (!done) return done.faults();
    shell = std::move(done).value();
  }
  for (const TurnedCut& hole : carving.turned) {
    if (carving.run && meetsSection(shell, widestOf(hole), *carving.run)) return onSection(hole);
    plain.push_back(hole);
  }
  return bored(std::move(shell), plain);
}

bool hasHoles(const Carving& carving) {
  return !carving.holes.empty() || !carving.turned.empty();
}

/// Everything but the holes.
Result<Shell> wholeShell(const Carving& carving, const Scene& scene, const Welded& welded) {
  Result<Shell> shell = flatShell(scene, welded);
  if (!shell || carving.strips.empty()) return shell;
  return rounded(std::move(shell).value(), carving.strips);
}

PlanningMesh meshOf(const Scene& scene, const Welded& welded) {
  PlanningMesh mesh;
  std::vector<int> numberOf(scene.roles.size(), -1);
  for (const FlatPart& part : welded.parts) {
    Facet facet;
    for (int corner : part.corners) facet.points.push_back(welded.points[corner]);
    if (area(facet) < tolerance::kSliverArea) continue;
    facet.normal = scene.planes[part.plane].normal * part.sign;
    if (numberOf[part.role] < 0) {
      numberOf[part.role] = static_cast<int>(mesh.roles.size());
      mesh.roles.push_back(scene.roles[part.role]);
    }
    facet.role = numberOf[part.role];
    mesh.facets.push_back(std::move(facet));
  }
  return mesh;
}

}  // namespace

ConvexBody boxBody(Vec3 low, Vec3 high) {
  return {{{{-1, 0, 0}, -low.x, "end.low"},
           {{1, 0, 0}, high.x, "end.high"},
           {{0, -1, 0}, -low.y, "edge.low"},
           {{0, 1, 0}, high.y, "edge.high"},
           {{0, 0, -1}, -low.z, "back"},
           {{0, 0, 1}, high.z, "face"}}};
}

Result<Shell> carve(const Carving& carving) {
  const Scene scene = sceneOf(carving, false);
  Result<Shell> shell = wholeShell(carving, scene, weld(scene, visibleFragments(scene)));
  if (!shell || !hasHoles(carving)) return shell;
  return withHoles(std::move(shell).value(), carving);
}

Result<Carved> carveWithMesh(const Carving& carving) {
  const Scene scene = sceneOf(carving, false);
  const Welded welded = weld(scene, visibleFragments(scene));
  Result<Shell> shell = wholeShell(carving, scene, welded);
  if (!shell) return shell.faults();
  if (!hasHoles(carving)) return Carved{std::move(shell).value(), meshOf(scene, welded)};
  Result<Shell> whole = withHoles(std::move(shell).value(), carving);
  if (!whole) return whole.faults();
  const Scene withPrisms = sceneOf(carving, true);
  return Carved{std::move(whole).value(), meshOf(withPrisms, weld(withPrisms, visibleFragments(withPrisms)))};
}

Result<PlanningMesh> planningMesh(const Carving& carving) {
  Result<Carved> both = carveWithMesh(carving);
  if (!both) return both.faults();
  return std::move(std::move(both).value().mesh);
}

}  // namespace dryfit
