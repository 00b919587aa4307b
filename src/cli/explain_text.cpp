// Explanations for people: a paragraph a size.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "cli/explain.h"
#include "cli/help.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

std::string numberText(double value, const std::string& unit, LengthUnit lengths) {
  if (unit == "mm") return lengthText(value, lengths);
  if (unit == "slope") return "1:" + figure(1 / value);
  return figure(value) + (unit == "%" ? " %" : unit == "degrees" ? " degrees" : "");
}

std::string valueText(const Explained& size, LengthUnit lengths) {
  if (const auto* number = std::get_if<double>(&size.value)) return numberText(*number, size.unit, lengths);
  if (const auto* flag = std::get_if<bool>(&size.value)) return *flag ? "true" : "false";
  if (const auto* word = std::get_if<std::string>(&size.value)) return *word;
  if (const auto* listed = std::get_if<ListedSection>(&size.value))
    return fmt::format("a path of {} steps", (*listed)->steps.size());
  const auto& ends = std::get<std::array<double, 2>>(size.value);
  return figure(ends[0]) + " to " + numberText(ends[1], size.unit, lengths);
}

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

/// "given in line 4", "rule: as leaf.stile (author)".
std::string whence(const Explained& size) {
  const std::string source = size.source.empty() ? "" : " (" + size.source + ")";
  if (size.from == Size::From::Given)
    return "given" + (size.where.line > 0 ? fmt::format(" in line {}", size.where.line) : std::string());
  if (size.from == Size::From::Rule) {
    const std::string rule = size.rule.rfind("by rule: ", 0) == 0 ? size.rule.substr(9) : size.rule;
    return "by rule: " + rule + source;
  }
  return "default" + source;
}

/// "leaf.wedge" of "leaf.wedge.rail.top.hanging.1.upper"; the first word of what has no family.
std::string familyOf(const std::string& id) {
  const size_t first = id.find('.');
  return first == std::string::npos ? id : id.substr(0, id.find('.', first + 1));
}

/// All pieces of one family in one word: "leaf.wedge.* (20)".
std::string pieceList(const std::vector<std::string>& ids, const std::vector<std::string>& all) {
  if (ids.size() == all.size()) return fmt::format("all {}", all.size());
  auto count = [](const std::vector<std::string>& list, const std::string& family) {
    return std::count_if(list.begin(), list.end(),
                         [&](const std::string& id) { return familyOf(id) == family; });
  };
  std::vector<std::string> names;
  for (const std::string& id : ids) {
    const std::string family = familyOf(id);
    const auto here = count(ids, family);
    const bool whole = here > 2 && here == count(all, family);
    const std::string name = whole ? fmt::format("{}.* ({})", family, here) : id;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return listed(names);
}

std::string paragraph(const Explained& size, const Explanation& whole) {
  std::string out = size.key + " = " + valueText(size, whole.lengths) + "\n";
  auto line = [&](const std::string& text) { out += wrapped(text, 4); };
  if (!size.about.empty()) line(size.about);
  line(whence(size));
  const bool ownName = size.setBy.size() == 1 && size.setBy.front() == size.key;
  if (!size.setBy.empty() && !ownName) line("key: " + listed(size.setBy));
  if (!size.follows.empty()) line("it follows from: " + listed(size.follows));
  if (!size.alone.empty()) line("cannot be changed alone: " + size.alone);
  if (!size.sizes.empty()) line("sizes that depend on it: " + listed(size.sizes));
  if (!size.pieces.empty()) line("pieces cut by it: " + pieceList(size.pieces, whole.pieces));
  if (!size.moved.empty()) line("pieces moved by it: " + pieceList(size.moved, whole.pieces));
  return out;
}

}  // namespace

std::string explainText(const Explanation& explanation) {
  std::string out =
      explanation.title + ": " + counted(explanation.sizes.size(), "size", "sizes") + " in force\n";
  for (const Explained& size : explanation.sizes) out += "\n" + paragraph(size, explanation);
  return out;
}

}  // namespace dryfit::cli
