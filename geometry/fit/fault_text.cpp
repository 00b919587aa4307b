#include "fit/fault_text.h"

#include <fmt/format.h>

#include <numbers>

#include "base/require.h"

namespace dryfit {

namespace {

/// Up to `decimals`, without trailing noughts, and never "-0".
std::string figure(double value, int decimals = 3) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string place(Vec3 p) {
  return fmt::format("({}, {}, {})", figure(p.x, 2), figure(p.y, 2), figure(p.z, 2));
}

std::string faceName(const Assembly& assembly, int body, const std::string& role) {
  return fmt::format("{} of {}", role, assembly.bodies[body].id);
}

double degrees(double rad) {
  return rad * 180 / std::numbers::pi;
}

std::string because(const GapFound& gap) {
  return gap.what.empty() ? std::string() : fmt::format(" ({})", gap.what);
}

std::string gapText(const GapFound& gap, const std::string& one, const std::string& other) {
  const std::string stated = figure(gap.statedMm);
  if (!gap.found)
    return fmt::format("{} and {} do not look at each other, where joint {} states {} mm between them{}.",
                       one, other, gap.joint, stated, because(gap));
  if (gap.foundMm < 0)
    return fmt::format("{} has passed {} by {} mm, where joint {} states {} mm between them{}.", one, other,
                       figure(-gap.foundMm, 4), gap.joint, stated, because(gap));
  return fmt::format("{} and {} stand {} mm apart, where joint {} states {} mm{}.", one, other,
                     figure(gap.foundMm, 4), gap.joint, stated, because(gap));
}

std::string flushText(const GapFound& gap, const std::string& one, const std::string& other) {
  const std::string stated =
      gap.statedMm == 0 ? "states that they are flush" : fmt::format("states {} mm", figure(gap.statedMm));
  if (!gap.found)
    return fmt::format("{} and {} do not look the same way, where joint {} {}{}.", one, other, gap.joint,
                       stated, because(gap));
  return fmt::format("{} lies {} mm {} {}, where joint {} {}{}.", other, figure(std::abs(gap.foundMm), 4),
                     gap.foundMm < 0 ? "behind" : "beyond", one, gap.joint, stated, because(gap));
}

}  // namespace

FitFault faultOf(const Assembly& assembly, const Overlap& o) {
  return {"overlap",
          o.a,
          o.b,
          {},
          {},
          o.volumeMm3,
          o.at,
          fmt::format("{} and {} are in the same place: they share {} mm3 round {}.", assembly.bodies[o.a].id,
                      assembly.bodies[o.b].id, figure(o.volumeMm3), place(o.at))};
}

FitFault faultOf(const Assembly& assembly, const Contact& c, const std::string& kind) {
  const std::string one = faceName(assembly, c.a, c.roleA), other = faceName(assembly, c.b, c.roleB);
  FitFault fault{kind, c.a, c.b, c.roleA, c.roleB, c.areaMm2, c.at, {}};
  if (kind == "unexplained-contact")
    fault.text = fmt::format("{} touches {} over {} mm2 round {}, and no joint says that they touch.", one,
                             other, figure(c.areaMm2), place(c.at));
  else if (kind == "missing-contact")
    fault.text = fmt::format("{} does not touch {}, where joint {} states {} mm2.", one, other, c.joint,
                             figure(c.expectedMm2));
  else
    fault.text = fmt::format("{} touches {} over {} mm2, where joint {} states {} mm2.", one, other,
                             figure(c.areaMm2), c.joint, figure(c.expectedMm2));
  return fault;
}

FitFault faultOf(const Assembly& assembly, const GapFound& g, const std::string& kind) {
  const std::string one = faceName(assembly, g.a, g.roleA), other = faceName(assembly, g.b, g.roleB);
  return {kind,    g.a,       g.b,  g.roleA,
          g.roleB, g.foundMm, g.at, kind == "not-flush" ? flushText(g, one, other) : gapText(g, one, other)};
}

FitFault faultOf(const Assembly& assembly, const Swing& swing) {
  REQUIRE(swing.strike.has_value());
  const SwingPlace& at = swing.strike->at;
  std::string text = fmt::format(
      "{} strikes when it has turned {} of its {} degrees: {} meets {} round {}", swing.pivot,
      figure(degrees(at.angleRad), 1), figure(degrees(swing.openRad), 1),
      faceName(assembly, at.turns, at.roleTurns), faceName(assembly, at.stands, at.roleStands), place(at.at));
  text += swing.strike->depthMm ? fmt::format(", and would go {} mm into it on its way past.",
                                              figure(*swing.strike->depthMm, 2))
                                : " and is stopped there.";
  if (const auto& bevel = swing.strike->bevel)
    text += fmt::format(" Bevelled so that the arris which strikes loses {} mm, {} clears by {} mm.",
                        figure(bevel->lossMm, 1), faceName(assembly, at.turns, bevel->role),
                        figure(bevel->clearsByMm, 2));
  return {"strike", at.turns,       at.stands, at.roleTurns, at.roleStands, degrees(at.angleRad),
          at.at,    std::move(text)};
}

}  // namespace dryfit
