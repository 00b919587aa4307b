// A leaf's height by top edges, by the openings' heights, or by a rail that fills: the same leaf said three
// ways, over random sizes.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>

#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Heights {
  int leaf = 0;
  std::vector<int> rails, openings;
};

Heights randomHeights(std::mt19937& random) {
  auto whole = [&](int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); };
  Heights h;
  const int rails = whole(3, 5);
  for (int i = 0; i < rails; ++i) h.rails.push_back(whole(80, i + 1 == rails ? 220 : 160));
  for (int i = 0; i + 1 < rails; ++i) h.openings.push_back(whole(150, 500));
  for (const auto* list : {&h.rails, &h.openings})
    for (const int size : *list) h.leaf += size;
  return h;
}

/// `fills`: the rail whose width is left out; `edges`: by top edges, with no heights.
std::string written(const Heights& h, bool edges, size_t fills) {
  std::string text = fmt::format("title = \"T\"\n[leaf]\nheight = {}\n", h.leaf);
  int top = h.leaf;
  for (size_t i = 0; i < h.rails.size(); ++i) {
    text += fmt::format("[[leaf.rail]]\nname = \"r{}\"\n", i + 1);
    text += i == fills ? std::string("width = \"fill\"\n") : fmt::format("width = {}\n", h.rails[i]);
    if (edges) text += fmt::format("top_edge = {}\n", top);
    top -= h.rails[i] + (i < h.openings.size() ? h.openings[i] : 0);
  }
  for (size_t i = 0; !edges && i < h.openings.size(); ++i)
    text += fmt::format("[[leaf.row]]\nheight = {}\n", h.openings[i]);
  return text;
}

TEST(LeafHeights, AreTheSameHoweverTheyAreSaid) {
  std::mt19937 random(1981);
  int made = 0;
  for (int n = 0; n < 12; ++n) {
    const Heights h = randomHeights(random);
    const std::string edges = written(h, true, h.rails.size());
    SCOPED_TRACE(edges);
    if (!faultsOfLeafAlone(edges).empty()) continue;  // other rules of the trade
    const CutWork one = cutLeafAlone(edges);
    for (size_t fills = 0; fills <= h.rails.size(); ++fills) {
      const CutWork other = cutLeafAlone(written(h, false, fills));  // past the last: all widths and heights
      ASSERT_EQ(one.pieces.size(), other.pieces.size());
      for (size_t i = 0; i < one.pieces.size(); ++i) {
        const Piece &a = one.pieces[i], &b = other.pieces[i];
        EXPECT_EQ(a.id, b.id);
        EXPECT_LT(length(a.worldFromPiece.origin - b.worldFromPiece.origin), 1e-9) << a.id;
        EXPECT_NEAR(volume(a.last().shell), volume(b.last().shell), 1e-6 * volume(a.last().shell)) << a.id;
      }
    }
    ++made;
  }
  EXPECT_GE(made, 6);
}

}  // namespace
}  // namespace dryfit::tests
