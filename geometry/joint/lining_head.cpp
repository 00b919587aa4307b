// Kind "lining-head": the corner of a door's lining, its head and a jamb, both rebated or both plain, their
// faces to the doorway.
//
// Trenched: the head is trenched across its land for a barefaced tongue on the jamb's masonry side; the
// jamb's shoulder meets the head's soffit, and within a rebate the jamb's end butts the rebate's floor, so
// the trench is as deep as the rebate. The head's horns hold the tongue until they are cut flush; from then
// on nails and glue hold it. Rebated: the same without a horn. Housed (Carpenters' and Joiners' guides: 3/8
// in): the head is let into the jamb's land, within a rebate its end butts the rebate's floor; the jamb runs
// above it by a horn until that is cut flush.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "joint/kinds.h"
#include "joint/rebates.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"
#include "settingout/dowel_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kWoodBehind = 5;     // left behind a trench or a housing: common practice, least
constexpr double kLeastShoulder = 3;  // beside the tongue: common practice, least
constexpr double kHoused = 9.5;       // 3/8 in
constexpr double kNailsApart = 75;    // most across the width: common practice

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

struct Corner {
  MemberView head, jamb;
  Towards headEnd = Towards::High, jambEnd = Towards::High;
  bool housed = false;
  std::vector<Rebate> ofHead{}, ofJamb{};  ///< in pairs
  double depth = 0, tongue = 0;
  std::string joint{};

  bool sameWay() const { return dot(head.frame.yAxis, jamb.frame.yAxis) > 0; }
  double rebateDepth() const { return ofJamb.empty() ? 0 : ofJamb.front().depth; }
  /// How far the head's end goes beyond the jamb's face.
  double reach() const { return std::max(depth, rebateDepth()); }
  /// World coordinates along the jamb's and the head's grain.
  double soffit() const { return head.along(jamb.frame.xAxis, {0, 0, head.thickness() / 2}); }
  double headBack() const { return head.along(jamb.frame.xAxis, {0, 0, -head.thickness() / 2}); }
  double jambFace() const { return jamb.along(head.frame.xAxis, {0, 0, jamb.thickness() / 2}); }
  double jambBack() const { return jamb.along(head.frame.xAxis, {0, 0, -jamb.thickness() / 2}); }
  double hornOf(const MemberView& m, Towards end) const {
    return end == Towards::Low ? m.member->hornLowMm : m.member->hornHighMm;
  }
};

Result<bool> standsRight(const JointContext& context, const Corner& c) {
  const Placement &h = c.head.frame, &j = c.jamb.frame;
  if (c.head.index == c.jamb.index || !sameLine(h.xAxis, j.zAxis) || !sameLine(h.zAxis, j.xAxis))
    return jointFault(context, "head", c.head.id() + " does not lie square across the end of " + c.jamb.id(),
                      "the head's grain runs through the jamb's thickness, their widths lie the same way");
  if (dot(j.zAxis, h.xAxis) * sign(c.headEnd) > 0 || dot(h.zAxis, j.xAxis) * sign(c.jambEnd) > 0)
    return jointFault(context, "head",
                      "the faces of " + c.head.id() + " and " + c.jamb.id() + " do not look to the doorway",
                      "face: the way that the doorway lies");
  if (std::abs(c.head.width() - c.jamb.width()) > tolerance::kSize ||
      std::abs(dot(j.yAxis, h.origin - j.origin)) > tolerance::kSize)
    return jointFault(context, "head", c.head.id() + " and " + c.jamb.id() + " are not one width in line",
                      "a lining is as wide all round");
  for (const MemberView* m : {&c.head, &c.jamb})
    if (!m->member->bevels.empty() || m->member->profile || m->member->hornSlopeLow ||
        m->member->hornSlopeHigh)
      return jointFault(context, "head",
                        m->id() + " is bevelled, moulded or cut to a slope: it would not fit",
                        "square stuff");
  return true;
}

