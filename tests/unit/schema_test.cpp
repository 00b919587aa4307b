// Printed JSON against the schemas in assets/schemas, judged by valijson (JSON Schema draft 7).
#include <gtest/gtest.h>

#include "cli/card_report.h"
#include "cli/json.h"
#include "cli/prove.h"
#include "cli/rules_report.h"
#include "cli/try_report.h"
#include "cli/why_report.h"
#include "unit/hand_made_work.h"
#include "unit/schema_judge.h"

namespace dryfit::cli {
namespace {

using Plain = nlohmann::json;

using Judge = SchemaJudge;

Plain printedPlain(const Json& json) {
  return Plain::parse(printed(json));
}

Explanation handMadeExplanation() {
  Explanation out;
  out.title = "Trial";
  out.sizes.resize(3);
  Explained &given = out.sizes[0], &word = out.sizes[1], &range = out.sizes[2];
  given.key = "rail.width";
  given.setBy = {"member[2].section"};
  given.about = "across";
  given.value = 95.0;
  given.unit = "mm";
  given.from = Size::From::Given;
  given.where = {"a.toml", 4, 1};
  given.sizes = {"rail.tenon_width"};
  given.pieces = {"rail"};
  given.moved = {"post"};
  word.key = "rail.fixing";
  word.value = std::string("wedged");
  word.source = "common practice";
  word.follows = {"rail.width"};
  word.alone = "it stands alone";
  range.key = "timber.range";
  range.value = std::array{8.0, 14.0};
  range.unit = "%";
  range.from = Size::From::Rule;
  range.rule = "dry to wet";
  return out;
}

WhyAnswer handMadeWhy() {
  WhyAnswer answer;
  answer.kind = WhyAnswer::Kind::ByRule;
  answer.first = "the post";
  answer.then = "the bar";
  answer.text = "The post goes in before the bar.";
  WhyLink shape, rule;
  shape.first = rule.first = "the post";
  shape.then = rule.then = "the bar";
  shape.text = rule.text = "So it is.";
  shape.stops = {{{0, 0, 1}, 12.5, 0, 1, "face", "edge"}};
  rule.kind = WhyLink::Kind::Rule;
  rule.rule = 0;
  answer.chain = {shape, rule};
  answer.notes = {"And more."};
  answer.orders = {{handMadeOrder(), 0, 1}};
  answer.elsewhere = answer.orders;
  return answer;
}

MakingCard handMadeCard() {
  MakingCard card;
  card.alike = "Make 1.";
  card.measured = "Lengths from the top.";
  card.lines = {{Making::Saw, "Saw it out.", {{"length", 400}}, {"end.high"}}};
  card.cautions = {"Mind your hands."};
  return card;
}

/// One answer with everything in it, which no real one has.
std::vector<TriedMove> handMadeTries() {
  TriedMove tried;
  tried.move = {"rail", {"moves.txt", 2, 1}};
  Try& t = tried.answer;
  t.what.bodies = {1};
  t.step.event = "fit";
  t.step.bodies = {1};
  t.step.text = "Put it in.";
  t.step.moves = {{{1}, -1, {Leg{Leg::Kind::Straight, {-1, 0, 0}, 20, {}, 0}}}};
  t.before = t.after = {t.step};
  t.missing.emplace_back();
  t.missing[0].bodies.push_back(0);
  Stop strikes;
  strikes.kind = Stop::Kind::Strikes;
  strikes.mover = 1;
  strikes.atRad = 0.5;
  t.stops = {{Stop::Kind::Meets, 1, 0, "side", "edge.inner", {0, 0, 1}, 1.5, 0}, strikes};
  t.lockedOut.emplace_back();
  t.lockedOut[0].what.bodies.push_back(2);
  t.lockedOut[0].stops = t.stops;
  t.limit = "ways";
  t.text = "It goes.";
  return {tried};
}

Plain handMade(const std::string& name) {
  CutWork work = handMadeWork();
  if (name == "card") return printedPlain(cardJson(work.pieces[0], handMadeCard()));
  if (name == "rules")
    return printedPlain(rulesJson(work.assembly, {{"post first",
                                                   "A book",
                                                   "It is heavy.",
                                                   Confidence::FromMemory,
                                                   {{0, {"the post"}, {"the bar"}, 1, 0, true}}}}));
  if (name == "why") {
    work.assembly.rules.push_back({"post first", "", {}, {}, {}, "It is heavy.", {}});
    return printedPlain(whyJson(work.assembly, {"post", "bar"}, handMadeWhy()));
  }
  if (name == "pieces")
    return printedPlain(piecesJson(work, {{"000000000000000a", 1, {}},
                                          {"000000000000000b", 1, 2},
                                          {"000000000000000c", 1, 1},
                                          {"000000000000000d", 1, {}}}));
  if (name == "fit") return printedPlain(fitJson(work.assembly, handMadeFit()));
  if (name == "try") {
    Assembly assembly = work.assembly;
    assembly.rules = {{"first things", "A book", {}, {}, {}, "It is so.", {}, Confidence::FromMemory}};
    std::vector<TriedMove> tried = handMadeTries();
    tried[0].answer.rule = 0;
    return printedPlain(triesJson(assembly, tried, {"post"}));
  }
  if (name == "explain") return printedPlain(explainJson(handMadeExplanation()));
  if (name == "blocks") return printedPlain(blocksJson(work.assembly, handMadeBlocks()));
  if (name == "proof") {
    Proof proof;
    proof.faults = {{ProofFault::Kind::Passes, 2, {1, 0}, "bar would pass through post"},
                    {ProofFault::Kind::OutOfTurn, 0, {}, "left open"}};
    return printedPlain(proofJson(work.assembly, proof));
  }
  return printedPlain(orderJson(work.assembly, handMadeOrder()));
}

/// Pointers to every object in a document, itself included.
void objectsIn(const Plain& json, const Plain::json_pointer& at, std::vector<Plain::json_pointer>& out) {
  if (json.is_object()) {
    out.push_back(at);
    for (const auto& [key, item] : json.items()) objectsIn(item, at / key, out);
  } else if (json.is_array()) {
    for (size_t i = 0; i < json.size(); ++i) objectsIn(json[i], at / i, out);
  }
}

class Schemas : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Schemas, Schemas,
                         testing::Values("pieces", "fit", "blocks", "order", "explain", "proof", "why",
                                         "card", "try", "rules"));

TEST_P(Schemas, AcceptWhatIsPrinted) {
  std::string why;
  EXPECT_TRUE(Judge(GetParam()).accepts(handMade(GetParam()), &why)) << why;
}

TEST_P(Schemas, MissEveryKeyThatIsTakenOut) {
  const Judge judge(GetParam());
  const Plain whole = handMade(GetParam());
  std::vector<Plain::json_pointer> objects;
  objectsIn(whole, Plain::json_pointer(), objects);
  ASSERT_GE(objects.size(), 3u);
  for (const auto& at : objects)
    for (const auto& [key, item] : whole[at].items()) {
      Plain broken = whole;
      broken[at].erase(key);
      EXPECT_FALSE(judge.accepts(broken)) << "without " << (at / key).to_string();
    }
}

TEST_P(Schemas, RefuseKeysNobodyKnowsAndValuesOfTheWrongKind) {
  const Judge judge(GetParam());
  const Plain whole = handMade(GetParam());
  std::vector<Plain::json_pointer> objects;
  objectsIn(whole, Plain::json_pointer(), objects);
  for (const auto& at : objects) {
    Plain broken = whole;
    broken[at]["surprise"] = 1;
    EXPECT_FALSE(judge.accepts(broken)) << "a new key in " << at.to_string();
    for (const auto& [key, item] : whole[at].items()) {
      broken = whole;
      broken[at][key] = Plain{{"not", "this"}};
      EXPECT_FALSE(judge.accepts(broken)) << "an object for " << (at / key).to_string();
    }
  }
}

TEST_P(Schemas, HoldTheirNameAndNumber) {
  Plain broken = handMade(GetParam());
  EXPECT_EQ(broken["schema"], "dryfit/" + GetParam() + "/1");
  broken["schema"] = "dryfit/" + GetParam() + "/2";
  EXPECT_FALSE(Judge(GetParam()).accepts(broken));
}

struct Wrong {
  std::string schema, at, value;
};
class WrongValue : public testing::TestWithParam<Wrong> {};
TEST_P(WrongValue, IsRefused) {
  Plain broken = handMade(GetParam().schema);
  broken[Plain::json_pointer(GetParam().at)] = Plain::parse(GetParam().value);
  EXPECT_FALSE(Judge(GetParam().schema).accepts(broken)) << broken.dump();
}
INSTANTIATE_TEST_SUITE_P(
    Schemas, WrongValue,
    testing::Values(
        Wrong{"pieces", "/pieces/0/recipe", "\"FEDCBA9876543210\""},
        Wrong{"pieces", "/pieces/0/recipe", "\"abc\""}, Wrong{"pieces", "/pieces/0/size_mm", "[1, 2]"},
        Wrong{"pieces", "/pieces/0/size_mm", "[1, 2, 0]"}, Wrong{"pieces", "/pieces/0/placement", "[1]"},
        Wrong{"pieces", "/pieces/0/states", "[]"}, Wrong{"fit", "/faults/0/kind", "\"ugly\""},
        Wrong{"fit", "/stages/0/overlaps/0/volume_mm3", "-1"},
        Wrong{"blocks", "/pairs/0/direction", "[2, 0, 0]"}, Wrong{"order", "/steps/0/event", "\"dance\""},
        Wrong{"try", "/answers/0/answer", "\"perhaps\""}, Wrong{"try", "/answers/0/stops/0/gap_mm", "-1"},
        Wrong{"try", "/answers/0/line", "0"}, Wrong{"try", "/answers/0/stops/0/direction", "[2, 0, 0]"},
        Wrong{"order", "/steps/0/n", "0"}, Wrong{"proof", "/faults/0/kind", "\"odd\""},
        Wrong{"proof", "/faults/0/step", "0"}, Wrong{"explain", "/sizes/0/from", "\"guessed\""},
        Wrong{"explain", "/sizes/0/unit", "\"cm\""}, Wrong{"explain", "/sizes/0/line", "0"},
        Wrong{"explain", "/sizes/2/value", "[1, true]"}, Wrong{"why", "/answer", "\"perhaps\""},
        Wrong{"why", "/chain/0/kind", "\"magic\""}, Wrong{"why", "/chain/1/rule/confidence", "\"sure\""},
        Wrong{"why", "/chain/1/rule/source", "\"\""}, Wrong{"try", "/answers/0/rule/confidence", "\"sure\""},
        Wrong{"why", "/asked", "[\"a\"]"}, Wrong{"why", "/chain/0/stops/0/after_mm", "-1"},
        Wrong{"card", "/lines/0/when", "\"never\""}, Wrong{"rules", "/rules/0/confidence", "\"sure\""},
        Wrong{"rules", "/rules/0/benches/0/orders", "0"}, Wrong{"rules", "/rules/0/benches/0/first", "[]"},
        Wrong{"order", "/steps/1/moves/0/legs/0/kind", "\"straight\""}));

TEST(OrderSchema, TakesAPose) {
  Plain order = handMade("order");
  order["steps"][1]["pose"] = {{"leaf.opening_deg", 90}};
  EXPECT_TRUE(Judge("order").accepts(order));
  order["steps"][1]["pose"] = {{"leaf.mood", 90}};
  EXPECT_FALSE(Judge("order").accepts(order));
}

}  // namespace
}  // namespace dryfit::cli
