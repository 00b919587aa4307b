// A Part 21 file (ISO 10303-21) as its statements, without the blanks and line ends that mean nothing.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace dryfit::detail {

/// What stands before a semicolon: an instance `#number=words`, or one of the words that frame the sections.
struct Statement {
  int number = 0;     ///< 0: no instance
  std::string words;  ///< strings as they stand, nothing blank outside them
};

/// A file as the kernel writes it, whose lines break anywhere, in strings and between the two apostrophes
/// that stand for one too. It has no comments.
std::vector<Statement> statementsOf(const std::string& file);

/// One line a statement, broken between values where it would be longer than 72; a string is never broken.
std::string fileOf(const std::vector<Statement>& statements);

/// The words with every `#number` outside strings made another.
std::string renumbered(const std::string& words, const std::function<int(int)>& numberOf);

/// Every number the words refer to, in their order.
std::vector<int> referencesOf(const std::string& words);

}  // namespace dryfit::detail
