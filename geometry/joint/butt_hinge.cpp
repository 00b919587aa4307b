// Kind "butt-hinge": a leaf's hanging stile hung on its jamb by one butt hinge, each plate let into the wood,
// its pin before the leaf's face. All the hinges of a leaf turn about one line.
//
// With a fixed pin the hinge comes whole: it is screwed to the stile on the leaf's bench, standing open,
// since shut its other plate covers the screws; the leaf is then offered open and its jamb plates screwed on.
// With a loose pin each plate is screwed to its own wood first, and the pin joins them.
#include <fmt/format.h>

#include <numbers>

#include "joint/hinge_parts.h"
#include "joint/kinds.h"
#include "joint/leaf_pivot.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

Result<Announcement> announce(const JointContext& context) {
  const auto leaf = context.mark.word("leaf"), jamb = context.mark.word("jamb");
  if (leaf == jamb)
    return jointFault(context, "jamb", "\"" + jamb.value_or("") + "\" cannot be hung on itself",
                      "name two members");
  return Announcement{};
}

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

constexpr const char* kPared = "Pare the recess with both hands behind the chisel's edge. ";
constexpr const char* kBored =
    "Bore for each screw first, square to the plate: a screw that leans throws it off its place.";

struct Maker {
  const JointContext& context;
  const HingeLayout& l;
  JointWork work{};
  std::string joint = context.nameJoint(l.leaf.id(), l.jamb.id());
  HingeParts parts{l, joint, work};

  std::string key(const char* word, const char* tail = "") const { return word + (":" + l.name) + tail; }
  std::string hinge() const { return "hinge " + std::to_string(l.number); }
  std::string of(const MemberView& m) const { return called(context.work, *m.member); }
  std::string screwsTold() const {
    return fmt::format("{} screws, {} by {}", l.size.screws, figure(l.size.screw.diameterMm),
                       figure(l.size.screw.lengthMm));
  }
  double openedRad() const { return -l.side * std::numbers::pi; }  ///< of the hinge by itself

  void path(const std::string& mover, const std::string& stays, Vec3 way, double travelMm) {
    Leg leg;
    leg.direction = way;
    leg.travelMm = travelMm;
    work.paths.push_back({joint, mover, stays, {leg}});
  }

  JointOperation drivePin() {
    JointOperation op;
    op.kind = Operation::Kind::Drive;
    op.key = key("pin");
    op.pieces = {parts.pinId()};
    op.way = Vec3{0, 0, -1};
    op.after = {parts.plateId(true), parts.plateId(false)};
    op.joint = joint;
    op.unit = parts.plateUnit(false);
    if (l.size.loosePin) {
      op.text =
          fmt::format("Bring the knuckles of {} between each other and drop the pin in from above.", hinge());
      op.caution = "The leaf stands on wedges until every pin is in.";
      op.group = hangingGroup(l.leafUnit);
      return op;
    }
    op.text = fmt::format(
        "Bring the plates of {} knuckle between knuckle, drive the pin and rivet its ends. A hinge that is "
        "bought comes so.",
        hinge());
    op.caution = "Wear eye protection when riveting.";
    op.bonds.push_back({"rivet", {parts.pinId(), parts.plateId(false)}});
    return op;
  }

  JointOperation screwOn(bool ofLeaf) {
    return driveOf(ofLeaf, key("screw", ofLeaf ? ".leaf" : ".jamb"), parts.screwIds(ofLeaf));
  }

  JointOperation driveOf(bool ofLeaf, const std::string& named, std::vector<std::string> screws) {
    const MemberView& wood = l.memberOf(ofLeaf);
    JointOperation op;
    op.kind = Operation::Kind::Fasten;
    op.key = named;
    op.pieces = std::move(screws);
    op.way = ofLeaf ? l.toLeaf() : -l.toLeaf();
    op.pitchMm = l.size.screw.pitchMm();
    op.after = {parts.plateId(ofLeaf), wood.id()};
    op.joint = joint;
    op.unit = parts.screwUnit(ofLeaf);
    std::vector<std::string> held = op.pieces;
    held.insert(held.end(), op.after.begin(), op.after.end());
    if (!ofLeaf)
      for (const MemberView& m : l.behind) {
        op.after.push_back(m.id());
        held.push_back(m.id());
      }
    op.bonds.push_back({"screw", held});
    return op;
  }

