#include <algorithm>
#include <cmath>

#include "card/card_lines.h"

namespace dryfit::card {

namespace {

constexpr double kTiny = 1e-6;

bool same(double a, double b) {
  return std::abs(a - b) < kTiny;
}

class Jointing {
 public:
  explicit Jointing(const View& view) : v_(view), features_(view.made().features) {}

  std::vector<CardLine> lines() {
    mortises();
    ends();
    grooves();
    notches();
    for (const PlanedWaste& f : all<PlanedWaste>(features_)) planed(f);
    for (const DovetailEnd& f : all<DovetailEnd>(features_)) dovetails(f);
    raised();
    for (const EdgeBevel& f : all<EdgeBevel>(features_))
      add(Making::EarlySplay,
          "Plane the " + v_.edgeName(f.edge) + " to its splay: " + n(f.loss) + " less at the " +
              (f.narrow == Towards::Low ? "back" : "face") + " than at the " +
              (f.narrow == Towards::Low ? "face." : "back."),
          {{"less", f.loss}}, f.role);
    for (const RunSection& f : all<RunSection>(features_)) section(f);
    mitres();
    for (const Taper& f : all<Taper>(features_)) taper(f);
    return std::move(lines_);
  }

 private:
  std::string n(double mm) const { return v_.figure(mm); }
  std::string n(Span s) const { return n(s.from) + " to " + n(s.to); }

  CardLine& add(Making making, const std::string& text, std::vector<CardSize> sizes,
                const std::string& role) {
    lines_.push_back({making, text, std::move(sizes), {role}});
    return lines_.back();
  }

  std::string fromTop() const { return "from the " + v_.endName(v_.fromEnd()); }

  // ---- mortises and haunchings

  Vec3 middleOf(const Mortise& m) const {
    const double in = m.depth.value_or(v_.blank().y) / 2, half = v_.blank().y / 2;
    return {m.x.middle(), m.edge == Towards::High ? half - in : in - half, m.z.middle()};
  }

  void mortises() {
    std::vector<Mortise> list = all<Mortise>(features_);
    std::stable_sort(list.begin(), list.end(), [&](const Mortise& a, const Mortise& b) {
      return v_.along(a.x).from < v_.along(b.x).from;
    });
    std::vector<Mortise> cut;
    for (const Mortise& m : list) {
      if (isOf(m.role, "lock")) continue;
      const Span x = v_.along(m.x);
      const std::string place = v_.partnerAt(middleOf(m)) + ": " + n(x) + " " + fromTop();
      if (isOf(m.role, "haunching")) {
        add(Making::Haunch, "Sink the haunching" + place + ", " + n(*m.depth) + " deep" + slope(m),
            {{"from", x.from}, {"to", x.to}, {"depth", *m.depth}}, m.role);
        continue;
      }
      add(Making::SetOut, "Mortise" + place + ".", {{"from", x.from}, {"to", x.to}}, m.role);
      cut.push_back(m);
    }
    for (const Mortise& m : cut) gauge(v_.deep(m.z));
    while (!cut.empty()) {
      const Mortise first = cut.front();
      chop(first, std::count_if(cut.begin(), cut.end(), [&](const Mortise& m) { return alike(m, first); }));
      std::erase_if(cut, [&](const Mortise& m) { return alike(m, first); });
    }
  }

  static std::string slope(const Mortise& m) {
    return m.leanLow != 0 || m.leanHigh != 0 ? "; its end slopes with the head's splay." : ".";
  }

  static bool alike(const Mortise& a, const Mortise& b) {
    return a.edge == b.edge && a.z == b.z && a.depth == b.depth && same(a.parallelDepth, b.parallelDepth) &&
           same(a.allowanceLow, b.allowanceLow) && same(a.allowanceHigh, b.allowanceHigh);
  }

  void gauge(Span z) {
    const auto known = [&](Span g) { return same(g.from, z.from) && same(g.to, z.to); };
    if (std::any_of(gauged_.begin(), gauged_.end(), known)) return;
    gauged_.push_back(z);
    add(Making::SetOut,
        "Gauge for the mortises from the face, on both edges: " + n(z.from) + " and " + n(z.to) + ".",
        {{"gauge from", z.from}, {"gauge to", z.to}}, "");
  }

