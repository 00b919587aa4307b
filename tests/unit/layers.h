// The layers: who may include whom, read from the sources themselves. DEVELOPERS.md draws them.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace dryfit::layers {

/// Source files by path from the project's root ("geometry/fit/fit.h") with their text.
using Sources = std::map<std::string, std::string>;

struct Include {
  std::string name;
  bool quoted = false;
  int line = 0;
};
/// The #include lines of a text; those in comments do not count.
std::vector<Include> includesOf(const std::string& text);

/// One sentence a violation: "geometry/fit/fit.cpp:3: ...". Empty when the layers hold.
std::vector<std::string> violations(const Sources& sources);

/// Names at the top of the project that do not belong there.
std::vector<std::string> strangersAtTop(const std::vector<std::string>& names);

/// Every .h and .cpp under geometry, src and tests.
Sources readSources(const std::string& root);
std::vector<std::string> namesAtTop(const std::string& root);

}  // namespace dryfit::layers
