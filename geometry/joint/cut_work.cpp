#include "joint/cut_work.h"

#include <algorithm>
#include <map>

#include "joint/assemble.h"
#include "joint/collisions.h"
#include "joint/edge_bevels.h"
#include "joint/rebates.h"
#include "joint/resolve_blanks.h"

namespace dryfit {

namespace {

const JointKind* kindOf(const std::vector<JointKind>& kinds, const std::string& name) {
  for (const JointKind& k : kinds)
    if (k.spec.name == name) return &k;
  return nullptr;
}

/// From a unit up to the whole work.
std::vector<int> lineage(const SettingOut& work, int unit) {
  std::vector<int> up;
  for (; unit >= 0; unit = work.units[static_cast<size_t>(unit)].parent) up.push_back(unit);
  return up;
}

/// The smallest unit that holds every member a joint names.
int unitOf(const SettingOut& work, const JointKind& kind, const JointMark& mark) {
  std::vector<int> common;
  for (const KeySpec& key : kind.spec.keys) {
    if (key.type != KeyType::Member && key.type != KeyType::Members) continue;
    std::vector<std::string> ids = mark.words(key.name);
    if (auto one = mark.word(key.name)) ids = {*one};
    for (const std::string& id : ids) {
      const auto member = findMember(work, id);
      if (!member) continue;
      const auto up = lineage(work, work.members[static_cast<size_t>(*member)].unit);
      if (common.empty()) {
        common = up;
      } else {
        std::erase_if(common, [&](int u) { return std::find(up.begin(), up.end(), u) == up.end(); });
      }
    }
  }
  return common.empty() ? 0 : common.front();
}

/// Joint ids: memberA+memberB, "#2" and so on where a pair is joined again.
std::function<std::string(const std::string&, const std::string&)> namer() {
  auto counts = std::make_shared<std::map<std::string, int>>();
  return [counts](const std::string& a, const std::string& b) {
    const int n = ++(*counts)[a < b ? a + "+" + b : b + "+" + a];
    return a + "+" + b + (n > 1 ? "#" + std::to_string(n) : "");
  };
}

}  // namespace

Result<CutWork> cutWork(const SettingOut& work, const std::vector<JointKind>& kinds, CutCache& cache) {
  const auto nameJoint = namer();
  const std::vector<LaidMember> none;
  std::vector<Diagnostic> faults;
  std::vector<Announcement> announced;
  std::vector<int> units;
  auto context = [&](const JointMark& mark, const std::vector<LaidMember>& laid, int unit) {
    return JointContext{work, mark, laid, work.units[static_cast<size_t>(unit)].name, nameJoint};
  };
  // One key can stand behind many joints: what is wrong with it is told once.
  auto keep = [&](const std::vector<Diagnostic>& more) {
    for (const Diagnostic& d : more)
      if (std::none_of(faults.begin(), faults.end(),
                       [&](const Diagnostic& f) { return f.where == d.where && f.subject == d.subject; }))
        faults.push_back(d);
  };
  for (const JointMark& mark : work.joints) {
    const JointKind* kind = kindOf(kinds, mark.kind);
    REQUIRE(kind != nullptr);
    units.push_back(unitOf(work, *kind, mark));
    auto told = kind->announce(context(mark, none, units.back()));
    if (told)
      announced.push_back(told.value());
    else
      keep(told.faults());
  }
  if (!faults.empty()) return faults;
  auto laid = resolveBlanks(work, announced);
  if (!laid) return laid.faults();
  faults = bevelFaults(work, laid.value(), {});
  for (Diagnostic& fault : rebateFaults(work, laid.value())) faults.push_back(std::move(fault));
  if (!faults.empty()) return faults;
  std::vector<JointWork> made;
  for (size_t i = 0; i < work.joints.size(); ++i) {
    const JointMark& mark = work.joints[i];
    auto one = kindOf(kinds, mark.kind)->make(context(mark, laid.value(), units[i]));
    if (one)
      made.push_back(std::move(one).value());
    else
      keep(one.faults());
  }
  if (faults.empty()) faults = bevelFaults(work, laid.value(), made);
  if (faults.empty()) keep(collidingSockets(work, laid.value(), made));
  if (!faults.empty()) return faults;
  takeOffSharedEnds(work, laid.value(), made);
  auto cut = assemble(work, laid.value(), made, units, cache);
  if (!cut) return cut.faults();
  CutWork out = std::move(cut).value();
  for (size_t i = 0; i < made.size(); ++i)
    for (const JointSize& size : made[i].sizes) {
      out.sizes.push_back(size);
      out.sizes.back().mark = static_cast<int>(i);
    }
  return out;
}

}  // namespace dryfit