  void chop(const Mortise& m, long count) {
    const Span z = v_.deep(m.z);
    const std::string what = count == 1 ? "the mortise" : "the " + std::to_string(count) + " mortises";
    std::string text = "Chop " + what + ", " + n(z.size()) + " wide, ";
    std::vector<CardSize> sizes{{"width", z.size()}, {"gauge from", z.from}};
    if (m.depth) {
      text += n(*m.depth) + " deep from the " + v_.edgeName(m.edge) + ".";
      sizes.push_back({"depth", *m.depth});
    } else {
      text += "right through: half from each edge, towards the middle.";
      if (m.allowanceLow > kTiny || m.allowanceHigh > kTiny) {
        const Towards far = m.edge == Towards::High ? Towards::Low : Towards::High;
        text += " On the " + v_.edgeName(far) + " make it " + ends(m) + ", for the wedges: parallel for " +
                n(m.parallelDepth) + " from the " + v_.edgeName(m.edge) + ", then straight.";
        sizes.push_back({"wedging", std::max(m.allowanceLow, m.allowanceHigh)});
      }
    }
    add(Making::Mortise, text, sizes, m.role);
  }

  std::string ends(const Mortise& m) const {
    if (same(m.allowanceLow, m.allowanceHigh)) return n(m.allowanceLow) + " longer at each end";
    return n(std::max(m.allowanceLow, m.allowanceHigh)) + " longer at one end";
  }

  // ---- shoulders, tenons, haunches

  void ends() {
    const std::vector<ShoulderedEnd> ends = all<ShoulderedEnd>(features_);
    if (ends.empty()) return;
    const bool both = ends.size() == 2 && ends[0].z == ends[1].z && alikeTongues(ends[0], ends[1]);
    if (ends.size() == 2) {
      const double apart = std::abs(ends[0].shoulder - ends[1].shoulder);
      const Towards end = v_.fromEnd();
      const ShoulderedEnd& first = ends[0].end == end ? ends[0] : ends[1];
      const double in = v_.blank().x / 2 - std::abs(first.shoulder);
      add(Making::SetOut,
          "Shoulders " + n(apart) + " apart, the first " + n(in) + " from the sawn " + v_.endName(end) +
              " end: a knife line square all round.",
          {{"between shoulders", apart}, {"first shoulder", in}}, first.role);
    }
    for (const ShoulderedEnd& e : ends) {
      end(e, both, ends.size());
      if (both) return;
    }
  }

  static bool alikeTongues(const ShoulderedEnd& a, const ShoulderedEnd& b) {
    if (a.tongues.size() != b.tongues.size()) return false;
    for (size_t i = 0; i < a.tongues.size(); ++i)
      if (a.tongues[i].role != b.tongues[i].role || !(a.tongues[i].y == b.tongues[i].y) ||
          !same(a.tongues[i].projection, b.tongues[i].projection))
        return false;
    return true;
  }

