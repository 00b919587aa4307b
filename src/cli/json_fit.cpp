#include <cmath>
#include <numbers>

#include "cli/json.h"

namespace dryfit::cli {

namespace {

double degrees(double rad) {
  return rad * 180 / std::numbers::pi;
}

const std::string& idOf(const Assembly& assembly, int body) {
  return assembly.bodies.at(static_cast<size_t>(body)).id;
}

Json overlapJson(const Assembly& assembly, const Overlap& o) {
  return {{"a", idOf(assembly, o.a)},
          {"b", idOf(assembly, o.b)},
          {"volume_mm3", number(o.volumeMm3)},
          {"at", point(o.at)}};
}

Json contactJson(const Assembly& assembly, const Contact& c) {
  return {
      {"a", idOf(assembly, c.a)},    {"b", idOf(assembly, c.b)},      {"role_a", c.roleA},
      {"role_b", c.roleB},           {"area_mm2", number(c.areaMm2)}, {"expected_mm2", number(c.expectedMm2)},
      {"joint", textOrNull(c.joint)}};
}

Json gapJson(const GapFound& g) {
  return {{"joint", g.joint},
          {"what", g.what},
          {"stated_mm", number(g.statedMm)},
          {"found_mm", g.found ? number(g.foundMm) : Json()}};
}

Json faultJson(const Assembly& assembly, const FitFault& f) {
  return {{"kind", f.kind},
          {"a", idOf(assembly, f.a)},
          {"b", idOf(assembly, f.b)},
          {"role_a", textOrNull(f.roleA)},
          {"role_b", textOrNull(f.roleB)},
          {"figure", number(f.figure)},
          {"at", point(f.at)},
          {"text", f.text}};
}

Json placeJson(const Assembly& assembly, const SwingPlace& p) {
  return {{"a", idOf(assembly, p.turns)},
          {"b", idOf(assembly, p.stands)},
          {"role_a", textOrNull(p.roleTurns)},
          {"role_b", textOrNull(p.roleStands)},
          {"distance_mm", number(p.mm)},
          {"angle_deg", number(degrees(p.angleRad))},
          {"at", point(p.at)}};
}

Json strikeJson(const Assembly& assembly, const SwingStrike& s) {
  const Json bevel = s.bevel ? Json{{"role", s.bevel->role},
                                    {"loss_mm", number(s.bevel->lossMm)},
                                    {"clears_by_mm", number(s.bevel->clearsByMm)}}
                             : Json();
  return {{"begins", placeJson(assembly, s.at)},
          {"depth_mm", s.depthMm ? number(*s.depthMm) : Json()},
          {"bevel", bevel}};
}

Json swingJson(const Assembly& assembly, const Swing& s) {
  return {{"pivot", s.pivot},
          {"opening_deg", number(degrees(s.openRad))},
          {"nearest", s.nearest ? placeJson(assembly, *s.nearest) : Json()},
          {"strike", s.strike ? strikeJson(assembly, *s.strike) : Json()},
          {"stop", s.stop ? placeJson(assembly, *s.stop) : Json()},
          {"passage_mm", s.passageMm ? number(*s.passageMm) : Json()}};
}

Json stageJson(const Assembly& assembly, const FitStage& stage) {
  Json overlaps = Json::array(), contacts = Json::array(), gaps = Json::array();
  for (const Overlap& o : stage.overlaps) overlaps.push_back(overlapJson(assembly, o));
  for (const Contact& c : stage.contacts) contacts.push_back(contactJson(assembly, c));
  for (const GapFound& g : stage.gaps) gaps.push_back(gapJson(g));
  return {{"at", stage.at},
          {"overlaps", std::move(overlaps)},
          {"contacts", std::move(contacts)},
          {"gaps", std::move(gaps)}};
}

}  // namespace

Json fitJson(const Assembly& assembly, const FitReport& report) {
  Json stages = Json::array(), faults = Json::array(), swings = Json::array();
  for (const Swing& swing : report.swings) swings.push_back(swingJson(assembly, swing));
  for (const FitStage& stage : report.stages) stages.push_back(stageJson(assembly, stage));
  for (const FitFault& fault : report.faults) faults.push_back(faultJson(assembly, fault));
  return {{"schema", "dryfit/fit/1"},
          {"stages", std::move(stages)},
          {"swing", std::move(swings)},
          {"faults", std::move(faults)}};
}

Json blocksJson(const Assembly& assembly, const std::vector<BlockRow>& rows) {
  Json pairs = Json::array();
  for (const BlockRow& row : rows)
    pairs.push_back({{"a", idOf(assembly, row.a)},
                     {"b", idOf(assembly, row.b)},
                     {"direction", point(row.way)},
                     {"blocked", row.what.blocked()},
                     // JSON has no infinity: they never meet.
                     {"gap_mm", std::isfinite(row.what.gapMm) ? number(row.what.gapMm) : Json()},
                     {"free_after_mm", number(row.what.freeAfterMm)},
                     {"role_a", textOrNull(row.what.roleA)},
                     {"role_b", textOrNull(row.what.roleB)}});
  return {{"schema", "dryfit/blocks/1"}, {"pairs", std::move(pairs)}};
}

}  // namespace dryfit::cli
