// Frames of the wall side as work files: a framed ground with splayed outer edges, a door's lining.
#pragma once

#include <string>

#include "joint/cut_work.h"

namespace dryfit::tests {

/// Two jambs and a head round an opening, the head tenoned into the jambs. Millimetres.
struct GroundsFrame {
  double width = 76, thickness = 19, splay = 5, tenon = 6, haunch = 12, horns = 40, proud = 10;
  double opening = 850, height = 2031;  ///< between the jambs, and under the head
  bool backFace = false;                ///< shows to +Y, else to -Y; then its back is the side nearer -Y
  bool feet = false;                    ///< a ground along the floor too, splayed below
};
std::string groundsFrame(const GroundsFrame& frame);

/// Two jambs and a head of one lining. Y = 0 at its front edge.
struct LiningFrame {
  std::string form = "trenched", rebates = "double", more{};  ///< more: keys of both joints
  double width = 253, jamb = 32, head = 32, rebateDepth = 12, rebateWidth = 45, depth = 12, horns = 40;
  double passage = 742, height = 1977;
  bool headFirst = false;  ///< listed first: the one that stays put
};
std::string liningFrame(const LiningFrame& frame);

/// Each body in its state `k`, or its last.
std::vector<int> statesAt(const Assembly& assembly, int k);
/// The most states that a body has.
int mostStates(const Assembly& assembly);
/// Faults in each state, told with it, shifts of 0.05 that no fault tells, and what the kernel finds shared.
std::vector<std::string> faultsInEveryState(const CutWork& work, bool kernelToo);

}  // namespace dryfit::tests
