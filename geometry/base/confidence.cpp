#include "base/confidence.h"

#include <algorithm>

#include "base/require.h"

namespace dryfit {

const std::vector<std::string>& confidenceWords() {
  static const std::vector<std::string> words = {"read in the source", "from memory", "common practice"};
  return words;
}

const char* nameOf(Confidence confidence) {
  return confidenceWords().at(static_cast<size_t>(confidence)).c_str();
}

std::optional<Confidence> confidenceOf(const std::string& word) {
  const auto& words = confidenceWords();
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<Confidence>(found - words.begin());
}

std::string toldSource(const std::string& source, Confidence confidence) {
  REQUIRE(source.empty() == (confidence == Confidence::CommonPractice));
  switch (confidence) {
    case Confidence::ReadInSource:
      return source + ", read there";
    case Confidence::FromMemory:
      return source + ", from memory";
    case Confidence::CommonPractice:
      break;
  }
  return nameOf(confidence);
}

}  // namespace dryfit
