#include "plain_pieces.h"

#include <map>
#include <stdexcept>

#include "support/works.h"

namespace dryfit::tests {

namespace {

struct Range {
  double from = 0, to = 0;
  double size() const { return to - from; }
  Range beyond(double by) const { return {from - by, to + by}; }
};

ExactBody block(Range x, Range y, Range z) {
  return ExactBody::box({x.from, y.from, z.from}, {x.to, y.to, z.to});
}

/// The body between two rectangles: at x = a of the heights `za`, at x = b of the heights `zb`.
ExactBody wedgeAlongX(double a, Range za, double b, Range zb, Range y) {
  std::vector<Vec3> corners;
  for (double side : {y.from, y.to})
    for (const Vec3& c :
         {Vec3{a, side, za.from}, Vec3{a, side, za.to}, Vec3{b, side, zb.from}, Vec3{b, side, zb.to}})
      corners.push_back(c);
  return ExactBody::hull(corners);
}

/// A member along Z mortised right through in X, from the inner edge to the outer one.
struct Stile {
  double inner = 0, outer = 0;
  Range y, z;
  double groove = 0;  ///< depth, of the inner edge
  Range tongueY;      ///< of tenons, haunches and groove
  std::vector<Range> tenons;

  double way() const { return outer > inner ? 1 : -1; }
  double width() const { return (outer - inner) * way(); }
  double at(double depth) const { return inner + way() * depth; }
  /// The trade's wedging here: the mouth longer by a nineteenth of the width at each end, from a quarter in.
  double parallel() const { return width() / 4; }
  double longer() const { return width() / 19; }

  ExactBody body() const {
    ExactBody left = block({inner, outer}, y, z);
    if (groove > 0) left = left - block({inner, at(groove)}, tongueY, z);
    for (const Range& tenon : tenons)
      left = left - block({inner, outer}, tongueY, tenon) -
             wedgeAlongX(at(parallel()), tenon, outer, tenon.beyond(longer()), tongueY);
    return left;
  }
  double volume() const {
    double v = width() * y.size() * z.size() - groove * tongueY.size() * z.size();
    for (const Range& tenon : tenons)
      v -= tongueY.size() * ((width() - groove) * tenon.size() + (width() - parallel()) * longer());
    return v;
  }
  /// A wedge driven home on the upper side of a tenon, 0.7 of the width long.
  ExactBody upperWedge(const Range& tenon) const {
    const double tip = width() * 0.3, tipThick = longer() / 15;
    return wedgeAlongX(at(tip), {tenon.to, tenon.to + tipThick}, outer, {tenon.to, tenon.to + longer()},
                       tongueY);
  }
  double wedgeVolume() const { return tongueY.size() * width() * 0.7 * longer() * (1 + 1.0 / 15) / 2; }
};

/// A member along X, tenoned or haunched at both ends alike, grooved in one edge or both.
struct Rail {
  Range x;  ///< between the shoulders
  Range y, z;
  Range tongueY;
  std::vector<Range> grooves;  ///< heights taken out, right through
  std::vector<Range> tenons, haunches;
  double tenonLong = 0, haunchLong = 0;
  bool bothEnds = true;

  ExactBody body() const {
    ExactBody all = block(x, y, z);
    for (const Range& g : grooves) all = all - block(x, tongueY, g);
    auto add = [&](const Range& high, double length) {
      all = all + block({x.from - length, x.from}, tongueY, high);
      if (bothEnds) all = all + block({x.to, x.to + length}, tongueY, high);
    };
    for (const Range& t : tenons) add(t, tenonLong);
    for (const Range& h : haunches) add(h, haunchLong);
    return all;
  }
  double volume() const {
    double v = x.size() * y.size() * z.size();
    for (const Range& g : grooves) v -= x.size() * tongueY.size() * g.size();
    const double ends = bothEnds ? 2 : 1;
    for (const Range& t : tenons) v += ends * tongueY.size() * t.size() * tenonLong;
    for (const Range& h : haunches) v += ends * tongueY.size() * h.size() * haunchLong;
    return v;
  }
};

/// A panel raised on both faces, in the plane y = 0: tongue, bevel of 50, step of 3, field.
struct Panel {
  Range x, z;
  double tongue = 0, field = 0;  ///< half thicknesses
  double flat = 12, bevel = 50, step = 3;

