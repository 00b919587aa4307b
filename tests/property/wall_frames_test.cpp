// Framed grounds and linings of sizes by chance: each is refused in plain words or fits in every state,
// leaves no shift unseen, goes together, and its pieces are the other hand's mirrored.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>

#include "order/order.h"
#include "support/wall_frames.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Chance {
  std::mt19937 random;
  int whole(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); }
  /// In halves.
  double half(int least, int most) { return whole(2 * least, 2 * most) / 2.0; }
};

/// Left and right are mirrored, state by state.
void expectHanded(const CutWork& work, const std::string& left, const std::string& right) {
  const Piece &a = work.pieces[static_cast<size_t>(pieceOf(work, left))],
              &b = work.pieces[static_cast<size_t>(pieceOf(work, right))];
  ASSERT_EQ(a.states.size(), b.states.size());
  for (size_t k = 0; k < a.states.size(); ++k)
    EXPECT_EQ(shapeKey({&a.states[k].cut->shell}), mirroredShapeKey({&b.states[k].cut->shell})) << k;
}

TEST(RandomGrounds, AreRefusedInWordsOrHoldAllThrough) {
  Chance c{std::mt19937(19)};
  int made = 0;
  for (int n = 0; n < 40; ++n) {
    GroundsFrame f;
    f.width = c.half(45, 120);
    f.thickness = c.half(12, 30);
    f.splay = c.half(0, 8);
    f.tenon = c.half(3, 10);
    f.haunch = c.half(5, 20);
    f.horns = c.half(0, 60);
    f.proud = c.half(0, 12);
    f.opening = c.whole(400, 1200);
    f.height = c.whole(500, 2200);
    f.backFace = c.whole(0, 1) == 1;
    f.feet = c.whole(0, 2) == 0;
    const std::string text = groundsFrame(f);
    SCOPED_TRACE(fmt::format("{}\n{}", n, text));
    if (const auto faults = faultsOfText(text); !faults.empty()) {
      for (const std::string& fault : faults) EXPECT_EQ(fault.rfind("test.toml:", 0), 0u) << fault;
      continue;
    }
    ++made;
    const CutWork work = cutText(text);
    for (const std::string& fault : faultsInEveryState(work, n % 8 == 0)) ADD_FAILURE() << fault;
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
    expectHanded(work, "ground.jamb.left", "ground.jamb.right");
    if (HasFailure()) return;
  }
  EXPECT_GE(made, 10);
}

TEST(RandomLinings, AreRefusedInWordsOrHoldAllThrough) {
  Chance c{std::mt19937(32)};
  int made = 0;
  for (int n = 0; n < 60; ++n) {
    LiningFrame f;
    f.form = std::vector<std::string>{"trenched", "housed", "rebated"}[static_cast<size_t>(c.whole(0, 2))];
    f.rebates = std::vector<std::string>{"double", "single", "none"}[static_cast<size_t>(c.whole(0, 2))];
    f.width = c.half(90, 320);
    f.jamb = c.half(20, 45);
    f.head = c.whole(0, 1) == 1 ? f.jamb : c.half(20, 45);
    f.rebateDepth = c.half(8, 16);
    f.rebateWidth = c.half(30, 60);
    f.depth = f.form == "housed" ? c.half(5, 12) : f.rebates == "none" ? c.half(6, 15) : f.rebateDepth;
    f.horns = f.form == "rebated" ? 0 : c.half(0, 50);
    f.passage = c.whole(500, 1200);
    f.height = c.whole(1000, 2200);
    f.headFirst = c.whole(0, 1) == 1;
    if (f.form != "housed" && c.whole(0, 2) == 0) f.more = fmt::format("tongue = {}\n", c.half(8, 28));
    const std::string text = liningFrame(f);
    SCOPED_TRACE(fmt::format("{}\n{}", n, text));
    if (const auto faults = faultsOfText(text); !faults.empty()) {
      for (const std::string& fault : faults) EXPECT_EQ(fault.rfind("test.toml:", 0), 0u) << fault;
      continue;
    }
    ++made;
    const CutWork work = cutText(text);
    for (const std::string& fault : faultsInEveryState(work, n % 8 == 0)) ADD_FAILURE() << fault;
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
    expectHanded(work, "lining.jamb.left", "lining.jamb.right");
    if (HasFailure()) return;
  }
  EXPECT_GE(made, 30);
}

}  // namespace
}  // namespace dryfit::tests
