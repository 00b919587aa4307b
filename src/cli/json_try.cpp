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

const char* nameOf(Stop::Kind kind) {
  switch (kind) {
    case Stop::Kind::Meets:
      return "meets";
    case Stop::Kind::Strikes:
      return "strikes";
    case Stop::Kind::InWaste:
      return "not-yet-cut";
  }
  return "";
}

Json stopJson(const Assembly& assembly, const Stop& s) {
  const bool meets = s.kind == Stop::Kind::Meets;
  return {{"kind", nameOf(s.kind)},
          {"piece", idOf(assembly, s.mover)},
          {"by", idOf(assembly, s.stander)},
          {"role", textOrNull(s.roleMover)},
          {"by_role", textOrNull(s.roleStander)},
          {"direction", meets ? point(s.wayHome) : Json()},
          {"gap_mm", meets ? number(s.gapMm) : Json()},
          {"at_deg", s.kind == Stop::Kind::Strikes ? number(s.atRad * 180 / std::numbers::pi) : Json()}};
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
  out["pose"] = poseJson(assembly, step.pose);
  out["text"] = step.text;
  return out;
}

Json allDone(const Assembly& assembly, const std::vector<Step>& steps) {
  Json out = Json::array();
  for (const Step& step : steps) out.push_back(doneJson(assembly, step));
  return out;
}

Json ruleJson(const Assembly& assembly, const Try& t) {
  if (t.rule < 0) return {};
  const TradeRule& rule = assembly.rules.at(static_cast<size_t>(t.rule));
  return {{"name", rule.name},
          {"source", textOrNull(rule.source)},
          {"confidence", dryfit::nameOf(rule.confidence)},
          {"because", rule.because},
          {"by_shape", dryfit::nameOf(t.byShape)}};
}

Json answerJson(const Assembly& assembly, const TriedMove& tried) {
  const Try& t = tried.answer;
  Json missing = Json::array(), lockedOut = Json::array();
  for (const TryThing& m : t.missing) missing.push_back(thingJson(assembly, m));
  for (const LockedOut& l : t.lockedOut)
    lockedOut.push_back({{"pieces", thingJson(assembly, l.what)}, {"stops", stopsJson(assembly, l.stops)}});
  return {{"line", tried.move.where.line},
          {"move", tried.move.name},
          {"pieces", thingJson(assembly, t.what)},
          {"answer", dryfit::nameOf(t.verdict)},
          {"first", allDone(assembly, t.before)},
          {"step", t.verdict == Verdict::Goes ? doneJson(assembly, t.step) : Json()},
          {"due", allDone(assembly, t.after)},
          {"missing", std::move(missing)},
          {"rule", ruleJson(assembly, t)},
          {"stops", stopsJson(assembly, t.stops)},
          {"locked_out", std::move(lockedOut)},
          {"limit", textOrNull(t.limit)},
          {"text", t.text}};
}

}  // namespace

Json triesJson(const Assembly& assembly, const std::vector<TriedMove>& tried,
               const std::vector<std::string>& left) {
  Json answers = Json::array();
  for (const TriedMove& t : tried) answers.push_back(answerJson(assembly, t));
  return {{"schema", "dryfit/try/1"}, {"answers", std::move(answers)}, {"left", left}};
}

}  // namespace dryfit::cli
