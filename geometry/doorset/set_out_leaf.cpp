// Where everything of the leaf stands. X = 0 is the doorway's middle, the hanging edge at -X for a left hand;
// Y = 0 the leaf's front face; Z = 0 the finished floor.
#include <fmt/format.h>

#include <algorithm>

#include "doorset/leaf_spec.h"

namespace dryfit {

namespace {

constexpr double kLeastPanel = 30;  // sight width or height of a panel: under it there is nothing to look at
constexpr size_t kMostRails = 20, kMostMuntins = 20;

struct Drawing {
  const LeafSpec& leaf;
  SettingOut out{};
  std::vector<Diagnostic> faults{};

  void fault(const SourcePlace& where, const std::string& subject, std::string message, std::string hint) {
    faults.push_back({Fault::BadInput, subject, std::move(message), std::move(hint), where});
  }

  /// World X of a distance from the hanging edge.
  double x(double fromHanging) const {
    const double left = leaf.width.mm / 2 - fromHanging;
    return leaf.hand == Hand::Left ? -left : left;
  }
  double z(double aboveBottom) const { return leaf.underLeaf.mm + aboveBottom; }

  static Placement upright() { return {{0, 0, 1}, {-1, 0, 0}, {0, -1, 0}, {}}; }
  static Placement level() { return {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {}}; }

  Member& member(const std::string& id, const std::string& name, bool up) {
    Member& m = out.members.emplace_back();
    m.id = id;
    m.name = name;
    m.orientation = up ? upright() : level();
    m.timber = leaf.timber;
    m.sawn = leaf.framing;
    m.position = static_cast<int>(out.members.size()) - 1;
    m.where = leaf.where;
    return m;
  }

  void framing(Member& m, double width, double xAt, double zAt) {
    m.widthMm = width;
    m.thicknessMm = leaf.thickness.mm;
    m.origin = Vec3{xAt, leaf.thickness.mm / 2, zAt};
  }

  void stile(const std::string& which, double width, double fromHanging) {
    Member& m = member("leaf.stile." + which, which + " stile", true);
    framing(m, width, x(fromHanging), z(leaf.height.mm / 2));
    m.lengthMm = leaf.height.mm + 2 * leaf.horns.mm;
    m.hornLowMm = m.hornHighMm = leaf.horns.mm;
  }

  void mark(const std::string& kind, std::vector<KeyValue> given, const SourcePlace& where,
            const std::string& path) {
    JointMark& j = out.joints.emplace_back();
    j.path = path;
    j.kind = kind;
    j.given = std::move(given);
    j.where = where;
    j.position = static_cast<int>(out.joints.size()) - 1;
  }

  static KeyValue key(const std::string& name, const std::string& value) { return {name, value, {}, {}}; }

  /// The leaf's keys, then the rail's own in their place.
  std::vector<KeyValue> tenonKeys(const LeafRail& rail, const std::string& into) const {
    std::vector<KeyValue> keys{key("tenon", "leaf.rail." + rail.name), key("mortise", into)};
    for (const KeyValue& k : leaf.tenon)
      if (std::none_of(rail.joint.begin(), rail.joint.end(),
                       [&](const KeyValue& own) { return own.key == k.key; }))
        keys.push_back(k);
    keys.insert(keys.end(), rail.joint.begin(), rail.joint.end());
    if (!leaf.wedgeTimber.empty()) keys.push_back(key("fixing_timber", leaf.wedgeTimber));
    return keys;
  }

  double bottomOf(const LeafRail& r) const { return r.topEdge.mm - r.width.mm; }
  double between() const { return leaf.width.mm - leaf.hangingStile.mm - leaf.closingStile.mm; }

  void checkStiles() {
    if (between() < 2 * kLeastPanel)
      fault(leaf.where, "leaf.stile",
            fmt::format("stiles of {:.6g} and {:.6g} leave {:.6g} between them in a leaf {:.6g} wide",
                        leaf.hangingStile.mm, leaf.closingStile.mm, between(), leaf.width.mm),
            fmt::format("at least {:.6g}: narrower stiles or a wider leaf", 2 * kLeastPanel));
  }

  void checkRails() {
    if (leaf.rails.size() < 2 || leaf.rails.size() > kMostRails)
      return fault(leaf.where, "leaf.rail", fmt::format("a leaf of {} rails is asked for", leaf.rails.size()),
                   fmt::format("2 to {}", kMostRails));
    for (size_t i = 0; i < leaf.rails.size(); ++i) {
      const LeafRail& r = leaf.rails[i];
      if (r.topEdge.mm > leaf.height.mm + 1e-6 || bottomOf(r) < -1e-6)
        fault(r.where, "leaf.rail." + r.name,
              fmt::format("the rail would lie outside the leaf: from {:.6g} to {:.6g} in a height of {:.6g}",
                          bottomOf(r), r.topEdge.mm, leaf.height.mm),
              fmt::format("its top edge between {:.6g} and {:.6g}", r.width.mm, leaf.height.mm));
      if (i == 0) continue;
      const double open = bottomOf(leaf.rails[i - 1]) - r.topEdge.mm;
      if (open < kLeastPanel)
        fault(r.where, "leaf.rail." + r.name,
              fmt::format("{:.6g} is left between the {} and the {} rail", open, leaf.rails[i - 1].name,
                          r.name),
              fmt::format("at least {:.6g}; rails are listed from the top", kLeastPanel));
    }
  }

