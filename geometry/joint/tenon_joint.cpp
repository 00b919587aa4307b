#include "joint/tenon_joint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

using Kind = RailPart::Kind;
constexpr double kTiny = 1e-6;
constexpr double kWoodBeyond = 5;  // beyond and between mortises: common practice, least

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

/// Which of the rail's edges looks towards the stile's nearer finished end, and whether it is an end rail.
struct RailPlace {
  Towards outer = Towards::Low;
  bool atStileEnd = false;
};
RailPlace railPlace(const TenonSeat& seat) {
  const Placement stileFromRail = inverse(seat.stile.frame) * seat.rail.frame;
  const double half = seat.rail.width() / 2;
  const double middle = stileFromRail.origin.x;
  const bool sameWay = stileFromRail.direction({0, 1, 0}).x > 0;
  const double low = middle - half - seat.stile.laid->finishedX.from;
  const double high = seat.stile.laid->finishedX.to - middle - half;
  RailPlace place;
  const bool lowEnd = low < high;
  place.atStileEnd = std::min(low, high) < half;
  if (place.atStileEnd) place.outer = lowEnd == sameWay ? Towards::Low : Towards::High;
  return place;
}

Span turned(Span s, double scale, double shift) {
  const double a = s.from * scale + shift, b = s.to * scale + shift;
  return {std::min(a, b), std::max(a, b)};
}

/// z of the tongues: in the middle of the thickness the two members have in common.
Result<bool> placeThickness(const JointContext& context, const TenonOptions& options, TenonLayout& out) {
  const TenonSeat& seat = out.seat;
  const Vec3 axis = seat.rail.frame.zAxis;
  const double railAt = dot(axis, seat.rail.frame.origin), stileAt = dot(axis, seat.stile.frame.origin);
  const double low = std::max(railAt - seat.rail.thickness() / 2, stileAt - seat.stile.thickness() / 2);
  const double high = std::min(railAt + seat.rail.thickness() / 2, stileAt + seat.stile.thickness() / 2);
  if (high - low < 1)
    return jointFault(context, "tenon",
                      seat.rail.id() + " and " + seat.stile.id() + " do not lie in one plane",
                      "their thicknesses must overlap");
  const GrooveWork* groove = seat.stile.groove(seat.edge);
  const double inStile = dot(axis, seat.stile.frame.zAxis) > 0 ? 1 : -1;
  double middle = (low + high) / 2;
  out.thickness =
      options.thickness.value_or(groove ? groove->z.size() : tenonThicknessFor(high - low, options.rule));
  if (groove) middle = stileAt + inStile * groove->z.middle();
  if (middle - out.thickness / 2 < low + kTiny || middle + out.thickness / 2 > high - kTiny)
    return jointFault(
        context, "tenon_thickness",
        fmt::format("a tenon {} thick leaves no shoulder in {}", figure(out.thickness), figure(high - low)),
        fmt::format("a third is usual: {}", figure(tenonThicknessFor(high - low))));
  const Span world{middle - out.thickness / 2, middle + out.thickness / 2};
  out.zRail = {world.from - railAt, world.to - railAt};
  out.zStile = turned(world, inStile, -inStile * stileAt);
  auto inLine = [&](const GrooveWork* g, Span z) {
    return !g || (std::abs(g->z.from - z.from) < kTiny && std::abs(g->z.to - z.to) < kTiny);
  };
  for (Towards side : {Towards::Low, Towards::High})
    if (!inLine(seat.rail.groove(side), out.zRail) || !inLine(groove, out.zStile))
      return jointFault(
          context, "tenon_thickness",
          fmt::format("the tenon is {} thick and out of line with the groove", figure(out.thickness)),
          "tenon, haunch and groove are equally thick and run in line");
  return true;
}

