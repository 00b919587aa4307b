// Fit: do the pieces at home overlap, do they touch where their joints say and nowhere else, are the stated
// gaps and flush faces there. From planning meshes alone; no kernel, no whitelist: every contact is explained
// by a joint or is a fault.
//
// Millimetres; resolves 0.001 mm (tolerance.h).
#pragma once

#include <string>
#include <vector>

#include "base/assembly.h"
#include "fit/swing.h"

namespace dryfit {

struct Overlap {
  int a = 0, b = 0;
  double volumeMm3 = 0;
  Vec3 at;  ///< centroid of the shared part, world
};

/// A contact found, beside what is expected for the same bodies and roles (0 when nothing is).
struct Contact {
  int a = 0, b = 0;
  std::string roleA, roleB;
  double areaMm2 = 0, expectedMm2 = 0;
  std::string joint;  ///< empty when no joint explains it
  Vec3 at;            ///< centroid of the touching area, world
};

/// A gap or flushness stated by a joint, beside what was found.
struct GapFound {
  std::string joint, what;
  int a = 0, b = 0;
  std::string roleA, roleB;
  double statedMm = 0;
  bool found = false;  ///< false: the two faces do not look at each other (gap) or are not parallel (flush)
  double foundMm = 0;
  Vec3 at;
};

struct FitFault {
  /// overlap, unexplained-contact, missing-contact, wrong-area, wrong-gap, not-flush, strike
  std::string kind;
  int a = 0, b = 0;
  std::string roleA, roleB;
  double figure = 0;  ///< mm3, mm2 or mm by kind; degrees of a strike
  Vec3 at;
  std::string text;  ///< one sentence with ids, roles and figures
};

struct FitStage {
  std::string at;  ///< the unit's name
  std::vector<Overlap> overlaps;
  std::vector<Contact> contacts;
  std::vector<GapFound> gaps;
};

struct FitReport {
  std::vector<FitStage> stages;
  std::vector<FitFault> faults;
  std::vector<Swing> swings{};  ///< of all that turns in the finished work
  bool clean() const { return faults.empty(); }
};

/// Bodies placed in the world in the given states (`states[i]` indexes bodies[i].states; -1 leaves the body
/// out). Expectations whose bodies are left out, or whose state ranges do not hold, are not asked for.
FitStage fitBodies(const Assembly& assembly, const std::vector<int>& states, const std::string& at,
                   std::vector<FitFault>& faults);

/// At the end of each unit with its own and its sub-units' pieces, in the states in force then, and at the
/// end of the whole work; there what is hung is turned too, and a strike is a fault. A unit's end state of a
/// body: the state after the last operation of that unit or its sub-units.
FitReport fit(const Assembly& assembly);

/// Volume shared by two closed placed meshes, mm3, by a closed formula over facet pairs (0 when they only
/// touch), and its centroid.
struct SharedVolume {
  double volumeMm3 = 0;
  Vec3 centroid;
};
SharedVolume sharedVolume(const PlanningMesh& a, const PlanningMesh& b);
SharedVolume sharedVolume(const PlanningMesh& a, const Box3& boundsA, const PlanningMesh& b,
                          const Box3& boundsB);

/// Touching areas of two placed meshes, summed by pair of roles.
struct Touch {
  std::string roleA, roleB;
  double areaMm2 = 0;
  Vec3 at;
};
std::vector<Touch> touches(const PlanningMesh& a, const PlanningMesh& b);
std::vector<Touch> touches(const PlanningMesh& a, const Box3& boundsA, const PlanningMesh& b,
                           const Box3& boundsB);

}  // namespace dryfit
