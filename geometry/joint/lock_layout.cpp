#include "joint/lock_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joint/edge_bevels.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kLeastWood = 5;      // beside the case, beyond the screws: common practice
constexpr double kShortOfGroove = 6;  // the mortise: common practice
constexpr double kBoltDepth = 12;     // of the pocket behind the keep, where there is wood: common practice

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

LockSizes sizesOf(const JointMark& mark) {
  LockSizes s;
  const auto take = [&](const char* key, double& value) { value = mark.number(key).value_or(value); };
  take("case_height", s.caseHeight);
  take("case_depth", s.caseDepth);
  take("case_thickness", s.caseThickness);
  take("backset", s.backset);
  take("spindle", s.spindle);
  take("forend_height", s.forendHeight);
  take("forend_width", s.forendWidth);
  take("forend_thickness", s.forendThickness);
  take("keep_height", s.keepHeight);
  take("keep_width", s.keepWidth);
  take("keep_thickness", s.keepThickness);
  return s;
}

struct Refusal {
  std::string key, message, hint;
};
using Check = std::optional<Refusal> (*)(const JointContext&, const LockLayout&);

std::string of(const JointContext& context, const MemberView& m) {
  return called(context.work, *m.member);
}

/// The parts by themselves.
std::optional<Refusal> checkParts(const JointContext&, const LockLayout& l) {
  const LockSizes& s = l.size;
  const double mouthHeight = s.caseHeight + 2 * kLockClearance, mouth = s.caseThickness + 2 * kLockClearance;
  if (s.forendWidth < mouth + 2)
    return Refusal{"forend_width",
                   fmt::format("a forend {} wide does not cover the mortise of a case {} thick",
                               figure(s.forendWidth), figure(s.caseThickness)),
                   fmt::format("at least {}", figure(mouth + 2))};
  if ((s.forendHeight - mouthHeight) / 2 < s.screw.headMm + 4)
    return Refusal{"forend_height",
                   fmt::format("a forend of {} has no room for screws beyond a case of {}",
                               figure(s.forendHeight), figure(s.caseHeight)),
                   fmt::format("at least {}", figure(mouthHeight + 2 * (s.screw.headMm + 4)))};
  for (const auto& [key, what, thickness] : {std::tuple{"forend_thickness", "forend", s.forendThickness},
                                             {"keep_thickness", "keep", s.keepThickness}})
    if (thickness < s.screw.headDepthMm() + 0.1)
      return Refusal{key,
                     fmt::format("the countersink for a head of {} goes through a {} of {}",
                                 figure(s.screw.headMm), what, figure(thickness)),
                     fmt::format("at least {}", figure(s.screw.headDepthMm() + 0.1))};
  if (s.caseDepth < s.forendThickness + 5)
    return Refusal{"case_depth", fmt::format("a case {} deep holds no lock", figure(s.caseDepth)),
                   "a deeper one"};
  if (s.backset + s.spindle / 2 > s.caseDepth - 2 || s.backset - s.spindle / 2 < s.forendThickness + 2 ||
      s.spindle > s.caseHeight - 4)
    return Refusal{
        "backset",
        fmt::format("a spindle's hole of {}, {} from the edge, breaks out of a case of {} by {}",
                    figure(s.spindle), figure(s.backset), figure(s.caseHeight), figure(s.caseDepth)),
        fmt::format("a backset between {} and {}", figure(s.forendThickness + 2 + s.spindle / 2),
                    figure(s.caseDepth - 2 - s.spindle / 2))};
  if (l.openingHeight() < 10 || l.openingWidth() < 4)
    return Refusal{"keep_height",
                   fmt::format("a keep of {} by {} has no room for bolts and screws", figure(s.keepHeight),
                               figure(s.keepWidth)),
                   "a larger keep"};
  return std::nullopt;
}

std::optional<Refusal> checkStile(const JointContext& context, const LockLayout& l) {
  const LockSizes& s = l.size;
  const Box3 stile = finishedInWorld(l.stile);
  const Towards edge = axisAlong(l.stile.frame, l.toJamb()).side;
  const double mortise = l.sunkMm + s.caseDepth + kLockClearance,
               grooved = l.stile.grooveDepth(opposite(edge));
  const double beyond = stile.size().x - grooved - mortise, least = grooved > 0 ? kShortOfGroove : kLeastWood;
  if (beyond < least - kTiny)
    return Refusal{
        "case_depth",
        fmt::format("a mortise {} deep for the lock {} in {}, {} wide", figure(mortise),
                    beyond <= 0 ? "breaks out"
                                : "stops " + figure(beyond) +
                                      (grooved > 0 ? " short of the groove" : " short of the far edge"),
                    of(context, l.stile), figure(stile.size().x)),
        fmt::format("a case at most {} deep, or a wider stile", figure(s.caseDepth - least + beyond))};
  const double cheek = (stile.size().y - std::max(s.forendWidth, s.caseThickness + 2 * kLockClearance)) / 2;
  if (cheek < kLeastWood - kTiny)
    return Refusal{"forend_width",
                   fmt::format("the lock leaves cheeks of {} in {}, {} thick", figure(std::max(cheek, 0.0)),
                               of(context, l.stile), figure(stile.size().y)),
                   fmt::format("at least {}: a thinner case and a narrower forend", figure(kLeastWood))};
  return std::nullopt;
}

