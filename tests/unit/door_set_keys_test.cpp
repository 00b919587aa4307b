// The door set's one table of keys: every row is read, every default is what the leaf has, the manual is what
// the table says.
#include "doorset/door_set_keys.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <string>

#include "doorset/door_set_defaults.h"
#include "doorset/leaf_defaults.h"
#include "doorset/read_door_set.h"
#include "joint/joint_kind.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

using namespace std::string_literals;

const std::vector<DoorSetKey>& keys() {
  static const std::vector<DoorSetKey> all = [] {
    std::vector<DoorSetKey> found = doorSetKeys(keysOf(standardJoints()));
    std::erase_if(found, [](const DoorSetKey& key) { return key.told; });
    return found;
  }();
  return all;
}

Result<GivenDoorSet> readText(const std::string& text) {
  return readGivenDoorSet(text, "test.toml", keysOf(standardJoints()));
}

/// "leaf.rail[1].width" of "leaf.rail[].width".
std::string inFile(std::string path) {
  for (size_t at = path.find("[]"); at != std::string::npos; at = path.find("[]")) path.insert(at + 1, "1");
  return path;
}

bool begins(const std::string& text, const std::string& head) {
  return text.rfind(head, 0) == 0;
}

/// Is the key about the doorway, not the leaf?
bool isOfDoorway(const DoorSetKey& key) {
  if (key.path == "wall.kind" || key.path == "title" || key.path == "unit") return false;
  if (begins(key.path, "timber."))
    return key.path == "timber.grounds" || key.path == "timber.lining" || key.path == "timber.trim";
  return !begins(key.path, "leaf");
}

/// What must stand in a file for a key to be in force, `line` of the key itself in its table.
std::string fileWith(const DoorSetKey& key, const std::string& value) {
  const std::string name = key.path.substr(key.path.rfind('.') + 1);
  const std::string line = value.empty() ? "" : name + " = " + value + "\n";
  std::string title = "title = \"T\"\n";
  if (key.path == "title") return line;
  if (begins(key.path, "wall.stud")) title += "wall.kind = \"stud\"\n";
  if (begins(key.path, "stop")) title += "lining.rebate = \"none\"\n";
  if (!isOfDoorway(key) && key.path != "wall.kind") title += "wall.kind = \"none\"\n";
  const size_t dot = key.path.rfind('.');
  if (dot == std::string::npos) return title + line;
  const std::string table = key.path.substr(0, dot);
  if (table == "wall") return title + (line.empty() ? "" : "wall." + line);
  const std::string rail = "[[leaf.rail]]\n" + (name == "name" ? ""s : "name = \"a\"\n"s);
  if (table == "leaf.rail[]") return title + rail + line;
  for (const char* tenon : {"tenon", "tenon_hanging", "tenon_closing"})
    if (table == "leaf.rail[]."s + tenon) return title + rail + "[leaf.rail." + tenon + "]\n" + line;
  if (table == "leaf.row[]") return title + "[[leaf.row]]\n" + line;
  if (table == "leaf.row[].muntin[]")
    return title + "[[leaf.row]]\n[[leaf.row.muntin]]\n" + (name == "centre" ? ""s : "centre = 300\n"s) +
           line;
  if (begins(table, "lock.")) title += "[lock]\n";
  return title + "[" + table + "]\n" + line;
}

Result<DoorSetSpec> completed(const std::string& text) {
  const auto given = readText(text);
  if (!given) return given.faults();
  return completeDoorSet(given.value());
}

std::string number(double value) {
  return fmt::format("{}", value);
}

struct Value {
  std::string text;
  DoorSetValue read;
};

/// A figure of the doorway that is sound beside all others: a little more than the one in force. What must be
/// as others are stays.
Value nearForce(const DoorSetKey& key) {
  const auto set = completed(fileWith(key, ""));
  if (!set) throw std::runtime_error(toText(set.faults().front()));
  const auto now = key.get(set.value(), {});
  if (!now) throw std::runtime_error(key.path + " is not in force");
  double value = std::get<double>(now->value);
  if (key.path == "lining.packing") value += 10;  // thinner holds no nails
  if (key.path != "lining.head_depth" && key.path != "lining.tongue")
    value += key.path == "hinge.count"           ? 3  // of 4, one would stand over a tenon
             : key.type == DoorSetKeyType::Whole ? 2
                                                 : 0.5;
  return {number(value), value};
}

