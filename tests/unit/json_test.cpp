// The JSON printers, on values made by hand; read back by the JSON library, an outside reader.
#include "cli/json.h"

#include <gtest/gtest.h>

#include <numbers>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <random>

#include "unit/hand_made_work.h"

namespace dryfit::cli {
namespace {

std::vector<Alike> handMadeAlikes() {
  return {{"000000000000000a", 1, {}},
          {"000000000000000b", 1, 2},
          {"000000000000000c", 1, 1},
          {"000000000000000d", 1, {}}};
}

Json reread(const Json& json) {
  return Json::parse(printed(json));
}

TEST(Json, NumbersReadBackTheSame) {
  std::mt19937_64 random(20261125);
  for (int i = 0; i < 10000; ++i) {
    const double value = std::ldexp(static_cast<double>(random()), static_cast<int>(random() % 100) - 80);
    EXPECT_EQ(std::strtod(printed(number(value)).c_str(), nullptr), value);
  }
  for (const double value : {0.1, 1.0 / 3, 1e-300, 1.7976931348623157e308, 4.9406564584124654e-324})
    EXPECT_EQ(std::strtod(printed(number(value)).c_str(), nullptr), value);
}

TEST(Json, ThereIsNoMinusZeroAndNothingBeyondNumbers) {
  EXPECT_EQ(printed(number(-0.0)), "0.0\n");
  EXPECT_EQ(printed(point({-0.0, 1, -2})), "[0.0, 1.0, -2.0]\n");
  EXPECT_THROW(number(std::nan("")), ContractViolation);
  EXPECT_THROW(number(std::numeric_limits<double>::infinity()), ContractViolation);
}

TEST(Json, TextIsEscapedAndBadBytesDoNotStopIt) {
  const std::string awkward = "a \"b\" \\ \n \t \x01 \xc3\x97";
  EXPECT_EQ(Json::parse(printed(Json{{"k", awkward}}))["k"], awkward);
  EXPECT_TRUE(Json::parse(printed(Json("\xff\xfe"))).is_string());
}

TEST(Json, ListsOfPlainValuesStayInOneLine) {
  const Json json = {{"a", {1, 2}}, {"b", Json::array({Json{{"c", nullptr}}})}, {"e", Json::array()}};
  EXPECT_EQ(printed(json),
            "{\n  \"a\": [1, 2],\n  \"b\": [\n    {\n      \"c\": null\n    }\n  ],\n  \"e\": []\n}\n");
}

TEST(Json, HashesAreSixteenDigits) {
  EXPECT_EQ(hexOf(0), "0000000000000000");
  EXPECT_EQ(hexOf(0xfedcba9876543210), "fedcba9876543210");
}

TEST(PiecesJson, TellsEachPieceInItsLastState) {
  const Json pieces = reread(piecesJson(handMadeWork(), handMadeAlikes()));
  EXPECT_EQ(pieces["schema"], "dryfit/pieces/1");
  ASSERT_EQ(pieces["pieces"].size(), 4u);
  const Json& post = pieces["pieces"][0];
  EXPECT_EQ(post["id"], "post");
  EXPECT_EQ(post["unit"], "whole");
  EXPECT_EQ(post["recipe"], "fedcba9876543210");
  EXPECT_EQ(post["size_mm"], Json::parse("[400, 95, 44]"));
  EXPECT_EQ(post["blank_mm"], Json::parse("[410, 95, 44]"));
  // 400 x 95 x 44 mm3 at 500 kg/m3; sums of a few products, so within some roundings.
  EXPECT_NEAR(post["volume_mm3"].get<double>(), 1672000, 1e-6);
  EXPECT_NEAR(post["mass_kg"].get<double>(), 0.836, 1e-12);
  EXPECT_EQ(post["faces"], 6);
  EXPECT_TRUE(post["handed_with"].is_null());
  ASSERT_EQ(post["states"].size(), 2u);
  EXPECT_EQ(post["states"][0]["name"], "sawn");
  EXPECT_EQ(post["states"][0]["size_mm"][0], 410);
}

TEST(PiecesJson, PlacementsAreTheMatrixByRows) {
  const Json pieces = reread(piecesJson(handMadeWork(), handMadeAlikes()));
  // A quarter turn about y takes x to -z and z to x.
  const std::vector<double> want = {0, 0, 1, 150, 0, 1, 0, 0, -1, 0, 0, 1.0 / 3};
  EXPECT_EQ(pieces["pieces"][1]["placement"].get<std::vector<double>>(), want);
  EXPECT_EQ(printed(piecesJson(handMadeWork(), handMadeAlikes())).find("-0.0"), std::string::npos);
}

TEST(PiecesJson, HandedPiecesNameEachOtherAndFormedOnesHaveNoBlank) {
  const Json pieces = reread(piecesJson(handMadeWork(), handMadeAlikes()));
  EXPECT_EQ(pieces["pieces"][1]["handed_with"], "peg");
  EXPECT_EQ(pieces["pieces"][2]["handed_with"], "bar");
  EXPECT_EQ(pieces["pieces"][2]["blank_mm"], Json::parse("[100, 10, 10]"));
  EXPECT_TRUE(pieces["pieces"][3]["blank_mm"].is_null());
}

TEST(FitJson, TellsWhatWasFoundBesideWhatWasStated) {
  const Json fit = reread(fitJson(handMadeWork().assembly, handMadeFit()));
  const Json& stage = fit["stages"][0];
  EXPECT_EQ(stage["at"], "whole");
  EXPECT_EQ(stage["overlaps"][0]["volume_mm3"], 12.5);
  EXPECT_EQ(stage["contacts"][0]["joint"], "bar+post");
  EXPECT_TRUE(stage["contacts"][1]["joint"].is_null());
  EXPECT_EQ(stage["gaps"][0]["found_mm"], 1.998);
  EXPECT_TRUE(stage["gaps"][1]["found_mm"].is_null());
  EXPECT_EQ(fit["faults"][1]["kind"], "unexplained-contact");
  EXPECT_EQ(fit["faults"][1]["b"], "floor");
}

TEST(BlocksJson, NeverMeetingIsNull) {
  const Json blocks = reread(blocksJson(handMadeWork().assembly, handMadeBlocks()));
  EXPECT_EQ(blocks["pairs"][0]["blocked"], true);
  EXPECT_EQ(blocks["pairs"][0]["gap_mm"], 0.1);
  EXPECT_EQ(blocks["pairs"][0]["direction"], Json::parse("[-1, 0, 0]"));
  EXPECT_EQ(blocks["pairs"][1]["blocked"], false);
  EXPECT_TRUE(blocks["pairs"][1]["gap_mm"].is_null());
  EXPECT_TRUE(blocks["pairs"][1]["role_a"].is_null());
}

TEST(OrderJson, AStepNamesThePiecesItOnlyChangesToo) {
  Step drive;  // the pin comes, the post is drawn up
  drive.event = "drive";
  drive.text = "Drive the pin.";
  drive.bodies = {2};
  drive.changes = {{0, 0}};
  drive.rule = "pin after the frame is up";
  const Json order = reread(orderJson(handMadeWork().assembly, OrderOfWork{{drive}}));
  EXPECT_EQ(order["steps"][0]["pieces"], Json::parse(R"(["peg", "post"])"));
  EXPECT_EQ(order["steps"][0]["states"][0]["piece"], "post");
  EXPECT_EQ(order["steps"][0]["rule"], "pin after the frame is up");
}

TEST(OrderJson, TellsUnitsStepsAndLegs) {
  const Json order = reread(orderJson(handMadeWork().assembly, handMadeOrder()));
  EXPECT_EQ(order["stages"], Json::parse(R"(["Framing", "Pegging"])"));
  EXPECT_TRUE(order["units"][0]["parent"].is_null());
  EXPECT_EQ(order["units"][0]["pieces"], Json::parse(R"(["post", "bar", "floor"])"));
  EXPECT_EQ(order["units"][1]["parent"], "whole");
  ASSERT_EQ(order["steps"].size(), 7u);
  EXPECT_EQ(order["steps"][0]["n"], 1);
  EXPECT_EQ(order["steps"][0]["moves"], Json::array());
  const Json& legs = order["steps"][1]["moves"][0]["legs"];
  EXPECT_EQ(legs[0]["kind"], "turn");
  EXPECT_EQ(legs[0]["angle_deg"], 90.0);
  EXPECT_EQ(legs[1]["travel_mm"], 95.0);
  EXPECT_EQ(order["steps"][2]["moves"][0]["pieces"], Json::parse(R"(["pegs"])"));
  EXPECT_EQ(order["steps"][3]["moves"][0]["legs"][0]["angle_deg"], 1800.0);
  EXPECT_EQ(order["steps"][4]["bonds"], Json::parse(R"([{"kind": "glue", "between": ["post", "bar"]}])"));
  EXPECT_EQ(order["steps"][5]["states"],
            Json::parse(R"([{"piece": "post", "from": "sawn", "to": "horns off"}])"));
  EXPECT_FALSE(order["steps"][0].contains("pose"));
}

TEST(OrderJson, TellsPivotsAndPosesByTheirOpening) {
  CutWork work = handMadeWork();
  // It opens against the right-hand rule about +Z: told about -Z.
  work.assembly.pivots = {{"bar", {1, 2, 3}, {0, 0, 1}, -std::numbers::pi / 2, {1}}};
  Step open, shut;
  open.event = "check";
  open.text = "Look.";
  open.pose = {{0, -std::numbers::pi / 2}};
  shut.event = "turn";
  shut.text = "Swing it shut.";
  shut.pose = {{0, 0}};
  const Json order = reread(orderJson(work.assembly, OrderOfWork{{open, shut}}));
  EXPECT_EQ(order["pivots"],
            Json::parse(R"([{"name": "bar", "axis": [0.0, 0.0, -1.0], "through": [1.0, 2.0, 3.0],
                                              "full_opening_deg": 90.0, "pieces": ["bar"]}])"));
  EXPECT_EQ(order["steps"][0]["pose"], Json::parse(R"({"bar.opening_deg": 90.0})"));
  EXPECT_EQ(order["steps"][1]["pose"], Json::parse(R"({"bar.opening_deg": 0.0})"));
}

}  // namespace
}  // namespace dryfit::cli