/// The rebates of both, in pairs.
Result<bool> pairRebates(const JointContext& context, Corner& c) {
  c.ofJamb = rebatesOf(*c.jamb.member, c.jamb.frame);
  const auto ofHead = rebatesOf(*c.head.member, c.head.frame);
  for (const Rebate& r : c.ofJamb)
    for (const Rebate& other : ofHead)
      if ((r.edge == other.edge) == c.sameWay() && std::abs(r.depth - other.depth) <= tolerance::kSize &&
          std::abs(r.width - other.width) <= tolerance::kSize)
        c.ofHead.push_back(other);
  const bool oneDepth = std::all_of(c.ofJamb.begin(), c.ofJamb.end(), [&](const Rebate& r) {
    return std::abs(r.depth - c.rebateDepth()) <= tolerance::kSize;
  });
  if (c.ofHead.size() == c.ofJamb.size() && ofHead.size() == c.ofJamb.size() && oneDepth) return true;
  return jointFault(context, "head",
                    oneDepth ? "the rebates of " + c.head.id() + " and " + c.jamb.id() + " do not run on"
                             : "the rebates of " + c.jamb.id() + " are not equally deep",
                    "rebates of one depth, as wide in the head as in the jambs");
}

Result<bool> sizeCorner(const JointContext& context, Corner& c) {
  const double t = c.jamb.thickness(), rebate = c.rebateDepth();
  c.depth =
      context.mark.number("depth").value_or(c.housed     ? (rebate > 0 ? std::min(kHoused, rebate) : kHoused)
                                            : rebate > 0 ? rebate
                                                         : 12);
  c.tongue = c.housed ? 0 : context.mark.number("tongue").value_or(rebate > 0 ? t - rebate : t * 5 / 8);
  if (rebate > 0 && (c.housed ? c.depth > rebate + kTiny : std::abs(c.depth - rebate) > kTiny))
    return jointFault(context, "depth",
                      c.housed ? fmt::format("a housing {} deep is deeper than the rebate, {}",
                                             figure(c.depth), figure(rebate))
                               : fmt::format("a trench {} deep beside a rebate of {} leaves a step",
                                             figure(c.depth), figure(rebate)),
                      (c.housed ? "at most " : "as deep as the rebate: ") + figure(rebate));
  const MemberView& cut = c.housed ? c.jamb : c.head;
  if (cut.thickness() - c.depth < kWoodBehind - kTiny)
    return jointFault(context, "depth",
                      fmt::format("{} deep leaves {} of {}", figure(c.depth),
                                  figure(std::max(cut.thickness() - c.depth, 0.0)), cut.id()),
                      "at least " + figure(kWoodBehind) + " must be left");
  if (!c.housed && t - c.tongue < kLeastShoulder - kTiny)
    return jointFault(context, "tongue",
                      fmt::format("a tongue {} thick leaves no shoulder on {}, {} thick", figure(c.tongue),
                                  c.jamb.id(), figure(t)),
                      "at most " + figure(t - kLeastShoulder));
  return true;
}

Result<Corner> cornerOf(const JointContext& context) {
  auto head = memberOf(context, "head"), jamb = memberOf(context, "jamb");
  if (!head) return head.faults();
  if (!jamb) return jamb.faults();
  Corner c{head.value(), jamb.value()};
  const Vec3 up = c.head.frame.origin - c.jamb.frame.origin;
  c.jambEnd = towards(dot(up, c.jamb.frame.xAxis));
  c.headEnd = towards(-dot(up, c.head.frame.xAxis));
  const std::string form = context.mark.word("form").value_or("trenched");
  c.housed = form == "housed";
  if (auto stands = standsRight(context, c); !stands) return stands.faults();
  for (auto* step : {&pairRebates, &sizeCorner})
    if (auto done = (*step)(context, c); !done) return done.faults();
  const bool horn = c.hornOf(c.head, c.headEnd) > 0;
  if (horn && form != "trenched")
    return jointFault(context, "form", "a " + form + " head has no horns, " + c.head.id() + " has",
                      "form = \"trenched\", or no horns");
  if (!c.housed && c.hornOf(c.jamb, c.jambEnd) > 0)
    return jointFault(context, "form", c.jamb.id() + " would run up through the head",
                      "horns on the jambs are for form = \"housed\"");
  return c;
}