/// A value that the row allows; for numbers of the leaf the least, for words the last.
Value allowedFor(const DoorSetKey& key) {
  if (key.path == "hinge.places") return {"[1700, 1010, 300]", std::vector{1700.0, 1010.0, 300.0}};
  if (key.path == "hinge.rule")
    return {"\"us-residential\"", std::string("us-residential")};  // clear of tenons
  if (key.path == "hinge.countersunk") return {"true", true};      // false is refused with what it would do
  const bool figure = key.type == DoorSetKeyType::Length || key.type == DoorSetKeyType::Lengths ||
                      key.type == DoorSetKeyType::Whole;
  if (figure && isOfDoorway(key) && key.kind.empty() && key.get) return nearForce(key);
  switch (key.type) {
    case DoorSetKeyType::Length:
      if (key.path.rfind("leaf.moulding.", 0) == 0 && key.kind.empty())
        return {"12", 12.0};  // holds a section
      [[fallthrough]];
    case DoorSetKeyType::Number:
      return {number(key.least), key.least};
    case DoorSetKeyType::Whole:
      return {number(key.least), key.least};
    case DoorSetKeyType::Flag:
      return {"false", false};
    case DoorSetKeyType::Word:
    case DoorSetKeyType::Section:
      return {"\"" + key.words.back() + "\"", key.words.back()};
    case DoorSetKeyType::Species:
      return {"\"Cedar, western red\"", std::string("Cedar, western red")};
    case DoorSetKeyType::Slope:
      return {"\"1:8\"", 1.0 / 8};
    case DoorSetKeyType::Range:
      return {"[9, 10]", std::array{9.0, 10.0}};
    default:
      return {"\"text\"", std::string("text")};
  }
}

class EveryKey : public testing::TestWithParam<size_t> {
 protected:
  const DoorSetKey& key() const { return keys()[GetParam()]; }
};
INSTANTIATE_TEST_SUITE_P(Doorset, EveryKey, testing::Range<size_t>(0, keys().size()), [](const auto& info) {
  std::string name = keys()[info.param].path;
  std::erase_if(name, [](char c) { return c == '[' || c == ']'; });
  std::replace(name.begin(), name.end(), '.', '_');
  return name + (keys()[info.param].type == DoorSetKeyType::Tables ? "_each" : "");
});

TEST_P(EveryKey, IsReadAndNotedWhereItWasGiven) {
  if (key().isTable()) return;
  const Value value = allowedFor(key());
  const auto leaf = readText(fileWith(key(), value.text));
  ASSERT_TRUE(leaf.ok()) << toText(leaf.faults().front());
  EXPECT_EQ(leaf.value().given.count(inFile(key().path)), 1u);
  if (key().kind.empty()) return;
  const auto begins = [&](const char* head) { return key().path.rfind(head, 0) == 0; };
  const GivenLeaf& own = leaf.value().leaf;
  const DoorwaySpec& doorway = leaf.value().doorway.spec;
  const auto& handedOn = begins("leaf.rail[].tenon_h")   ? own.rails.at(0).ends[0]
                         : begins("leaf.rail[].tenon_c") ? own.rails.at(0).ends[1]
                         : begins("leaf.rail[]")         ? own.rails.at(0).joint
                         : begins("leaf.row[]")          ? own.rows.at(0).stub
                         : begins("leaf.moulding")       ? own.moulding.nails
                         : begins("leaf.tenon")          ? own.spec.tenon
                         : begins("grounds")             ? doorway.grounds->nails
                         : begins("lining")              ? doorway.lining.nails
                         : begins("stop")                ? doorway.lining.stop->nails
                         : begins("architrave")          ? doorway.architraves->nails
                         : begins("skirting")            ? doorway.skirtings->nails
                                                         : own.spec.panel;
  ASSERT_EQ(handedOn.size(), 1u);
  const std::string word = key().path.substr(key().path.rfind('.') + 1);  // where two kinds share a list
  EXPECT_TRUE(handedOn[0].key == key().kindKey || handedOn[0].key == word) << handedOn[0].key;
  EXPECT_EQ(handedOn[0].path, inFile(key().path));
}

TEST_P(EveryKey, IsReadBackByItsRow) {
  if (!key().get || key().path.find("[]") != std::string::npos) return;
  const Value value = allowedFor(key());
  const auto leaf = completed(fileWith(key(), value.text));
  ASSERT_TRUE(leaf.ok()) << toText(leaf.faults().front());
  const auto now = key().get(leaf.value(), {});
  ASSERT_TRUE(now.has_value());
  EXPECT_EQ(now->value, value.read);
  if (now->size) {
    EXPECT_EQ(now->size->from, Size::From::Given);
  }
}

