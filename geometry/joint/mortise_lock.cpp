// Kind "mortise-lock": a lock's case in a mortise of the closing stile, its forend let in flush with the
// edge (with a bevelled one at its lower side), and its keep let into the jamb. Case and forend are one part;
// the bolts are not made, only the opening they shoot into.
#include <fmt/format.h>

#include <array>

#include "joint/kinds.h"
#include "joint/leaf_pivot.h"
#include "joint/lock_layout.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

constexpr double kSteelKgM3 = 7850;  // EN 1991-1-1, table A.4, from memory: 77 to 78.5 kN/m3
constexpr const char* kCase = "lock.case";
constexpr const char* kKeep = "lock.keep";
constexpr const char* kMortise = "lock.mortise";

Result<Announcement> announce(const JointContext& context) {
  if (context.mark.word("stile") == context.mark.word("jamb"))
    return jointFault(context, "jamb", "a stile cannot close against itself", "name two members");
  return Announcement{};
}

PlanedWaste::Side under(Vec3 normal, double offset, const char* name) {
  return {normal, offset, name};
}

struct Maker {
  const JointContext& context;
  const LockLayout& l;
  JointWork work{};
  std::string joint = context.nameJoint(l.stile.id(), l.jamb.id());

  const LockSizes& s() const { return l.size; }
  const MemberView& wood(bool ofKeep) const { return ofKeep ? l.jamb : l.stile; }
  std::string plate(bool ofKeep) const { return ofKeep ? kKeep : kCase; }
  double height(bool ofKeep) const { return ofKeep ? s().keepHeight : s().forendHeight; }
  double width(bool ofKeep) const { return ofKeep ? s().keepWidth : s().forendWidth; }
  double thickness(bool ofKeep) const { return ofKeep ? s().keepThickness : s().forendThickness; }
  std::string screwId(bool ofKeep, size_t index) const {
    return std::string("lock.screw.") + (ofKeep ? "keep." : "case.") + std::to_string(index + 1);
  }

  void touch(const FaceRef& a, const FaceRef& b, double areaMm2) {
    work.contacts.push_back({joint, a, b, areaMm2});
  }
  void gap(const char* what, const FaceRef& a, const FaceRef& b, double mm) {
    work.gaps.push_back({joint, what, a, b, mm});
  }

  OwnPiece metal(const std::string& id, const std::string& name, const Placement& frame, Vec3 low,
                 Vec3 high) {
    OwnPiece p;
    p.id = id;
    p.name = name;
    p.material = "steel";
    p.densityKgM3 = kSteelKgM3;
    p.worldFromPiece = frame;
    p.recipe.blank = CastBlank{low, high};
    return p;
  }

  /// A screw's hole in the plate, of the piece being made.
  void boreForScrews(OwnPiece& p, bool ofKeep) {
    const Box3 blank = blankBox(p.recipe.blank);
    const std::vector<Screw> screws = l.screws(ofKeep);
    for (size_t i = 0; i < screws.size(); ++i)
      p.recipe.features.push_back(screws[i].holeIn(
          p.worldFromPiece, blank, {p.id, "screw." + std::to_string(i + 1), {0, thickness(ofKeep)}}));
  }

  void addCase() {
    const double h = s().caseHeight / 2, t = s().caseThickness / 2, f = s().forendThickness;
    OwnPiece p = metal(kCase, "lock", l.caseFrame(), {-s().forendHeight / 2, 0, -s().forendWidth / 2},
                       {s().forendHeight / 2, s().caseDepth, s().forendWidth / 2});
    p.recipe.blankRoles = {"forend.end.low", "forend.end.high", "forend",
                           "case.bottom",    "forend.side.low", "forend.side.high"};
    const auto behind = under({0, -1, 0}, -f, "shoulder");
    p.recipe.features.push_back(PlanedWaste{"case", {under({-1, 0, 0}, -h, "end.high"), behind}});
    p.recipe.features.push_back(PlanedWaste{"case", {under({1, 0, 0}, -h, "end.low"), behind}});
    p.recipe.features.push_back(PlanedWaste{"case", {under({0, 0, -1}, -t, "side.high"), behind}});
    p.recipe.features.push_back(PlanedWaste{"case", {under({0, 0, 1}, -t, "side.low"), behind}});
    p.recipe.features.push_back(
        RoundHole{"spindle", 2, Towards::High, {0, s().backset, 0}, s().spindle / 2, {}});
    boreForScrews(p, false);
    work.pieces.push_back(std::move(p));
  }