/// The rail's width in parts, in both frames, ascending in the rail's y.
Result<bool> placeParts(const JointContext& context, const TenonOptions& options, TenonLayout& out) {
  const TenonSeat& seat = out.seat;
  const RailPlace place = railPlace(seat);
  out.endRail = place.atStileEnd;
  RailEnd rail;
  rail.width = seat.rail.width();
  rail.rule = options.rule;
  rail.tenonThickness = out.thickness;
  rail.grooveOuter = seat.rail.grooveDepth(place.outer);
  rail.grooveInner = seat.rail.grooveDepth(opposite(place.outer));
  rail.atStileEnd = place.atStileEnd && !options.wholeNet;
  rail.haunched = options.haunched;
  rail.tenons = options.tenons;
  rail.tenonWidth = options.tenonWidth;
  rail.haunchWidth = options.haunchWidth;
  rail.leastOuter = options.mouth + kWoodBeyond;
  rail.leastBetween = 2 * options.mouth + kWoodBeyond;
  if (options.wholeNet) {
    rail.tenons = 1;
    rail.tenonWidth = options.tenonWidth.value_or(rail.width - rail.grooveOuter - rail.grooveInner);
  }
  const auto parts = setOutRailEnd(rail);
  if (!parts)
    return jointFault(
        context,
        options.tenonWidth                 ? "tenon_width"
        : options.tenons                   ? "tenons"
        : options.rule != TenonRule::House ? "rule"
                                           : "tenon",
        fmt::format("the tenons asked for do not fit {}, {} wide with grooves of {} and {}", seat.rail.id(),
                    figure(rail.width), figure(rail.grooveOuter), figure(rail.grooveInner)),
        options.rule == TenonRule::House ? "fewer or narrower tenons, or leave them to the rule"
                                         : "another rule, or give fewer or narrower tenons");
  const Placement stileFromRail = inverse(seat.stile.frame) * seat.rail.frame;
  const double scale = stileFromRail.direction({0, 1, 0}).x > 0 ? 1 : -1;
  const double half = rail.width / 2;
  for (const RailPart& p : *parts) {
    TenonPart part;
    part.kind = p.kind;
    part.y =
        place.outer == Towards::Low ? Span{p.from - half, p.to - half} : Span{half - p.to, half - p.from};
    part.x = turned(part.y, scale, stileFromRail.origin.x);
    out.parts.push_back(part);
  }
  if (place.outer == Towards::High) std::reverse(out.parts.begin(), out.parts.end());
  return true;
}

/// The rail's whole width stands against the stile as it is when the work is done.
Result<bool> standsAgainst(const JointContext& context, const TenonLayout& layout) {
  const MemberView &stile = layout.seat.stile, &rail = layout.seat.rail;
  const double at = (inverse(stile.frame) * rail.frame).origin.z, half = rail.thickness() / 2;
  double beyond = 0;
  for (const double z :
       {std::max(at - half, -stile.thickness() / 2), std::min(at + half, stile.thickness() / 2)}) {
    const Span wood = finishedAt(stile, z);
    for (const TenonPart* p : {&layout.parts.front(), &layout.parts.back()})
      for (Towards side : {Towards::Low, Towards::High}) {
        const double x = layout.sideAt(*p, side, z);
        beyond = std::max({beyond, wood.from - x, x - wood.to});
      }
  }
  if (beyond <= tolerance::kSize) return true;
  const bool horns = stile.member->hornLowMm > 0 || stile.member->hornHighMm > 0;
  const std::string hint = "move it, or make " + stile.id() + " longer";
  return jointFault(
      context, "tenon",
      fmt::format("{} would stand {} beyond the end of {}", rail.id(), figure(beyond), stile.id()),
      horns ? hint + ": its horns do not count" : hint);
}

/// Wood is left between and beyond the mortises, at their mouths too, when the horns are off.
Result<bool> keepsWood(const JointContext& context, const TenonLayout& layout, const TenonOptions& options) {
  const double mouth = options.mouth;
  const MemberView& stile = layout.seat.stile;
  const Span front = finishedAt(stile, layout.zStile.to), back = finishedAt(stile, layout.zStile.from);
  const Span wood{std::max(front.from, back.from), std::min(front.to, back.to)};
  const auto tenons = layout.tenons();
  for (const TenonPart* t : tenons) {
    const double left = std::min(t->x.from - wood.from, wood.to - t->x.to) - mouth;
    if (left < kWoodBeyond - kTiny)
      return jointFault(context, "tenon",
                        fmt::format("the mortise would break out at the end of {}: {} of wood would be left",
                                    stile.id(), figure(std::max(left, 0.0))),
                        "at least " + figure(kWoodBeyond) +
                            (options.wholeNet ? ": move it inwards, or make it narrower"
                                              : ": a wider haunch, a narrower tenon or a wider rail"));
    for (const TenonPart* u : tenons)
      if (u->x.from > t->x.to && u->x.from - t->x.to < 2 * mouth + kWoodBeyond - kTiny)
        return jointFault(context, "tenons",
                          fmt::format("the mortises in {} would run into each other", stile.id()),
                          "fewer or narrower tenons");
  }
  return true;
}

