// Where everything of the leaf stands. X = 0 is the doorway's middle, the hanging edge at -X for a left hand;
// Y = 0 the leaf's front face; Z = 0 the finished floor.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "doorset/leaf_drawing.h"
#include "settingout/tenon_rules.h"

namespace dryfit {

namespace {

constexpr size_t kMostRails = 20, kMostMuntins = 20;

struct Drawing : LeafDrawing {
  std::vector<PanelOpening> openings{};

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

  /// The keys of the joint at one end of a rail: its own, else the rail's, else the leaf's.
  std::vector<KeyValue> jointKeys(const LeafRail& rail, size_t end) const {
    std::vector<KeyValue> keys;
    for (const auto* more : {&rail.ends[end], &rail.joint, &leaf.tenon})
      for (const KeyValue& k : *more)
        if (!findKey(keys, k.key)) keys.push_back(k);
    return keys;
  }
  bool isDowelled(const LeafRail& rail, size_t end) const {
    const std::vector<KeyValue> keys = jointKeys(rail, end);
    const KeyValue* fixing = findKey(keys, "fixing");
    return fixing && std::get<std::string>(fixing->value) == "dowelled";
  }
  static bool isOfDowels(const KeyValue& k) { return k.key == "dowels" || k.key == "dowel_diameter"; }

  /// Keys of tenons where there are only dowels, or the other way, are a slip.
  void checkKeys(const std::vector<KeyValue>& keys, bool anyDowels, bool anyTenons) {
    for (const KeyValue& k : keys) {
      if (k.key == "fixing" || (isOfDowels(k) ? anyDowels : anyTenons)) continue;
      fault(k.where, k.path,
            isOfDowels(k) ? "no joint here has dowels" : "a dowelled joint has no tenon to shape",
            isOfDowels(k) ? "fixing = \"dowelled\", or leave it out"
                          : "dowels and dowel_diameter, or leave it out");
    }
  }

  void checkJoints() {
    std::array<bool, 2> any{false, false};  // tenons, dowels
    for (const LeafRail& r : leaf.rails) {
      std::array<bool, 2> here{false, false};
      for (size_t end : {0, 1}) {
        const bool dowelled = isDowelled(r, end);
        here[dowelled ? 1 : 0] = any[dowelled ? 1 : 0] = true;
        checkKeys(r.ends[end], dowelled, !dowelled);
      }
      checkKeys(r.joint, here[1], here[0]);
    }
    checkKeys(leaf.tenon, any[1], any[0]);
  }

  void railJoint(const LeafRail& r, size_t end) {
    const std::string rail = "leaf.rail." + r.name,
                      stile = end == 0 ? "leaf.stile.hanging" : "leaf.stile.closing";
    const bool dowelled = isDowelled(r, end);
    std::vector<KeyValue> keys{key(dowelled ? "rail" : "tenon", rail),
                               key(dowelled ? "to" : "mortise", stile)};
    for (KeyValue k : jointKeys(r, end)) {
      if (isOfDowels(k) != dowelled || (dowelled && k.key == "fixing")) continue;
      if (k.key == "dowel_diameter") k.key = "diameter";
      keys.push_back(std::move(k));
    }
    if (!dowelled && !leaf.wedgeTimber.empty()) keys.push_back(key("fixing_timber", leaf.wedgeTimber));
    mark(dowelled ? "dowelled" : "mortise-and-tenon", std::move(keys), r.where, rail);
  }

  /// Under planted mouldings a raised panel stays flat.
  void addMargins(std::vector<KeyValue>& keys) const {
    if (leaf.moulding.front) keys.push_back({"margin_front", leaf.moulding.width.mm, {}, {}});
    if (leaf.moulding.back) keys.push_back({"margin_back", leaf.moulding.width.mm, {}, {}});
  }

  /// The groove is as wide as the tenons are thick (Noyes): where the leaf's rule decides their thickness,
  /// the groove's too, unless either is given.
  std::optional<double> grooveByRule() const {
    const KeyValue* rule = findKey(leaf.tenon, "rule");
    if (!rule || findKey(leaf.tenon, "tenon_thickness") || findKey(leaf.panel, "groove_thickness")) return {};
    return grooveThickness(leaf);
  }

  double bottomOf(const LeafRail& r) const { return r.topEdge.mm - r.width.mm; }
  double between() const { return leaf.width.mm - leaf.hangingStile.mm - leaf.closingStile.mm; }

