#include "cli/table.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/require.h"

namespace dryfit::cli {

namespace {

std::string line(const std::vector<Column>& columns, const std::vector<int>& widths,
                 const std::vector<std::string>& cells) {
  std::string out;
  for (size_t i = 0; i < columns.size(); ++i) {
    const std::string fill(static_cast<size_t>(widths[i] - lettersIn(cells[i])), ' ');
    if (i > 0) out += "  ";
    out += columns[i].numbers ? fill + cells[i] : cells[i] + fill;
  }
  out.erase(out.find_last_not_of(' ') + 1);
  return out + "\n";
}

}  // namespace

int lettersIn(const std::string& utf8) {
  const auto starts = [](unsigned char byte) { return (byte & 0xC0) != 0x80; };
  return static_cast<int>(std::count_if(utf8.begin(), utf8.end(), starts));
}

std::string table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows) {
  std::vector<int> widths;
  std::vector<std::string> heads;
  for (const Column& column : columns) {
    heads.push_back(column.head);
    widths.push_back(lettersIn(column.head));
  }
  for (const auto& row : rows) {
    REQUIRE(row.size() == columns.size());
    for (size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], lettersIn(row[i]));
  }
  std::string out = line(columns, widths, heads);
  for (const auto& row : rows) out += line(columns, widths, row);
  return out;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string figure(double value, int decimals) {
  std::string out = fmt::format("{:.{}f}", value, decimals);
  if (out.find('.') != std::string::npos) {
    out.erase(out.find_last_not_of('0') + 1);
    if (out.back() == '.') out.pop_back();
  }
  return out == "-0" ? "0" : out;
}

}  // namespace dryfit::cli