TEST_P(EveryKey, IsRefusedBeyondItsBoundsWithTheBounds) {
  const bool bounded = key().type == DoorSetKeyType::Length || key().type == DoorSetKeyType::Number ||
                       key().type == DoorSetKeyType::Whole || key().type == DoorSetKeyType::Lengths;
  if (!bounded) return;
  EXPECT_LT(key().least, key().most);
  for (const double value : {key().least - 1, key().most + 1}) {
    const auto leaf = readText(fileWith(key(), number(value)));
    ASSERT_FALSE(leaf.ok()) << value;
    ASSERT_EQ(leaf.faults().size(), 1u);
    EXPECT_EQ(leaf.faults()[0].subject, inFile(key().path));
    EXPECT_NE(leaf.faults()[0].message.find("the " + key().what + " "), std::string::npos)
        << leaf.faults()[0].message;
    const std::string hint = leaf.faults()[0].hint;
    EXPECT_NE(hint.find(fmt::format("from {} to {}", key().least, key().most)), std::string::npos) << hint;
  }
}

/// What stands in the default column is what the leaf has when nothing is given, with that source.
TEST_P(EveryKey, HasItsDefault) {
  const auto standard = standardValue(key());
  if (!standard || !key().get || key().path.find("[]") != std::string::npos) return;
  const auto leaf = completed(fileWith(key(), key().path == "title" ? "\"T\"" : ""));
  ASSERT_TRUE(leaf.ok()) << toText(leaf.faults().front());
  const auto now = key().get(leaf.value(), {});
  ASSERT_TRUE(now.has_value());
  EXPECT_EQ(now->value, *standard);
  if (now->size) {
    EXPECT_EQ(now->size->from, Size::From::Default);
    EXPECT_EQ(now->size->source, key().source);
  }
}

TEST_P(EveryKey, SaysWhatItIs) {
  EXPECT_FALSE(key().about.empty());
  EXPECT_NE(key().about.back(), '.');
  if (key().isTable()) return;
  EXPECT_FALSE(key().what.empty());
  const bool ofRail = key().path.rfind("leaf.rail[].tenon", 0) == 0;  // as the leaf's own, source and all
  if (!key().standard.empty() && key().path != "unit" && !ofRail) {
    EXPECT_FALSE(key().source.empty());
  }
  EXPECT_EQ(key().standard.empty(), !key().example.empty());
}

TEST(DoorSetKeys, EachStandsInATableAndOnce) {
  std::set<std::string> paths;
  for (const DoorSetKey& key : keys()) {
    const size_t dot = key.path.rfind('.');
    if (dot != std::string::npos) {
      EXPECT_TRUE(paths.count(key.path.substr(0, dot))) << key.path;
    }
    EXPECT_TRUE(paths.insert(key.path).second) << key.path;
  }
  EXPECT_GE(paths.size(), 60u);
}

/// Rules that a row tells in words: 95 for the top rail, 195 for the others, 965 for the middle one's edge.
TEST(DoorSetKeys, RulesInWordsAreTheOnesInForce) {
  const auto given = readText("title = \"T\"\n[[leaf.row]]\nmuntins = 1\n");
  ASSERT_TRUE(given.ok());
  const auto leaf = completeLeaf(given.value().leaf);
  ASSERT_TRUE(leaf.ok());
  const LeafSpec& spec = leaf.value();
  ASSERT_EQ(spec.rails.size(), 3u);
  EXPECT_EQ(spec.rails[0].width.mm, 95);
  EXPECT_EQ(spec.rails[1].width.mm, 195);
  EXPECT_EQ(spec.rails[2].width.mm, 195);
  EXPECT_EQ(spec.rails[0].topEdge.mm, spec.height.mm);
  EXPECT_EQ(spec.rails[1].topEdge.mm, 965);
  EXPECT_EQ(spec.rails[2].topEdge.mm, 195);
  EXPECT_EQ(spec.rows[0].height.mm, 1981 - 95 - 965);
  EXPECT_EQ(spec.rows[1].height.mm, 965 - 195 - 195);
  EXPECT_EQ(spec.rows[0].muntins.at(0).width.mm, 95);
  EXPECT_EQ(spec.hangingStile.mm, 95);
  EXPECT_EQ(spec.panelTimber, spec.timber);
  EXPECT_EQ(spec.mouldingTimber, spec.timber);
}