  void end(const ShoulderedEnd& e, bool both, size_t count) {
    const std::string where = both ? "each end" : "the " + v_.endName(e.end) + " end";
    const Span z = v_.deep(e.z);
    const double room = v_.blank().x / 2 - std::abs(e.shoulder);
    if (count == 1)
      add(Making::SetOut,
          "Shoulder " + n(room) + " from the sawn " + v_.endName(e.end) +
              " end: a knife line square all round.",
          {{"first shoulder", room}}, e.role);
    std::vector<Span> tenons, haunches;
    std::vector<CardSize> sizes{{"gauge from", z.from}, {"gauge to", z.to}};
    CardLine haunch{Making::Haunch, "", {}, {}};
    double deep = 0;
    for (const Tongue& t : e.tongues) {
      const Span y = v_.across(t.y);
      if (isOf(t.role, "haunch")) {
        haunches.push_back(y);
        deep = t.projection;
        haunch.sizes.insert(haunch.sizes.end(),
                            {{"from", y.from}, {"to", y.to}, {"projection", t.projection}});
        haunch.roles.push_back(t.role);
      } else {
        tenons.push_back(y);
        sizes.insert(sizes.end(), {{"from", y.from}, {"to", y.to}, {"length", std::min(t.projection, room)}});
      }
    }
    std::sort(tenons.begin(), tenons.end(), byFirst);
    std::sort(haunches.begin(), haunches.end(), byFirst);
    if (!tenons.empty()) {
      add(Making::SetOut,
          "Tenon" + std::string(tenons.size() > 1 ? "s" : "") + " at " + where +
              ", from the face edge: " + places(tenons) +
              (haunches.empty()
                   ? "."
                   : (haunches.size() > 1 ? "; haunches " : "; haunch ") + places(haunches) + "."),
          sizes, e.role);
      add(Making::SetOut, "Gauge the tenons from the face: " + n(z.from) + " and " + n(z.to) + ".",
          {{"gauge from", z.from}, {"gauge to", z.to}}, e.role);
    }
    if (!e.tongues.empty())
      add(Making::Cheeks,
          "Saw the cheeks at " + where + " down to the shoulder lines, on the waste side: " + n(z.size()) +
              " is left, " + n(z.from) + " in from the face.",
          {{"thickness", z.size()}, {"gauge from", z.from}}, e.role);
    if (!haunches.empty()) {
      haunch.text = "Saw the haunch" + std::string(haunches.size() > 1 ? "es" : "") + " at " + where +
                    " back to " + n(deep) + " from the shoulder" +
                    (tenons.size() > 1 ? ", and out between the tenons." : ".");
      lines_.push_back(haunch);
    }
    add(Making::Shoulders,
        "Saw the shoulders at " + where + " last, on the knife line; do not saw into the tenon.", {}, e.role);
  }

  std::string places(const std::vector<Span>& spans) const {
    std::vector<std::string> out;
    for (const Span s : spans) out.push_back(n(s));
    return listed(out);
  }

  static bool byFirst(Span a, Span b) { return a.from < b.from; }

  // ---- grooves, notches, rebates, trenches

  void grooves() {
    const std::vector<Groove> list = all<Groove>(features_);
    const bool both = list.size() == 2 && list[0].z == list[1].z && same(list[0].depth, list[1].depth) &&
                      list[0].x == list[1].x;
    for (const Groove& g : list) {
      const Span z = v_.deep(g.z);
      std::string text = "Plough the groove in " +
                         (both ? std::string("both edges") : "the " + v_.edgeName(g.edge)) + ": " +
                         n(z.size()) + " wide, " + n(z.from) + " from the face, " + n(g.depth) + " deep, ";
      std::vector<CardSize> sizes{{"width", z.size()}, {"gauge from", z.from}, {"depth", g.depth}};
      if (g.x) {
        const Span x = v_.along(*g.x);
        text += n(x) + " " + fromTop() + ".";
        sizes.insert(sizes.end(), {{"from", x.from}, {"to", x.to}});
      } else {
        text += "right through.";
      }
      add(Making::Plough, text, sizes, g.role);
      if (both) return;
    }
  }

  void notches() {
    std::vector<DovetailNotch> list = all<DovetailNotch>(features_);
    std::stable_sort(list.begin(), list.end(), [&](const DovetailNotch& a, const DovetailNotch& b) {
      return v_.along(a.x).from < v_.along(b.x).from;
    });
    for (const DovetailNotch& f : list) {
      const Span x = v_.along(f.x);
      const double half = v_.blank().y / 2 - f.depth / 2;
      add(Making::SetOut,
          "Notch" + v_.partnerAt({f.x.middle(), f.edge == Towards::High ? half : -half, 0}) + ": " + n(x) +
              " " + fromTop() + ", at the face.",
          {{"from", x.from}, {"to", x.to}}, f.role);
    }
    if (list.empty()) return;
    const DovetailNotch& f = list.front();
    add(Making::Dovetail,
        "Cut the notch" + std::string(list.size() > 1 ? "es" : "") + " in the " + v_.edgeName(f.edge) + ", " +
            n(f.depth) + " deep: each side " + n(std::abs(f.loss)) + " in at the " +
            (f.loss > 0 ? "back." : "face."),
        {{"depth", f.depth}, {"loss", std::abs(f.loss)}}, f.role);
  }