/// True when `a` is named before `b`: from the top, or from the left where the stile lies level.
bool isFirst(const TenonLayout& layout, const TenonPart& a, const TenonPart& b) {
  const Vec3 up = layout.seat.stile.frame.xAxis;
  return up.z > 0.5 ? a.x.middle() > b.x.middle() : a.x.middle() < b.x.middle();
}

void nameParts(TenonLayout& layout, double haunchProjection) {
  for (Kind kind : {Kind::Tenon, Kind::Haunch}) {
    std::vector<TenonPart*> same;
    for (TenonPart& p : layout.parts)
      if (p.kind == kind) same.push_back(&p);
    std::sort(same.begin(), same.end(), [&](auto* a, auto* b) { return isFirst(layout, *a, *b); });
    for (size_t i = 0; i < same.size(); ++i) {
      const std::string number = same.size() > 1 ? "." + std::to_string(i + 1) : "";
      const bool tenon = kind == Kind::Tenon;
      same[i]->projection = tenon ? layout.length : haunchProjection;
      same[i]->tongue = (tenon ? "tenon" : "haunch") + number;
      if (tenon || haunchProjection > layout.grooveDepth + kTiny)
        same[i]->socket = (tenon ? "mortise" : "haunching") + number;
    }
  }
  for (size_t i = 0; i < layout.parts.size(); ++i) layout.parts[i].place = i;
}

/// The rail's own edges may slope where they were worked so first and no tenon lies at them.
Result<bool> placeRailBevels(const JointContext& context, TenonLayout& out) {
  const MemberView &stile = out.seat.stile, &rail = out.seat.rail;
  for (Towards side : {Towards::Low, Towards::High}) {
    auto& bevel = out.railBevels[side == Towards::Low ? 0 : 1];
    bevel = bevelOf(rail, side);
    if (!bevel) continue;
    if (!bevel->mark->first)
      return jointFault(
          context, "tenon",
          "an edge of " + rail.id() + " is bevelled: its shoulder would not close on " + stile.id(),
          "bevel only members that are not tenoned, or work the bevel first");
    const TenonPart& outer = side == Towards::Low ? out.parts.front() : out.parts.back();
    if (outer.kind == Kind::Tenon)
      return jointFault(context, "tenon", "the tenon of " + rail.id() + " lies at its sloping edge",
                        "a haunch beside it, or a square edge");
    if (outer.kind == Kind::Haunch && outer.y.size() - bevel->lossMm < kWoodBeyond - kTiny)
      return jointFault(context, "tenon",
                        fmt::format("the slope of {} leaves {} of its haunch", rail.id(),
                                    figure(std::max(outer.y.size() - bevel->lossMm, 0.0))),
                        "at least " + figure(kWoodBeyond) + ": a wider haunch or a smaller slope");
  }
  return true;
}

/// What a bevel of the stile's far edge leaves for the joint; bevels elsewhere are refused.
Result<bool> placeBevel(const JointContext& context, const TenonOptions& options, TenonLayout& out) {
  const MemberView &stile = out.seat.stile, &rail = out.seat.rail;
  if (auto placed = placeRailBevels(context, out); !placed) return placed.faults();
  if (bevelOf(stile, out.seat.edge))
    return jointFault(context, "mortise",
                      "the edge of " + stile.id() + " that " + rail.id() + " is tenoned into is bevelled",
                      "bevel the other edge");
  out.bevel = bevelOf(stile, opposite(out.seat.edge));
  out.trimmed = out.through && (options.proud > 0 || out.bevel);
  out.proud = options.proud;
  out.cleaned = cleanedOff(context.unit, "").key;
  if (!out.bevel) return true;
  if (out.through && out.bevel->mark->first)
    return jointFault(context, "mortise",
                      "the tenon of " + rail.id() + " comes through the edge of " + stile.id() +
                          " that is bevelled first: it could not be cleaned off flush",
                      "leave out worked, so that both are planed together");
  if (out.through && context.work.units[static_cast<size_t>(stile.member->unit)].name != context.unit)
    return jointFault(context, "mortise",
                      "the tenon of " + rail.id() + " comes through the bevelled edge of " + stile.id() +
                          " after that is planed",
                      "put both in one unit, so that they are cleaned off together");
  return true;
}