  void checkRow(const LeafRow& row, size_t number) {
    const std::string subject = fmt::format("leaf.row[{}]", number);
    if (row.muntins.size() > kMostMuntins)
      return fault(row.where, subject, fmt::format("{} muntins in one row are asked for", row.muntins.size()),
                   fmt::format("at most {}", kMostMuntins));
    double edge = leaf.hangingStile.mm;
    for (size_t i = 0; i <= row.muntins.size(); ++i) {
      const bool last = i == row.muntins.size();
      const double next = last ? leaf.width.mm - leaf.closingStile.mm
                               : row.muntins[i].centre.mm - row.muntins[i].width.mm / 2;
      if (next - edge < kLeastPanel)
        return fault(
            row.where, subject,
            fmt::format("panel {}.{} would be {:.6g} wide between its framing", number, i + 1, next - edge),
            fmt::format("at least {:.6g}: fewer or narrower muntins", kLeastPanel));
      if (!last) edge = row.muntins[i].centre.mm + row.muntins[i].width.mm / 2;
    }
  }

  void rails() {
    for (const LeafRail& r : leaf.rails) {
      Member& m = member("leaf.rail." + r.name, r.name + " rail", false);
      const double middle = (leaf.hangingStile.mm + leaf.width.mm - leaf.closingStile.mm) / 2;
      framing(m, r.width.mm, x(middle), z(r.topEdge.mm - r.width.mm / 2));
      m.where = r.where;
    }
  }

  void row(size_t index) {
    const LeafRow& row = leaf.rows[index];
    const LeafRail &above = leaf.rails[index], &below = leaf.rails[index + 1];
    const double middle = (bottomOf(above) + below.topEdge.mm) / 2;
    const std::string rowPath = fmt::format("leaf.row[{}]", index + 1);
    std::vector<std::string> uprights{"leaf.stile.hanging"};
    for (size_t i = 0; i < row.muntins.size(); ++i) {
      const std::string at = fmt::format("{}.{}", index + 1, i + 1), id = "leaf.muntin." + at;
      Member& m = member(id, "muntin " + at, true);
      framing(m, row.muntins[i].width.mm, x(row.muntins[i].centre.mm), z(middle));
      m.where = row.where;
      for (const LeafRail* r : {&above, &below})
        mark("stub-tenon", {key("tenon", id), key("mortise", "leaf.rail." + r->name)}, row.where, rowPath);
      uprights.push_back(id);
    }
    uprights.push_back("leaf.stile.closing");
    for (size_t i = 0; i + 1 < uprights.size(); ++i) {
      const std::string at = fmt::format("{}.{}", index + 1, i + 1), id = "leaf.panel." + at;
      Member& m = member(id, "panel " + at, leaf.panelGrainUpright);
      m.sawn = leaf.panels;
      m.timber = leaf.panelTimber;
      m.where = row.where;
      std::vector<KeyValue> keys = leaf.panel;
      keys.push_back(key("panel", id));
      keys.push_back({"frame",
                      std::vector<std::string>{uprights[i], uprights[i + 1], "leaf.rail." + above.name,
                                               "leaf.rail." + below.name},
                      {}});
      mark("grooved-panel", std::move(keys), row.where, rowPath);
    }
  }

  Result<SettingOut> draw() {
    out.title = leaf.title;
    out.file = leaf.file;
    out.lengths = leaf.lengths;
    out.moisture = leaf.moisture;
    checkStiles();
    checkRails();
    if (!faults.empty()) return faults;
    for (size_t i = 0; i < leaf.rows.size(); ++i) checkRow(leaf.rows[i], i + 1);
    if (!faults.empty()) return faults;
    UnitMark unit;
    unit.name = "leaf";
    unit.keepHorns = true;  // they are cut at hanging
    out.units.push_back(unit);
    stile("hanging", leaf.hangingStile.mm, leaf.hangingStile.mm / 2);
    rails();
    for (size_t i = 0; i < leaf.rows.size(); ++i) row(i);
    stile("closing", leaf.closingStile.mm, leaf.width.mm - leaf.closingStile.mm / 2);
    for (const LeafRail& r : leaf.rails)
      for (const char* into : {"leaf.stile.hanging", "leaf.stile.closing"})
        mark("mortise-and-tenon", tenonKeys(r, into), r.where, "leaf.rail." + r.name);
    return out;
  }
};

}  // namespace

Result<SettingOut> setOutLeaf(const LeafSpec& leaf) {
  return Drawing{leaf}.draw();
}

}  // namespace dryfit