  ExactBody body() const {
    ExactBody all = block(x, {-tongue, tongue}, z);
    const Range fx = x.beyond(-flat), fz = z.beyond(-flat);
    const Range tx = fx.beyond(-bevel), tz = fz.beyond(-bevel);
    for (double side : {-1.0, 1.0}) {
      std::vector<Vec3> corners;
      for (double cx : {fx.from, fx.to})
        for (double cz : {fz.from, fz.to}) corners.push_back({cx, side * tongue, cz});
      for (double cx : {tx.from, tx.to})
        for (double cz : {tz.from, tz.to}) corners.push_back({cx, side * (field - step), cz});
      all = all + ExactBody::hull(corners) + block(tx, {side * (field - step), side * field}, tz);
    }
    return all;
  }
  /// Slab, two prismatoids (Simpson's rule, exact for them), two fields.
  double volume() const {
    const Range fx = x.beyond(-flat), fz = z.beyond(-flat);
    auto section = [&](double in) { return fx.beyond(-in).size() * fz.beyond(-in).size(); };
    const double rise = field - step - tongue;
    const double raised = rise / 6 * (section(0) + 4 * section(bevel / 2) + section(bevel));
    return 2 * tongue * x.size() * z.size() + 2 * (raised + step * section(bevel));
  }
};

struct List {
  std::vector<PlainPiece> all;
  void add(const std::string& work, const std::string& id, double volume, ExactBody body) {
    all.push_back({work, id, volume, std::move(body)});
  }
  template <class Plain>
  void add(const std::string& work, const std::string& id, const Plain& p) {
    add(work, id, p.volume(), p.body());
  }
};

/// Stile 90 x 44, 400 high without its horn; rail 90 wide, its top edge level with the stile's end, 320 from
/// shoulder to sawn end. Tenon 14 thick, half the rail wide; haunch 12 long, let into a haunching of its own.
void addPracticeCorner(List& list) {
  const Range y{-22, 22}, tongueY{-7, 7}, tenon{310, 355}, haunch{355, 400};
  const Stile stile{45, -45, y, {0, 400}, 0, tongueY, {tenon}};
  list.add("practice-corner", "stile", stile.volume() - 12 * 45 * 14,
           stile.body() - block({33, 45}, tongueY, haunch));
  const Rail rail{{45, 365}, y, {310, 400}, tongueY, {}, {tenon}, {haunch}, 90, 12, false};
  list.add("practice-corner", "rail", rail);
  list.add("practice-corner", "wedge.rail.stile.1.upper", stile.wedgeVolume(), stile.upperWedge(tenon));
}

/// Stiles and top rail 90 x 44, bottom rail 180, 380 between the stiles, 820 high; groove 14 x 12. Top tenon
/// half the rail; bottom rail a pair of 45 over a haunch of 40, 38 between.
void addPanelFrame(List& list) {
  const std::string work = "panel-frame";
  const Range y{-22, 22}, tongueY{-7, 7};
  const Range top{742, 787}, lower{40, 85}, upper{123, 168};
  const Stile left{-190, -280, y, {0, 820}, 12, tongueY, {lower, upper, top}};
  Stile right = left;
  right.inner = 190;
  right.outer = 280;
  list.add(work, "stile.left", left);
  list.add(work, "stile.right", right);
  const Rail railTop{{-190, 190}, y, {730, 820}, tongueY, {{730, 742}}, {top}, {{787, 820}}, 90, 12};
  list.add(work, "rail.top", railTop);
  const Rail railBottom{{-190, 190},          y,  {0, 180}, tongueY, {{168, 180}}, {lower, upper},
                        {{0, 40}, {85, 123}}, 90, 12};
  list.add(work, "rail.bottom", railBottom);
  list.add(work, "wedge.rail.bottom.right.2.upper", right.wedgeVolume(), right.upperWedge(lower));
  // Clear of the groove's bottom by 1.5 all round: coast Douglas-fir, plain-sawn, swells 404 x 0.00267 x 2 /
  // 2 = 1.08 an edge from 12 to 14 %, and 1.5 is the least. Field 12 thinner than the frame, tongue 13.7.
  list.add(work, "panel", Panel{{-200.5, 200.5}, {169.5, 740.5}, 6.85, 16});
}

/// Stiles and top rail 85 x 40, bottom rail 120, 570 between the stiles, 700 high; muntin 85 in the middle,
/// its stubs 50 long in mortises of 51. Tenons 14 thick, half the rail wide.
void addMuntinFrame(List& list) {
  const std::string work = "muntin-frame";
  const Range y{-20, 20}, tongueY{-7, 7}, stub{-30.5, 30.5};
  const double mortise = stub.size() * (51 - 12) * 14;  // beyond the groove
  const Rail top{{-285, 285}, y, {615, 700}, tongueY, {{615, 627}}, {{627, 669.5}}, {{669.5, 700}}, 85, 12};
  list.add(work, "rail.top", top.volume() - mortise, top.body() - block(stub, tongueY, {615, 666}));
  const Rail bottom{{-285, 285}, y, {0, 120}, tongueY, {{108, 120}}, {{48, 108}}, {{0, 48}}, 85, 12};
  list.add(work, "rail.bottom", bottom.volume() - mortise, bottom.body() - block(stub, tongueY, {69, 120}));
  const Range between{120, 615}, whole{70, 665};
  list.add(work, "muntin", between.size() * (85.0 * 40 - 2 * 12 * 14) + 2 * 50 * stub.size() * 14,
           block({-42.5, 42.5}, y, between) - block({-42.5, -30.5}, tongueY, between) -
               block({30.5, 42.5}, tongueY, between) + block(stub, tongueY, whole));
  list.add(work, "panel.1", Panel{{-295.5, -32}, {109.5, 625.5}, 6.85, 14});
}

/// The gap a backing's dovetail leaves in a ground of 19, or the dovetail itself: `wide` at the outer face,
/// narrower at the back by 19/6 at each edge.
ExactBody dovetail(double outerY, double backY, Range x, Range wide) {
  const Range narrow = wide.beyond(-19.0 / 6);
  std::vector<Vec3> corners;
  for (double cx : {x.from, x.to})
    for (const Vec3& c : {Vec3{cx, outerY, wide.from}, Vec3{cx, outerY, wide.to},
                          Vec3{cx, backY, narrow.from}, Vec3{cx, backY, narrow.to}})
      corners.push_back(c);
  return ExactBody::hull(corners);
}

/// What a splay takes off the outer sides of a ground: all beyond `at`, 5 further in at the back, so a body
/// that is a triangle in (across, y), as long as `along`.
ExactBody splayOff(double at, double out, double faceY, double backY, Range along, bool level) {
  std::vector<Vec3> corners;
  for (double a : {along.from, along.to})
    for (const auto& [across, y] :
         {std::pair{at, faceY}, std::pair{at - 5 * out, backY}, std::pair{at, backY}})
      corners.push_back(level ? Vec3{a, y, across} : Vec3{across, y, a});
  return ExactBody::hull(corners);
}

/// A jamb ground of the hatch: its section is smaller by k y on both outer sides at y from its face, so the
/// integral of (70 - k y)(1170 - k y); less the mortise with its mouths (17.5 parallel, then wider by 1/19 of
/// the width at each end over 52.5) up to the slope, and the haunching up to the head's. Simpson's rule is
/// exact for both.
double splayedJamb() {
  const double k = 5.0 / 19;
  auto over = [](auto f) { return (f(6.5) + 4 * f(9.5) + f(12.5)) * 6 / 6; };
  auto mortise = [&](double y) {
    const double mouth = 52.5 - k * y;
    return 35 * (70 - k * y) + mouth * mouth * (70.0 / 19) / 52.5;
  };
  auto haunching = [&](double y) { return 12 * (35 - k * y); };
  return 70 * 1170 * 19.0 - (70 + 1170) * 5 * 19.0 / 2 + 25 * 19.0 / 3 - over(mortise) - over(haunching);
}

/// Grounds 70 x 19 round a hatch 800 wide, 1100 high, both faces of a wall of 215; tenon 6 thick, lower half
/// of the head, haunch 12 long above. Outer edges 5 nearer the opening at the back. Backings 60 x 22 let in
/// at 250 and 800 up, and in the head's middle.
void addHatchGrounds(List& list) {
  const std::string work = "hatch-grounds";
  const Range tenon{1100, 1135}, haunch{1135, 1170}, low{220, 280}, high{770, 830};
  const double dove = 22 * 19 * (60 - 19.0 / 6);
  const Range upright{-10, 1180}, across{-480, 480};
  const Stile left{-400, -470, {0, 19}, {0, 1170}, 0, {6.5, 12.5}, {tenon}};
  list.add(work, "grounds.front.jamb.left", splayedJamb() - 2 * dove,
           left.body() - block({-412, -400}, left.tongueY, haunch) - dovetail(0, 19, {-422, -400}, low) -
               dovetail(0, 19, {-422, -400}, high) - splayOff(-470, -1, 0, 19, upright, false) -
               splayOff(1170, 1, 0, 19, across, true));
  const Stile right{400, 470, {234, 253}, {0, 1170}, 0, {240.5, 246.5}, {tenon}};
  list.add(work, "grounds.back.jamb.right", splayedJamb() - 2 * dove,
           right.body() - block({400, 412}, right.tongueY, haunch) - dovetail(253, 234, {400, 422}, low) -
               dovetail(253, 234, {400, 422}, high) - splayOff(470, 1, 253, 234, upright, false) -
               splayOff(1170, 1, 253, 234, across, true));
  const Rail head{{-400, 400}, {0, 19}, {1100, 1170}, {6.5, 12.5}, {}, {tenon}, {haunch}, 70, 12};
  const double in = 30 - 19.0 / 6;
  const ExactBody notch = ExactBody::hull({{-30, 0, 1100},
                                           {30, 0, 1100},
                                           {-30, 0, 1122},
                                           {30, 0, 1122},
                                           {-in, 19, 1100},
                                           {in, 19, 1100},
                                           {-in, 19, 1122},
                                           {in, 19, 1122}});
  // Its top loses a triangle between the shoulders and half the slope of each haunch, each tenon's end half
  // the jamb's.
  const double splay = 800 * 5 * 19.0 / 2 + 2 * 6 * 2.5 * (12 + 35);
  list.add(work, "grounds.front.head", head.volume() - dove - splay,
           head.body() - notch - splayOff(1170, 1, 0, 19, across, true) -
               splayOff(-470, -1, 0, 19, upright, false) - splayOff(470, 1, 0, 19, upright, false));
  list.add(work, "backing.left.1", 22 * 215 * 60 + 2 * dove,
           block({-422, -400}, {19, 234}, low) + dovetail(0, 19, {-422, -400}, low) +
               dovetail(253, 234, {-422, -400}, low));
}

const CutWork& workOf(const std::string& name) {
  static std::map<std::string, CutWork> cut;
  auto found = cut.find(name);
  if (found == cut.end()) found = cut.emplace(name, shippedWork(name)).first;
  return found->second;
}

}  // namespace

const std::vector<PlainPiece>& plainPieces() {
  static const std::vector<PlainPiece> all = [] {
    List list;
    addPracticeCorner(list);
    addPanelFrame(list);
    addMuntinFrame(list);
    addHatchGrounds(list);
    return list.all;
  }();
  return all;
}

const PlainPiece& plainPiece(const std::string& work, const std::string& id) {
  for (const PlainPiece& p : plainPieces())
    if (p.work == work && p.id == id) return p;
  throw std::runtime_error("no plain piece " + work + " " + id);
}

const Piece& pieceIn(const std::string& work, const std::string& id) {
  const CutWork& cut = workOf(work);
  return cut.pieces[static_cast<size_t>(pieceOf(cut, id))];
}

}  // namespace dryfit::tests