/// Wood and wedges left beneath a bevel.
Result<bool> keepsWoodUnderBevel(const TenonLayout& out, bool wedged) {
  if (!out.bevel || !out.through) return true;
  double deepest = out.grooveDepth;
  for (const TenonPart& p : out.parts)
    if (p.kind == Kind::Haunch) deepest = std::max(deepest, p.projection);
  const double width = out.seat.acrossStile();
  const double from = wedged ? width - wedgeFor(width, deepest).lengthMm : deepest;
  const double left = std::min(out.depthAt(true), out.depthAt(false)) - from;
  if (left >= kWoodBeyond - kTiny) return true;
  Diagnostic fault{
      Fault::BadInput, out.bevel->mark->path,
      fmt::format("a bevel of {} would plane away the {} of {} in {}", figure(out.bevel->lossMm),
                  wedged ? "wedges" : "tenon", out.seat.rail.id(), out.seat.stile.id()),
      fmt::format("at least {} of them must be left: a smaller bevel or a wider member", figure(kWoodBeyond)),
      out.bevel->mark->where};
  return fault;
}

}  // namespace

std::string blankFace(int index) {
  return "@" + std::to_string(index);
}

Result<TenonSeat> seatOf(const JointContext& context) {
  TenonSeat seat;
  auto rail = memberOf(context, "tenon");
  if (!rail) return rail.faults();
  auto stile = memberOf(context, "mortise");
  if (!stile) return stile.faults();
  seat.rail = rail.value();
  seat.stile = stile.value();
  if (seat.rail.index == seat.stile.index)
    return jointFault(context, "mortise", "\"" + seat.rail.id() + "\" cannot be tenoned into itself",
                      "name two members");
  const Placement &r = seat.rail.frame, &s = seat.stile.frame;
  if (!sameLine(r.xAxis, s.yAxis) || !sameLine(r.zAxis, s.zAxis))
    return jointFault(
        context, "tenon",
        seat.rail.id() + " does not stand square to " + seat.stile.id() + " in one plane with it",
        "the tenoned member's grain must run across the mortised one's, in one plane with it");
  const Vec3 toStile = s.origin - r.origin;
  seat.end = towards(dot(toStile, r.xAxis));
  seat.edge = towards(-dot(toStile, s.yAxis));
  return seat;
}

double shoulderAlong(const TenonSeat& seat) {
  return seat.stile.along(seat.rail.frame.xAxis, {0, seat.stile.edgeY(seat.edge), 0});
}

const TenonPart* TenonLayout::beside(const TenonPart& part, Towards side) const {
  if (side == Towards::Low) return part.place > 0 ? &parts[part.place - 1] : nullptr;
  return part.place + 1 < parts.size() ? &parts[part.place + 1] : nullptr;
}

std::vector<const TenonPart*> TenonLayout::tenons() const {
  std::vector<const TenonPart*> all;
  for (const TenonPart& p : parts)
    if (p.kind == Kind::Tenon) all.push_back(&p);
  std::sort(all.begin(), all.end(), [&](auto* a, auto* b) { return isFirst(*this, *a, *b); });
  return all;
}

std::string TenonLayout::edgeRole(const TenonPart& part, Towards side) const {
  if (!beside(part, side)) return blankFace(edgeFace(side));
  return part.tongue + (side == Towards::Low ? ".edge.low" : ".edge.high");
}

std::string TenonLayout::socketSide(const TenonPart& part, const char* plane, Towards side) const {
  const bool sameWay = dot(seat.rail.frame.yAxis, seat.stile.frame.xAxis) > 0;
  const Towards inStile = sameWay ? side : opposite(side);
  return part.socket + plane + (inStile == Towards::Low ? ".low" : ".high");
}

