#include "cli/condense.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "base/hash.h"

namespace dryfit::cli {

namespace {

constexpr size_t kMostOpen = 6;  // parts that may be stars: 64 patterns a name

bool isNumber(const std::string& part) {
  return !part.empty() &&
         std::all_of(part.begin(), part.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
}

}  // namespace

Condenser::Condenser(const std::vector<std::string>& all, bool sizes) : sizes_(sizes) {
  for (const std::string& name : all) {
    const auto [at, isNew] = names_.emplace(name, split(name));
    if (!isNew) continue;
    for (const std::uint64_t pattern : at->second.patterns) ++counts_[pattern];
  }
}

Condenser::Name Condenser::split(const std::string& name) const {
  Name out;
  std::string joint;
  for (size_t from = 0; from <= name.size();) {
    const size_t to = std::min(name.find_first_of(".+", from), name.size());
    out.parts.push_back(name.substr(from, to - from));
    out.joints.push_back(joint);
    joint = name.substr(to, 1);
    from = to + 1;
  }
  size_t word = out.parts.size();  // what it is a size of: the last part that is no number
  if (sizes_)
    while (word > 0 && isNumber(out.parts[--word])) continue;
  // "leaf.moulding" tells what is talked of; a work file's names are short and begin with the member itself.
  const std::string& first = out.parts.front();
  const size_t family = first == "leaf" ? 2 : first == "timber" || !sizes_ ? 1 : 0;
  for (size_t i = family; i < out.parts.size() && out.open.size() < kMostOpen; ++i)
    if (i != word) out.open.push_back(i);
  for (size_t choice = 0; choice < size_t{1} << out.open.size(); ++choice)
    out.patterns.push_back(stableHash(written(out, choice, -1)));
  return out;
}

/// `count` below 0: a star for each part, so that patterns of names of unequal length differ.
std::string Condenser::written(const Name& name, size_t choice, int count) const {
  std::string out;
  bool starred = false;
  for (size_t i = 0; i < name.parts.size(); ++i) {
    const auto open = std::find(name.open.begin(), name.open.end(), i);
    const bool star = open != name.open.end() && (choice >> (open - name.open.begin()) & 1) != 0;
    if (star && starred && count >= 0) continue;
    out += name.joints[i] + (star ? "*" : name.parts[i]);
    starred = star;
  }
  return count < 0 ? out : out + fmt::format(" ({})", count);
}

/// The choice of stars that stands for most; of several the shortest. Without one: 0.
size_t Condenser::broadest(const Name& name, const Counts& here) const {
  const auto count = [&](size_t choice) { return here.at(name.patterns[choice]); };
  size_t best = 0;
  for (size_t choice = 1; choice < name.patterns.size(); ++choice) {
    if (count(choice) < 2 || count(choice) < count(best) ||
        count(choice) != counts_.at(name.patterns[choice]))
      continue;
    const bool more = count(choice) > count(best);
    if (more || written(name, choice, 1).size() < written(name, best, 1).size()) best = choice;
  }
  return best;
}

std::vector<Term> Condenser::terms(const std::vector<std::string>& names) const {
  Counts here;
  for (const std::string& name : names)
    if (const auto known = names_.find(name); known != names_.end())
      for (const std::uint64_t pattern : known->second.patterns) ++here[pattern];
  std::set<std::uint64_t> told;
  std::vector<Term> out;
  for (const std::string& text : names) {
    const auto known = names_.find(text);
    if (known == names_.end()) {
      out.push_back({text});
      continue;
    }
    const Name& name = known->second;
    if (std::any_of(name.patterns.begin(), name.patterns.end(), [&](auto p) { return told.count(p) > 0; }))
      continue;
    const size_t best = broadest(name, here);
    told.insert(name.patterns[best]);
    const int count = here[name.patterns[best]];
    out.push_back({best == 0 ? text : written(name, best, count), count});
  }
  return out;
}

std::string listed(const std::vector<Term>& terms, size_t most) {
  const size_t told = most > 0 && terms.size() > most + 1 ? most : terms.size();
  std::string out;
  int left = 0;
  for (size_t i = 0; i < terms.size(); ++i)
    if (i < told)
      out += (i == 0 ? "" : ", ") + terms[i].text;
    else
      left += terms[i].count;
  return left > 0 ? out + fmt::format(" and {} more", left) : out;
}

}  // namespace dryfit::cli
