// Runs a program as a user would and keeps what it said.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace dryfit {

struct Said {
  int status = -1;  ///< exit status; 128 + the signal when it was killed
  std::string out, err;
};

struct ChildOptions {
  std::string folder;                    ///< where it runs; empty: here
  std::string outTo;                     ///< standard output goes to this file instead of Said::out
  std::vector<std::string> environment;  ///< "NAME=value", added
  std::function<void()> first;           ///< run in the child before the program
};

/// words[0] is the program's path. No standard input.
Said runChild(const std::vector<std::string>& words, const ChildOptions& options = {});
/// The dryfit just built.
Said dryfit(std::vector<std::string> words, const ChildOptions& options = {});

}  // namespace dryfit