Result<Announcement> announce(const JointContext& context) {
  auto corner = cornerOf(context);
  if (!corner) return corner.faults();
  const Corner& c = corner.value();
  const double hornHead = c.hornOf(c.head, c.headEnd), hornJamb = c.hornOf(c.jamb, c.jambEnd);
  Announcement out;
  out.ends.push_back(
      {c.jamb.index, c.jambEnd, c.soffit(), c.housed ? c.head.thickness() + hornJamb : c.depth, 0});
  out.ends.push_back(
      {c.head.index, c.headEnd, c.housed ? c.jambFace() : c.jambBack(), c.housed ? c.reach() : hornHead, 0});
  return out;
}

/// A member's end stands where the joint has it.
Result<bool> endsAt(const JointContext& context, const MemberView& m, Towards end, double world) {
  const Span finished = m.laid->finishedX;
  const double at = m.along(m.frame.xAxis, {end == Towards::High ? finished.to : finished.from, 0, 0});
  if (std::abs(at - world) <= tolerance::kSize) return true;
  return jointFault(context, "head",
                    fmt::format("{} ends {} {} where the joint has it", m.id(), figure(std::abs(at - world)),
                                (at - world) * sign(end) > 0 ? "beyond" : "short of"),
                    "move it, or leave its length to the rule; horns come on top");
}

PlanedWaste::Side atLeast(int axis, double v, std::string name) {
  Vec3 n;
  n[axis] = -1;
  return {n, -v, std::move(name)};
}
PlanedWaste::Side atMost(int axis, double v, std::string name) {
  Vec3 n;
  n[axis] = 1;
  return {n, v, std::move(name)};
}
PlanedWaste::Side beyond(int axis, Towards side, double v, std::string name) {
  return side == Towards::High ? atLeast(axis, v, std::move(name)) : atMost(axis, v, std::move(name));
}

struct Maker {
  const JointContext& context;
  const Corner& c;
  JointWork work{};

  const std::string& head() const { return c.head.id(); }
  const std::string& jamb() const { return c.jamb.id(); }
  double land() const { return landOf(c.ofJamb, c.jamb.width()).size(); }
  double stuff() const { return c.jamb.thickness() - c.rebateDepth(); }  ///< of the jamb within a rebate
  std::string end() const { return c.headEnd == Towards::Low ? ".low" : ".high"; }  ///< the head's
  static std::string sideOf(const Rebate& r) { return r.edge == Towards::Low ? ".side.low" : ".side.high"; }

  /// Waste across the land only.
  PlanedWaste acrossLand(std::string role, const std::vector<Rebate>& rebates, const MemberView& m,
                         std::vector<PlanedWaste::Side> sides) const {
    const Span y = landOf(rebates, m.width());
    if (y.from > -m.width() / 2 + kTiny) sides.push_back(atLeast(1, y.from, "side.low"));
    if (y.to < m.width() / 2 - kTiny) sides.push_back(atMost(1, y.to, "side.high"));
    return {std::move(role), std::move(sides)};
  }
  void feature(const MemberView& m, PlanedWaste waste) {
    work.features.push_back({m.index, {std::move(waste), {}, {}}});
  }
  /// `onB` belongs to the member whose horn ends or brings it.
  void touch(const FaceRef& a, const FaceRef& b, double area, const std::string& until = "") {
    if (area > kTiny) work.contacts.push_back({c.joint, a, b, area, until});
  }
  void flush(const char* what, const FaceRef& a, const FaceRef& b, const std::string& from = "") {
    work.flushes.push_back({c.joint, what, a, b, 0, "", from});
  }
  /// The change that takes a member's horn; empty when it keeps it, or has none.
  std::string hornsOff(const MemberView& m, Towards end) const {
    return c.hornOf(m, end) <= 0 ? "" : hornsKey(context.work, *m.member);
  }

