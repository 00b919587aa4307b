// A small work made by hand, for tests of what the program prints: a post and a bar with a peg through both.
// Nothing is cut; shells and figures are plain values that a reader can check by head.
#pragma once

#include "fit/blocks.h"
#include "fit/fit.h"
#include "joint/cut_work.h"
#include "order/order.h"

namespace dryfit {

/// A box centred on the origin.
Shell boxShell(double lengthMm, double widthMm, double thicknessMm);

/// Pieces: 0 post 400 x 95 x 44, two states (410 before, "horns off" last); 1 bar 300 x 60 x 20; 2 peg, a
/// rod, in sub-unit "pegs"; 3 floor, formed. Density 500 kg/m3.
CutWork handMadeWork();
/// One contact explained, one not; one gap found, one not; an overlap; two faults.
FitReport handMadeFit();
/// One blocked, one free that never meets.
std::vector<BlockRow> handMadeBlocks();
/// Seven steps: every kind of leg, a unit's move, a state, a bond.
OrderOfWork handMadeOrder();

}  // namespace dryfit
