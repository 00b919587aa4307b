#include "base/spoken_path.h"

#include <gtest/gtest.h>

namespace dryfit {
namespace {

// What a joiner says of the house's own ids: the thing last, its place before it, its number after it.
TEST(SpokenPath, ThingLastPlaceBeforeItNumberAfterIt) {
  EXPECT_EQ(spokenPath("leaf"), "leaf");
  EXPECT_EQ(spokenPath("grounds.front"), "front grounds");
  EXPECT_EQ(spokenPath("hinge.1"), "hinge 1");
  EXPECT_EQ(spokenPath("leaf.panel.1.2"), "panel leaf 1 2");
  EXPECT_EQ(spokenPath("front frame"), "front frame");
}

TEST(SpokenPath, WhatIsNotWordsStaysAsItIs) {
  EXPECT_EQ(spokenPath(""), "");
  EXPECT_EQ(spokenPath("."), ".");
  EXPECT_EQ(spokenPath("12"), "12");
}

TEST(SpokenPath, NumbersNeedNoArticle) {
  EXPECT_EQ(withArticle("front grounds"), "the front grounds");
  EXPECT_EQ(withArticle("hinge 1"), "hinge 1");
}

}  // namespace
}  // namespace dryfit
