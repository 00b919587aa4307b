// The shipped works, read and cut, for tests that run over all of them.
#pragma once

#include <string>
#include <vector>

#include "joint/cut_work.h"

namespace dryfit::tests {

/// Paths of assets/works/*.toml, sorted.
std::vector<std::string> shippedWorks();
/// Paths of assets/doorsets/*.toml, sorted.
std::vector<std::string> shippedDoorSets();
/// The work of that file; of a door set, the leaf withoutDoorway(). A test stops with the faults' texts when
/// it cannot be read or cut.
CutWork cutFile(const std::string& path, const std::vector<JointKind>& kinds = standardJoints());
/// The same, but of a door set all that it says.
CutWork cutWholeSet(const std::string& path);
/// By its short name: "panel-frame".
CutWork shippedWork(const std::string& name);
CutWork cutText(const std::string& text, const std::vector<JointKind>& kinds = standardJoints());
/// A door set file.
CutWork cutDoorSet(const std::string& text);
std::vector<std::string> faultsOfDoorSet(const std::string& text);
/// A door set file with wall.kind = "none" at its end, unless it says something of the wall: the leaf on its
/// bench. Other texts as they are.
std::string leafAlone(const std::string& text);
/// A door set file less every table about the doorway, and leafAlone(). Requires: tables' heads at the
/// beginnings of their lines.
std::string withoutDoorway(const std::string& text);
CutWork cutLeafAlone(const std::string& text);
std::vector<std::string> faultsOfLeafAlone(const std::string& text);
/// All faults of a text that must not be read or cut, as texts.
std::vector<std::string> faultsOfText(const std::string& text,
                                      const std::vector<JointKind>& kinds = standardJoints());

/// Index of the piece, by id; stops the test when there is none.
int pieceOf(const CutWork& work, const std::string& id);
/// Every body in its last state.
std::vector<int> lastStates(const Assembly& assembly);
/// Every body in the state in which it goes into the operations of this kind of key ("clean-off:"), the last
/// for those they do not change.
std::vector<int> statesBefore(const Assembly& assembly, const std::string& keyPrefix);
/// A small leaf with a bevelled closing edge, a single tenon above and a pair below, wedged: a door set file.
std::string bevelledLeaf();
/// Every body in its first state.
std::vector<int> firstStates(const Assembly& assembly);

}  // namespace dryfit::tests
