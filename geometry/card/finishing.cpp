#include <algorithm>
#include <cmath>
#include <map>

#include "card/card_lines.h"

namespace dryfit::card {

namespace {

constexpr double kTiny = 1e-6;

/// Whose hole it is: "hinge.1" of "hinge.1.screw.3".
std::string ownerOf(const std::string& role) {
  size_t end = role.find('.');
  if (end != std::string::npos && end + 1 < role.size() && role[end + 1] >= '0' && role[end + 1] <= '9')
    end = role.find('.', end + 1);
  return role.substr(0, end);
}

std::string spokenOwner(std::string owner) {
  std::replace(owner.begin(), owner.end(), '.', ' ');
  return owner.rfind("hinge", 0) == 0 ? owner : "the " + owner;
}

bool isFitting(const std::string& role) {
  return isOf(role, "hinge") || isOf(role, "lock");
}

class Letting {
 public:
  explicit Letting(const View& view) : v_(view) {}

  std::vector<CardLine> lines() {
    for (const Recess& f : all<Recess>(v_.made().features)) recess(f);
    for (const Mortise& f : all<Mortise>(v_.made().features))
      if (isOf(f.role, "lock")) lockMortise(f);
    for (const Bore& f : all<Bore>(v_.made().features)) bore(f);
    holes();
    return std::move(lines_);
  }

 private:
  std::string n(double mm) const { return v_.figure(mm); }
  std::string along(Span x) const {
    return n(x.from) + " to " + n(x.to) + " from the " + v_.endName(v_.fromEnd());
  }

  /// The floor of a rebate that the recess starts from, below the face; 0: the face itself.
  double rebateBelow(const Recess& f) const {
    for (const PlanedWaste& w : all<PlanedWaste>(v_.made().features)) {
      if (!isOf(w.role, "rebate")) continue;
      double floor = 0;
      bool within = true;
      for (const PlanedWaste::Side& s : w.sides) {
        if (s.normal.z < -0.5) floor = v_.blank().z / 2 + s.offset;
        if (s.normal.y > 0.5) within = within && f.y.middle() < s.offset;
        if (s.normal.y < -0.5) within = within && f.y.middle() > -s.offset;
      }
      if (within) return floor;
    }
    return 0;
  }

  void recess(const Recess& f) {
    const Span x = v_.along(f.x);
    const double half = v_.blank().y / 2;
    const bool atEdge = f.y.to > half - kTiny ? f.y.from > 0 && f.y.size() < f.z.size()
                                              : f.y.from < kTiny - half && f.y.size() < f.z.size();
    const std::string who = spokenOwner(ownerOf(f.role));
    CardLine line{
        isOf(f.role, "lock") ? Making::Lock : Making::LetIn, "", {{"from", x.from}, {"to", x.to}}, {f.role}};
    if (atEdge) {
      const Span z = v_.deep({std::max(f.z.from, -v_.blank().z / 2), std::min(f.z.to, v_.blank().z / 2)});
      line.text = "Let in " + who + " at the " +
                  v_.edgeName(f.y.middle() > 0 ? Towards::High : Towards::Low) + ": " + along(x) + ", " +
                  n(z.from) + " to " + n(z.to) + " from the face, " + n(f.y.size()) + " deep.";
      line.sizes.insert(line.sizes.end(), {{"gauge to", z.to}, {"depth", f.y.size()}});
    } else {
      const double below = rebateBelow(f), deep = v_.blank().z / 2 - f.z.from - below;
      const Span y = v_.across({std::max(f.y.from, -half), std::min(f.y.to, half)});
      line.text = "Let in " + who + " on the face: " + along(x) + ", " + n(y.from) + " to " + n(y.to) +
                  " from the " + v_.edgeName(v_.faceEdge()) + ", " + n(deep) + " deep" +
                  (below > kTiny ? " from the rebate's floor." : ".");
      line.sizes.insert(line.sizes.end(), {{"across from", y.from}, {"across to", y.to}, {"depth", deep}});
    }
    lines_.push_back(line);
  }

  void lockMortise(const Mortise& f) {
    const Span x = v_.along(f.x), z = v_.deep(f.z);
    lines_.push_back(
        {Making::Lock,
         "Mortise for the lock in the " + v_.edgeName(f.edge) + ": " + along(x) + ", " + n(z.size()) +
             " wide, " + n(z.from) + " from the face, " + n(f.depth.value_or(v_.blank().y)) + " deep.",
         {{"from", x.from}, {"to", x.to}, {"width", z.size()}, {"depth", f.depth.value_or(v_.blank().y)}},
         {f.role}});
  }