std::string TenonLayout::socketCheek(const std::string& socket, bool front) const {
  const bool sameWay = dot(seat.rail.frame.zAxis, seat.stile.frame.zAxis) > 0;
  return socket + (front == sameWay ? ".cheek.front" : ".cheek.back");
}

double TenonLayout::coveredFrom(const TenonPart& part, Towards side) const {
  const TenonPart* next = beside(part, side);
  const double haunch = next && next->kind == Kind::Haunch ? next->projection : 0;
  return std::max(grooveDepth, haunch);
}

Result<TenonLayout> layOutTenon(const JointContext& context, const TenonOptions& options) {
  auto seat = seatOf(context);
  if (!seat) return seat.faults();
  TenonLayout out;
  out.seat = seat.value();
  if (auto placed = placeThickness(context, options, out); !placed) return placed.faults();
  if (auto placed = placeParts(context, options, out); !placed) return placed.faults();
  const TenonSeat& s = out.seat;
  out.grooveDepth = s.stile.grooveDepth(s.edge);
  out.shoulderX = shoulderAlong(s) - dot(s.rail.frame.origin, s.rail.frame.xAxis);
  const double width = s.acrossStile(), beyond = s.rail.length() / 2 - out.out() * out.shoulderX;
  out.through = !options.length;
  out.length = options.length.value_or(width);
  if (beyond < out.length - kTiny)
    return jointFault(context, "tenon",
                      fmt::format("{} reaches {} beyond its shoulder, {} is needed", s.rail.id(),
                                  figure(beyond), figure(out.length)),
                      "give a longer length, or its shoulder length and let the joint find the rest");
  out.clearance = out.through ? 0 : options.clearance;
  if (auto placed = placeBevel(context, options, out); !placed) return placed.faults();
  const double wood = width - (out.bevel ? out.bevel->lossMm : 0);
  if (!out.through && out.length + out.clearance > wood - 1)
    return jointFault(
        context, "length",
        fmt::format("a stopped tenon of {} would break through {}, {} wide{}", figure(out.length),
                    s.stile.id(), figure(wood), out.bevel ? " at its bevel" : ""),
        fmt::format("at most {}", figure(wood - 1 - out.clearance)));
  if (!out.through && out.length < out.grooveDepth + 1)
    return jointFault(context, context.mark.find("length") ? "length" : "mortise",
                      fmt::format("a tenon of {} would not reach past the groove of {}, {} deep",
                                  figure(out.length), s.stile.id(), figure(out.grooveDepth)),
                      "a shallower groove or a wider member");
  const double haunch = options.haunchProjection.value_or(haunchProjectionFor(out.grooveDepth, options.rule));
  for (const TenonPart& p : out.parts)
    if (p.kind == Kind::Haunch && haunch > out.length - 1) {
      const std::string key = options.haunchProjection ? "haunch_projection" : "haunch";
      const std::string hint = fmt::format("less than {}", figure(out.length - 1));
      if (haunch > width)
        return jointFault(context, key,
                          fmt::format("a haunch projecting {} is longer than {} is wide, {}", figure(haunch),
                                      s.stile.id(), figure(width)),
                          hint);
      return jointFault(context, key,
                        fmt::format("a haunch projecting {} is as long as the tenon", figure(haunch)), hint);
    }
  const double gap = out.grooveDepth + 10;
  if (width < gap)
    return out.grooveDepth > 0 ? jointFault(context, "mortise",
                                            fmt::format("the groove leaves too little of {}", s.stile.id()),
                                            "a shallower groove or a wider member")
                               : jointFault(context, "mortise",
                                            fmt::format("{} is too narrow for a mortise: {} wide",
                                                        s.stile.id(), figure(width)),
                                            fmt::format("at least {}", figure(gap)));
  nameParts(out, haunch);
  if (auto stands = standsAgainst(context, out); !stands) return stands.faults();
  if (auto kept = keepsWood(context, out, options); !kept) return kept.faults();
  if (auto kept = keepsWoodUnderBevel(out, options.wedged); !kept) return kept.faults();
  return out;
}

}  // namespace dryfit
