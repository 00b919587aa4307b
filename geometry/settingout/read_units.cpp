#include <algorithm>
#include <map>
#include <numbers>

#include "base/text.h"
#include "settingout/orientation.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

constexpr const char* kWholeWork = "work";
const std::vector<std::string> kKeys{"name", "pieces", "parent", "bench_turn", "keep_horns", "held_by"};

/// A [[unit]] as written; `parent` is an index into the list of these, -1 for none.
struct Written {
  UnitMark mark;
  Slot at;  ///< its name
  std::vector<Slot> pieces;
  std::optional<Slot> parentAt;
  int parent = -1;
};

Placement readBenchTurn(const Slot& at) {
  const auto turn = listOf(at, "turn on the bench", 2, 2);
  if (!turn) return {};
  const auto* text = (*turn)[0].node->as_string();
  const auto axis = text ? worldWay(text->get()) : std::nullopt;
  if (!axis)
    fault((*turn)[0], "the axis " + given(*(*turn)[0].node) + " is not known",
          "allowed: " + anyOf({"X", "Y", "Z"}));
  const auto degrees = numberOf((*turn)[1], "turn in degrees", {-360, 360});
  if (!axis || !degrees) return {};
  return rotation(axis->vector(), {}, *degrees * std::numbers::pi / 180);
}

Written readUnit(const TableEntry& entry, ReadState& state) {
  const TableReader table(*entry.table, entry.path, state, kKeys);
  Written unit;
  unit.at = table.self();
  unit.mark.where = table.where();
  if (const auto slot = table.need("name", "name = \"leaf\"")) {
    unit.at = *slot;
    unit.mark.name = textOf(*slot, "name").value_or("");
  }
  if (const auto slot = table.need("pieces", "the ids of its members and the names of its units"))
    unit.pieces = listOf(*slot, "list of pieces", 1, kMostMembers + kMostUnits).value_or(std::vector<Slot>{});
  unit.parentAt = table.find("parent");
  if (const auto slot = table.find("bench_turn")) unit.mark.benchFromWorld = readBenchTurn(*slot);
  if (const auto slot = table.find("keep_horns"))
    unit.mark.keepHorns = flagOf(*slot, "keeping of horns").value_or(false);
  if (const auto slot = table.find("held_by"))
    unit.mark.heldBy = textOf(*slot, "what holds it till it is fixed").value_or("");
  return unit;
}

/// Finds out who holds whom; everything it cannot settle is a fault.
class Tree {
 public:
  Tree(std::vector<Written> units, const SettingOut& work)
      : units_(std::move(units)), owner_(work.members.size(), -1) {
    for (const Member& m : work.members)
      if (!m.id.empty()) memberIndex_.emplace(m.id, m.position);
    for (size_t i = 0; i < units_.size(); ++i) addName(static_cast<int>(i));
    for (size_t i = 0; i < units_.size(); ++i)
      for (const Slot& slot : units_[i].pieces) addPiece(static_cast<int>(i), slot);
    for (size_t i = 0; i < units_.size(); ++i) addParent(static_cast<int>(i));
    findCycles();
  }

  /// Units in order, the whole work first; each member's unit.
  void writeTo(SettingOut& work) const {
    const int root = rootUnit();
    UnitMark whole;
    whole.name = kWholeWork;
    work.units.push_back(root < 0 ? whole : units_[root].mark);
    std::vector<int> newIndex(units_.size(), -1);
    if (root >= 0) newIndex[root] = 0;
    for (size_t i = 0; i < units_.size(); ++i)
      if (units_[i].parent < 0 && static_cast<int>(i) != root) write(static_cast<int>(i), 0, newIndex, work);
    if (root >= 0) writeChildren(root, newIndex, work);
    for (size_t m = 0; m < owner_.size(); ++m) work.members[m].unit = owner_[m] < 0 ? 0 : newIndex[owner_[m]];
  }

  /// Every name a stage may use, the whole work's among them.
  std::vector<std::string> unitNames() const {
    std::vector<std::string> names;
    for (const Written& u : units_) names.push_back(u.mark.name);
    names.push_back(kWholeWork);
    return names;
  }

 private:
  void addName(int unit) {
    const Written& u = units_[unit];
    if (u.mark.name.empty()) return;
    if (memberIndex_.count(u.mark.name))
      fault(u.at, "a member has the name " + quoted(u.mark.name) + " as its id");
    const auto [first, isNew] = unitIndex_.emplace(u.mark.name, unit);
    if (!isNew)
      fault(u.at, "the name " + quoted(u.mark.name) + " is taken",
            "the unit of line " + std::to_string(units_[first->second].mark.where.line) + " has it");
  }

