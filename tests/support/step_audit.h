// What a STEP file states, found from its text alone: structure, closed shells, exact volumes of planar
// solids.
#pragma once

#include <string>
#include <vector>

#include "support/part21.h"

namespace dryfit::tests {

struct StepSolid {
  std::string name;
  int faces = 0;
  bool planar = true;    ///< planes and straight lines only
  bool exact = true;     ///< planes, cylinders, cones, straight lines, circles and ellipses only
  double volumeMm3 = 0;  ///< by the divergence theorem; only of exact solids
  std::vector<std::string> faceNames;
};

struct StepAudit {
  std::vector<std::string> faults;  ///< what breaks the standard or its structure; empty when all is well
  std::string schema;
  std::vector<std::string> products;     ///< names, in file order
  std::vector<std::string> occurrences;  ///< names of usages, in file order
  std::vector<StepSolid> solids;
  int assemblies = 0;
};

/// Header order; no reference left dangling; the counts that products, usages and shapes owe each other (ISO
/// 10303-214: one shape a product, one placement a usage, one solid a part); every edge of a shell used once
/// each way; corners on their lines and planes. Never throws.
StepAudit audit(const std::string& text);

}  // namespace dryfit::tests
