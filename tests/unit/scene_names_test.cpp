#include "scene/names.h"

#include <gtest/gtest.h>

#include "support/works.h"

namespace dryfit::scene {
namespace {

TEST(Names, AKindIsTheLastWordBeforeOfWithoutNumbers) {
  EXPECT_EQ(kindOf("front top moulding of panel 1.1"), "moulding");
  EXPECT_EQ(kindOf("panel 1.1"), "panel");
  EXPECT_EQ(kindOf("left backing 2"), "backing");
  EXPECT_EQ(kindOf("draw-bore pin"), "pin");
  EXPECT_EQ(kindOf("front left jamb ground"), "ground");
  EXPECT_EQ(kindOf("rail.top"), "rail");
  EXPECT_EQ(kindOf("12"), "12");
}

std::vector<std::string> called(const CutWork& work, const std::string& word) {
  std::vector<std::string> out;
  for (const int i : piecesCalled(work, word)) out.push_back(work.pieces[static_cast<size_t>(i)].id);
  return out;
}

TEST(Names, PiecesAreMeantByIdPrefixOrKind) {
  const CutWork work = tests::shippedWork("panel-frame");
  EXPECT_EQ(called(work, "rail.top"), (std::vector<std::string>{"rail.top"}));
  EXPECT_EQ(called(work, "rail"), (std::vector<std::string>{"rail.top", "rail.bottom"}));
  EXPECT_EQ(called(work, "rai"), std::vector<std::string>{});
  EXPECT_EQ(called(work, ""), std::vector<std::string>{});
  // Both tenons of the bottom rail and the one of the top rail, two wedges each, at two stiles.
  EXPECT_EQ(called(work, "wedge").size(), 12u);
  EXPECT_EQ(called(work, "wedges").size(), 12u);
}

TEST(Names, AJointIsMeantEitherWayRound) {
  const CutWork work = tests::shippedWork("panel-frame");
  const auto joint = jointCalled(work.assembly, "rail.top+stile.left");
  ASSERT_TRUE(joint);
  EXPECT_EQ(jointCalled(work.assembly, "stile.left+rail.top"), joint);
  EXPECT_FALSE(jointCalled(work.assembly, "rail.top+stile.middle"));
  EXPECT_FALSE(jointCalled(work.assembly, ""));
}

TEST(Names, AJointIsMeantByWhatItBringsToo) {
  const CutWork work = tests::cutWholeSet(DRYFIT_ROOT "/assets/doorsets/oar-store.toml");
  const auto second = jointCalled(work, "hinge.2");
  ASSERT_TRUE(second);
  EXPECT_EQ(second, jointCalled(work.assembly, "leaf.stile.hanging+lining.jamb.hanging#2"));
  EXPECT_FALSE(jointCalled(work, "hinge")) << "three joints bring hinges";
  EXPECT_FALSE(jointCalled(work, "lining")) << "members are brought by no joint";
  EXPECT_FALSE(jointCalled(work, ""));
}

}  // namespace
}  // namespace dryfit::scene
