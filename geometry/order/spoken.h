// How pieces, units and turns are called in the planner's sentences.
#pragma once

#include <string>
#include <vector>

#include "order/bench.h"

namespace dryfit::order {

bool contains(const std::vector<int>& all, int value);

/// "a, b and c".
std::string listed(const std::vector<std::string>& names);
/// "the top rail" where one piece alone has that name; "the pin of hinge 1" where one piece alone of what its
/// id begins with has it; else the id.
std::string called(const Assembly& assembly, int body);
/// Numbered ones of one name together, "backings 1, 2 and 5", and so pieces of one kind that have no names of
/// their own: "the 5 screws of hinge 1".
std::vector<std::string> namesOf(const Assembly& assembly, const std::vector<int>& bodies);
/// "the front grounds", "the made-up top and left".
std::string calledUnit(const Assembly& assembly, int unit);
/// "the top rail", "the front grounds" of a unit, "the 2 wedges of the leaf".
std::string subjectOf(const Assembly& assembly, const Event& event);
/// "90 degrees", "12.5 degrees"; of the angle's size.
std::string degrees(double rad);
/// "the leaf", "hinge 1".
std::string calledPivot(const Assembly& assembly, int pivot);
/// "the leaf is swung shut", "hinge 1 is swung open to 90 degrees".
std::string swung(const Assembly& assembly, const TurnBy& turn);
/// With a capital where it begins with "the".
std::string sentence(std::string text);

}  // namespace dryfit::order