  /// A pin's hole: in a tenon it is bored nearer the shoulder, so that the pin draws it up.
  void bore(const Bore& f) {
    double drawn = 0;
    for (const Bore& later : all<Bore>(v_.last().features))
      if (later.role == f.role && (later.x < 0) == (f.x < 0) && std::abs(later.y - f.y) < kTiny)
        drawn = std::abs(later.x - f.x);
    const double across = v_.across(f.y);
    CardLine line{
        Making::Hole, "", {{"diameter", 2 * f.radius}, {"across", across}, {"drawn", drawn}}, {f.role}};
    line.text = "Bore for the pin, " + n(2 * f.radius) + " through the face: ";
    const ShoulderedEnd* nearest = nullptr;
    const auto ends = all<ShoulderedEnd>(v_.made().features);
    for (const ShoulderedEnd& e : ends)
      if ((e.shoulder < 0) == (f.x < 0)) nearest = &e;
    if (nearest && drawn > kTiny) {
      const double off = std::abs(f.x - nearest->shoulder);
      line.text += n(off) + " from the shoulder";
      line.sizes.push_back({"from shoulder", off});
    } else {
      line.text += n(v_.along(f.x)) + " from the " + v_.endName(v_.fromEnd());
      line.sizes.push_back({"along", v_.along(f.x)});
    }
    line.text +=
        ", " + n(across) + " from the face edge" +
        (drawn > kTiny ? "; that is " + n(drawn) + " nearer the shoulder than the hole it meets." : ".");
    lines_.push_back(line);
  }

  struct Holes {
    std::vector<std::string> places;
    CardLine line;
  };

  /// Of one owner and one size, together.
  void holes() {
    std::map<std::string, Holes> byOwner;
    std::vector<std::string> order;
    const auto add = [&](const std::string& role, int axis, Vec3 at, double radius) {
      const std::string key = ownerOf(role) + (isOf(role, "dowel") ? " " : "") + n(2 * radius);
      const std::string owner = isOf(role, "dowel") ? "dowel" : isOf(role, "nail") ? "nail" : ownerOf(role);
      auto [it, fresh] = byOwner.try_emplace(owner + " " + n(2 * radius));
      if (fresh) {
        order.push_back(it->first);
        it->second.line = {
            isFitting(role) ? Making::Screws : Making::Hole, owner, {{"diameter", 2 * radius}}, {}};
      }
      it->second.places.push_back(place(axis, at));
      it->second.line.roles.push_back(role);
      (void)key;
    };
    for (const RoundHole& f : all<RoundHole>(v_.made().features)) add(f.role, f.axis, f.at, f.radius);
    for (const TurnedHole& f : all<TurnedHole>(v_.made().features)) {
      double radius = 0;
      for (const Station& s : f.stations) radius = std::max(radius, s.radius);
      add(f.role, f.axis, f.at, radius);
    }
    for (const std::string& key : order) {
      Holes& h = byOwner[key];
      const bool fitting = h.line.making == Making::Screws;
      const std::string who = h.line.text;
      h.line.text = (fitting ? "Bore for the screws of " + spokenOwner(who)
                             : "Bore for the " + who + (h.places.size() > 1 ? "s" : "")) +
                    ", " + std::to_string(h.places.size()) + " of " + n(h.line.sizes[0].mm) + ": " +
                    listed(h.places) + ".";
      lines_.push_back(h.line);
    }
  }

  /// "856 by 10": along the piece, then across it or from the face, whichever the side shows.
  std::string place(int axis, Vec3 at) const {
    if (axis == 0) return n(v_.across(at.y)) + " by " + n(v_.deep(at.z));
    return n(v_.along(at.x)) + " by " + n(axis == 1 ? v_.deep(at.z) : v_.across(at.y));
  }

  const View& v_;
  std::vector<CardLine> lines_;
};

}  // namespace

std::vector<CardLine> letting(const View& view) {
  return Letting(view).lines();
}

std::vector<CardLine> finishing(const View& view) {
  std::vector<CardLine> lines;
  const auto n = [&](double mm) { return view.figure(mm); };
  const std::vector<Feature>& before = view.made().features;
  for (const Feature& f : view.last().features) {
    if (std::find(before.begin(), before.end(), f) != before.end()) continue;
    if (const auto* cut = std::get_if<CutOff>(&f)) {
      const double off = view.blank().x / 2 - std::abs(cut->at);
      const bool horn = cut->role.rfind("end", 0) == 0;
      const std::string end = view.endName(cut->end);
      lines.push_back({horn ? Making::Horns : Making::CleanOff,
                       horn ? "Saw off the horn at the " + end + ": " + n(off) +
                                  (cut->lean != 0 ? ", to the splay." : ".")
                            : "Saw off what stands proud at the " + end + " end, " + n(off) +
                                  (cut->lean != 0 ? ", and plane it to the splay." : ", and plane it flush."),
                       {{"off", off}},
                       {cut->role}});
    } else if (const auto* bevel = std::get_if<EdgeBevel>(&f)) {
      const std::string narrow = bevel->narrow == Towards::Low ? "back" : "face",
                        wide = bevel->narrow == Towards::Low ? "face" : "back";
      lines.push_back({Making::Splay,
                       "Plane the " + view.edgeName(bevel->edge) + " to its bevel: " + n(bevel->loss) +
                           " less at the " + narrow + " than at the " + wide + ".",
                       {{"less", bevel->loss}},
                       {bevel->role}});
    }
  }
  return lines;
}

}  // namespace dryfit::card
