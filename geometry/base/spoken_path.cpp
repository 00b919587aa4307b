#include "base/spoken_path.h"

#include <algorithm>

namespace dryfit {

std::string spokenPath(std::string_view path) {
  std::string words, numbers;
  for (size_t at = 0; at <= path.size();) {
    const size_t dot = std::min(path.find('.', at), path.size());
    const std::string word(path.substr(at, dot - at));
    at = dot + 1;
    if (word.empty()) continue;
    if (word.find_first_not_of("0123456789") == std::string::npos)
      numbers += " " + word;
    else
      words = words.empty() ? word : word + " " + words;
  }
  return words.empty() ? std::string(path) : words + numbers;
}

std::string withArticle(const std::string& name) {
  const bool numbered = !name.empty() && name.back() >= '0' && name.back() <= '9';
  return numbered ? name : "the " + name;
}

}  // namespace dryfit