std::optional<Refusal> checkJamb(const JointContext& context, const LockLayout& l) {
  const LockSizes& s = l.size;
  const Box3 jamb = blankInWorld(l.jamb);
  const double wood = l.side > 0 ? jamb.high.x - l.jambFace.x : l.jambFace.x - jamb.low.x;
  if (l.gap() < 0.1 || l.gap() > 20)
    return Refusal{
        "jamb",
        fmt::format("{} does not stand at the closing edge of {}", of(context, l.jamb), of(context, l.stile)),
        "the edge looks along X at the jamb, a small gap between them"};
  if (s.screw.lengthMm > wood - 1)
    return Refusal{
        "keep_thickness",
        fmt::format("the keep's screws of {} would come out on the other side of {}, {} thick there",
                    figure(s.screw.lengthMm), of(context, l.jamb), figure(wood)),
        "a thicker jamb"};
  if (l.boltDepth < 2)
    return Refusal{"keep_thickness",
                   fmt::format("behind the keep {} leaves no depth for the bolts", of(context, l.jamb)),
                   "a thinner keep, or a thicker jamb"};
  for (double end : {-1, 1})
    if (jambFaceAt(l.jamb, -l.toJamb(), l.at.y + end * s.keepWidth / 2).x != l.jambFace.x)
      return Refusal{"keep_width",
                     fmt::format("the keep would stand across a rebate's edge of {}", of(context, l.jamb)),
                     "a narrower keep"};
  const double beside = std::min(l.at.y - jamb.low.y, jamb.high.y - l.at.y) - s.keepWidth / 2;
  if (beside < 2)
    return Refusal{"keep_width",
                   fmt::format("the keep, {} wide, stands {} from the edge of {}", figure(s.keepWidth),
                               figure(std::max(beside, 0.0)), of(context, l.jamb)),
                   "at least 2: a narrower keep"};
  return std::nullopt;
}

std::optional<Refusal> checkHeight(const JointContext& context, const LockLayout& l) {
  for (bool ofKeep : {false, true}) {
    const MemberView& m = ofKeep ? l.jamb : l.stile;
    const double half = (ofKeep ? l.size.keepHeight : l.size.forendHeight) / 2;
    const Box3 box = finishedInWorld(m);
    if (l.at.z - half < box.low.z + kLeastWood || l.at.z + half > box.high.z - kLeastWood)
      return Refusal{"centre", fmt::format("the lock would run beyond the end of {}", of(context, m)),
                     fmt::format("its middle between {} and {}", figure(box.low.z + kLeastWood + half),
                                 figure(box.high.z - kLeastWood - half))};
  }
  return std::nullopt;
}

}  // namespace

Placement LockLayout::caseFrame() const {
  const Vec3 x{0, 0, 1}, y = -toJamb();
  return {x, y, cross(x, y), at};
}

Placement LockLayout::keepFrame() const {
  const Vec3 x{0, 0, 1}, y = toJamb();
  return {x, y, cross(x, y), {jambFace.x, at.y, at.z}};
}

double LockLayout::screwAt(bool ofKeep) const {
  const double mouth = size.caseHeight / 2 + kLockClearance, end = size.forendHeight / 2;
  return ofKeep ? size.keepHeight / 2 - size.screw.headMm : (mouth + end) / 2;
}

double LockLayout::openingHeight() const {
  return std::min(size.caseHeight - 10, 2 * (screwAt(true) - size.screw.headMm / 2 - 3));
}

double LockLayout::openingWidth() const {
  return std::min(size.caseThickness, size.keepWidth - 6);
}

std::vector<Screw> LockLayout::screws(bool ofKeep) const {
  const Placement frame = ofKeep ? keepFrame() : caseFrame();
  const double from = screwAt(ofKeep);
  return {{size.screw, frame.point({from, 0, 0}), frame.yAxis},
          {size.screw, frame.point({-from, 0, 0}), frame.yAxis}};
}

Box3 LockLayout::boxIn(bool ofKeep, double height, Span depth, double width) const {
  const Placement frame = ofKeep ? keepFrame() : caseFrame();
  Box3 box;
  box.add(frame.point({-height / 2, depth.from, -width / 2}));
  box.add(frame.point({height / 2, depth.to, width / 2}));
  return box;
}

Result<LockLayout> layOutLock(const JointContext& context) {
  auto stile = memberOf(context, "stile"), jamb = memberOf(context, "jamb");
  if (!stile) return stile.faults();
  if (!jamb) return jamb.faults();
  if (!standsUpright(stile.value()) || !standsUpright(jamb.value()))
    return jointFault(context, "stile",
                      stile.value().id() + " and " + jamb.value().id() + " do not both stand upright",
                      "a lock closes a stile against its jamb: along Z, sides along X and Y");
  LockLayout l;
  l.size = sizesOf(context.mark);
  l.stile = stile.value();
  l.jamb = jamb.value();
  const Box3 leaf = finishedInWorld(l.stile), post = blankInWorld(l.jamb);
  l.side = post.centre().x > leaf.centre().x ? 1 : -1;
  if (const auto bevel = bevelOf(l.stile, axisAlong(l.stile.frame, l.toJamb()).side))
    l.sunkMm = std::max(bevel->lossAt(-l.size.forendWidth / 2), bevel->lossAt(l.size.forendWidth / 2));
  l.faceX = (l.side > 0 ? leaf.high.x : leaf.low.x) - l.side * l.sunkMm;
  l.at = {l.faceX, leaf.centre().y, context.mark.number("centre").value_or(0)};
  l.jambFace = jambFaceAt(l.jamb, -l.toJamb(), l.at.y);
  const double wood = l.side > 0 ? post.high.x - l.jambFace.x : l.jambFace.x - post.low.x;
  l.boltDepth = std::min(kBoltDepth, wood - l.size.keepThickness - kLeastWood);
  for (const Check check : {&checkParts, &checkStile, &checkJamb, &checkHeight})
    if (const auto refusal = check(context, l))
      return jointFault(context, refusal->key, refusal->message, refusal->hint);
  return l;
}

}  // namespace dryfit