  /// The leaf is put on its hinges when it is glued, cleaned off and cut to its height.
  void onFinishedLeaf() {
    JointRule rule = plantOnFinishedWork(l.leafUnit, parts.plateId(true));
    if (!l.size.loosePin) rule.piecesThen.push_back(parts.plateId(false));
    rule.name = "hinges on the finished leaf";
    rule.because =
        "A hinge would be in the way of cramps and planes, and is set out on a leaf cut to its height";
    if (const std::string horns = hornsKey(context.work, *l.leaf.member); !horns.empty())
      rule.operationsFirst.push_back(horns);
    work.rules.push_back(std::move(rule));
  }

  void onLeafsBench() {
    JointOperation screws = screwOn(true);
    screws.text = fmt::format("Screw {}{} to {}: {}.", hinge(),
                              l.size.loosePin ? "'s plate" : ", standing open,", of(l.leaf), screwsTold());
    screws.caution = std::string(kPared) + kBored + kFireLeaf;
    if (!l.size.loosePin && l.unit.empty()) screws.afterOperations = {key("pin")};
    work.operations.push_back(std::move(screws));
    if (l.size.loosePin) return;
    JointPivot pivot;
    pivot.name = l.name;
    pivot.through = l.pin;
    pivot.openRad = openedRad();
    pivot.pieces = {parts.plateId(false), parts.pinId()};
    work.pivots.push_back(pivot);
    JointOperation fold;
    fold.kind = Operation::Kind::Turn;
    fold.key = key("fold");
    fold.turn = JointOperation::Turn{pivot.name, pivot.openRad, 0};
    fold.pieces = {parts.plateId(false)};
    fold.afterOperations = {key("screw", ".leaf")};
    fold.joint = joint;
    fold.unit = l.leafUnit;
    fold.text = fmt::format("Fold {} shut.", hinge());
    fold.caution = "Keep fingers from between the plates.";
    work.operations.push_back(std::move(fold));
  }

  std::string intoTold() const {
    return of(l.jamb) + (l.behind.empty() ? "" : " and on into " + of(l.behind.back()));
  }

  /// The pin comes out: the jamb has its plates before the leaf comes.
  std::vector<std::string> hangByPin() {
    JointOperation screws = screwOn(false);
    screws.text = fmt::format("Screw the other plate of {} to {}: {}.", hinge(), intoTold(), screwsTold());
    screws.caution = std::string(kPared) + kBored;
    JointRule first;
    first.name = "plates before the leaf";
    first.because = "The leaf is hung on plates that are fixed already";
    first.operationsFirst = {screws.key};
    first.piecesThen = {l.leaf.id()};
    work.rules.push_back(std::move(first));
    path(parts.plateId(true), parts.plateId(false), {0, 1, 0}, l.size.barrel + l.size.width);
    work.operations.push_back(screws);
    return {screws.key, key("pin")};
  }

  /// The pin stays: the leaf is offered open, on one screw a hinge until it is seen to hang right.
  std::vector<std::string> hangByScrews() {
    std::vector<std::string> others = parts.screwIds(false);
    const auto middle = others.begin() + static_cast<std::ptrdiff_t>(others.size() - 1) / 2;
    JointOperation first = driveOf(false, key("screw", ".jamb.first"), {*middle});
    others.erase(middle);
    const std::string size =
        fmt::format("{} by {}", figure(l.size.screw.diameterMm), figure(l.size.screw.lengthMm));
    first.after.push_back(l.leaf.id());
    first.group = others.empty() ? hangingGroup(l.leafUnit) : firstScrewsGroup(l.leafUnit);
    first.text = fmt::format("Fix {} to {} by one screw, near the middle of its plate: {}.", hinge(),
                             intoTold(), size);
    first.caution = std::string(kPared) + "Leave the wedges under the leaf; bore for the screw first.";
    JointOperation look = tryHanging(l.leafUnit, l.leaf.id());
    look.joint = joint;
    look.afterOperations = {first.key};
    std::vector<std::string> keys{first.key};
    work.operations.push_back(std::move(first));
    work.operations.push_back(std::move(look));
    if (others.empty()) return keys;
    JointOperation rest = driveOf(false, key("screw", ".jamb"), others);
    rest.after.push_back(l.leaf.id());
    rest.group = hangingGroup(l.leafUnit);
    rest.text = fmt::format("Drive the other {} of {} into {}: {}.",
                            others.size() == 1 ? "screw" : fmt::format("{} screws", others.size()), hinge(),
                            intoTold(), size);
    rest.caution = kBored;
    work.rules.push_back(oneScrewFirst(l.leafUnit, rest.key));
    keys.push_back(rest.key);
    work.operations.push_back(std::move(rest));
    return keys;
  }

