// Explanations for people: a paragraph a size, or for all that are alike; what the file gives comes first.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "base/units.h"
#include "cli/condense.h"
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

/// "leaf.rail[].width" of "leaf.rail[2].width".
std::string unnumbered(std::string path) {
  for (size_t at = path.find('['); at != std::string::npos; at = path.find('[', at + 2))
    path.erase(at + 1, path.find(']', at) - at - 1);
  return path;
}

/// What people are told in one paragraph: sizes alike but for the piece they belong to.
struct Group {
  Explained told;  ///< the first of them, with what depends on any
  std::vector<std::string> keys;
};

enum class Part { Given, Default, Rule, Follows };
constexpr std::pair<Part, const char*> kParts[] = {
    {Part::Given, "Given in the file"},
    {Part::Default, "Defaults, in the place of what it leaves out"},
    {Part::Rule, "By rule, unless the file gives them"},
    {Part::Follows, "What follows, and no key sets"}};

Part partOf(const Explained& size) {
  if (size.from == Size::From::Given) return Part::Given;
  if (size.setBy.empty()) return Part::Follows;
  return size.from == Size::From::Default ? Part::Default : Part::Rule;
}

class TextMaker {
 public:
  TextMaker(const Explanation& all)
      : all_(all),
        sizes_(all.keys, true),
        pieces_(all.pieces, false),
        most_(all.sizes.size() == 1 ? 0 : kMostTerms) {
    for (size_t i = 0; i < all.keys.size(); ++i) placeOf_[all.keys[i]] = i;
    for (size_t i = 0; i < all.pieces.size(); ++i) placeOf_[all.pieces[i]] = i;
  }

  std::string text() const {
    std::string out = all_.title + ": " + counted(all_.sizes.size(), "size", "sizes") + " in force\n";
    if (all_.sizes.size() == 1) return out + "\n" + paragraph({all_.sizes[0], {all_.sizes[0].key}});
    for (const auto& [part, head] : kParts) {
      const std::vector<Group> found = groups(part);
      if (!found.empty()) out += fmt::format("\n{}\n{}\n", head, std::string(std::string(head).size(), '-'));
      for (const Group& group : found) out += "\n" + paragraph(group);
    }
    return out;
  }

 private:
  static constexpr size_t kMostTerms = 6;

  /// Equal for sizes that are told together: one family, one last word, and everything alike but dependents.
  std::string likeness(const Explained& size) const {
    const std::vector<std::string>& by = size.setBy;
    return fmt::format("{}|{}|{}|{}|{}|{}|{}|{}", familyOf(size.key), wordOf(size.key),
                       valueText(size, all_.lengths), whence(size), size.about, size.alone, by.size(),
                       by.empty() ? "" : unnumbered(by.front()));
  }
  static std::string familyOf(const std::string& key) {
    const size_t first = key.find('.');
    return key.rfind("leaf.", 0) == 0 ? key.substr(0, key.find('.', first + 1)) : "";
  }
  /// "tenon_width" of "leaf.rail.middle.tenon_width.2".
  static std::string wordOf(std::string key) {
    size_t dot = key.rfind('.');
    while (dot != std::string::npos && key.find_first_not_of("0123456789", dot + 1) == std::string::npos) {
      key.erase(dot);
      dot = key.rfind('.');
    }
    return key.substr(dot == std::string::npos ? 0 : dot + 1);
  }

  std::vector<Group> groups(Part part) const {
    std::vector<Group> out;
    std::map<std::string, size_t> known;
    for (const Explained& size : all_.sizes) {
      if (partOf(size) != part) continue;
      const auto [at, isNew] = known.emplace(likeness(size), out.size());
      if (isNew) {
        out.push_back({size, {size.key}});
        continue;
      }
      Group& group = out[at->second];
      group.keys.push_back(size.key);
      for (auto list :
           {&Explained::setBy, &Explained::sizes, &Explained::pieces, &Explained::moved, &Explained::follows})
        join(group.told.*list, size.*list);
    }
    return out;
  }
  /// In the order of the work.
  void join(std::vector<std::string>& into, const std::vector<std::string>& more) const {
    into.insert(into.end(), more.begin(), more.end());
    const auto place = [&](const std::string& name) {
      const auto found = placeOf_.find(name);
      return found == placeOf_.end() ? placeOf_.size() : found->second;
    };
    std::stable_sort(into.begin(), into.end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
    std::set<std::string> seen;
    std::erase_if(into, [&](const std::string& name) { return !seen.insert(name).second; });
  }

  std::string keyList(const std::vector<std::string>& keys) const {
    std::vector<Term> terms;
    for (const std::string& key : keys) {
      const std::string path = keys.size() == 1 ? key : unnumbered(key);
      if (std::none_of(terms.begin(), terms.end(), [&](const Term& t) { return t.text == path; }))
        terms.push_back({path});
    }
    return listed(terms);
  }
  std::string pieceList(std::vector<std::string> ids, const std::vector<std::string>& without = {}) const {
    std::erase_if(ids, [&](const std::string& id) {
      return std::find(without.begin(), without.end(), id) != without.end();
    });
    if (ids.size() == all_.pieces.size()) return fmt::format("all {}", ids.size());
    return listed(pieces_.terms(ids), most_);
  }

  std::string paragraph(const Group& group) const {
    const Explained& size = group.told;
    const std::string name = group.keys.size() == 1 ? size.key : listed(sizes_.terms(group.keys), 3);
    std::string out = wrapped(name + " = " + valueText(size, all_.lengths), 0);
    auto line = [&](const std::string& text) { out += wrapped(text, 4); };
    if (!size.about.empty()) line(size.about);
    line(whence(size));
    const bool ownName = size.setBy.size() == 1 && size.setBy.front() == size.key;
    if (!size.setBy.empty() && !ownName) line("key: " + keyList(size.setBy));
    if (!size.follows.empty()) line("it follows from: " + listed(sizes_.terms(size.follows), most_));
    if (!size.alone.empty()) line("cannot be changed alone: " + size.alone);
    if (!size.sizes.empty()) line("sizes that depend on it: " + listed(sizes_.terms(size.sizes), most_));
    if (!size.pieces.empty()) line("pieces cut by it: " + pieceList(size.pieces));
    if (const std::string moved = pieceList(size.moved, size.pieces); !moved.empty())
      line("pieces moved by it: " + moved);
    return out;
  }

  const Explanation& all_;
  Condenser sizes_, pieces_;
  size_t most_;  ///< terms of a list
  std::map<std::string, size_t> placeOf_;
};

}  // namespace

std::string explainText(const Explanation& explanation) {
  return TextMaker(explanation).text();
}

}  // namespace dryfit::cli
