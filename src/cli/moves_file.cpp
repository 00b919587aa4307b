#include "cli/moves_file.h"

#include <sstream>

#include "base/text.h"

namespace dryfit::cli {

namespace {

constexpr const char* kSpace = " \t\r\v\f";

std::string trimmed(const std::string& line) {
  const size_t from = line.find_first_not_of(kSpace);
  if (from == std::string::npos) return "";
  return line.substr(from, line.find_last_not_of(kSpace) - from + 1);
}

}  // namespace

Result<std::vector<MoveLine>> readMoves(const std::string& text, const std::string& path) {
  std::vector<MoveLine> moves;
  std::istringstream lines(text);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    const size_t column = line.find_first_not_of(kSpace);
    const std::string name = trimmed(line.substr(0, line.find('#')));
    if (name.empty()) continue;
    moves.push_back({name, {path, number, static_cast<int>(column) + 1}});
  }
  if (moves.empty())
    return Diagnostic{
        Fault::BadInput, "", "there is no move in this file", "a piece or a unit a line", {path, 0, 0}};
  return moves;
}

}  // namespace dryfit::cli
