#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "card/card_lines.h"

namespace dryfit::card {

namespace {

constexpr double kTiny = 1e-6;

/// Whose hole it is: "hinge.1" of "hinge.1.screw.3".
std::string ownerOf(const std::string& role) {
  if (isOf(role, "lock")) return role.substr(0, role.find('.', 5));  // "lock.forend", "lock.keep"
  size_t end = role.find('.');
  if (end != std::string::npos && end + 1 < role.size() && role[end + 1] >= '0' && role[end + 1] <= '9')
    end = role.find('.', end + 1);
  return role.substr(0, end);
}

std::string spokenOwner(std::string owner) {
  if (owner.rfind("lock.", 0) == 0)
    return owner == "lock.screw" ? "the lock" : "the lock's " + owner.substr(5);
  std::replace(owner.begin(), owner.end(), '.', ' ');
  return owner.rfind("hinge", 0) == 0 ? owner : "the " + owner;
}

bool isHorn(const CutOff& cut) {
  return isOf(cut.role, "end");
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
    bores();
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

  /// How much nearer the shoulder a pin's hole is bored than it is when the pin has drawn the joint up.
  double drawn(const Bore& f) const {
    double least = 1e300;
    for (const Bore& later : all<Bore>(v_.last().features))
      if (later.role == f.role && std::abs(later.y - f.y) < kTiny)
        least = std::min(least, std::abs(later.x - f.x));
    return least < 1e300 ? least : 0;
  }

  /// Pins' holes; in a tenon told from its shoulder.
  void bores() {
    std::vector<std::pair<std::string, CardLine>> byText;
    std::map<std::string, std::vector<std::string>> places;
    for (const Bore& f : all<Bore>(v_.made().features)) {
      const ShoulderedEnd* own = nullptr;
      const auto ends = all<ShoulderedEnd>(v_.made().features);
      for (const ShoulderedEnd& e : ends)
        if ((e.shoulder < 0) == (f.x < 0)) own = &e;
      const double across = v_.across(f.y), off = own ? std::abs(f.x - own->shoulder) : v_.along(f.x);
      const double draw = own ? drawn(f) : 0;
      std::string text = ", " + n(2 * f.radius) + ", through the face: ";
      text += own ? n(off) + " from the shoulder" : n(across) + " from the face edge";
      if (draw > kTiny)
        text += ", " + n(draw) + " nearer it than the hole each meets, so that the pin draws it up";
      auto same = std::find_if(byText.begin(), byText.end(), [&](const auto& t) { return t.first == text; });
      if (same == byText.end()) same = byText.insert(byText.end(), {text, {Making::Hole, "", {}, {}}});
      same->second.sizes.insert(same->second.sizes.end(), {{"diameter", 2 * f.radius},
                                                           {own ? "from shoulder" : "along", off},
                                                           {"across", across},
                                                           {"drawn", draw}});
      same->second.roles.push_back(f.role);
      if (own) ends_[text].insert(v_.endName(own->end));
      std::vector<std::string>& at = places[text];
      const std::string place = n(own ? across : off);
      if (std::find(at.begin(), at.end(), place) == at.end()) at.push_back(place);
      where_[text] = own ? " from the face edge" : " from the " + v_.endName(v_.fromEnd());
    }
    for (auto& [text, line] : byText) {
      const std::set<std::string>& at = ends_[text];
      line.text = "Bore for the pins" +
                  (at.empty()       ? std::string()
                   : at.size() == 1 ? " at the " + *at.begin() + " end"
                                    : " at each end") +
                  text + "; " + listed(places[text]) + where_[text] + ".";
      lines_.push_back(line);
    }
  }

  struct Holes {
    std::vector<std::string> places;
    CardLine line;
    std::string measured{};  ///< what the places' figures are from
  };

  /// Of one owner and one size, together.
  void holes() {
    std::map<std::string, Holes> byOwner;
    std::vector<std::string> order;
    const auto add = [&](const std::string& role, int axis, Vec3 at, double radius) {
      const std::string owner = isOf(role, "dowel") ? "dowel" : isOf(role, "nail") ? "nail" : ownerOf(role);
      auto [it, fresh] = byOwner.try_emplace(owner + " " + n(2 * radius));
      if (fresh) {
        order.push_back(it->first);
        it->second.line = {
            isFitting(role) ? Making::Screws : Making::Hole, owner, {{"diameter", 2 * radius}}, {}};
        it->second.measured = measuredOn(axis);
      }
      it->second.places.push_back(place(axis, at));
      it->second.line.roles.push_back(role);
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
      const bool spindle = who == "lock.spindle";
      const std::string what = spindle   ? "the lock's spindle"
                               : fitting ? "the screws of " + spokenOwner(who)
                                         : "the " + who + (h.places.size() > 1 ? "s" : "");
      h.line.text = "Bore for " + what + ", " +
                    (h.places.size() > 1 ? std::to_string(h.places.size()) + " of " : "") +
                    n(h.line.sizes[0].mm) + ": " + listed(h.places) + " (" + h.measured + ").";
      lines_.push_back(h.line);
    }
  }

  /// "856 by 10": along the piece, then across it or from the face, whichever the side shows.
  std::string place(int axis, Vec3 at) const {
    if (axis == 0) return n(v_.across(at.y)) + " by " + n(v_.deep(at.z));
    return n(v_.along(at.x)) + " by " + n(axis == 1 ? v_.deep(at.z) : v_.across(at.y));
  }

  std::string measuredOn(int axis) const {
    if (axis == 0) return "from the face edge, from the face";
    return "from the " + v_.endName(v_.fromEnd()) + (axis == 1 ? ", from the face" : ", from the face edge");
  }

  const View& v_;
  std::vector<CardLine> lines_;
  std::map<std::string, std::string> where_;
  std::map<std::string, std::set<std::string>> ends_;
};

}  // namespace

std::vector<CardLine> letting(const View& view) {
  return Letting(view).lines();
}

std::vector<CardLine> finishing(const View& view) {
  std::vector<CardLine> lines;
  const auto n = [&](double mm) { return view.figure(mm); };
  const std::vector<Feature>& before = view.made().features;
  CardLine horns{Making::Horns, "", {}, {}}, proud{Making::CleanOff, "", {}, {}};
  std::vector<std::string> hornsOff, proudOff;
  bool sloped = false;
  for (const Feature& f : view.last().features) {
    if (std::find(before.begin(), before.end(), f) != before.end()) continue;
    if (const auto* cut = std::get_if<CutOff>(&f)) {
      const double off = view.blank().x / 2 - std::abs(cut->at);
      CardLine& line = isHorn(*cut) ? horns : proud;
      (isHorn(*cut) ? hornsOff : proudOff).push_back(n(off) + " at the " + view.endName(cut->end));
      line.sizes.push_back({"off", off});
      line.roles.push_back(cut->role);
      sloped = sloped || cut->lean != 0;
    } else if (const auto* bevel = std::get_if<EdgeBevel>(&f)) {
      const bool back = bevel->narrow == Towards::Low;
      lines.push_back(
          {Making::Splay,
           "Plane the " + view.edgeName(bevel->edge) + " to its bevel: " + n(bevel->loss) +
               (back ? " less at the back than at the face." : " less at the face than at the back."),
           {{"less", bevel->loss}},
           {bevel->role}});
    }
  }
  if (!proudOff.empty()) {
    proud.text = "Saw off what stands proud, " + listed(proudOff) +
                 (sloped ? ", and plane it to the splay." : ", and plane it flush.");
    lines.push_back(proud);
  }
  if (!hornsOff.empty()) {
    horns.text = std::string(hornsOff.size() > 1 ? "Saw off the horns, " : "Saw off the horn, ") +
                 listed(hornsOff) + (sloped ? ", to the splay." : ".");
    lines.push_back(horns);
  }
  return lines;
}

}  // namespace dryfit::card