  void trenchFeatures() {
    const double inHead = c.jambBack() - dot(c.head.frame.origin, c.head.frame.xAxis);
    std::vector<PlanedWaste::Side> trench{
        beyond(0, c.headEnd, inHead - sign(c.headEnd) * c.tongue, "cheek.inner"),
        atLeast(2, c.head.thickness() / 2 - c.depth, "bottom")};
    if (c.hornOf(c.head, c.headEnd) > 0)
      trench.push_back(beyond(0, opposite(c.headEnd), inHead, "cheek.outer"));
    feature(c.head, acrossLand("trench" + end(), c.ofHead, c.head, trench));
    const double inJamb = c.soffit() - dot(c.jamb.frame.origin, c.jamb.frame.xAxis);
    feature(c.jamb, acrossLand("tongue", c.ofJamb, c.jamb,
                               {beyond(0, c.jambEnd, inJamb, "shoulder"),
                                atLeast(2, c.tongue - c.jamb.thickness() / 2, "cheek")}));
  }

  void trench() {
    trenchFeatures();
    const double t = c.jamb.thickness();
    const std::string trench = "trench" + end(), tip = blankFace(endFace(c.jambEnd)),
                      hornsOff = this->hornsOff(c.head, c.headEnd);
    touch({jamb(), "tongue.shoulder"}, {head(), blankFace(5)}, land() * (t - c.tongue));
    touch({jamb(), tip}, {head(), trench + ".bottom"}, land() * c.tongue);
    touch({jamb(), "tongue.cheek"}, {head(), trench + ".cheek.inner"}, land() * c.depth);
    if (c.hornOf(c.head, c.headEnd) > 0)
      touch({jamb(), blankFace(4)}, {head(), trench + ".cheek.outer"}, land() * c.depth, hornsOff);
    for (size_t i = 0; i < c.ofJamb.size(); ++i) {
      touch({jamb(), tip}, {head(), c.ofHead[i].floor()}, c.ofJamb[i].width * stuff());
      touch({jamb(), "tongue" + sideOf(c.ofJamb[i])}, {head(), c.ofHead[i].side()},
            (stuff() - c.tongue) * c.depth);
    }
    if (!hornsOff.empty() || c.hornOf(c.head, c.headEnd) <= 0)
      flush("head's end flush with the jamb's back", {jamb(), blankFace(4)},
            {head(), blankFace(endFace(c.headEnd))}, hornsOff);
    dimension("trench depth", {head(), trench + ".bottom"}, {head(), blankFace(5)}, c.depth);
    dimension("tongue thickness", {jamb(), "tongue.cheek"}, {jamb(), blankFace(4)}, c.tongue);
    path(c.jamb, c.head, c.jamb.frame.xAxis * sign(c.jambEnd), c.depth);
    tell(jamb(), "tongue", "tongue", c.tongue);
    tell(head(), "trench_depth", "depth", c.depth);
  }

  void housingFeatures() {
    const double origin = dot(c.jamb.frame.origin, c.jamb.frame.xAxis);
    const Towards up = c.jambEnd;
    std::vector<PlanedWaste::Side> housing{beyond(0, up, c.soffit() - origin, "cheek.lower"),
                                           atLeast(2, c.jamb.thickness() / 2 - c.depth, "bottom")};
    if (c.hornOf(c.jamb, up) > 0)
      housing.push_back(beyond(0, opposite(up), c.headBack() - origin, "cheek.upper"));
    feature(c.jamb, acrossLand("housing", c.ofJamb, c.jamb, housing));
    if (c.reach() - c.depth < kTiny) return;
    const double inHead = c.jambFace() - dot(c.head.frame.origin, c.head.frame.xAxis);
    feature(c.head, acrossLand("housed" + end(), c.ofHead, c.head,
                               {beyond(0, c.headEnd, inHead + sign(c.headEnd) * c.depth, "end")}));
  }

