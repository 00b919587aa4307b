#include "joint/hinge_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "joint/leaf_pivot.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kNotch = 0.2;          // round the other plate's knuckles: common practice
constexpr double kScrewFromEnd = 0.12;  // of a plate's height: 12 in 100, common practice

HingeSizes sizesOf(const JointMark& mark) {
  HingeSizes s;
  const auto take = [&](const char* key, double& value) { value = mark.number(key).value_or(value); };
  take("height", s.height);
  take("width", s.width);
  take("plate", s.plate);
  take("pin", s.pin);
  take("barrel", s.barrel);
  take("proud", s.proud);
  take("let_in", s.letIn);
  take("jamb_let_in", s.jambLetIn);
  take("screw_diameter", s.screw.diameterMm);
  take("screw_length", s.screw.lengthMm);
  take("screw_head", s.screw.headMm);
  s.knuckles = static_cast<int>(mark.number("knuckles").value_or(s.knuckles));
  s.screws = static_cast<int>(mark.number("screws").value_or(s.screws));
  s.staggered = mark.flag("staggered").value_or(s.staggered);
  s.countersunk = mark.flag("countersunk").value_or(s.countersunk);
  s.loosePin = mark.flag("loose_pin").value_or(s.loosePin);
  s.openRad = mark.number("opening").value_or(90) * std::numbers::pi / 180;
  return s;
}

bool hasUnit(const JointContext& context, const std::string& name) {
  const auto& units = context.work.units;
  return std::any_of(units.begin(), units.end(), [&](const UnitMark& u) { return u.name == name; });
}

}  // namespace

HingeLayout hingeAt(const JointContext& context, const MemberView& leaf, const MemberView& jamb) {
  HingeLayout l;
  l.size = sizesOf(context.mark);
  l.leaf = leaf;
  l.jamb = jamb;
  l.number = static_cast<int>(context.mark.number("number").value_or(1));
  l.name = "hinge." + std::to_string(l.number);
  l.leafUnit = unitNameOf(context, leaf);
  if (!l.size.loosePin && hasUnit(context, l.name)) l.unit = l.name;
  const Box3 stile = finishedInWorld(leaf), post = blankInWorld(jamb);
  l.side = post.centre().x > stile.centre().x ? 1 : -1;
  l.edgeX = l.side > 0 ? stile.high.x : stile.low.x;
  l.faceY = stile.low.y;
  l.jambFaceY = post.low.y;
  l.jambFace = jambFaceAt(jamb, l.toLeaf(), stile.centre().y);
  l.pin = {l.xAt(l.size.radius() - l.size.jambLetIn), l.faceY - l.size.proud,
           context.mark.number("centre").value_or(0)};
  return l;
}

double HingeSizes::clearance() const {
  return radius() + kNotch;
}

std::vector<Span> knucklesOf(const HingeSizes& s, bool leaf) {
  const double each = (s.height - (s.knuckles - 1) * kKnuckleGap) / s.knuckles;
  std::vector<Span> all;
  for (int i = leaf ? 1 : 0; i < s.knuckles; i += 2) {
    const double from = -s.height / 2 + i * (each + kKnuckleGap);
    all.push_back({from, i + 1 == s.knuckles ? s.height / 2 : from + each});
  }
  return all;
}

Span HingeLayout::plateU(bool ofLeaf) const {
  const double outer = ofLeaf ? size.gap() + size.letIn : -size.jambLetIn;
  return ofLeaf ? Span{outer - size.plate, outer} : Span{outer, outer + size.plate};
}

Span HingeLayout::recessU(bool inLeaf) const {
  return inLeaf ? Span{size.gap(), size.gap() + size.letIn} : Span{-size.jambLetIn, 0};
}

Placement HingeLayout::frame() const {
  return {{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}, pin};
}