/// What fills: 1981 of height less rails of 95 and 195 and openings of 900 and 500 leaves 291; and so on.
TEST(DoorSetKeys, WhatFillsTakesWhatTheOthersLeave) {
  const std::string top = "[[leaf.rail]]\nname = \"top\"\n", lock = "[[leaf.rail]]\nname = \"lock\"\n",
                    bottom = "[[leaf.rail]]\nname = \"bottom\"\n";
  auto spec = [](const std::string& text) {
    const auto given = readText("title = \"T\"\n" + text);
    if (!given) throw std::runtime_error(toText(given.faults().front()));
    const auto leaf = completeLeaf(given.value().leaf);
    if (!leaf) throw std::runtime_error(toText(leaf.faults().front()));
    return leaf.value();
  };
  const auto heights = [](const char* a, const char* b) {
    return std::string("[[leaf.row]]\n") + a + "[[leaf.row]]\n" + b;
  };
  const LeafSpec fill =
      spec(top + lock + "width = \"fill\"\n" + bottom + heights("height = 900\n", "height = 500\n"));
  EXPECT_NEAR(fill.rails[1].width.mm, 291, 1e-9);
  EXPECT_EQ(fill.rails[1].width.from, Size::From::Rule);
  EXPECT_NEAR(fill.rails[1].topEdge.mm, 1981 - 95 - 900, 1e-9);
  const LeafSpec bottomFills = spec(top + lock + "width = 150\n" + bottom + "width = \"fill\"\n" +
                                    heights("height = 900\n", "height = 500\n"));
  EXPECT_NEAR(bottomFills.rails[2].width.mm, 1981 - 95 - 900 - 150 - 500, 1e-9);
  EXPECT_NEAR(bottomFills.rails[2].topEdge.mm, bottomFills.rails[2].width.mm, 1e-9);
  // A height left out shares what is left: the second opening has it all.
  const LeafSpec rest = spec(top + lock + bottom + heights("height = 900\n", "height = \"equal\"\n"));
  EXPECT_NEAR(rest.rows[1].height.mm, 1981 - 95 - 900 - 195 - 195, 1e-9);
  EXPECT_EQ(rest.rows[0].height.from, Size::From::Given);
  // The same with no rail named: the height places the middle rail, not its usual 965.
  const LeafSpec usual = spec(heights("height = 900\n", ""));
  EXPECT_NEAR(usual.rails[1].topEdge.mm, 1981 - 95 - 900, 1e-9);
  // Between a placed rail and the top only: 1981 - 965 - 95 = 921 for one opening.
  const LeafSpec placed = spec(top + lock + "top_edge = 965\n" + bottom + heights("height = 921\n", ""));
  EXPECT_NEAR(placed.rows[1].height.mm, 965 - 195 - 195, 1e-9);
  const LeafSpec topFills = spec("[[leaf.rail]]\nname = \"top\"\nwidth = \"fill\"\n" + lock +
                                 "top_edge = 965\n" + bottom + heights("height = 900\n", ""));
  EXPECT_NEAR(topFills.rails[0].width.mm, 1981 - 965 - 900, 1e-9);
}

TEST(DoorSetKeys, TimberByKindOfPiece) {
  auto spec = [](const std::string& text) {
    return completed("title = \"T\"\n[timber]\n" + text).value().leaf;
  };
  const LeafSpec one = spec("leaf = \"Cedar, western red\"\n");
  EXPECT_EQ(one.timber, "Cedar, western red");
  EXPECT_EQ(one.panelTimber, one.timber);
  EXPECT_EQ(one.wedgeTimber, "");  // the joint's own rule
  const LeafSpec two = spec(
      "leaf = { framing = \"white oak\", panels = \"Cedar, western red\", wedges = \"Walnut, black\" }\n");
  EXPECT_EQ(two.timber, "Oak, white, commercial");
  EXPECT_EQ(two.panelTimber, "Cedar, western red");
  EXPECT_EQ(two.wedgeTimber, "Walnut, black");
  EXPECT_EQ(two.mouldingTimber, two.timber);
  const LeafSpec panels = spec("leaf = { panels = \"Cedar, western red\" }\n");
  EXPECT_EQ(panels.timber, "Douglas-fir, coast");
}

TEST(DoorSetKeys, DevelopersHasTheTable) {
  const std::string text = contentOf(DRYFIT_ROOT "/DEVELOPERS.md");
  const std::string begin = "<!-- dryfit keys --markdown: begin -->\n",
                    end = "<!-- dryfit keys --markdown: end -->";
  const size_t from = text.find(begin), to = text.find(end);
  ASSERT_NE(from, std::string::npos);
  ASSERT_NE(to, std::string::npos);
  EXPECT_TRUE(text.substr(from + begin.size(), to - from - begin.size()) == doorSetKeysTable(keys()))
      << "the table in DEVELOPERS.md is not what the keys are: run   dryfit keys --markdown   and put what "
         "it "
         "prints between the two marks";
}

}  // namespace
}  // namespace dryfit
