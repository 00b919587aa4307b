// Long lists of names in few words. Expected texts are counted by hand.
#include "cli/condense.h"

#include <gtest/gtest.h>

namespace dryfit::cli {
namespace {

using Names = std::vector<std::string>;

const Names kPieces{"leaf.rail.top",
                    "leaf.rail.bottom",
                    "leaf.wedge.rail.top.hanging.1.upper",
                    "leaf.wedge.rail.top.hanging.1.lower",
                    "leaf.wedge.rail.top.closing.1.upper",
                    "leaf.wedge.rail.top.closing.1.lower",
                    "leaf.moulding.1.1.front.top",
                    "leaf.moulding.1.1.front.bottom",
                    "leaf.moulding.2.1.front.top",
                    "leaf.moulding.2.1.front.bottom"};

std::string told(const Names& all, const Names& names, bool sizes = false, size_t most = 0) {
  return listed(Condenser(all, sizes).terms(names), most);
}

TEST(Condense, AWholeFamilyIsOneStar) {
  EXPECT_EQ(told(kPieces, kPieces), "leaf.rail.* (2), leaf.wedge.* (4), leaf.moulding.* (4)");
}

TEST(Condense, PartOfAFamilyKeepsWhatItHasInCommon) {
  EXPECT_EQ(told(kPieces, {"leaf.moulding.1.1.front.top", "leaf.moulding.2.1.front.top"}),
            "leaf.moulding.*.top (2)");
  EXPECT_EQ(told(kPieces, {"leaf.wedge.rail.top.closing.1.upper", "leaf.wedge.rail.top.closing.1.lower"}),
            "leaf.wedge.*.closing.* (2)");
}

/// A star would say more than the list does.
TEST(Condense, NothingIsToldThatIsNotInTheList) {
  EXPECT_EQ(told(kPieces, {"leaf.rail.top"}), "leaf.rail.top");
  EXPECT_EQ(told(kPieces, {"leaf.moulding.1.1.front.top", "leaf.moulding.2.1.front.bottom"}),
            "leaf.moulding.1.1.front.top, leaf.moulding.2.1.front.bottom");
  EXPECT_EQ(told(kPieces, {"nothing.of.these"}), "nothing.of.these");
}

TEST(Condense, OfASizeItsNameIsNeverAStar) {
  const Names sizes{"leaf.rail.top.width",
                    "leaf.rail.top.length",
                    "leaf.rail.low.width",
                    "leaf.rail.low.length",
                    "leaf.rail.low.tenon_width.1",
                    "leaf.rail.low.tenon_width.2",
                    "stile.width",
                    "rail.width"};
  EXPECT_EQ(told(sizes, sizes, true),
            "leaf.rail.*.width (2), leaf.rail.*.length (2), leaf.rail.*.tenon_width.* (2), *.width (2)");
  EXPECT_EQ(told(sizes, {"leaf.rail.top.width", "leaf.rail.top.length"}, true),
            "leaf.rail.top.width, leaf.rail.top.length");
}

TEST(Condense, ALongListIsCutShortAndCountsWhatIsLeftOut) {
  const std::vector<Term> terms{{"a"}, {"b.* (3)", 3}, {"c"}, {"d.* (2)", 2}};
  EXPECT_EQ(listed(terms, 2), "a, b.* (3) and 3 more");
  EXPECT_EQ(listed(terms, 3), "a, b.* (3), c, d.* (2)");  // one more term takes no more room than saying so
  EXPECT_EQ(listed(terms), "a, b.* (3), c, d.* (2)");
}

}  // namespace
}  // namespace dryfit::cli
