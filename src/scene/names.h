// Names: what people call the pieces of a work when they say what to show.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joint/cut_work.h"

namespace dryfit::scene {

/// What a piece is, one word: the last before " of ", numbers left out. "front top moulding of panel 1.1":
/// moulding; "panel 1.1": panel. Of a piece called by its id ("rail.top"): the id's first part.
std::string kindOf(const std::string& name);

/// Pieces meant by a word: the one of that id, else those whose ids begin with it and go on with a new part
/// ("leaf.moulding"), else those of that kind ("wedge", "wedges"). By index, in file order; empty: none.
std::vector<int> piecesCalled(const CutWork& work, const std::string& word);

/// Joint of that id, by index into Assembly::joints; "b+a" is "a+b".
std::optional<int> jointCalled(const Assembly& assembly, const std::string& id);
/// The same; else the joint that brings every piece whose id begins with the word ("hinge.2").
std::optional<int> jointCalled(const CutWork& work, const std::string& word);

/// Ids of pieces, in file order; and kinds, each once.
std::vector<std::string> pieceIds(const CutWork& work);
std::vector<std::string> kindsOf(const CutWork& work);
std::vector<std::string> jointIds(const Assembly& assembly);

}  // namespace dryfit::scene