  void addKeep() {
    const double h = l.openingHeight() / 2, w = l.openingWidth() / 2;
    OwnPiece p = metal(kKeep, "keep", l.keepFrame(), {-s().keepHeight / 2, 0, -s().keepWidth / 2},
                       {s().keepHeight / 2, s().keepThickness, s().keepWidth / 2});
    p.recipe.features.push_back(
        PlanedWaste{"opening",
                    {under({1, 0, 0}, h, "end.high"), under({-1, 0, 0}, h, "end.low"),
                     under({0, 0, 1}, w, "side.high"), under({0, 0, -1}, w, "side.low")}});
    boreForScrews(p, true);
    work.pieces.push_back(std::move(p));
  }

  void addMortise() {
    const double h = s().caseHeight + 2 * kLockClearance, w = s().caseThickness + 2 * kLockClearance;
    const double deep = s().caseDepth + kLockClearance;
    const Recess box = letInto(l.stile, kMortise, l.boxIn(false, h, {0, deep}, w)).recess;
    const Towards edge = axisAlong(l.stile.frame, l.toJamb()).side;
    Mortise mortise;
    mortise.role = kMortise;
    mortise.edge = edge;
    mortise.x = box.x;
    mortise.z = box.z;
    mortise.depth = l.sunkMm + deep;
    work.features.push_back({l.stile.index, {mortise, {}, {}}});
    work.followsBevels.push_back(l.stile.id());
    const AxisAlong across = axisAlong(l.stile.frame, {0, 1, 0});
    RoundHole spindle{"lock.spindle", across.axis, across.side, {}, s().spindle / 2, {}};
    spindle.at = inverse(l.stile.frame).point(l.caseFrame().point({0, s().backset, 0}));
    spindle.at[across.axis] = 0;
    work.features.push_back({l.stile.index, {spindle, {}, {}}});
    const auto clear = [&](Vec3 way, const char* tail, const char* mortiseLow, const char* mortiseHigh) {
      const std::string role = axisAlong(l.stile.frame, way).side == Towards::High ? mortiseHigh : mortiseLow;
      gap("case clear in its mortise", {kCase, std::string("case.") + tail}, {l.stile.id(), kMortise + role},
          kLockClearance);
    };
    const Placement frame = l.caseFrame();
    clear(frame.xAxis, "end.high", ".end.low", ".end.high");
    clear(-frame.xAxis, "end.low", ".end.low", ".end.high");
    clear(frame.zAxis, "side.high", ".cheek.back", ".cheek.front");
    clear(-frame.zAxis, "side.low", ".cheek.back", ".cheek.front");
    gap("case clear of the mortise's bottom", {kCase, "case.bottom"},
        {l.stile.id(), std::string(kMortise) + ".bottom"}, kLockClearance);
    const FaceRef from = l.sunkMm > 0 ? FaceRef{kCase, blankFace(2)}  // a bevelled edge is not along it
                                      : FaceRef{l.stile.id(), faceTowards(l.stile, l.toJamb())};
    work.dimensions.push_back(
        {joint, "mortise depth", from, {l.stile.id(), std::string(kMortise) + ".bottom"}, deep});
  }

  /// Forend or keep let in flush: its recess, and where it touches it. `open`: of the recess's bottom, taken
  /// by the mortise or the bolts' pocket.
  void letIn(bool ofKeep, double open) {
    const MemberView& m = wood(ofKeep);
    const double t = thickness(ofKeep);
    const std::string role = ofKeep ? "lock.keep" : "lock.forend", id = plate(ofKeep);
    const LetIn recess = letInto(m, role, l.boxIn(ofKeep, height(ofKeep), {-1e4, t}, width(ofKeep)));
    work.features.push_back({m.index, {recess.recess, {}, {}}});
    const Placement frame = ofKeep ? l.keepFrame() : l.caseFrame();
    double bottom = height(ofKeep) * width(ofKeep) - open;
    for (const Screw& screw : l.screws(ofKeep)) bottom -= screw.areaAt(t);
    touch({id, ofKeep ? blankFace(3) : "case.shoulder"}, {m.id(), recess.wall(frame.yAxis)}, bottom);
    touch({id, blankFace(0)}, {m.id(), recess.wall(-frame.xAxis)}, width(ofKeep) * t);
    touch({id, blankFace(1)}, {m.id(), recess.wall(frame.xAxis)}, width(ofKeep) * t);
    touch({id, blankFace(4)}, {m.id(), recess.wall(-frame.zAxis)}, height(ofKeep) * t);
    touch({id, blankFace(5)}, {m.id(), recess.wall(frame.zAxis)}, height(ofKeep) * t);
    if (!ofKeep && l.sunkMm > 0) return;  // the gap to the keep holds it from coming out
    const std::string face = ofKeep ? l.jambFace.role : faceTowards(l.stile, l.toJamb());
    work.flushes.push_back({joint,
                            ofKeep ? "keep flush with the jamb" : "forend flush with the edge",
                            {m.id(), face},
                            {id, blankFace(2)},
                            0});
  }