std::vector<Screw> HingeLayout::screws(bool ofLeaf) const {
  const Span plate = plateU(ofLeaf);
  const double wood = farY() - faceY, reach = size.height * (0.5 - kScrewFromEnd);
  std::vector<Screw> all;
  for (int i = 0; i < size.screws; ++i) {
    const double up = size.screws == 1 ? 0 : reach - 2 * reach * i / (size.screws - 1);
    const double in = !size.staggered ? wood / 2 : i % 2 == 0 ? wood / 3 : 2 * wood / 3;
    const Vec3 head{xAt(ofLeaf ? plate.from : plate.to), faceY + in, pin.z + up};
    all.push_back({size.screw, head, ofLeaf ? toLeaf() : -toLeaf()});
  }
  return all;
}

Span HingeLayout::woodDepth(const MemberView& member, const Screw& screw) const {
  const Box3 box = blankInWorld(member);
  const double low = (box.low.x - screw.head.x) * screw.way.x,
               high = (box.high.x - screw.head.x) * screw.way.x;
  return {std::max(size.plate, std::min(low, high)), std::max(low, high)};
}

namespace {

struct Refusal {
  std::string key, message, hint;
};
using Check = std::optional<Refusal> (*)(const JointContext&, const HingeLayout&);

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

std::string of(const JointContext& context, const MemberView& m) {
  return called(context.work, *m.member);
}

std::optional<Refusal> checkMake(const JointContext&, const HingeLayout& l) {
  const HingeSizes& s = l.size;
  if (s.knuckles % 2 == 0)
    return Refusal{"knuckles", fmt::format("{} knuckles: the jamb's plate has the outer ones", s.knuckles),
                   "an odd number, 3 or more"};
  if (s.barrel - 2 * s.plate < 0.5)
    return Refusal{"plate",
                   fmt::format("two plates of {} leave nothing between them in a hinge {} thick when shut",
                               figure(s.plate), figure(s.barrel)),
                   fmt::format("plates of at most {}", figure((s.barrel - 0.5) / 2))};
  if (s.barrel - s.pin < 2)
    return Refusal{
        "pin", fmt::format("a pin of {} leaves no wall in knuckles of {}", figure(s.pin), figure(s.barrel)),
        fmt::format("at most {}", figure(s.barrel - 2))};
  if (s.proud < s.radius() - kTiny)
    return Refusal{"proud",
                   fmt::format("with its pin {} before the leaf's face the hinge's knuckles, {} thick, would "
                               "stand in the wood",
                               figure(s.proud), figure(s.barrel)),
                   fmt::format("at least half of that, {}", figure(s.radius()))};
  if (s.gap() < kTiny)
    return Refusal{"let_in",
                   fmt::format("let in {} and {} a hinge {} thick when shut leaves no gap at the leaf's edge",
                               figure(s.letIn), figure(s.jambLetIn), figure(s.barrel)),
                   fmt::format("less than {} in all", figure(s.barrel))};
  return std::nullopt;
}

std::optional<Refusal> checkSeat(const JointContext& context, const HingeLayout& l) {
  const HingeSizes& s = l.size;
  const Box3 stile = finishedInWorld(l.leaf), post = blankInWorld(l.jamb);
  if (std::abs(l.u(l.jambFace.x)) > kTiny)
    return Refusal{
        "jamb",
        fmt::format("a hinge {} thick when shut, {} let into {} and {} into {}, leaves a gap of {}; "
                    "they stand {} apart",
                    figure(s.barrel), figure(s.letIn), of(context, l.leaf), figure(s.jambLetIn),
                    of(context, l.jamb), figure(s.gap()), figure((l.jambFace.x - l.edgeX) * l.side)),
        "change how deep it is let in, or the gap"};
  if (jambFaceAt(l.jamb, l.toLeaf(), l.farY()).x != l.jambFace.x)
    return Refusal{"width",
                   fmt::format("the hinge's plate would run beyond the rebate of {}", of(context, l.jamb)),
                   "narrower plates, or a wider rebate"};
  const double behindRecess = (l.side > 0 ? post.high.x - l.jambX() : l.jambX() - post.low.x) - s.jambLetIn;
  if (behindRecess < 5)
    return Refusal{"jamb_let_in",
                   fmt::format("a recess {} deep leaves {} of wood behind it in {}", figure(s.jambLetIn),
                               figure(std::max(behindRecess, 0.0)), of(context, l.jamb)),
                   "at least 5: let less into the jamb"};
  const double grooved = l.leaf.grooveDepth(opposite(axisAlong(l.leaf.frame, -l.toLeaf()).side));
  const double behindLeaf = stile.size().x - s.letIn - grooved;
  if (behindLeaf < 5)
    return Refusal{"let_in",
                   fmt::format("a recess {} deep leaves {} of wood behind it in {}", figure(s.letIn),
                               figure(std::max(behindLeaf, 0.0)), of(context, l.leaf)),
                   "at least 5: let less into the leaf"};
  const double stop = stile.high.y - l.farY();
  if (stop < 6 - kTiny)
    return Refusal{"width",
                   fmt::format("the hinge's recess would stop {} short of the stop-side face of {}",
                               figure(std::max(stop, 0.0)), of(context, l.leaf)),
                   fmt::format("at least 6: plates of at most {}", figure(s.width - 6 + stop))};
  if (l.farY() - l.faceY < 3 * s.screw.headMm / (s.staggered ? 1 : 2))
    return Refusal{"width",
                   fmt::format("plates with {} in the wood have no room for screws with heads of {}",
                               figure(l.farY() - l.faceY), figure(s.screw.headMm)),
                   "wider plates, or smaller screws"};
  return std::nullopt;
}

std::optional<Refusal> checkHeight(const JointContext& context, const HingeLayout& l) {
  const double low = l.pin.z - l.size.height / 2, high = l.pin.z + l.size.height / 2;
  for (bool ofLeaf : {true, false}) {
    const MemberView& m = l.memberOf(ofLeaf);
    const Box3 box = finishedInWorld(m);
    if (low < box.low.z + 5 || high > box.high.z - 5)
      return Refusal{"centre",
                     fmt::format("{} would run beyond the end of {}", "hinge " + std::to_string(l.number),
                                 of(context, m)),
                     fmt::format("its middle between {} and {}", figure(box.low.z + 5 + l.size.height / 2),
                                 figure(box.high.z - 5 - l.size.height / 2))};
  }
  for (const JointMark& other : context.work.joints) {
    if (other.position == context.mark.position || other.kind != context.mark.kind ||
        other.word("leaf") != context.mark.word("leaf"))
      continue;
    const HingeSizes s = sizesOf(other);
    const int number = static_cast<int>(other.number("number").value_or(1));
    const double apart = std::abs(other.number("centre").value_or(0) - l.pin.z);
    if (number == l.number)
      return Refusal{"number", fmt::format("two hinges have the number {}", number),
                     "number them from the top"};
    if (apart < (s.height + l.size.height) / 2 + kTiny)
      return Refusal{"centre",
                     fmt::format("hinges {} and {} would overlap", std::min(number, l.number),
                                 std::max(number, l.number)),
                     "fewer hinges, or further apart"};
    if (std::abs(s.proud - l.size.proud) > kTiny ||
        std::abs(s.radius() - s.jambLetIn - l.size.radius() + l.size.jambLetIn) > kTiny)
      return Refusal{"proud",
                     fmt::format("the pins of hinges {} and {} are not in one line: the leaf would bind",
                                 std::min(number, l.number), std::max(number, l.number)),
                     "the same hinge, let in alike, at every place"};
  }
  return std::nullopt;
}

std::optional<Refusal> checkScrews(const JointContext& context, const HingeLayout& l) {
  const HingeSizes& s = l.size;
  if (const std::string fault = screwFault(s.screw); !fault.empty())
    return Refusal{"screw_length", fault, "another size of screw"};
  if (!s.countersunk)
    return Refusal{"countersunk",
                   fmt::format("heads standing on the plates would meet: {} is left between them when shut",
                               figure(s.barrel - 2 * s.plate)),
                   "countersunk screws, heads flush with the plates"};
  if (s.screw.headDepthMm() > s.plate - 0.1)
    return Refusal{"screw_head",
                   fmt::format("the countersink for a head of {} goes through a plate of {}",
                               figure(s.screw.headMm), figure(s.plate)),
                   "smaller heads, or thicker plates"};
  const double pitch = s.screws > 1 ? s.height * (1 - 2 * kScrewFromEnd) / (s.screws - 1) : s.height;
  if (pitch * (s.staggered ? 2 : 1) < s.screw.headMm + 2)
    return Refusal{"screws",
                   fmt::format("{} screws with heads of {} find no room in a plate {} high", s.screws,
                               figure(s.screw.headMm), figure(s.height)),
                   "fewer, or smaller ones"};
  const Screw inLeaf = l.screws(true).front(), inJamb = l.screws(false).front();
  const double grooved = l.leaf.grooveDepth(opposite(axisAlong(l.leaf.frame, -l.toLeaf()).side));
  const double leafMost = l.woodDepth(l.leaf, inLeaf).to - grooved;
  if (s.screw.lengthMm > leafMost - 1)
    return Refusal{"screw_length",
                   fmt::format("screws of {} would come out on the other side of {}",
                               figure(s.screw.lengthMm), of(context, l.leaf)),
                   fmt::format("at most {}", figure(leafMost - 1))};
  double most = l.woodDepth(l.jamb, inJamb).to;  // of the wood so far
  std::string last = of(context, l.jamb);
  for (const MemberView& m : l.behind) {
    const Box3 box = blankInWorld(m);
    const Span wood = l.woodDepth(m, inJamb);
    for (const Screw& screw : l.screws(false)) {
      const double r = s.screw.diameterMm / 2 + 1;
      const bool hits = wood.from > most - kTiny && wood.to > wood.from + kTiny &&
                        screw.head.y > box.low.y + r && screw.head.y < box.high.y - r &&
                        screw.head.z > box.low.z + r && screw.head.z < box.high.z - r;
      if (!hits)
        return Refusal{"behind",
                       fmt::format("the screws of hinge {} would miss {}", l.number, of(context, m)),
                       "it stands behind the jamb, as long as the hinge and a little more"};
    }
    if (s.screw.lengthMm > most + kTiny && s.screw.lengthMm < wood.from + 1 &&
        s.screw.lengthMm > wood.from + kTiny)
      return Refusal{
          "screw_length",
          fmt::format("screws of {} would only just reach {}", figure(s.screw.lengthMm), of(context, m)),
          "longer or shorter ones"};
    most = wood.to;
    last = of(context, m);
  }
  if (s.screw.lengthMm > most - 1)
    return Refusal{
        "screw_length",
        fmt::format("screws of {} would come out on the other side of {}", figure(s.screw.lengthMm), last),
        fmt::format("at most {}{}", figure(most - 1),
                    l.behind.empty() ? ", or name what stands behind it" : "")};
  return std::nullopt;
}

}  // namespace

