// Arithmetic of the doorway, each rule with its author: places of hinges and backings, widths of architraves.
// Plain figures in mm, so that each can be held against its author's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "doorset/doorway_spec.h"

namespace dryfit {

/// Whose rule places the hinges.
struct HingeRule {
  const char* word;     ///< in a file: hinge.rule = "british"
  const char* decides;  ///< a line for people
  const char* source;   ///< author and work
};
const std::vector<HingeRule>& hingeRules();
std::vector<std::string> hingeRuleWords();

/// A leaf as far as its hinges' places depend on it.
struct HungLeaf {
  double heightMm = 0;
  double gapMm = 0;    ///< above it, up to the head's rebate
  double underMm = 0;  ///< under it, down to the finished floor
  double hingeMm = 0;  ///< height of a hinge
};

/// British: 2 up to 2000 high, then 3 (the house's, after Joyce's third for higher leaves). US rules: BHMA's
/// table, 2 up to 60 in, one more for each 30 in or part. CPWD: 3.
/// Requires: a word of hingeRules().
int hingeCountFor(const std::string& rule, double leafHeightMm);

/// Centres above the leaf's bottom, from the top hinge down; those between the outer two evenly.
/// british: 152 (6 in) from the leaf's top down to the top hinge's top, 229 (9 in) from its bottom up to the
///   lower one's bottom: Joyce, The Technique of Furniture Making.
/// us-architectural: 5 in from the head's rebate to the top hinge's top, 10 in from the finished floor to the
///   bottom hinge's bottom: US architectural practice, the points measured from by memory.
/// us-residential: 7 in and 11 in, from the leaf's top and bottom: US residential practice.
/// cpwd: 200 from the shutter's top and bottom to the hinges' ends: CPWD Specifications 9.19.5.
/// Requires: a word of hingeRules(), count of 2 or more.
std::vector<double> hingeCentres(const std::string& rule, int count, const HungLeaf& leaf);

/// What the backings of a jamb must serve. Heights above the finished floor.
struct JambToBack {
  double topMm = 0;                ///< of the lining
  std::vector<double> hingesMm{};  ///< centres, from the top
  double hingeMm = 0;              ///< height of a hinge
  std::optional<double> lockMm{};  ///< middle of the lock
  double backingMm = 0;            ///< a backing's size along the jamb
  double pitchMm = 0;
};
/// One behind each hinge, longer than it by 20; one at the lock, unless a hinge's is there; between them, and
/// down to the floor and up to the lining's top, as many evenly as keep the pitch. From the floor. Common
/// practice; NHBC Standards 6.7: fixings at most 600 apart.
std::vector<BackingPlace> backingPlaces(const JambToBack& jamb);
/// So many, evenly between the floor and the lining's top.
std::vector<BackingPlace> backingsByCount(const JambToBack& jamb, int count);

/// X of the backings over a head, the doorway's middle 0: one in the middle, or in an opening over 1000 as
/// many evenly as keep the pitch. Common practice.
std::vector<double> headBackings(double openingMm, double pitchMm, std::optional<int> count);

/// How far an architrave's outer edge must be from the lining's arris less the margin: over the lining as it
/// is at that face, the packing and the ground (or what stands there), and the lap.
struct ArchitraveReach {
  double liningMm = 0, marginMm = 0, packingMm = 0, groundMm = 0, lapMm = 0;
  double mm() const { return liningMm - marginMm + packingMm + groundMm + lapMm; }
};
/// The reach rounded up to 5. Common practice.
double architraveWidth(const ArchitraveReach& reach);

/// The lining's thickness at a face of the wall, mm: less where it is rebated.
double liningAtFace(const LiningSpec& lining, bool front);

}  // namespace dryfit