  void addPocket() {
    const Box3 box =
        l.boxIn(true, l.openingHeight(), {-1e4, s().keepThickness + l.boltDepth}, l.openingWidth());
    const LetIn pocket = letInto(l.jamb, "lock.bolt", box);
    work.features.push_back({l.jamb.index, {pocket.recess, {}, {}}});
  }

  void addScrews(bool ofKeep) {
    const std::vector<Screw> screws = l.screws(ofKeep);
    const Box3 box = blankInWorld(wood(ofKeep));
    for (size_t i = 0; i < screws.size(); ++i) {
      const Screw& screw = screws[i];
      const std::string id = screwId(ofKeep, i), number = std::to_string(i + 1);
      const double end = (screw.way.x > 0 ? box.high.x : box.low.x) - screw.head.x;
      const std::vector<ScrewLayer> layers{{plate(ofKeep), "screw." + number, {0, thickness(ofKeep)}},
                                           {wood(ofKeep).id(),
                                            (ofKeep ? "lock.keep.screw." : "lock.screw.") + number,
                                            {thickness(ofKeep), end * screw.way.x}}};
      work.pieces.push_back(screw.piece(id));
      work.features.push_back({wood(ofKeep).index, {screw.holeIn(wood(ofKeep), layers[1]), {}, {}}});
      for (JointContact& c : screw.contacts(joint, id, layers)) work.contacts.push_back(std::move(c));
      work.flushes.push_back({joint, "screw's head flush", {plate(ofKeep), blankFace(2)}, {id, "head"}, 0});
    }
  }

  std::string fasten(bool ofKeep, const std::string& text) {
    const MemberView& m = wood(ofKeep);
    JointOperation op;
    op.kind = Operation::Kind::Fasten;
    op.key = "screw:" + plate(ofKeep);
    op.pieces = {screwId(ofKeep, 0), screwId(ofKeep, 1)};
    op.way = ofKeep ? l.toJamb() : -l.toJamb();
    op.pitchMm = s().screw.pitchMm();
    op.after = {plate(ofKeep), m.id()};
    op.joint = joint;
    std::vector<std::string> held = op.pieces;
    held.insert(held.end(), op.after.begin(), op.after.end());
    op.bonds.push_back({"screw", held});
    op.text = text;
    op.caution =
        "Chop its mortise and recess with a sharp chisel, both hands behind the edge; bore for the screws.";
    if (!ofKeep) op.caution += kFireLeaf;
    std::string key = op.key;
    work.operations.push_back(std::move(op));
    Leg leg;
    leg.direction = ofKeep ? l.toJamb() : -l.toJamb();
    leg.travelMm = ofKeep ? s().keepThickness : s().caseDepth;
    work.paths.push_back({joint, plate(ofKeep), m.id(), {leg}});
    return key;
  }

  /// While the leaf stands open on its hinges; then it is shut.
  void fit() {
    const std::string inLeaf =
        fasten(false, fmt::format("Put the lock into {}, its forend {}, and screw it.",
                                  called(context.work, *l.stile.member),
                                  l.sunkMm > 0 ? "square, flush with the bevelled edge at its lower side"
                                               : "flush with the edge"));
    const std::string inJamb =
        fasten(true, fmt::format("Mark the bolts on {}, let the keep in flush and screw it.",
                                 called(context.work, *l.jamb.member)));
    const std::string leafUnit = unitNameOf(context, l.stile);
    auto pivot = pivotOfLeaf(context, leafUnit);
    if (!pivot) return;
    JointRule rule;
    rule.name = "lock after hanging";
    rule.because = "A lock is let in where the leaf as it hangs meets its jamb";
    rule.operationsFirst = {hangingGroup(leafUnit)};
    rule.piecesThen = {kCase, kKeep};
    work.rules.push_back(std::move(rule));
    JointOperation shut = shutLeaf(*pivot, l.stile.id());
    shut.afterOperations = {inLeaf, inJamb};
    work.operations.push_back(std::move(shut));
    pivot->unit = leafUnit;
    pivot->pieces = {kCase, screwId(false, 0), screwId(false, 1)};
    work.pivots.push_back(*pivot);
  }

