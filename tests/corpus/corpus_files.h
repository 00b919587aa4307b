// A folder of the corpus: NAME.toml with its messages in full in NAME.txt.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "unit/temporary_folder.h"

namespace dryfit {

class CorpusFolder {
 public:
  explicit CorpusFolder(const std::string& name)
      : path_(std::filesystem::path(DRYFIT_ROOT) / "tests" / "corpus" / name) {}

  /// NAME of every NAME.toml, sorted.
  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const auto& entry : std::filesystem::directory_iterator(path_))
      if (entry.path().extension() == ".toml") all.push_back(entry.path().stem().string());
    std::sort(all.begin(), all.end());
    return all;
  }
  std::string text(const std::string& file) const { return contentOf(path_ / file); }

 private:
  std::filesystem::path path_;
};

}  // namespace dryfit