Result<HingeLayout> layOutHinge(const JointContext& context) {
  auto leaf = memberOf(context, "leaf"), jamb = memberOf(context, "jamb");
  if (!leaf) return leaf.faults();
  if (!jamb) return jamb.faults();
  if (!standsUpright(leaf.value()) || !standsUpright(jamb.value()))
    return jointFault(context, "leaf",
                      leaf.value().id() + " and " + jamb.value().id() + " do not both stand upright",
                      "a leaf is hung on its stile, at a jamb: along Z, sides along X and Y");
  const Box3 a = blankInWorld(leaf.value()), b = blankInWorld(jamb.value());
  if (std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y) < 1 ||
      (a.low.x < b.high.x && b.low.x < a.high.x && a.centre().x == b.centre().x))
    return jointFault(context, "jamb", jamb.value().id() + " does not stand beside " + leaf.value().id(),
                      "the leaf's edge looks along X at the jamb");
  HingeLayout l = hingeAt(context, leaf.value(), jamb.value());
  for (const std::string& id : context.mark.words("behind")) {
    auto behind = viewOf(context, id);
    if (!behind) return behind.faults();
    l.behind.push_back(behind.value());
  }
  for (const Check check : {&checkMake, &checkSeat, &checkHeight, &checkScrews})
    if (const auto refusal = check(context, l))
      return jointFault(context, refusal->key, refusal->message, refusal->hint);
  return l;
}

}  // namespace dryfit