  void addPiece(int unit, const Slot& slot) {
    const auto name = textOf(slot, "piece");
    if (!name) return;
    if (const auto member = memberIndex_.find(*name); member != memberIndex_.end()) {
      int& owner = owner_[member->second];
      if (owner >= 0) return inTwo(slot, "member", *name, owner, unit);
      owner = unit;
    } else if (const auto child = unitIndex_.find(*name); child != unitIndex_.end()) {
      int& parent = units_[child->second].parent;
      if (*name == kWholeWork) return fault(slot, "the whole work is no piece of a unit");
      if (parent >= 0) return inTwo(slot, "unit", *name, parent, unit);
      parent = unit;
    } else {
      fault(slot, "there is no member or unit " + quoted(*name),
            nameHint(*name, allNames(), "name a member by its id"));
    }
  }

  void inTwo(const Slot& slot, const std::string& what, const std::string& name, int first,
             int second) const {
    const std::string subject = "the " + what + " " + quoted(name);
    if (first == second)
      fault(slot, subject + " is named twice");
    else
      fault(slot, subject + " is in the unit " + quoted(units_[first].mark.name) + " already",
            "each piece is in one unit");
  }

  void addParent(int unit) {
    Written& u = units_[unit];
    if (!u.parentAt) return;
    const auto name = textOf(*u.parentAt, "parent");
    if (!name) return;
    const auto parent = unitIndex_.find(*name);
    if (parent == unitIndex_.end()) {
      wantsWhole_ = true;
      if (*name != kWholeWork)
        fault(*u.parentAt, "there is no unit " + quoted(*name),
              nameHint(*name, unitNames(), "name another unit"));
    } else if (u.mark.name == kWholeWork) {
      fault(*u.parentAt, "the whole work has no parent");
    } else if (u.parent >= 0 && u.parent != parent->second) {
      fault(*u.parentAt, "the unit is a piece of " + quoted(units_[u.parent].mark.name) + " already",
            "each unit has one parent");
    } else {
      u.parent = parent->second;
    }
  }

  void findCycles() {
    const size_t count = units_.size();
    std::vector<bool> told(count, false);
    for (size_t i = 0; i < count; ++i) {
      int at = static_cast<int>(i);
      for (size_t steps = 0; steps < count && at >= 0; ++steps) at = units_[at].parent;
      if (at < 0) continue;
      // `at` is on a ring: tell it at its first unit, once.
      std::vector<int> ring{at};
      for (int next = units_[at].parent; next != at; next = units_[next].parent) ring.push_back(next);
      const int first = *std::min_element(ring.begin(), ring.end());
      if (!told[first])
        fault(units_[first].at, "the unit " + quoted(units_[first].mark.name) + " is part of itself",
              "units hold each other as a tree");
      told[first] = true;
    }
  }

  /// The unit that is the whole work, or -1 when none of those written is.
  int rootUnit() const {
    if (const auto named = unitIndex_.find(kWholeWork); named != unitIndex_.end()) return named->second;
    if (wantsWhole_) return -1;
    int root = -1, roots = 0;
    for (size_t i = 0; i < units_.size(); ++i)
      if (units_[i].parent < 0) root = static_cast<int>(i), ++roots;
    const bool holdsAll = std::find(owner_.begin(), owner_.end(), -1) == owner_.end();
    return roots == 1 && holdsAll ? root : -1;
  }

  void write(int unit, int parent, std::vector<int>& newIndex, SettingOut& work) const {
    newIndex[unit] = static_cast<int>(work.units.size());
    work.units.push_back(units_[unit].mark);
    work.units.back().parent = parent;
    writeChildren(unit, newIndex, work);
  }

  void writeChildren(int unit, std::vector<int>& newIndex, SettingOut& work) const {
    for (size_t i = 0; i < units_.size(); ++i)
      if (units_[i].parent == unit) write(static_cast<int>(i), newIndex[unit], newIndex, work);
  }

  std::vector<std::string> allNames() const {
    std::vector<std::string> names = unitNames();
    for (const auto& [id, index] : memberIndex_) names.push_back(id);
    return names;
  }

  std::vector<Written> units_;
  std::map<std::string, int> memberIndex_, unitIndex_;
  std::vector<int> owner_;   ///< of each member: the unit that names it
  bool wantsWhole_ = false;  ///< some unit names the whole work as its parent
};

}  // namespace

std::vector<std::string> readUnits(const toml::table& root, SettingOut& work, ReadState& state) {
  std::vector<Written> written;
  for (const TableEntry& entry : tablesOf(root, "unit", kMostUnits, state))
    written.push_back(readUnit(entry, state));
  const Tree tree(std::move(written), work);
  if (!state.faults.empty()) return tree.unitNames();
  tree.writeTo(work);
  std::vector<std::string> names;
  for (const UnitMark& u : work.units) names.push_back(u.name);
  return names;
}

}  // namespace dryfit::reading
