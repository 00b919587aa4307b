#include "cli/json.h"

#include <fmt/format.h>

#include <cmath>

namespace dryfit::cli {

namespace {

bool isPlainList(const Json& json) {
  if (!json.is_array()) return false;
  for (const Json& item : json)
    if (item.is_structured()) return false;
  return true;
}

// Text that is not UTF-8 (a file name, say) must not stop the printing.
std::string scalar(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void print(const Json& json, const std::string& margin, std::string& out) {
  if (!json.is_structured() || json.empty()) {
    out += scalar(json);
  } else if (isPlainList(json)) {
    const char* comma = "[";
    for (const Json& item : json) {
      out += comma + scalar(item);
      comma = ", ";
    }
    out += "]";
  } else {
    const std::string inner = margin + "  ";
    const char* comma = "\n";
    out += json.is_object() ? "{" : "[";
    for (const auto& [key, item] : json.items()) {
      out += comma + inner;
      if (json.is_object()) out += scalar(Json(key)) + ": ";
      print(item, inner, out);
      comma = ",\n";
    }
    out += "\n" + margin + (json.is_object() ? "}" : "]");
  }
}

}  // namespace

Json number(double value) {
  REQUIRE(std::isfinite(value));
  return value + 0.0;  // -0 + 0 is 0
}

Json point(Vec3 v) {
  return Json::array({number(v.x), number(v.y), number(v.z)});
}

Json matrix(const Placement& p) {
  Json out = Json::array();
  for (const double value : rows(p)) out.push_back(number(value));
  return out;
}

std::string hexOf(std::uint64_t hash) {
  return fmt::format("{:016x}", hash);
}

Json textOrNull(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

std::string printed(const Json& json) {
  std::string out;
  print(json, "", out);
  return out + "\n";
}

}  // namespace dryfit::cli
