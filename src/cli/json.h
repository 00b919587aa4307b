// What the commands print as JSON; the shapes are held by assets/schemas. Numbers round-trip, are finite and
// never -0.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/explain.h"
#include "fit/blocks.h"
#include "fit/fit.h"
#include "joint/cut_work.h"
#include "order/order.h"
#include "piece/alike.h"

namespace dryfit::cli {

using Json = nlohmann::ordered_json;

/// A finite number, as a JSON number that reads back the same. Requires: finite.
Json number(double value);
Json point(Vec3 v);
/// The twelve numbers of [R | t], row by row.
Json matrix(const Placement& p);
/// 16 hex digits.
std::string hexOf(std::uint64_t hash);
/// null when empty.
Json textOrNull(const std::string& text);
/// Indented by two, but lists of plain values stay in one line; a line end at the end.
std::string printed(const Json& json);

Json piecesJson(const CutWork& work, const std::vector<Alike>& alikes);
Json fitJson(const Assembly& assembly, const FitReport& report);
Json blocksJson(const Assembly& assembly, const std::vector<BlockRow>& rows);
Json explainJson(const Explanation& explanation);
Json orderJson(const Assembly& assembly, const OrderOfWork& order);
/// One leg of a path, outside to home.
Json legJson(const Leg& leg);
/// How pivots stand: "leaf.opening_deg": 90.
Json poseJson(const Assembly& assembly, const Pose& pose);

}  // namespace dryfit::cli
