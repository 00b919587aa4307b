// Kind "mortise-and-tenon": single, pair or three tenons right through (or stopped), haunched or not, fixed
// by wedges, by draw-bore pins or by glue.
//
// Proportions: tenon_rules.h. Wedges: as thick as the mortise, 0.7 of the stile's width long, width/19 thick
// at the outer edge (trade: 2/3 to 3/4 of the tenon's length); one side along the tenon, the other on the
// mortise's slope. Draw-bore: the hole in the tenon 1.5 nearer the shoulder until the pin is driven; then the
// wood has given and it is concentric.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "joint/kinds.h"
#include "joint/tenon_fixing.h"

namespace dryfit {

namespace {

using Kind = RailPart::Kind;

TenonFixing fixingOf(const JointMark& mark) {
  TenonFixing f;
  f.kind = mark.word("fixing").value_or("wedged");
  f.proud = mark.number("proud").value_or(mark.number("length") ? 0 : 10);
  f.pins = static_cast<int>(mark.number("pins").value_or(1));
  f.pinGiven = mark.number("pin_diameter");
  f.pinOffset = mark.number("pin_offset").value_or(1.5);
  f.pinFromShoulder = mark.number("pin_from_shoulder");
  f.timber = mark.word("fixing_timber").value_or("");
  return f;
}

TenonOptions optionsOf(const JointMark& mark) {
  TenonOptions o;
  o.thickness = mark.number("tenon_thickness");
  o.tenonWidth = mark.number("tenon_width");
  o.haunchWidth = mark.number("haunch_width");
  o.haunchProjection = mark.number("haunch_projection");
  if (auto n = mark.number("tenons")) o.tenons = static_cast<int>(*n);
  if (auto rule = mark.word("rule")) o.rule = tenonRuleNamed(*rule).value_or(TenonRule::House);
  o.haunched = mark.flag("haunch").value_or(true);
  o.length = mark.number("length");
  return o;
}

/// 9.5 (Fairham: 3/8 in), thinner where a tenon is too narrow for it: 3 of wood beside each pin.
double pinFor(const TenonLayout& layout, int pins) {
  double diameter = 9.5;
  for (const TenonPart* t : layout.tenons())
    diameter = std::min(diameter, std::floor(t->y.size() / pins - 6 + tolerance::kPoint));
  return std::max(diameter, 3.0);
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = seatOf(context);
  if (!seat) return seat.faults();
  const TenonSeat& s = seat.value();
  const auto length = context.mark.number("length");
  const TenonFixing fixing = fixingOf(context.mark);
  Announcement out;
  out.ends.push_back(
      {s.rail.index, s.end, shoulderAlong(s), length.value_or(s.acrossStile() + fixing.proud), fixing.proud});
  return out;
}

/// Sizes that an author's rule may have decided say so.
void creditAuthor(TenonRule rule, JointWork& work) {
  if (rule == TenonRule::House) return;
  for (const TenonAuthor& author : tenonAuthors())
    for (JointSize& size : work.sizes) {
      const bool ruled = size.key == "tenons" || size.key == "tenon_width" || size.key == "tenon_thickness" ||
                         size.key == "haunch_width" || size.key == "haunch_projection";
      if (author.rule != rule || !ruled) continue;
      size.rule = fmt::format("rule {}: {}; what it leaves open is the house's", author.word, author.decides);
      size.source = author.source;
    }
}

Result<JointWork> make(const JointContext& context) {
  TenonFixing fixing = fixingOf(context.mark);
  TenonOptions options = optionsOf(context.mark);
  auto stile = memberOf(context, "mortise");
  if (!stile) return stile.faults();
  options.wedged = fixing.kind == "wedged";
  options.proud = fixing.proud;
  if (options.wedged) options.mouth = wedgeFor(stile.value().width(), 0).allowanceMm;
  if (options.length && fixing.kind == "wedged")
    return jointFault(context, "fixing", "a stopped tenon cannot be wedged from outside",
                      "\"draw-bored\" or \"glued\"");
  auto laid = layOutTenon(context, options);
  if (!laid) return laid.faults();
  TenonLayout layout = std::move(laid).value();
  const TenonSeat& s = layout.seat;
  JointWork work;
  layout.joint = context.nameJoint(s.rail.id(), s.stile.id());
  std::optional<WedgeSetting> wedge;
  if (fixing.kind == "wedged") {
    double deepest = layout.grooveDepth;
    for (const TenonPart& p : layout.parts)
      if (p.kind == Kind::Haunch) deepest = std::max(deepest, p.projection);
    wedge = wedgeFor(s.acrossStile(), deepest);
    if (wedge->lengthMm < 5)
      return jointFault(context, "haunch_projection",
                        "groove and haunch leave no room for wedges in " + s.stile.id(),
                        "a shallower groove, a shorter haunch or a wider member");
  }
  fixing.pinDiameter = fixing.pinGiven.value_or(pinFor(layout, fixing.pins));
  const double r = fixing.pinDiameter / 2;
  const double bored = fixing.kind == "draw-bored" ? fixing.pins * planningArea(r) : 0;
  addTenonFeatures(layout, wedge, work);
  addTenonContacts(layout, wedge, bored, context, work);
  addTenonDimensions(layout, work);
  tellTenonSizes(layout, work);
  tellFixingSizes(layout, fixing, wedge, work);
  creditAuthor(options.rule, work);
  FixingMaker maker{context, layout, fixing, work};
  work.operations.push_back(squareUp(context.unit));
  if (wedge) {
    work.operations.push_back(glueUp(context.unit, layout.joint, s.rail.id(), s.stile.id()));
    addWedges(maker, *wedge);
  } else if (fixing.kind == "draw-bored") {
    if (auto pinned = addPins(maker); !pinned) return pinned.faults();
    if (layout.through) cutProudTenons(maker, {"pin:" + layout.joint});
  } else {
    JointOperation glue = glueUp(context.unit, layout.joint, s.rail.id(), s.stile.id());
    glue.bonds.push_back({"glue", {s.rail.id(), s.stile.id()}});
    work.operations.push_back(glue);
    if (layout.through) cutProudTenons(maker, {glue.key});
  }
  Leg leg;
  leg.direction = maker.outward();
  leg.travelMm = layout.length + fixing.proud;
  work.paths.push_back({layout.joint, s.rail.id(), s.stile.id(), {leg}});
  std::vector<std::string> pieces{s.rail.id(), s.stile.id()};
  pieces.insert(pieces.end(), maker.ownIds.begin(), maker.ownIds.end());
  work.joints.push_back({layout.joint, pieces});
  return work;
}

/// What each author decides, one after another.
std::string aboutRules() {
  std::string text = "whose rule sets out what is not given; what an author leaves open is the house's";
  for (const TenonAuthor& a : tenonAuthors()) text += fmt::format("; {}: {}", a.word, a.decides);
  return text;
}
std::string sourcesOfRules() {
  std::string text;
  for (const TenonAuthor& a : tenonAuthors())
    if (a.rule != TenonRule::House) text += (text.empty() ? "" : "; ") + std::string(a.source);
  return text;
}

KindSpec spec() {
  KindSpec k;
  k.name = "mortise-and-tenon";
  k.about = "A tenon on one member, a mortise right through (or stopped) in the other.";
  k.keys = {
      {"tenon", KeyType::Member, true, "", "the tenoned member: a rail", 0, 0, {}, ""},
      {"mortise", KeyType::Member, true, "", "the mortised member: a stile", 0, 0, {}, ""},
      {"fixing",
       KeyType::Word,
       false,
       "wedged",
       "what holds it",
       0,
       0,
       {"wedged", "draw-bored", "glued"},
       "common practice"},
      {"rule", KeyType::Word, false, "house", aboutRules(), 0, 0, tenonRuleWords(), sourcesOfRules()},
      {"tenons",
       KeyType::Whole,
       false,
       "by rule: one, a pair from 9 thicknesses, three or four over a 76 gap",
       "number in line",
       1,
       4,
       {},
       "Rivington; Goring; Fairham"},
      {"tenon_thickness",
       KeyType::Length,
       false,
       "the groove's, else by rule: the chisel nearest a third",
       "",
       1,
       200,
       {},
       "Fairham"},
      {"tenon_width",
       KeyType::Length,
       false,
       "by rule: at most half an end rail, at most 5 thicknesses",
       "each tenon",
       1,
       1000,
       {},
       "Hasluck (Cassell); Rivington"},
      {"haunch",
       KeyType::Flag,
       false,
       "true",
       "a haunch beside and between tenons",
       0,
       0,
       {},
       "Fairham; Noyes"},
      {"haunch_width",
       KeyType::Length,
       false,
       "by rule: what the tenon leaves; 40 below a pair",
       "the outer haunch",
       0,
       1000,
       {},
       "Building Construction vol. 2"},
      {"haunch_projection",
       KeyType::Length,
       false,
       "the groove's depth, else 12",
       "",
       1,
       200,
       {},
       "Fairham; Rivington"},
      {"length",
       KeyType::Length,
       false,
       "right through",
       "a stopped tenon's length from the shoulder",
       5,
       1000,
       {},
       "Fairham"},
      {"proud",
       KeyType::Length,
       false,
       "10; 0 for a stopped tenon",
       "tenons and wedges left long until cleaned off",
       0,
       100,
       {},
       "Goring"},
      {"pins", KeyType::Whole, false, "1", "draw-bore pins in each tenon", 1, 4, {}, "common practice"},
      {"pin_diameter",
       KeyType::Length,
       false,
       "9.5, thinner in a narrow tenon",
       "",
       3,
       40,
       {},
       "Fairham: 3/8 in"},
      {"pin_offset",
       KeyType::Length,
       false,
       "1.5",
       "hole in the tenon nearer the shoulder by",
       0.2,
       5,
       {},
       "common practice; Fairham: 1/8 in"},
      {"pin_from_shoulder",
       KeyType::Length,
       false,
       "0.3 of the mortised member's width, nearer in a short tenon",
       "to the pin's middle",
       3,
       500,
       {},
       "common practice"},
      {"fixing_timber",
       KeyType::Species,
       false,
       "wedges: the tenoned member's; pins: white oak",
       "species of wedges and pins",
       0,
       0,
       {},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind mortiseAndTenon() {
  return {spec(), announce, make};
}

}  // namespace dryfit
