#include "piece/recipe.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "base/require.h"

namespace dryfit {

namespace {

std::string text(double v) {
  return fmt::format("{:.17g}", v + 0.0);
}
std::string text(bool v) {
  return v ? "yes" : "no";
}
std::string text(Towards v) {
  return v == Towards::Low ? "low" : "high";
}
std::string text(const Span& v) {
  return text(v.from) + ".." + text(v.to);
}
std::string text(const std::string& v) {
  return v;
}
std::string text(int v) {
  return std::to_string(v);
}
std::string text(Vec3 v) {
  return text(v.x) + "," + text(v.y) + "," + text(v.z);
}
template <class T>
std::string text(const std::optional<T>& v) {
  return v ? text(*v) : "through";
}
std::string text(const std::vector<Tongue>& tongues) {
  std::string out;
  for (const Tongue& t : tongues) out += "[" + t.role + " " + text(t.y) + " " + text(t.projection) + "]";
  return out;
}

std::string text(Vec2 v) {
  return text(v.x) + "," + text(v.y);
}
std::string text(const Profile& path) {
  std::string out = text(path.start);
  for (const ProfileStep& s : path.steps) {
    out += " " + text(s.to);
    if (s.radius > 0) out += (s.hollow ? " hollow " : " round ") + text(s.radius);
  }
  return out;
}

std::string text(const std::vector<Station>& stations) {
  std::string out;
  for (const Station& s : stations) out += "[" + text(s.at) + " " + text(s.radius) + "]";
  return out;
}
std::string text(const std::vector<Span>& spans) {
  std::string out;
  for (const Span& s : spans) out += "[" + text(s) + "]";
  return out;
}
std::string text(const std::vector<PlanedWaste::Side>& sides) {
  std::string out;
  for (const auto& s : sides) out += "[" + s.name + " " + text(s.normal) + " " + text(s.offset) + "]";
  return out;
}

template <class... Parts>
std::string line(const char* kind, const Parts&... parts) {
  std::string out = kind;
  ((out += " " + text(parts)), ...);
  return out + "\n";
}

struct FeatureText {
  std::string operator()(const CutOff& f) const { return line("cut-off", f.role, f.end, f.at, f.lean); }
  std::string operator()(const Groove& f) const { return line("groove", f.role, f.edge, f.depth, f.z, f.x); }
  std::string operator()(const Mortise& f) const {
    return line("mortise", f.role, f.edge, f.x, f.z, f.depth, f.parallelDepth, f.allowanceLow,
                f.allowanceHigh, f.leanLow, f.leanHigh);
  }
  std::string operator()(const ShoulderedEnd& f) const {
    return line("shouldered-end", f.role, f.end, f.shoulder, f.z, f.tongues);
  }
  std::string operator()(const Bore& f) const { return line("bore", f.role, f.x, f.y, f.radius); }
  std::string operator()(const RoundHole& f) const {
    return line("round-hole", f.role, f.axis, f.side, f.at, f.radius, f.depth);
  }
  std::string operator()(const DovetailEnd& f) const {
    return line("dovetail-end", f.role, f.end, f.length, f.loss);
  }
  std::string operator()(const DovetailNotch& f) const {
    return line("dovetail-notch", f.role, f.edge, f.depth, f.x, f.loss);
  }
  std::string operator()(const Raising& f) const {
    return line("raising", f.role, f.front, f.tongue, f.flatX, f.flatY, f.bevel, f.step);
  }
  std::string operator()(const Taper& f) const { return line("taper", f.role, f.edge, f.atLow, f.atHigh); }
  std::string operator()(const Recess& f) const { return line("recess", f.role, f.x, f.y, f.z); }
  std::string operator()(const RunSection& f) const { return line("run-section", f.role, f.waste); }
  std::string operator()(const Mitre& f) const { return line("mitre", f.role, f.end, f.atLow, f.atHigh); }
  std::string operator()(const EdgeBevel& f) const {
    return line("edge-bevel", f.role, f.edge, f.loss, f.narrow);
  }
  std::string operator()(const PlanedWaste& f) const { return line("planed-waste", f.role, f.sides); }
  std::string operator()(const TurnedHole& f) const {
    return line("turned-hole", f.role, f.axis, f.side, f.at, f.stations, f.through);
  }
  std::string operator()(const Barrel& f) const {
    return line("barrel", f.role, f.knuckles, f.radius, f.clearance, f.plate);
  }
};

Towards other(Towards t) {
  return t == Towards::Low ? Towards::High : Towards::Low;
}
/// "a.low" <-> "a.high" at the end of a name.
std::string swapped(const std::string& role) {
  auto ends = [&](const char* tail) {
    const std::string t = tail;
    return role.size() >= t.size() && role.compare(role.size() - t.size(), t.size(), t) == 0;
  };
  if (ends("edge.low")) return role.substr(0, role.size() - 3) + "high";
  if (ends("edge.high")) return role.substr(0, role.size() - 4) + "low";
  return role;
}
Span turned(Span s) {
  return {0.0 - s.to, 0.0 - s.from};
}

/// The feature turned over in y.
struct Mirror {
  Feature operator()(CutOff f) const { return f; }
  Feature operator()(Groove f) const {
    f.edge = other(f.edge);
    return f;
  }
  Feature operator()(Mortise f) const {
    f.edge = other(f.edge);
    return f;
  }
  Feature operator()(ShoulderedEnd f) const {
    std::vector<Tongue> tongues(f.tongues.rbegin(), f.tongues.rend());
    for (Tongue& t : tongues) t.y = turned(t.y);
    f.tongues = tongues;
    return f;
  }
  Feature operator()(Bore f) const {
    f.y = 0.0 - f.y;
    return f;
  }
  Feature operator()(RoundHole f) const {
    if (f.axis == 1) f.side = other(f.side);
    f.at.y = 0.0 - f.at.y;
    return f;
  }
  Feature operator()(DovetailEnd f) const { return f; }
  Feature operator()(DovetailNotch f) const {
    f.edge = other(f.edge);
    return f;
  }
  Feature operator()(Raising f) const { return f; }
  Feature operator()(Taper f) const {
    f.edge = other(f.edge);
    f.atLow = 0.0 - f.atLow;
    f.atHigh = 0.0 - f.atHigh;
    return f;
  }
  Feature operator()(Recess f) const {
    f.y = turned(f.y);
    return f;
  }
  Feature operator()(RunSection f) const {
    f.waste = reversed(moved(f.waste, [](Vec2 p) { return Vec2{0.0 - p.x, p.y}; }));
    return f;
  }
  Feature operator()(Mitre f) const {
    std::swap(f.atLow, f.atHigh);
    return f;
  }
  Feature operator()(EdgeBevel f) const {
    f.edge = other(f.edge);
    f.role = swapped(f.role);
    return f;
  }
  Feature operator()(PlanedWaste f) const {
    for (auto& side : f.sides) side.normal.y = 0.0 - side.normal.y;
    return f;
  }
  Feature operator()(TurnedHole f) const {
    if (f.axis == 1) f.side = other(f.side);
    f.at.y = 0.0 - f.at.y;
    return f;
  }
  Feature operator()(Barrel) const { REQUIRE(false); }  // a hinge plate is turned end for end, never mirrored
};

}  // namespace

std::string toText(const Recipe& recipe) {
  std::string out;
  if (const auto* box = std::get_if<BoxBlank>(&recipe.blank))
    out = line("box", box->length, box->width, box->thickness);
  else if (const auto* rod = std::get_if<RodBlank>(&recipe.blank))
    out = line("rod", rod->length, rod->diameter);
  else if (const auto* cast = std::get_if<CastBlank>(&recipe.blank))
    out = line("cast", cast->low, cast->high);
  else if (const auto* turned = std::get_if<TurnedBlank>(&recipe.blank))
    out = line("turned", turned->stations);
  for (const std::string& role : recipe.blankRoles) out += role + " ";
  out += "\n";
  for (const Feature& f : recipe.features) out += std::visit(FeatureText{}, f);
  return out;
}

std::uint64_t hashOf(const Recipe& recipe) {
  return stableHash(toText(recipe));
}

Recipe mirrored(const Recipe& recipe) {
  Recipe out = recipe;
  out.blankRoles[2] = swapped(recipe.blankRoles[3]);
  out.blankRoles[3] = swapped(recipe.blankRoles[2]);
  for (Feature& f : out.features) f = std::visit(Mirror{}, f);
  return out;
}

RunSection runSection(const std::string& role, const Profile& path, double width, double thickness,
                      bool backAtHighEdge) {
  // The waste: beyond the path, closed along the blank's own faces.
  Profile waste = moved(path, [&](Vec2 p) { return Vec2{p.x - width / 2, p.y - thickness / 2}; });
  for (Vec2 corner :
       {Vec2{width / 2, -thickness / 2}, Vec2{width / 2, thickness / 2}, Vec2{-width / 2, thickness / 2}}) {
    const Vec2 last = waste.steps.back().to;
    if (length(corner - last) > 1e-9) waste.steps.push_back({corner});
  }
  if (backAtHighEdge) waste = reversed(moved(waste, [](Vec2 p) { return Vec2{0.0 - p.x, p.y}; }));
  return {role, std::move(waste)};
}

Box3 blankBox(const Blank& blank) {
  if (const auto* cast = std::get_if<CastBlank>(&blank)) return {cast->low, cast->high};
  if (const auto* turned = std::get_if<TurnedBlank>(&blank)) {
    double radius = 0;
    for (const Station& s : turned->stations) radius = std::max(radius, s.radius);
    return {{turned->stations.front().at, -radius, -radius}, {turned->stations.back().at, radius, radius}};
  }
  Vec3 size;
  if (const auto* box = std::get_if<BoxBlank>(&blank)) size = {box->length, box->width, box->thickness};
  if (const auto* rod = std::get_if<RodBlank>(&blank)) size = {rod->length, rod->diameter, rod->diameter};
  return {size * -0.5, size * 0.5};
}

Vec3 blankSize(const Blank& blank) {
  return blankBox(blank).size();
}

}  // namespace dryfit
