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
  if (const auto* list = std::get_if<std::vector<double>>(&size.value)) {
    std::string out;
    for (const double n : *list) out += (out.empty() ? "" : ", ") + numberText(n, size.unit, lengths);
    return out;
  }
  const auto& ends = std::get<std::array<double, 2>>(size.value);
  return figure(ends[0]) + " to " + numberText(ends[1], size.unit, lengths);
}

/// Given to a joint by the door set, not by the file.
bool isSetOut(const Explained& size) {
  return size.from == Size::From::Given && size.where.line == 0;
}

/// Of many authors the first.
std::string firstOf(const std::string& sources) {
  constexpr size_t kLong = 80;
  return sources.size() > kLong ? sources.substr(0, sources.find(';')) + " and others" : sources;
}

std::string ruleOf(const Explained& size) {
  return size.rule.rfind("by rule: ", 0) == 0 ? size.rule.substr(9) : size.rule;
}

/// "given in line 4", "rule: as leaf.stile (author)".
std::string whence(const Explained& size) {
  const std::string source = size.source.empty() ? "" : " (" + size.source + ")";
  if (isSetOut(size)) return "set out from the leaf's sizes";
  if (size.from == Size::From::Given) return fmt::format("given in line {}", size.where.line);
  return (size.from == Size::From::Rule ? "by rule: " + ruleOf(size) : "default") + source;
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
constexpr std::pair<Part, const char*> kParts[] = {{Part::Given, "Given in the file"},
                                                   {Part::Default, "Defaults"},
                                                   {Part::Rule, "By rule, unless the file gives them"},
                                                   {Part::Follows, "What follows, and no key sets"}};

Part partOf(const Explained& size) {
  if (isSetOut(size) || size.setBy.empty()) return Part::Follows;
  if (size.from == Size::From::Given) return Part::Given;
  return size.from == Size::From::Default ? Part::Default : Part::Rule;
}

class TextMaker {
 public:
  explicit TextMaker(const Explanation& all)
      : all_(all), sizes_(all.keys, true), pieces_(all.pieces, false), brief_(all.sizes.size() > kManySizes) {
    for (size_t i = 0; i < all.keys.size(); ++i) placeOf_[all.keys[i]] = i;
    for (const Explained& size : all.sizes)
      if (size.setBy.empty()) only_.insert(size.key);
    for (size_t i = 0; i < all.pieces.size(); ++i) placeOf_[all.pieces[i]] = i;
  }

  std::string text() {
    std::string out = all_.title + ": " + counted(all_.sizes.size(), "size", "sizes") + " in force\n";
    if (brief_) out += "Alike ones are told together, long lists cut short; with a KEY all is told.\n";
    if (all_.sizes.size() == 1) return out + "\n" + paragraph({all_.sizes[0], {all_.sizes[0].key}});
    for (const auto& [part, head] : kParts) {
      const std::vector<Group> found = groups(part);
      if (!found.empty()) out += heading(part, head);
      for (const Group& group : found)
        if (!brief_ || !isIdle(group.told)) out += brief_ ? entry(group) : "\n" + paragraph(group);
    }
    return out;
  }

 private:
  std::string heading(Part part, std::string head) const {
    if (brief_ && part == Part::Default) head += " (common practice where no source is told)";
    return "\n" + head + "\n" + std::string(head.size(), '-') + "\n";
  }
  static constexpr int kLine = 80;
  static constexpr size_t kManySizes = 40;  // more than one looks through paragraph by paragraph
  static constexpr size_t kMostTerms = 3;   // of a list, where sizes are many

  /// Nothing sets it, and nothing comes of it: a mitre's "dry".
  static bool isIdle(const Explained& size) {
    return size.setBy.empty() && size.from != Size::From::Given && size.follows.empty() &&
           size.alone.empty() && size.sizes.empty() && size.pieces.empty() && size.moved.empty();
  }
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
    return listed(pieces_.terms(ids));
  }

  std::string nameOf(const Group& group) const {
    return group.keys.size() == 1 ? group.told.key : listed(sizes_.terms(group.keys), 3);
  }

  /// In few lines, the part's head telling whether it is given, a default or by rule.
  std::string entry(const Group& group) {
    const Explained& size = group.told;
    std::string head = nameOf(group) + " = " + valueText(size, all_.lengths);
    // What is said of a rail's width once need not be said of the next one's.
    const std::string word = familyOf(size.key) + "|" + wordOf(size.key) + "|";
    if (!size.about.empty() && told_.insert(word + size.about).second) head += ": " + size.about;
    const std::string whence = brieflyWhence(size);
    if (size.from == Size::From::Given || told_.insert(word + whence).second) head += whence;
    std::string effects;
    const auto add = [&](const std::string& what, const std::string& more) {
      if (!more.empty()) effects += (effects.empty() ? "" : "; ") + what + more;
    };
    add("cannot be changed alone: ", size.alone);
    std::vector<std::string> sizes = size.sizes, moved = size.moved;
    std::erase_if(sizes, [&](const std::string& key) { return isOfCutPiece(key, size.pieces); });
    add("changes ", briefly(sizes, all_.keys, kMostTerms));
    std::erase_if(moved, [&](const std::string& id) { return has(size.pieces, id); });
    add("cuts ", briefly(size.pieces, all_.pieces, 0));
    if (!moved.empty())
      add("moves ",
          moved.size() > 3 ? counted(moved.size(), "piece", "pieces") : briefly(moved, all_.pieces, 0));
    if (effects.empty() || lettersIn(head + "; " + effects) <= kLine) {
      const std::string all = head + (effects.empty() ? "" : "; " + effects);
      return lettersIn(all) <= kLine ? all + "\n" : wrapped(all, 4).substr(4);
    }
    return wrapped(head, 4).substr(4) + wrapped(effects, 4);
  }
  /// Only the length, width or thickness of a piece that is cut otherwise: that says it already.
  bool isOfCutPiece(const std::string& key, const std::vector<std::string>& cut) const {
    return only_.count(key) > 0 && has(cut, key.substr(0, key.rfind('.')));
  }
  std::string brieflyWhence(const Explained& size) const {
    const std::string source =
        size.source.empty() || size.source == "common practice" ? "" : firstOf(size.source);
    if (!size.follows.empty()) return "; from " + briefly(size.follows, all_.keys, kMostTerms);
    if (partOf(size) == Part::Given) return fmt::format(" (line {})", size.where.line);
    if (size.from == Size::From::Default)
      return size.source.empty() ? " (the program's own)" : source.empty() ? "" : " (" + source + ")";
    if (isSetOut(size)) return "; " + whence(size);
    return "; rule: " + ruleOf(size) + (source.empty() ? "" : " (" + source + ")");
  }

  static bool has(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  }
  /// What a family has in common: "leaf.rail.*", "leaf.rail.*.width".
  std::string kinOf(const std::string& name) const {
    const std::string family = familyOf(name);
    if (family.empty() || family.size() == name.size()) return name;
    if (has(all_.pieces, name)) return family + ".*";
    const std::string word = wordOf(name);
    return name == family + "." + word ? name : family + ".*." + word;
  }
  /// By families: "leaf.rail.* (3), leaf.moulding.* (8 of 16), leaf.panel.1.1".
  std::string briefly(const std::vector<std::string>& names, const std::vector<std::string>& all,
                      size_t most) const {
    if (names.size() == all.size()) return fmt::format("all {}", names.size());
    std::map<std::string, int> here, whole;
    for (const std::string& name : names) ++here[kinOf(name)];
    for (const std::string& name : all) ++whole[kinOf(name)];
    std::vector<Term> terms;
    for (const std::string& name : names) {
      const std::string kin = kinOf(name);
      const int count = here[kin], of = whole[kin];
      if (count == 0) continue;  // told
      here[kin] = 0;
      if (count == 1)
        terms.push_back({name});
      else
        terms.push_back(
            {kin + (count == of ? fmt::format(" ({})", of) : fmt::format(" ({} of {})", count, of)), count});
    }
    return listed(terms, most);
  }

  std::string paragraph(const Group& group) const {
    const Explained& size = group.told;
    const std::string name = nameOf(group);
    std::string out = wrapped(name + " = " + valueText(size, all_.lengths), 0);
    auto line = [&](const std::string& text) { out += wrapped(text, 4); };
    if (!size.about.empty()) line(size.about);
    line(whence(size));
    const bool ownName = size.setBy.size() == 1 && size.setBy.front() == size.key;
    if (!size.setBy.empty() && !ownName) line("key: " + keyList(size.setBy));
    if (!size.follows.empty()) line("it follows from: " + listed(sizes_.terms(size.follows)));
    if (!size.alone.empty()) line("cannot be changed alone: " + size.alone);
    if (!size.sizes.empty()) line("sizes that depend on it: " + listed(sizes_.terms(size.sizes)));
    if (!size.pieces.empty()) line("pieces cut by it: " + pieceList(size.pieces));
    if (const std::string moved = pieceList(size.moved, size.pieces); !moved.empty())
      line("pieces moved by it: " + moved);
    return out;
  }

  const Explanation& all_;
  Condenser sizes_, pieces_;
  bool brief_;
  std::map<std::string, size_t> placeOf_;
  std::set<std::string> only_;  ///< sizes that nothing sets
  std::set<std::string> told_;
};

}  // namespace

std::string explainText(const Explanation& explanation) {
  return TextMaker(explanation).text();
}

}  // namespace dryfit::cli
