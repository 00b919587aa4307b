// How sure a fact of the trade is.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dryfit {

enum class Confidence {
  ReadInSource,   ///< seen in the source that is named
  FromMemory,     ///< known of that source, not seen there
  CommonPractice  ///< what the trade does; no source is named
};

/// "read in the source", "from memory", "common practice": the words of files and of JSON.
const char* nameOf(Confidence confidence);
const std::vector<std::string>& confidenceWords();
/// By its word; empty: it is none.
std::optional<Confidence> confidenceOf(const std::string& word);

/// For a sentence: "Goring, read there", "Goring, from memory", "common practice".
std::string toldSource(const std::string& source, Confidence confidence);

}  // namespace dryfit
