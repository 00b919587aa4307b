#include "cli/why_report.h"

namespace dryfit::cli {

namespace {

const char* nameOf(WhyAnswer::Kind kind) {
  switch (kind) {
    case WhyAnswer::Kind::Forced:
      return "forced";
    case WhyAnswer::Kind::ByRule:
      return "rule";
    case WhyAnswer::Kind::Either:
      return "either";
    case WhyAnswer::Kind::PartOf:
      return "part of";
    case WhyAnswer::Kind::OneStep:
      return "one step";
    case WhyAnswer::Kind::Unknown:
      return "unknown";
    case WhyAnswer::Kind::NoOrder:
      return "no order";
  }
  return "";
}

const char* nameOf(WhyLink::Kind kind) {
  switch (kind) {
    case WhyLink::Kind::Shape:
      return "shape";
    case WhyLink::Kind::ShutIn:
      return "shut in";
    case WhyLink::Kind::Needs:
      return "needs";
    case WhyLink::Kind::Swing:
      return "swing";
    case WhyLink::Kind::Cut:
      return "cut";
    case WhyLink::Kind::Base:
      return "base";
    case WhyLink::Kind::Unit:
      return "unit";
    case WhyLink::Kind::Rule:
      return "rule";
  }
  return "";
}

Json stopJson(const Assembly& assembly, const WhyStop& stop) {
  const auto id = [&](int body) { return assembly.bodies.at(static_cast<size_t>(body)).id; };
  return {{"way", point(stop.way)}, {"after_mm", number(stop.afterMm)}, {"piece", id(stop.mover)},
          {"face", stop.roleMover}, {"stopped_by", id(stop.by)},        {"stopped_at", stop.roleBy}};
}

Json linkJson(const Assembly& assembly, const WhyLink& link) {
  Json stops = Json::array(), rule = Json();
  for (const WhyStop& stop : link.stops) stops.push_back(stopJson(assembly, stop));
  if (link.rule >= 0) {
    const TradeRule& r = assembly.rules.at(static_cast<size_t>(link.rule));
    rule = {{"name", r.name},
            {"source", textOrNull(r.source)},
            {"confidence", dryfit::nameOf(r.confidence)},
            {"because", r.because}};
  }
  return {{"kind", nameOf(link.kind)}, {"first", link.first},       {"then", link.then},
          {"text", link.text},         {"stops", std::move(stops)}, {"rule", std::move(rule)}};
}

Json stepJson(const OrderOfWork& work, size_t place) {
  return {{"n", place + 1}, {"text", work.steps.at(place).text}};
}

/// The steps of the two, `first` and `then` as in the answer.
Json tried(const std::vector<WhyOrder>& orders) {
  Json out = Json::array();
  for (const WhyOrder& order : orders)
    out.push_back({{"steps", order.work.steps.size()},
                   {"first", stepJson(order.work, order.first)},
                   {"then", stepJson(order.work, order.then)}});
  return out;
}

}  // namespace

Json whyJson(const Assembly& assembly, const std::vector<std::string>& asked, const WhyAnswer& answer) {
  Json chain = Json::array();
  for (const WhyLink& link : answer.chain) chain.push_back(linkJson(assembly, link));
  return {{"schema", "dryfit/why/1"},
          {"asked", asked},
          {"answer", nameOf(answer.kind)},
          {"first", answer.first},
          {"then", answer.then},
          {"swapped", answer.swapped},
          {"text", answer.text},
          {"chain", std::move(chain)},
          {"notes", answer.notes},
          {"orders", tried(answer.orders)},
          {"elsewhere", tried(answer.elsewhere)}};
}

}  // namespace dryfit::cli