  void housing() {
    housingFeatures();
    const double th = c.head.thickness(), above = th - c.rebateDepth(), step = c.reach() - c.depth;
    const bool stepped = step > kTiny;
    const std::string tip = blankFace(endFace(c.headEnd)), hornsOff = this->hornsOff(c.jamb, c.jambEnd);
    touch({head(), stepped ? "housed" + end() + ".end" : tip}, {jamb(), "housing.bottom"}, land() * th);
    touch({head(), blankFace(5)}, {jamb(), "housing.cheek.lower"}, land() * c.depth);
    if (c.hornOf(c.jamb, c.jambEnd) > 0)
      touch({head(), blankFace(4)}, {jamb(), "housing.cheek.upper"}, land() * c.depth, hornsOff);
    for (size_t i = 0; i < c.ofJamb.size(); ++i) {
      touch({head(), tip}, {jamb(), c.ofJamb[i].floor()}, c.ofJamb[i].width * above);
      if (stepped)
        touch({head(), "housed" + end() + sideOf(c.ofHead[i])}, {jamb(), c.ofJamb[i].side()}, step * above);
    }
    if (!hornsOff.empty() || c.hornOf(c.jamb, c.jambEnd) <= 0)
      flush("jamb's end flush with the head's back", {head(), blankFace(4)},
            {jamb(), blankFace(endFace(c.jambEnd))}, hornsOff);
    dimension("housing depth", {jamb(), "housing.bottom"}, {jamb(), blankFace(5)}, c.depth);
    path(c.head, c.jamb, c.head.frame.xAxis * sign(c.headEnd), c.reach());
    tell(jamb(), "housing_depth", "depth", c.depth);
  }

  void inLine() {
    for (Towards edge : {Towards::Low, Towards::High})
      flush("edges in line", {jamb(), blankFace(edgeFace(edge))},
            {head(), blankFace(edgeFace(c.sameWay() ? edge : opposite(edge)))});
    for (size_t i = 0; i < c.ofJamb.size(); ++i)
      flush("rebates in line", {jamb(), c.ofJamb[i].side()}, {head(), c.ofHead[i].side()});
  }

  /// Nails and glue, told only: after the horns are off they alone hold a trenched corner.
  void fasten() {
    const MemberView &outer = c.housed ? c.jamb : c.head, &inner = c.housed ? c.head : c.jamb;
    const double through = outer.thickness() - c.depth;
    const double diameter = context.mark.number("nail_diameter").value_or(nailDiameterFor(through)),
                 length = context.mark.number("nail_length").value_or(nailLengthFor(through));
    const int count = static_cast<int>(context.mark.number("nails").value_or(
        std::max(2.0, std::ceil(c.jamb.width() / kNailsApart - kTiny))));
    JointOperation op;
    op.kind = Operation::Kind::Fasten;
    op.key = "nail:" + c.joint;
    op.way = inner.frame.xAxis * -sign(c.housed ? c.headEnd : c.jambEnd);
    op.after = {head(), jamb()};
    op.joint = c.joint;
    op.bonds.push_back({"glue", {head(), jamb()}});
    op.bonds.push_back({"nail", {head(), jamb()}});
    op.text = fmt::format(
        "Glue {} and {} together and nail them: {} nails, {} by {}, through {} into the end of {}.",
        called(context.work, *c.head.member), called(context.work, *c.jamb.member), count, figure(diameter),
        figure(length), called(context.work, *outer.member), called(context.work, *inner.member));
    if (!hornsOff(c.head, c.headEnd).empty())
      op.text +=
          " Once the horns are off the trench has no outer cheek: nails and glue alone hold the corner.";
    op.caution =
        "Wear eye protection; bore for the nails first, so near an end wood splits. Read the glue's label.";
    work.operations.push_back(std::move(op));
    work.sizes.push_back(
        {jamb(), c.joint, "nails", "nails", static_cast<double>(count), JointSize::Unit::Count});
    tell(jamb(), "nail_length", "nail_length", length);
    tell(jamb(), "nail_diameter", "nail_diameter", diameter);
  }

