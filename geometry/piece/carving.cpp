// Features as convex cutters: each feature's named planes become the sides of one or more convex bodies.
// Sides that would lie outside the blank are left out, so that no cutter side coincides with a face of the
// blank by accident.
#include <cmath>

#include "base/require.h"
#include "piece/barrel.h"
#include "piece/piece.h"
#include "piece/run_section.h"

namespace dryfit {

namespace {

/// x, y or z at most / at least `v`.
Side most(int axis, double v, std::string role) {
  Vec3 n;
  n[axis] = 1;
  return {n, v, std::move(role)};
}
Side least(int axis, double v, std::string role) {
  Vec3 n;
  n[axis] = -1;
  return {n, -v, std::move(role)};
}

/// Everything beyond `v` towards the low or the high side along an axis.
Side beyond(int axis, Towards side, double v, std::string role) {
  return side == Towards::High ? least(axis, v, std::move(role)) : most(axis, v, std::move(role));
}

/// The half space on or above the line through (u0, v0) and (u1, v1) in the plane of axes u, v, where "above"
/// is towards +v for High and towards -v for Low.
Side pastLine(int uAxis, int vAxis, Vec2 a, Vec2 b, Towards side, std::string role) {
  const double slope = (b.y - a.y) / (b.x - a.x);
  const double sign = side == Towards::High ? 1 : -1;
  Vec3 n;
  n[uAxis] = sign * slope;
  n[vAxis] = -sign;
  const double scale = 1 / length(n);
  return {n * scale, sign * (slope * a.x - a.y) * scale, std::move(role)};
}

struct Cutters {
  Box3 blank;
  Carving& carving;

  void add(std::vector<Side> sides) { carving.cutters.push_back({std::move(sides)}); }
  /// Place of the blank's own side.
  double side(int axis, Towards t) const { return t == Towards::High ? blank.high[axis] : blank.low[axis]; }
  double end(Towards t) const { return side(0, t); }
  double edge(Towards t) const { return side(1, t); }
  static double sign(Towards t) { return t == Towards::High ? 1 : -1; }

  /// The sides of a span that lie inside the blank.
  void clip(std::vector<Side>& sides, int axis, Span s, const std::string& low,
            const std::string& high) const {
    if (s.from > blank.low[axis] + tolerance()) sides.push_back(least(axis, s.from, low));
    if (s.to < blank.high[axis] - tolerance()) sides.push_back(most(axis, s.to, high));
  }
  static double tolerance() { return 1e-6; }

  /// A side across the grain at x = `at` in the middle of the thickness, if any of it lies inside the blank.
  void leaningEnd(std::vector<Side>& sides, double at, double lean, Towards end,
                  const std::string& role) const {
    const double by = lean / 2, out = sign(end);
    if (out * at - std::abs(by) >= out * this->end(end) - tolerance()) return;
    const Towards waste = end == Towards::High ? Towards::Low : Towards::High;
    sides.push_back(lean == 0 ? beyond(0, waste, at, role)
                              : pastLine(2, 0, {blank.low.z, at - by}, {blank.high.z, at + by}, waste, role));
  }

  void operator()(const CutOff& f) {
    if (f.lean == 0) return add({beyond(0, f.end, f.at, f.role)});
    const double by = f.lean / 2;
    add({pastLine(2, 0, {blank.low.z, f.at - by}, {blank.high.z, f.at + by}, f.end, f.role)});
  }

  void operator()(const Groove& f) {
    std::vector<Side> sides{beyond(1, f.edge, edge(f.edge) - sign(f.edge) * f.depth, f.role + ".bottom")};
    clip(sides, 2, f.z, f.role + ".cheek.back", f.role + ".cheek.front");
    if (f.x) clip(sides, 0, *f.x, f.role + ".stop.low", f.role + ".stop.high");
    add(std::move(sides));
  }

