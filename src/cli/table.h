// Plain tables for the terminal.
#pragma once

#include <string>
#include <vector>

namespace dryfit::cli {

/// Letters (code points) of a UTF-8 text: what it takes up on the screen, for the Latin text the program
/// prints.
int lettersIn(const std::string& utf8);

struct Column {
  std::string head;
  bool numbers = false;  ///< set to the right
};

/// Columns two spaces apart, no spaces at line ends; the heads in the first line.
std::string table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows);

/// "1 piece", "2 pieces".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// A length or figure for people: at most `decimals` places, none needless, never "-0".
std::string figure(double value, int decimals = 2);

}  // namespace dryfit::cli