  void onSite() {
    JointPivot pivot = *pivotOfLeaf(context, l.leafUnit);  // this hinge's, or one in line with it
    pivot.unit = l.leafUnit;
    if (!l.size.loosePin) pivot.stays = {parts.plateId(false), parts.pinId()};
    work.pivots.push_back(pivot);
    path(parts.plateId(false), l.jamb.id(), -l.toLeaf(), std::max(l.size.jambLetIn, l.size.plate));
    JointOperation shut = shutLeaf(pivot, l.leaf.id());
    shut.joint = joint;
    shut.afterOperations = l.size.loosePin ? hangByPin() : hangByScrews();
    work.operations.push_back(std::move(shut));
  }

  JointWork make() {
    parts.addAll();
    const MemberView &leaf = l.leaf, &jamb = l.jamb;
    work.joints.push_back({joint, {leaf.id(), jamb.id()}});
    auto& all = work.joints.back().pieces;
    for (const MemberView& m : l.behind) all.push_back(m.id());
    for (const OwnPiece& p : work.pieces) all.push_back(p.id);
    path(parts.plateId(true), leaf.id(), l.toLeaf(), std::max(l.size.letIn, l.size.plate));
    work.operations.push_back(drivePin());
    onFinishedLeaf();
    onLeafsBench();
    onSite();
    return std::move(work);
  }
};

Result<JointWork> make(const JointContext& context) {
  auto laid = layOutHinge(context);
  if (!laid) return laid.faults();
  const HingeLayout layout = std::move(laid).value();
  return Maker{context, layout}.make();
}

KindSpec spec() {
  KindSpec k;
  k.name = kButtHinge;
  k.about = "A leaf hung on its jamb by a butt hinge, its plates let into the wood.";
  const std::string custom = "common practice";
  const auto member = [&](const char* name, bool needed, const char* about) {
    k.keys.push_back({name, KeyType::Member, needed, needed ? "" : "none", about, 0, 0, {}, ""});
  };
  const auto length = [&](const char* name, const char* standard, const char* about, double least,
                          double most) {
    k.keys.push_back({name, KeyType::Length, false, standard, about, least, most, {}, custom});
  };
  const auto whole = [&](const char* name, const char* standard, const char* about, double least,
                         double most) {
    k.keys.push_back({name, KeyType::Whole, false, standard, about, least, most, {}, custom});
  };
  const auto flag = [&](const char* name, const char* standard, const char* about) {
    k.keys.push_back({name, KeyType::Flag, false, standard, about, 0, 0, {}, custom});
  };
  member("leaf", true, "the leaf's hanging stile");
  member("jamb", true, "the jamb it is hung on");
  k.keys.push_back({"behind",
                    KeyType::Members,
                    false,
                    "none",
                    "what the jamb's screws go on into, from the jamb outwards: packing, a backing",
                    0,
                    0,
                    {},
                    ""});
  whole("number", "1", "hinges are numbered from the top", 1, 9);
  k.keys.push_back({"centre", KeyType::Length, true, "", "height of its middle, world Z", 0, 1e5, {}, ""});
  length("height", "100", "of a plate", 20, 300);
  length("width", "35", "from the pin's axis to a plate's edge", 8, 120);
  length("plate", "2.5", "thickness of a plate", 0.8, 8);
  length("pin", "3.5", "diameter of the pin", 1, 20);
  length("barrel", "7", "diameter of the knuckles: as thick as the hinge is when shut", 3, 40);
  length("proud", "5", "the pin's middle before the leaf's face", 1, 60);
  length("let_in", "2.5", "how deep it is let into the leaf's edge", 0, 30);
  length("jamb_let_in", "2.5", "how deep it is let into the jamb", 0, 30);
  whole("knuckles", "5", "in all; the jamb's plate has the outer ones", 3, 15);
  whole("screws", "5", "in each plate", 1, 15);
  flag("staggered", "true", "screws in two rows by turns, else in line");
  flag("countersunk", "true", "heads flush with the plates");
  flag("loose_pin", "false", "the pin comes out: each plate is screwed on by itself");
  length("screw_diameter", "4.2", "", 2, 10);
  length("screw_length", "32", "", 10, 120);
  length("screw_head", "8.4", "diameter of the heads, countersunk at 90 degrees", 3, 20);
  k.keys.push_back(
      {"opening", KeyType::Number, false, "90", "how far the leaf opens, in degrees", 5, 180, {}, custom});
  return k;
}

}  // namespace

JointKind buttHinge() {
  return {spec(), announce, make};
}

}  // namespace dryfit
