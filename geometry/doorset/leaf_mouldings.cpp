#include "doorset/leaf_mouldings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "settingout/moulding_profiles.h"
#include "settingout/tenon_rules.h"

namespace dryfit {

namespace {

constexpr double kUsualWidth = 20, kUsualThickness = 14;  // common practice in 44
constexpr double kLeastThickness = 6;  // in thinner stuff nothing is planted unless it is asked for

/// Narrowest and lowest of the panels' openings.
double leastOpening(const LeafSpec& leaf) {
  double least = 1e9;
  for (const LeafRow& row : leaf.rows) {
    least = std::min(least, row.height.mm);
    double edge = leaf.hangingStile.mm;
    for (const LeafMuntin& m : row.muntins) {
      least = std::min(least, m.centre.mm - m.width.mm / 2 - edge);
      edge = m.centre.mm + m.width.mm / 2;
    }
    least = std::min(least, leaf.width.mm - leaf.closingStile.mm - edge);
  }
  return least;
}

struct Completer {
  const LeafSpec& leaf;
  const GivenMoulding& given;
  LeafMoulding out{};
  std::vector<Diagnostic> faults{};

  void fault(const std::string& key, std::string message, std::string hint) {
    const auto at = given.at.find(key);
    faults.push_back({Fault::BadInput, "leaf.moulding" + (key.empty() ? "" : "." + key), std::move(message),
                      std::move(hint), at != given.at.end() ? at->second : out.where});
  }

  void sizes() {
    const double room = roomBesidePanel(leaf), opening = leastOpening(leaf);
    const double usual = std::min(kUsualThickness, std::floor(room + tolerance::kPoint));
    out.thickness = given.thickness
                        ? Size{*given.thickness, Size::From::Given, ""}
                        : Size{usual, Size::From::Rule,
                               "14, or what stands beside the panel in whole millimetres (common practice)"};
    out.width = given.width
                    ? Size{*given.width, Size::From::Given, ""}
                    : Size{std::min(kUsualWidth, std::floor(opening / 5 + tolerance::kPoint)),
                           Size::From::Rule, "20, at most a fifth of the least opening (common practice)"};
    if (out.thickness.mm > room + tolerance::kPoint)
      fault("thickness",
            fmt::format("a moulding {:.6g} thick is thicker than the room beside the panel, {:.6g}",
                        out.thickness.mm, room),
            fmt::format("at most {:.6g}", room));
    if (2 * out.width.mm > opening - 4)
      fault("width", fmt::format("mouldings {:.6g} wide meet in an opening of {:.6g}", out.width.mm, opening),
            fmt::format("at most {:.6g}", (opening - 4) / 2));
  }

  void section() {
    out.profile = given.listed ? "moulding" : given.profile;
    if (given.listed) {
      if (given.radius) fault("radius", "a section listed point by point takes no radius", "leave it out");
      if (const auto wrong = profileFault(*given.listed, out.width.mm, out.thickness.mm))
        fault("profile", wrong->message, wrong->hint);
      out.path = *given.listed;
      return;
    }
    const auto path = namedProfile(given.profile, out.width.mm, out.thickness.mm, given.radius);
    if (!path)
      return fault(given.radius ? "radius" : "profile", path.faults()[0].message, path.faults()[0].hint);
    out.path = path.value();
    if (given.profile == "square") return;
    out.radius = given.radius ? Size{*given.radius, Size::From::Given, ""}
                              : Size{usualRadius(given.profile, out.width.mm, out.thickness.mm),
                                     Size::From::Rule, "the usual one that leaves fillets (common practice)"};
  }

  void faces() {
    const std::string faces = given.faces.value_or("both");
    for (bool front : {true, false}) {
      bool& planted = front ? out.front : out.back;
      planted = faces == "both" || (faces == "front") == front;
      if (!planted || !isFlush(leaf, front)) continue;
      planted = false;
      if (given.faces)
        fault("faces",
              fmt::format("the {} is flush with the framing: nothing can be planted there",
                          front ? "front" : "back"),
              "the other face, or panels that are not bead and butt");
    }
  }

  /// In the order of the file.
  std::vector<Diagnostic> told() {
    std::stable_sort(faults.begin(), faults.end(), [](const Diagnostic& a, const Diagnostic& b) {
      return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
    });
    return faults;
  }

  bool framingIsSound() const {
    return leastOpening(leaf) >= kLeastPanelMm && leaf.thickness.mm - grooveThickness(leaf) >= 4;
  }

  Result<LeafMoulding> run() {
    out.where = given.where.line > 0 ? given.where : leaf.where;
    out.nails = given.nails;
    out.planted = given.kind.value_or("planted") == "planted";
    if (!given.kind && roomBesidePanel(leaf) < kLeastThickness) out.planted = false;
    if (out.planted && !framingIsSound()) {  // the setting-out refuses it, in its own words
      out.planted = out.front = out.back = false;
      return out;
    }
    if (!out.planted) {
      for (const auto& [key, where] : given.at)
        if (key != "kind") fault(key, "no moulding is planted", "kind = \"planted\", or leave it out");
      if (!faults.empty()) return told();
      out.front = out.back = false;
      return out;
    }
    faces();
    if (!out.front && !out.back) out.planted = false;
    sizes();
    if (faults.empty()) section();
    if (!faults.empty()) return told();
    return out;
  }
};

}  // namespace

double grooveThickness(const LeafSpec& leaf) {
  if (const KeyValue* k = findKey(leaf.panel, "groove_thickness")) return std::get<double>(k->value);
  const KeyValue* rule = findKey(leaf.tenon, "rule");
  if (rule && !findKey(leaf.tenon, "tenon_thickness"))
    if (const auto whose = tenonRuleNamed(std::get<std::string>(rule->value)))
      return tenonThicknessFor(leaf.thickness.mm, *whose);
  return tenonThicknessFor(leaf.thickness.mm);
}

bool isFlush(const LeafSpec& leaf, bool front) {
  const KeyValue* kind = findKey(leaf.panel, "panel_kind");
  if (!kind || std::get<std::string>(kind->value) != "bead-and-butt") return false;
  const KeyValue* k = findKey(leaf.panel, "faces");
  const std::string faces = k ? std::get<std::string>(k->value) : "front";
  return faces == "both" || (faces == "front") == front;
}

double roomBesidePanel(const LeafSpec& leaf) {
  return (leaf.thickness.mm - grooveThickness(leaf)) / 2 - kOffPanelMm;
}

Result<LeafMoulding> completeMoulding(const LeafSpec& leaf, const GivenMoulding& given) {
  return Completer{leaf, given}.run();
}

}  // namespace dryfit