  void operator()(const Mortise& f) {
    const double entry = edge(f.edge), inward = -sign(f.edge);
    auto cheeks = [&](std::vector<Side>& sides) {
      clip(sides, 2, f.z, f.role + ".cheek.back", f.role + ".cheek.front");
    };
    std::vector<Side> box;
    leaningEnd(box, f.x.from, f.leanLow, Towards::Low, f.role + ".end.low");
    leaningEnd(box, f.x.to, f.leanHigh, Towards::High, f.role + ".end.high");
    cheeks(box);
    if (f.depth) box.push_back(beyond(1, f.edge, entry + inward * *f.depth, f.role + ".bottom"));
    add(std::move(box));
    if (f.depth || (f.allowanceLow <= 0 && f.allowanceHigh <= 0)) return;
    // The lengthened mouth: from the depth where the ends stop being parallel to the far edge.
    const Towards other = f.edge == Towards::High ? Towards::Low : Towards::High;
    const Vec2 at{entry + inward * f.parallelDepth, 0}, far{edge(other), 0};
    std::vector<Side> mouth{beyond(1, other, at.x, f.role + ".mouth")};
    mouth.push_back(pastLine(1, 0, {at.x, f.x.from}, {far.x, f.x.from - f.allowanceLow}, Towards::High,
                             f.role + ".slope.low"));
    mouth.push_back(pastLine(1, 0, {at.x, f.x.to}, {far.x, f.x.to + f.allowanceHigh}, Towards::Low,
                             f.role + ".slope.high"));
    cheeks(mouth);
    add(std::move(mouth));
  }

  /// Waste beside and beyond the tongues, in the thickness of the tongues, between y = from and y = to.
  void wasteBetween(const ShoulderedEnd& f, double from, double to, double at, const std::string& endRole,
                    const Tongue* below, const Tongue* above) {
    std::vector<Side> sides{beyond(0, f.end, at, endRole)};
    clip(sides, 1, {from, to}, below ? below->role + ".edge.high" : f.role + ".between",
         above ? above->role + ".edge.low" : f.role + ".between");
    clip(sides, 2, f.z, f.role + ".between", f.role + ".between");
    add(std::move(sides));
  }

  void operator()(const ShoulderedEnd& f) {
    const double out = sign(f.end);
    const bool front = f.z.to<blank.high.z - tolerance(), back = f.z.from> blank.low.z + tolerance();
    // The cheeks' waste over the whole width, then each tongue's own part of it, so that its cheek has its
    // name.
    if (front) add({beyond(0, f.end, f.shoulder, f.role + ".front"), least(2, f.z.to, f.role + ".between")});
    if (back) add({beyond(0, f.end, f.shoulder, f.role + ".back"), most(2, f.z.from, f.role + ".between")});
    for (const Tongue& t : f.tongues) {
      auto cheek = [&](const char* face, Side side) {
        std::vector<Side> sides{beyond(0, f.end, f.shoulder, f.role + face), std::move(side)};
        clip(sides, 1, t.y, f.role + face, f.role + face);
        add(std::move(sides));
      };
      if (front) cheek(".front", least(2, f.z.to, t.role + ".cheek.front"));
      if (back) cheek(".back", most(2, f.z.from, t.role + ".cheek.back"));
    }
    // The waste in the tongues' own thickness. A tongue names its edges where it stands beside waste.
    double y = blank.low.y;
    const Tongue* below = nullptr;
    for (size_t i = 0; i < f.tongues.size(); ++i) {
      const Tongue& t = f.tongues[i];
      if (t.y.from > y + tolerance())
        wasteBetween(f, y, t.y.from, f.shoulder, f.role + ".between", below, &t);
      const bool touchesBelow = i > 0 && std::abs(f.tongues[i - 1].y.to - t.y.from) <= tolerance();
      const bool touchesAbove =
          i + 1 < f.tongues.size() && std::abs(f.tongues[i + 1].y.from - t.y.to) <= tolerance();
      const double tip = f.shoulder + out * t.projection;
      if (out * (end(f.end) - tip) > tolerance())
        wasteBetween(f, t.y.from, t.y.to, tip, t.role + ".end", touchesBelow ? &f.tongues[i - 1] : nullptr,
                     touchesAbove ? &f.tongues[i + 1] : nullptr);
      y = t.y.to;
      below = &t;
    }
    if (y < blank.high.y - tolerance())
      wasteBetween(f, y, blank.high.y, f.shoulder, f.role + ".between", below, nullptr);
  }

  void operator()(const Bore& f) { carving.holes.push_back({{f.x, f.y, 0}, {0, 0, 1}, f.radius, f.role}); }

  void operator()(const RoundHole& f) {
    RoundCut cut{f.at, {}, f.radius, f.role, f.depth};
    cut.through[f.axis] = side(f.axis, f.side);
    cut.axis[f.axis] = -sign(f.side);
    carving.holes.push_back(cut);
  }