  /// The box of a waste whose sides lie along the piece's axes, within the blank.
  Box3 boxOf(const PlanedWaste& f) const {
    Box3 box = blankBox(v_.made().blank);
    for (const PlanedWaste::Side& s : f.sides)
      for (int axis = 0; axis < 3; ++axis) {
        if (s.normal[axis] > 1 - kTiny) box.high[axis] = std::min(box.high[axis], s.offset);
        if (s.normal[axis] < kTiny - 1) box.low[axis] = std::max(box.low[axis], -s.offset);
      }
    return box;
  }

  void planed(const PlanedWaste& f) {
    const Box3 box = boxOf(f);
    const Span x = v_.along({box.low.x, box.high.x});
    const double deep = v_.blank().z / 2 - box.low.z;
    if (isOf(f.role, "rebate")) {
      const bool high = box.high.y > v_.blank().y / 2 - kTiny;
      add(Making::Rebate,
          "Rebate the face along the " + v_.edgeName(high ? Towards::High : Towards::Low) + ": " +
              n(box.size().y) + " wide, " + n(deep) + " deep.",
          {{"width", box.size().y}, {"depth", deep}}, f.role);
    } else if (isOf(f.role, "trench") || isOf(f.role, "housing")) {
      const std::string partner = v_.partnerAt(
          Vec3{(box.low.x + box.high.x) / 2, 0, box.low.z + 0.5 * (v_.blank().z / 2 - box.low.z)});
      add(Making::SetOut, "Trench" + partner + ": " + n(x) + " " + fromTop() + ", on the face.",
          {{"from", x.from}, {"to", x.to}}, f.role);
      add(Making::Trench,
          "Cut the trench" + partner + " across the face, " + n(x.size()) + " wide, " + n(deep) +
              " deep; where there is a rebate, down to its floor.",
          {{"width", x.size()}, {"depth", deep}}, f.role);
    } else {
      tongue(f, box);
    }
  }

  /// Waste at an end, a tongue left at the back.
  void tongue(const PlanedWaste& f, const Box3& box) {
    const bool high = box.high.x > v_.blank().x / 2 - kTiny;
    const double length = box.size().x, left = v_.blank().z - box.size().z;
    const std::string end = v_.endName(high ? Towards::High : Towards::Low);
    if (left < kTiny) {
      add(Making::Shoulders, "Cut the " + end + " end back by " + n(length) + " between the rebates.",
          {{"length", length}}, f.role);
      return;
    }
    add(Making::SetOut,
        "Shoulder of the tongue: " + n(length) + " from the " + end + " end, across the face.",
        {{"shoulder", length}}, f.role);
    add(Making::Cheeks, "Saw the tongue's cheek at the " + end + " end: " + n(left) + " is left at the back.",
        {{"thickness", left}}, f.role);
    add(Making::Shoulders, "Saw the tongue's shoulder at the " + end + " end last.", {{"length", length}},
        f.role);
  }

  // ---- ends and faces

  void dovetails(const DovetailEnd& f) {
    const std::string end = v_.endName(f.end);
    const double narrow = v_.blank().y - 2 * f.loss;
    add(Making::SetOut, "Dovetail at the " + end + " end: a line " + n(f.length) + " from the end.",
        {{"length", f.length}}, f.role);
    add(Making::Dovetail,
        "Cut the dovetail at the " + end + " end: " + n(v_.blank().y) + " wide at the end, " + n(narrow) +
            " at the line, " + n(f.loss) + " in at each edge.",
        {{"width", v_.blank().y}, {"narrow", narrow}, {"loss", f.loss}}, f.role);
  }

