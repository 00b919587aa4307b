// The shipped door sets' leaves: as many pieces of each kind as counted here by hand, alike as they should
// be, and on the bench cleaned off before anything is planted, the horns still on at its end.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "fit/fit.h"
#include "order/order.h"
#include "piece/alike.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-6;  // plain sums of given sizes

/// Sizes of the groups of pieces that are alike, smallest first, by kind of piece.
using Groups = std::map<std::string, std::vector<int>>;

struct Promise {
  std::string name;
  double height, horns;  ///< mm
  Groups alike;
  std::vector<std::string> rules;  ///< named in its order of work
};

void PrintTo(const Promise& promise, std::ostream* out) {
  *out << promise.name;
}

const std::string kPlanted = "plant on finished work";

// By hand. Every stile and rail that stands alone in its sizes or joints is a group of one. A leaf whose
// closing edge is square has two stiles alike. Mouldings: those along rails, then those along uprights, by
// row; on one face or both.
const std::vector<Promise> kPromises{
    {"oar-store",
     2040,
     40,
     {{"stile", {2}},
      {"rail", {1, 1, 1}},
      {"panel", {1, 1}},
      {"moulding", {4, 4, 8}},  // upright: two a face in each row; along rails: the same width in both rows
      {"wedge", {20}}},         // two each side of 1 + 2 + 2 tenons, stiles of one width
     {"outer rails' wedges first", kPlanted, "wedge after cramping and squaring"}},
    {"rigging-loft",
     1981,
     40,
     {{"stile", {1, 1}},  // the closing one wider, and bevelled
      {"rail", {1, 1, 1}},
      {"muntin", {1, 1}},
      {"panel", {2, 2}},
      {"moulding", {4, 4, 8}},  // on the back only; four panels
      {"pin", {10}}},           // one each side of 1 + 2 + 2 tenons
     {"pin after the frame is up", kPlanted}},
    {"boat-hall",
     96 * 25.4,
     2 * 25.4,
     {{"stile", {2}},
      {"rail", {1, 1, 1, 1}},
      {"muntin", {1, 2}},
      {"panel", {1, 2, 3}},
      {"moulding", {4, 4, 8, 8, 12, 12}},  // four a panel along rails and four upright: 1, 2 and 3 panels
      {"pin", {12}}},                      // one each side of 1 + 1 + 2 + 2 tenons
     {"pin after the frame is up", kPlanted}},
};

std::string pathOf(const std::string& name) {
  return DRYFIT_ROOT "/assets/doorsets/" + name + ".toml";
}

/// "leaf.moulding.1.1.front.top" is a moulding.
std::string kindOf(const Piece& piece) {
  const size_t from = piece.id.find('.') + 1;
  return piece.id.substr(from, piece.id.find('.', from) - from);
}

class ShippedLeaf : public testing::TestWithParam<Promise> {
 protected:
  const CutWork work = cutFile(pathOf(GetParam().name));

  OrderOfWork order() const {
    auto result = plan(work.assembly);
    if (const auto* locked = std::get_if<Locked>(&result)) throw std::runtime_error(locked->text);
    return std::get<OrderOfWork>(std::move(result));
  }
  bool isMoulding(int body) const { return kindOf(work.pieces[static_cast<size_t>(body)]) == "moulding"; }
};

TEST(ShippedLeaves, AreAllPromised) {
  std::vector<std::string> promised;
  for (const Promise& p : kPromises) promised.push_back(pathOf(p.name));
  std::sort(promised.begin(), promised.end());
  EXPECT_EQ(shippedDoorSets(), promised);
}

TEST_P(ShippedLeaf, Fits) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
}

TEST_P(ShippedLeaf, HasItsPiecesAlike) {
  std::map<std::string, std::pair<std::string, int>> groups;
  const auto alike = alikes(work.pieces);
  for (size_t i = 0; i < alike.size(); ++i) {
    groups[alike[i].key] = {kindOf(work.pieces[i]), alike[i].count};
    EXPECT_FALSE(alike[i].handedWith) << work.pieces[i].id;  // nothing in these leaves is handed
  }
  Groups found;
  for (const auto& [key, group] : groups) found[group.first].push_back(group.second);
  for (auto& [kind, sizes] : found) std::sort(sizes.begin(), sizes.end());
  EXPECT_EQ(found, GetParam().alike);
}

TEST_P(ShippedLeaf, NamesTheRulesThatShapedItsOrder) {
  std::vector<std::string> named;
  for (const Step& s : order().steps)
    if (!s.rule.empty() && !std::count(named.begin(), named.end(), s.rule)) named.push_back(s.rule);
  std::sort(named.begin(), named.end());
  EXPECT_EQ(named, GetParam().rules);
}

TEST_P(ShippedLeaf, IsCleanedOffBeforeAnythingIsPlanted) {
  int cleaned = 0, planted = 0;
  for (const Step& s : order().steps) {
    cleaned += s.event == "trim";
    if (s.event != "fit" ||
        !std::any_of(s.bodies.begin(), s.bodies.end(), [&](int b) { return isMoulding(b); }))
      continue;
    ++planted;
    EXPECT_EQ(s.rule, kPlanted) << s.text;
    EXPECT_EQ(cleaned, 1) << s.text;
  }
  EXPECT_EQ(cleaned, 1);
  const auto& groups = GetParam().alike.at("moulding");
  EXPECT_EQ(planted, std::accumulate(groups.begin(), groups.end(), 0));
}

// The horns are cut when the leaf is hung: played to its end, the bench leaves stiles of the leaf's height
// and two horns.
TEST_P(ShippedLeaf, KeepsItsHornsOnTheBench) {
  std::vector<int> state(work.pieces.size(), 0);
  for (const Step& s : order().steps)
    for (const StateChange& c : s.changes) state[static_cast<size_t>(c.body)] = c.from + 1;
  for (const char* id : {"leaf.stile.hanging", "leaf.stile.closing"}) {
    const auto body = static_cast<size_t>(pieceOf(work, id));
    const auto& states = work.pieces[body].states;
    EXPECT_NEAR(sizeOf(states[static_cast<size_t>(state[body])].cut->shell).x,
                GetParam().height + 2 * GetParam().horns, kExact)
        << id;
  }
}

INSTANTIATE_TEST_SUITE_P(Fernhollow, ShippedLeaf, testing::ValuesIn(kPromises), [](const auto& info) {
  std::string name = info.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace dryfit::tests