  void dimension(const char* what, FaceRef from, FaceRef to, double stated) {
    work.dimensions.push_back({c.joint, what, std::move(from), std::move(to), stated});
  }
  void tell(const std::string& of, const char* name, const char* key, double value) {
    work.sizes.push_back({of, c.joint, name, key, value});
  }
  void path(const MemberView& mover, const MemberView& stays, Vec3 way, double travel) {
    Leg leg;
    leg.direction = way;
    leg.travelMm = travel;
    work.paths.push_back({c.joint, mover.id(), stays.id(), {leg}});
  }

  JointWork make() {
    c.housed ? housing() : trench();
    inLine();
    fasten();
    work.joints.push_back({c.joint, {jamb(), head()}});
    return std::move(work);
  }
};

Result<JointWork> make(const JointContext& context) {
  auto corner = cornerOf(context);
  if (!corner) return corner.faults();
  Corner c = std::move(corner).value();
  const double up = sign(c.jambEnd), out = sign(c.headEnd);
  auto jamb = endsAt(context, c.jamb, c.jambEnd, c.housed ? c.headBack() : c.soffit() + up * c.depth);
  if (!jamb) return jamb.faults();
  auto head = endsAt(context, c.head, c.headEnd, c.housed ? c.jambFace() + out * c.reach() : c.jambBack());
  if (!head) return head.faults();
  c.joint = context.nameJoint(c.jamb.id(), c.head.id());
  return Maker{context, c}.make();
}

KindSpec spec() {
  KindSpec k;
  k.name = "lining-head";
  k.about =
      "A lining's head and a jamb: the head trenched for the jamb's tongue, rebated, or housed into it.";
  auto length = [&](const char* name, const char* standard, const char* about, double least, double most,
                    const char* source) {
    k.keys.push_back({name, KeyType::Length, false, standard, about, least, most, {}, source});
  };
  k.keys.push_back({"head", KeyType::Member, true, "", "the lining's head", 0, 0, {}, ""});
  k.keys.push_back({"jamb", KeyType::Member, true, "", "the jamb it meets", 0, 0, {}, ""});
  k.keys.push_back({"form",
                    KeyType::Word,
                    false,
                    "trenched",
                    "trenched: a tongue of the jamb in the head, which has horns until they are cut flush; "
                    "rebated: the same without horns; housed: the head let into the jamb",
                    0,
                    0,
                    {"trenched", "housed", "rebated"},
                    "common practice; housed: Carpenters' and Joiners' guides"});
  length("depth", "the rebate's, else 12; housed 9.5, at most the rebate's", "of the trench or the housing",
         1, 100, "common practice; housed 3/8 in");
  length("tongue", "what the rebate leaves of the jamb, else five eighths of it",
         "thickness of the jamb's tongue, on its masonry side", 1, 200, "common practice");
  k.keys.push_back({"nails",
                    KeyType::Whole,
                    false,
                    "one for each 75 of the width, at least 2",
                    "through the one into the end of the other",
                    1,
                    20,
                    {},
                    "common practice"});
  length("nail_diameter", "1.6 through up to 15, else 2.5", "", 0.8, 12, "common practice");
  length("nail_length", "two and a half times what they pass through, down to the next 5", "", 5, 300,
         "a timber yards' rule of thumb");
  return k;
}

}  // namespace

JointKind liningHead() {
  return {spec(), announce, make};
}

}  // namespace dryfit