  /// From the middle plane to the tongue's surface, or to the side of the panel where it is not raised.
  double tongueTo(bool front) const {
    for (const Raising& f : all<Raising>(features_))
      if (f.front == front) return f.tongue;
    return v_.blank().z / 2;
  }

  void raised() {
    const double tongue = tongueTo(true) + tongueTo(false);
    for (const Raising& f : all<Raising>(features_)) {
      const std::string side = f.front ? "face" : "back";
      std::vector<CardSize> sizes{
          {"tongue", tongue}, {"flat", f.flatX}, {"bevel", f.bevel}, {"step", f.step}};
      std::string tongueText = n(tongue) + " thick all round, " + n(f.flatX) + " wide";
      if (!same(f.flatX, f.flatY)) tongueText += " at the ends, " + n(f.flatY) + " at the edges";
      add(Making::Raise,
          same(f.bevel, 0)
              ? "Rebate the " + side + " to leave a tongue " + tongueText + "."
              : "Raise the " + side + ": a tongue " + tongueText + "; then the bevel, " + n(f.bevel) +
                    " wide, up to a square step of " + n(f.step) + " below the field.",
          sizes, f.role);
    }
  }

  /// The edge a section is worked on; empty: it goes over the middle.
  std::string edgeOf(const RunSection& f) const {
    double least = f.waste.start.x, most = least;
    for (const ProfileStep& s : f.waste.steps) {
      least = std::min(least, s.to.x);
      most = std::max(most, s.to.x);
    }
    if (least < 0 && most > 0) return "";
    return v_.edgeName(most > 0 ? Towards::High : Towards::Low);
  }

  void section(const RunSection& f) {
    double radius = 0;
    for (const ProfileStep& s : f.waste.steps) radius = std::max(radius, s.radius);
    const std::string round = radius > 0 ? ", radius " + n(radius) : "";
    const std::string edge = all<RunSection>(features_).size() > 1 ? edgeOf(f) : "";
    add(Making::Section,
        edge.empty() ? "Work the section along the whole length: " + f.role + round + ", " + n(v_.blank().y) +
                           " by " + n(v_.blank().z) + "."
                     : "Work the " + f.role + " along the whole " + edge + round + ".",
        {{"radius", radius}}, f.role);
  }

  void mitres() {
    const std::vector<Mitre> list = all<Mitre>(features_);
    if (list.empty()) return;
    Span low{-v_.blank().x / 2, v_.blank().x / 2}, high = low;
    for (const Mitre& m : list) {
      (m.end == Towards::High ? low.to : low.from) = m.atLow;
      (m.end == Towards::High ? high.to : high.from) = m.atHigh;
    }
    const double longer = std::max(low.size(), high.size()), shorter = std::min(low.size(), high.size());
    const std::string edge = v_.edgeName(low.size() > high.size() ? Towards::Low : Towards::High);
    std::vector<std::string> where;
    for (const Mitre& m : list) where.push_back("the " + v_.endName(m.end) + " end");
    add(Making::Mitre,
        "Mitre " + listed(where) + ": " + n(longer) + " long on the " + edge + ", " + n(shorter) +
            " on the other.",
        {{"long", longer}, {"short", shorter}}, list.front().role);
    for (const Mitre& m : list) lines_.back().roles.push_back(m.role);
  }

  void taper(const Taper& f) {
    const double out = f.edge == Towards::High ? 1 : -1, half = v_.blank().y / 2;
    const double low = half + out * f.atLow, high = half + out * f.atHigh;
    add(Making::Taper,
        "Saw it to a taper: " + n(std::max(low, high)) + " at the thick end, " + n(std::min(low, high)) +
            " at the tip, " + n(v_.blank().x) + " long; the grain runs along it.",
        {{"thick", std::max(low, high)}, {"thin", std::min(low, high)}}, f.role);
  }

  const View& v_;
  const std::vector<Feature>& features_;
  std::vector<CardLine> lines_;
  std::vector<Span> gauged_;
};

}  // namespace

std::vector<CardLine> jointing(const View& view) {
  return Jointing(view).lines();
}

}  // namespace dryfit::card