  void addSizes() {
    const auto tell = [&](const std::string& key, double value) {
      work.sizes.push_back({l.stile.id(), joint, "lock_" + key, key, value});
    };
    tell("centre", l.at.z);
    tell("case_height", s().caseHeight);
    tell("case_depth", s().caseDepth);
    tell("case_thickness", s().caseThickness);
    tell("backset", s().backset);
    tell("spindle", s().spindle);
    tell("forend_height", s().forendHeight);
    tell("forend_width", s().forendWidth);
    tell("forend_thickness", s().forendThickness);
    tell("keep_height", s().keepHeight);
    tell("keep_width", s().keepWidth);
    tell("keep_thickness", s().keepThickness);
  }

  JointWork make() {
    addCase();
    addKeep();
    addMortise();
    letIn(false, (s().caseHeight + 2 * kLockClearance) * (s().caseThickness + 2 * kLockClearance));
    addPocket();
    letIn(true, l.openingHeight() * l.openingWidth());
    for (bool ofKeep : {false, true}) addScrews(ofKeep);
    gap("between forend and keep", {kCase, blankFace(2)}, {kKeep, blankFace(2)}, l.gap());
    work.dimensions.push_back(
        {joint, "case height", {kCase, "case.end.low"}, {kCase, "case.end.high"}, s().caseHeight});
    work.dimensions.push_back(
        {joint, "case thickness", {kCase, "case.side.low"}, {kCase, "case.side.high"}, s().caseThickness});
    work.dimensions.push_back(
        {joint, "case depth", {kCase, blankFace(2)}, {kCase, blankFace(3)}, s().caseDepth});
    work.joints.push_back({joint, {l.stile.id(), l.jamb.id()}});
    for (const OwnPiece& p : work.pieces) work.joints.back().pieces.push_back(p.id);
    fit();
    addSizes();
    return std::move(work);
  }
};

Result<JointWork> make(const JointContext& context) {
  auto laid = layOutLock(context);
  if (!laid) return laid.faults();
  const LockLayout layout = std::move(laid).value();
  return Maker{context, layout}.make();
}

KindSpec spec() {
  KindSpec k;
  k.name = "mortise-lock";
  k.about = "A lock in a mortise of the closing stile, its keep in the jamb.";
  const auto length = [&](const char* name, const char* standard, const char* about, double least,
                          double most) {
    k.keys.push_back({name, KeyType::Length, false, standard, about, least, most, {}, "common practice"});
  };
  k.keys.push_back({"stile", KeyType::Member, true, "", "the leaf's closing stile", 0, 0, {}, ""});
  k.keys.push_back({"jamb", KeyType::Member, true, "", "the jamb it closes against", 0, 0, {}, ""});
  k.keys.push_back(
      {"centre", KeyType::Length, true, "", "height of the case's middle, world Z", 0, 1e5, {}, ""});
  length("case_height", "70", "along the stile", 10, 400);
  length("case_depth", "64", "from the forend's face", 10, 300);
  length("case_thickness", "14", "through the leaf's thickness", 3, 60);
  length("backset", "44", "from the closing edge to the spindle", 10, 300);
  length("spindle", "16", "diameter of its hole", 4, 60);
  length("forend_height", "100", "of the plate in the closing edge", 10, 600);
  length("forend_width", "22", "through the leaf's thickness", 3, 100);
  length("forend_thickness", "3", "let in flush", 0.5, 10);
  length("keep_height", "100", "of the plate in the jamb", 10, 600);
  length("keep_width", "22", "through the wall", 3, 100);
  length("keep_thickness", "3", "let in flush", 0.5, 10);
  return k;
}

}  // namespace

JointKind mortiseLock() {
  return {spec(), announce, make};
}

}  // namespace dryfit