  void operator()(const DovetailEnd& f) {
    const double tip = end(f.end), root = tip - sign(f.end) * f.length;
    for (Towards side : {Towards::Low, Towards::High}) {
      const double full = edge(side), narrow = full - sign(side) * f.loss;
      const std::string at = side == Towards::Low ? ".low" : ".high";
      add({beyond(0, f.end, root, f.role + ".shoulder" + at),
           pastLine(0, 1, {root, narrow}, {tip, full}, side, f.role + ".side" + at)});
    }
  }

  void operator()(const DovetailNotch& f) {
    std::vector<Side> sides{beyond(1, f.edge, edge(f.edge) - sign(f.edge) * f.depth, f.role + ".bottom")};
    sides.push_back(pastLine(2, 0, {blank.low.z, f.x.from + f.loss}, {blank.high.z, f.x.from}, Towards::High,
                             f.role + ".side.low"));
    sides.push_back(pastLine(2, 0, {blank.low.z, f.x.to - f.loss}, {blank.high.z, f.x.to}, Towards::Low,
                             f.role + ".side.high"));
    add(std::move(sides));
  }

  void operator()(const Raising& f) {
    const Towards face = f.front ? Towards::High : Towards::Low;
    const double up = sign(face), foot = side(2, face) - up * f.step;
    for (int axis : {0, 1}) {
      const double flat = axis == 0 ? f.flatX : f.flatY;
      for (Towards side : {Towards::Low, Towards::High}) {
        const double s = sign(side), rim = this->side(axis, side), start = rim - s * flat,
                     field = start - s * f.bevel;
        add({beyond(axis, side, start, f.role + ".tongue"),
             beyond(2, face, up * f.tongue, f.role + ".tongue")});
        if (f.bevel <= 0) continue;
        const Towards back = side == Towards::Low ? Towards::High : Towards::Low;
        add({beyond(axis, side, field, f.role + ".step"), beyond(axis, back, start, f.role + ".bevel"),
             pastLine(axis, 2, {start, up * f.tongue}, {field, foot}, face, f.role + ".bevel")});
      }
    }
  }

  void operator()(const Taper& f) {
    add({pastLine(0, 1, {blank.low.x, f.atLow}, {blank.high.x, f.atHigh}, f.edge, f.role)});
  }

  void operator()(const EdgeBevel& f) {
    const double full = edge(f.edge), in = full - sign(f.edge) * f.loss;
    const bool back = f.narrow == Towards::Low;
    add({pastLine(2, 1, {blank.low.z, back ? in : full}, {blank.high.z, back ? full : in}, f.edge, f.role)});
  }

  void operator()(const Recess& f) {
    std::vector<Side> sides;
    clip(sides, 0, f.x, f.role + ".end.low", f.role + ".end.high");
    clip(sides, 1, f.y, f.role + ".side.low", f.role + ".side.high");
    clip(sides, 2, f.z, f.role + ".back", f.role + ".front");
    add(std::move(sides));
  }

  void operator()(const RunSection& f) { addRunSection(f, blank, carving); }

  void operator()(const Mitre& f) {
    add({pastLine(1, 0, {blank.low.y, f.atLow}, {blank.high.y, f.atHigh}, f.end, f.role)});
  }

  void operator()(const PlanedWaste& f) {
    std::vector<Side> sides;
    for (const auto& s : f.sides)
      sides.push_back({s.normal, s.offset, s.name.empty() ? f.role : f.role + "." + s.name});
    add(std::move(sides));
  }
  void operator()(const TurnedHole& f) {
    TurnedCut cut{f.at, {}, f.stations, f.role, !f.through};
    cut.through[f.axis] = side(f.axis, f.side);
    cut.axis[f.axis] = -sign(f.side);
    carving.turned.push_back(std::move(cut));
  }

  void operator()(const Barrel& f) { addBarrel(f, blank, carving); }
};

}  // namespace

Carving carvingOf(const Recipe& recipe) {
  REQUIRE(std::holds_alternative<BoxBlank>(recipe.blank) || std::holds_alternative<CastBlank>(recipe.blank));
  Carving carving;
  const Box3 blank = blankBox(recipe.blank);
  carving.blank = boxBody(blank.low, blank.high);
  for (size_t i = 0; i < 6; ++i) carving.blank.sides[i].role = recipe.blankRoles[i];
  Cutters cutters{blank, carving};
  for (const Feature& f : recipe.features) std::visit([&](const auto& one) { cutters(one); }, f);
  return carving;
}

}  // namespace dryfit
