// What tenons, wedges and pins tell of their sizes in force.
#include <algorithm>

#include "joint/tenon_fixing.h"

namespace dryfit {

namespace {

using Kind = RailPart::Kind;

/// Widths of the parts of one kind, from the top; one name where there is one of them.
void tellWidths(const TenonLayout& layout, Kind kind, const std::string& word, JointWork& work) {
  std::vector<const TenonPart*> parts;
  for (const TenonPart& p : layout.parts)
    if (p.kind == kind) parts.push_back(&p);
  std::sort(parts.begin(), parts.end(), [](auto* a, auto* b) { return a->tongue < b->tongue; });
  for (const TenonPart* p : parts) {
    const std::string number = parts.size() > 1 ? p->tongue.substr(p->tongue.rfind('.')) : "";
    JointSize size{layout.seat.rail.id(), layout.joint, word + "_width" + number, word + "_width",
                   p->y.size()};
    // Only the haunch at the stile's end has a key; the others are what the tenons leave.
    const bool between = layout.beside(*p, Towards::Low) && layout.beside(*p, Towards::High) &&
                         layout.beside(*p, Towards::Low)->kind == Kind::Tenon &&
                         layout.beside(*p, Towards::High)->kind == Kind::Tenon;
    if (kind == Kind::Haunch && (between || !layout.endRail)) {
      size.key.clear();
      size.rule = "what the tenons leave";
    }
    work.sizes.push_back(size);
  }
}

}  // namespace

void tellTenonSizes(const TenonLayout& layout, JointWork& work) {
  const std::string& rail = layout.seat.rail.id();
  auto tell = [&](const char* name, const char* key, double value) {
    work.sizes.push_back({rail, layout.joint, name, key, value});
  };
  tell("tenon_thickness", "tenon_thickness", layout.thickness);
  tellWidths(layout, Kind::Tenon, "tenon", work);
  tellWidths(layout, Kind::Haunch, "haunch", work);
  for (const TenonPart& p : layout.parts)
    if (p.kind == Kind::Haunch) {
      tell("haunch_projection", "haunch_projection", p.projection);
      break;
    }
  // Under a bevel: in the middle of the tenon's thickness.
  tell("tenon_length", "length", layout.through ? layout.depthInMiddle() : layout.length);
}

void tellFixingSizes(const TenonLayout& layout, const TenonFixing& fixing,
                     const std::optional<WedgeSetting>& wedge, JointWork& work) {
  const std::string& rail = layout.seat.rail.id();
  auto add = [&](JointSize size) {
    size.of = rail;
    size.joint = layout.joint;
    work.sizes.push_back(std::move(size));
  };
  add({"", "", "tenons", "tenons", static_cast<double>(layout.tenons().size()), JointSize::Unit::Count});
  if (layout.through) add({"", "", "proud", "proud", fixing.proud});
  if (wedge) {
    add({"",
         "",
         "wedge_length",
         "",
         wedge->lengthMm - (layout.seat.acrossStile() - layout.depthInMiddle()),
         {},
         "14/15 of the mortise's sloped part",
         "trade: 2/3 to 3/4 of the tenon"});
    add({"",
         "",
         "wedging_allowance",
         "",
         wedge->allowanceMm,
         {},
         "the mortise is longer by this at each end of its mouth: width / 19",
         "common practice"});
  }
  if (fixing.kind != "draw-bored") return;
  add({"", "", "pins", "pins", static_cast<double>(fixing.pins), JointSize::Unit::Count});
  add({"", "", "pin_diameter", "pin_diameter", fixing.pinDiameter});
  add({"", "", "pin_offset", "pin_offset", fixing.pinOffset});
}

}  // namespace dryfit
