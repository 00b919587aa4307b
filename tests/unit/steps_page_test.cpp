#include "cli/steps_page.h"

#include <gtest/gtest.h>

namespace dryfit::cli {
namespace {

TEST(StepsPage, PicturesAreNumberedWithAsManyDigitsAsTheLastNeeds) {
  EXPECT_EQ(stepPictureName(1, 7), "step-01.png");
  EXPECT_EQ(stepPictureName(48, 99), "step-48.png");
  EXPECT_EQ(stepPictureName(7, 100), "step-007.png");
}

TEST(StepsPage, WhatMarkdownWouldReadIsEscaped) {
  // CommonMark 0.30, 2.4: any ASCII punctuation may be backslash-escaped.
  EXPECT_EQ(markdownText("rail_top *now* [a](b) <i> `x` 2\\3 & #1"),
            "rail\\_top \\*now\\* \\[a\\](b) \\<i\\> \\`x\\` 2\\\\3 \\& \\#1");
  EXPECT_EQ(markdownText("Saw off the horns."), "Saw off the horns.");
}

TEST(StepsPage, StandsUnderStagesWithEmptyPartsLeftOut) {
  Assembly assembly;
  assembly.title = "Store_door";
  assembly.units.push_back({"leaf", -1, {}});
  OrderOfWork order;
  Step step;
  step.stage = "Leaf: put together";
  step.text = "Start with the stile.";
  step.why = "It stays put.";
  order.steps.push_back(step);
  step.text = "Cramp up.";
  step.why = "";
  step.caution = "Mind your fingers.";
  order.steps.push_back(step);
  step.stage = "Fix";
  step.caution = "";
  order.steps.push_back(step);
  EXPECT_EQ(stepsPage(assembly, order),
            "# Store\\_door: order of work\n\n3 steps.\n\n"
            "## Leaf: put together\n\n"
            "### Step 1\n\nStart with the stile.\n\n![Step 1: Start with the stile.](step-01.png)\n\n"
            "**Why now.** It stays put.\n\n"
            "### Step 2\n\nCramp up.\n\n![Step 2: Cramp up.](step-02.png)\n\n"
            "**Take care.** Mind your fingers.\n\n"
            "## Fix (leaf)\n\n"
            "### Step 3\n\nCramp up.\n\n![Step 3: Cramp up.](step-03.png)\n");
}

}  // namespace
}  // namespace dryfit::cli
