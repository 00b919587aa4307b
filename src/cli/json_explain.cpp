#include "cli/json.h"

namespace dryfit::cli {

namespace {

Json valueJson(const DoorSetValue& value) {
  if (const auto* n = std::get_if<double>(&value)) return number(*n);
  if (const auto* flag = std::get_if<bool>(&value)) return *flag;
  if (const auto* word = std::get_if<std::string>(&value)) return *word;
  if (std::holds_alternative<ListedSection>(value)) return "a path of its own";
  if (const auto* list = std::get_if<std::vector<double>>(&value)) {
    Json all = Json::array();
    for (const double n : *list) all.push_back(number(n));
    return all;
  }
  const auto& ends = std::get<std::array<double, 2>>(value);
  return Json::array({number(ends[0]), number(ends[1])});
}

const char* fromWord(Size::From from) {
  return from == Size::From::Given ? "given" : from == Size::From::Rule ? "rule" : "default";
}

Json sizeJson(const Explained& size) {
  const bool placed = size.where.line > 0;
  return {{"key", size.key},
          {"set_by", size.setBy},
          {"about", textOrNull(size.about)},
          {"value", valueJson(size.value)},
          {"unit", textOrNull(size.unit)},
          {"from", fromWord(size.from)},
          {"rule", textOrNull(size.rule)},
          {"source", textOrNull(size.source)},
          {"line", placed ? Json(size.where.line) : Json()},
          {"sizes", size.sizes},
          {"pieces", size.pieces},
          {"moved", size.moved},
          {"follows", size.follows},
          {"alone", textOrNull(size.alone)}};
}

}  // namespace

Json explainJson(const Explanation& explanation) {
  Json sizes = Json::array();
  for (const Explained& size : explanation.sizes) sizes.push_back(sizeJson(size));
  return {{"schema", "dryfit/explain/1"},
          {"title", explanation.title},
          {"lengths", explanation.lengths == LengthUnit::Inch ? "in" : "mm"},
          {"sizes", std::move(sizes)}};
}

}  // namespace dryfit::cli
