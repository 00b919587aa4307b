// How a path of words with dots between is said: ids of pieces and names of units are such paths.
#pragma once

#include <string>
#include <string_view>

namespace dryfit {

/// The last word first, numbers last: "grounds.front" is "front grounds", "hinge.1" is "hinge 1".
std::string spokenPath(std::string_view path);

/// With its article: "the front grounds"; what ends in a number needs none.
std::string withArticle(const std::string& name);

}  // namespace dryfit
