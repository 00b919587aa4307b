// Operations that the joints of one unit share: squaring up, cleaning off. Each joint adds its part under one
// key and the parts are joined when the work is cut.
#pragma once

#include <string>

#include "joint/joint_kind.h"

namespace dryfit {

/// "Cramp up and square": a check of the whole unit, by rule before wedges and pins.
JointOperation squareUp(const std::string& unit);
std::string squareUpKey(const std::string& unit);
std::string glueUpKey(const std::string& unit);

/// Index of the unit that a joint names; one that is not there is its author's slip.
int unitNamed(const SettingOut& work, const std::string& name);

/// What cleaning off is called, and the state it leaves a piece in.
StateKey cleanedOff(const std::string& unit, const std::string& stateName);
/// The trim of what stands proud; each joint adds its pieces' changes and the operations it must follow.
JointOperation cleanOff(const std::string& unit);

/// Sawing the horns off, last of all in the unit whose work it is: the smallest round the member that does
/// not keep them; -1 when all keep them.
std::string hornsKey(const std::string& unit);
int hornsUnit(const SettingOut& work, const Member& member);

/// Two members glued together, one operation a unit. It bonds nothing by itself: what holds a joint adds its
/// bond.
JointOperation glueUp(const std::string& unit, const std::string& joint, const std::string& a,
                      const std::string& b);

/// The unit's members first, then squaring and whatever gluing there is, then the operation.
JointRule wedgeAfterSquaring(const std::string& unit, const std::string& operation);
/// The wedges of the rails at the stiles' ends before those of the rails between.
std::string endWedges(const std::string& unit);
JointRule wedgeAfterTheEnds(const std::string& unit, const std::string& operation);
JointRule pinAfterFrameIsUp(const std::string& unit, const std::string& operation);
/// What is planted on the work goes on when that is squared up, glued and cleaned off.
JointRule plantOnFinishedWork(const std::string& unit, const std::string& pieceId);

}  // namespace dryfit
