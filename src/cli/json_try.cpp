#include <numbers>

#include "cli/json.h"
#include "cli/try_report.h"

namespace dryfit::cli {

namespace {

const std::string& idOf(const Assembly& assembly, int body) {
  return assembly.bodies.at(static_cast<size_t>(body)).id;
}

Json idsOf(const Assembly& assembly, const std::vector<int>& bodies) {
  Json out = Json::array();
  for (const int body : bodies) out.push_back(idOf(assembly, body));
  return out;
}

/// A unit by its name, else ids.
Json thingJson(const Assembly& assembly, const TryThing& thing) {
  if (thing.unit >= 0) return Json::array({assembly.units.at(static_cast<size_t>(thing.unit)).name});
  return idsOf(assembly, thing.bodies);
}

Json stopJson(const Assembly& assembly, const Stop& s) {
  Json out = {{"kind",
               s.kind == Stop::Kind::Meets     ? "meets"
               : s.kind == Stop::Kind::Strikes ? "strikes"
                                               : "not-yet-cut"},
              {"piece", idOf(assembly, s.mover)},
              {"by", idOf(assembly, s.stander)}};
  if (s.kind == Stop::Kind::Meets) {
    out["role"] = s.roleMover;
    out["by_role"] = s.roleStander;
    out["direction"] = point(s.wayHome);
    out["gap_mm"] = number(s.gapMm);
  }
  if (s.kind == Stop::Kind::Strikes) out["at_deg"] = number(s.atRad * 180 / std::numbers::pi);
  return out;
}

Json stopsJson(const Assembly& assembly, const std::vector<Stop>& stops) {
  Json out = Json::array();
  for (const Stop& s : stops) out.push_back(stopJson(assembly, s));
  return out;
}

Json doneJson(const Assembly& assembly, const Step& step) {
  Json out = {{"unit", assembly.units.at(static_cast<size_t>(step.unit)).name},
              {"event", step.event},
              {"pieces", idsOf(assembly, step.bodies)}};
  Json legs = Json::array();
  for (const Move& move : step.moves)
    for (const Leg& leg : move.legs) legs.push_back(legJson(leg));
  out["legs"] = std::move(legs);
  if (!step.pose.empty()) out["pose"] = poseJson(assembly, step.pose);
  out["text"] = step.text;
  return out;
}

Json allDone(const Assembly& assembly, const std::vector<Step>& steps) {
  Json out = Json::array();
  for (const Step& step : steps) out.push_back(doneJson(assembly, step));
  return out;
}

Json answerJson(const Assembly& assembly, const TriedMove& tried) {
  const Try& t = tried.answer;
  Json out = {{"line", tried.move.where.line},
              {"move", tried.move.name},
              {"pieces", thingJson(assembly, t.what)},
              {"answer", nameOf(t.verdict)}};
  if (t.verdict == Verdict::Goes) {
    out["first"] = allDone(assembly, t.before);
    out["step"] = doneJson(assembly, t.step);
    out["due"] = allDone(assembly, t.after);
  }
  if (!t.missing.empty()) {
    out["missing"] = Json::array();
    for (const TryThing& m : t.missing) out["missing"].push_back(thingJson(assembly, m));
  }
  if (t.verdict == Verdict::Rule && t.rule >= 0) {
    const TradeRule& rule = assembly.rules.at(static_cast<size_t>(t.rule));
    out["rule"] = {{"name", rule.name}, {"source", rule.source}, {"because", rule.because}};
    out["by_shape"] = nameOf(t.byShape);
  }
  if (!t.stops.empty()) out["stops"] = stopsJson(assembly, t.stops);
  if (!t.lockedOut.empty()) {
    out["locked_out"] = Json::array();
    for (const LockedOut& l : t.lockedOut)
      out["locked_out"].push_back(
          {{"pieces", thingJson(assembly, l.what)}, {"stops", stopsJson(assembly, l.stops)}});
  }
  if (!t.limit.empty()) out["limit"] = t.limit;
  out["text"] = t.text;
  return out;
}

}  // namespace

Json triesJson(const Assembly& assembly, const std::vector<TriedMove>& tried,
               const std::vector<std::string>& left) {
  Json answers = Json::array();
  for (const TriedMove& t : tried) answers.push_back(answerJson(assembly, t));
  return {{"schema", "dryfit/try/1"}, {"answers", std::move(answers)}, {"left", left}};
}

}  // namespace dryfit::cli