  void checkStiles() {
    if (between() < 2 * kLeastPanelMm)
      fault(leaf.where, "leaf.stile",
            fmt::format("stiles of {:.6g} and {:.6g} leave {:.6g} between them in a leaf {:.6g} wide",
                        leaf.hangingStile.mm, leaf.closingStile.mm, between(), leaf.width.mm),
            fmt::format("at least {:.6g}: narrower stiles or a wider leaf", 2 * kLeastPanelMm));
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
      if (open < kLeastPanelMm)
        fault(r.where, "leaf.rail." + r.name,
              fmt::format("{:.6g} is left between the {} and the {} rail", open, leaf.rails[i - 1].name,
                          r.name),
              fmt::format("at least {:.6g}; rails are listed from the top", kLeastPanelMm));
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
      if (next - edge < kLeastPanelMm)
        return fault(
            row.where, subject,
            fmt::format("panel {}.{} would be {:.6g} wide between its framing", number, i + 1, next - edge),
            fmt::format("at least {:.6g}: fewer or narrower muntins", kLeastPanelMm));
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
    std::vector<std::pair<double, double>> edges{{0, leaf.hangingStile.mm}};  // of the uprights, from hanging
    for (size_t i = 0; i < row.muntins.size(); ++i) {
      const std::string at = fmt::format("{}.{}", index + 1, i + 1), id = "leaf.muntin." + at;
      Member& m = member(id, "muntin " + at, true);
      framing(m, row.muntins[i].width.mm, x(row.muntins[i].centre.mm), z(middle));
      m.where = row.where;
      for (const LeafRail* r : {&above, &below}) {
        std::vector<KeyValue> keys{key("tenon", id), key("mortise", "leaf.rail." + r->name)};
        keys.insert(keys.end(), row.stub.begin(), row.stub.end());
        mark("stub-tenon", std::move(keys), row.where, rowPath);
      }
      uprights.push_back(id);
      edges.push_back({row.muntins[i].centre.mm - row.muntins[i].width.mm / 2,
                       row.muntins[i].centre.mm + row.muntins[i].width.mm / 2});
    }
    uprights.push_back("leaf.stile.closing");
    edges.push_back({leaf.width.mm - leaf.closingStile.mm, leaf.width.mm});
    for (size_t i = 0; i + 1 < uprights.size(); ++i) {
      const std::string at = fmt::format("{}.{}", index + 1, i + 1), id = "leaf.panel." + at;
      Member& m = member(id, "panel " + at, leaf.panelGrainUpright);
      m.sawn = leaf.panels;
      m.timber = leaf.panelTimber;
      m.where = row.where;
      std::vector<KeyValue> keys = leaf.panel;
      if (const auto thickness = grooveByRule()) keys.push_back({"groove_thickness", *thickness, {}, {}});
      addMargins(keys);
      keys.push_back(key("panel", id));
      keys.push_back({"frame",
                      std::vector<std::string>{uprights[i], uprights[i + 1], "leaf.rail." + above.name,
                                               "leaf.rail." + below.name},
                      {}});
      mark("grooved-panel", std::move(keys), row.where, rowPath);
      openings.push_back({at,
                          {edges[i].second, edges[i + 1].first},
                          {below.topEdge.mm, bottomOf(above)},
                          uprights[i],
                          uprights[i + 1],
                          "leaf.rail." + above.name,
                          "leaf.rail." + below.name,
                          row.where});
    }
  }

  Result<SettingOut> draw() {
    work.title = leaf.title;
    work.file = leaf.file;
    work.lengths = leaf.lengths;
    work.moisture = leaf.moisture;
    checkStiles();
    checkRails();
    checkJoints();
    if (!faults.empty()) return faults;
    for (size_t i = 0; i < leaf.rows.size(); ++i) checkRow(leaf.rows[i], i + 1);
    if (!faults.empty()) return faults;
    UnitMark unit;
    unit.name = "leaf";
    unit.keepHorns = true;  // they are cut at hanging
    work.units.push_back(unit);
    stile("hanging", leaf.hangingStile.mm, leaf.hangingStile.mm / 2);
    rails();
    for (size_t i = 0; i < leaf.rows.size(); ++i) row(i);
    stile("closing", leaf.closingStile.mm, leaf.width.mm - leaf.closingStile.mm / 2);
    if (leaf.closingBevel.mm > 0)
      work.members.back().bevels.push_back({{x(leaf.width.mm) > 0 ? 1.0 : -1.0, 0, 0},
                                            leaf.closingBevel.mm,
                                            true,
                                            leaf.closingBevelAt,
                                            "leaf.closing_bevel"});
    for (const LeafRail& r : leaf.rails)
      for (size_t end : {0, 1}) railJoint(r, end);
    if (leaf.moulding.planted)
      for (const PanelOpening& opening : openings) setOutMouldings(*this, opening);
    return std::move(work);
  }
};

}  // namespace

Result<SettingOut> setOutLeaf(const LeafSpec& leaf) {
  return Drawing{{leaf}}.draw();
}

}  // namespace dryfit
