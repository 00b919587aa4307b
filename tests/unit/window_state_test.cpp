// What a person does in the window, without any window: inputs into states.
#include <gtest/gtest.h>

#include <cmath>

#include "support/works.h"
#include "ui/card_text.h"
#include "ui/state.h"

namespace dryfit::ui {
namespace {

std::shared_ptr<Model> modelOf(const std::string& name) {
  auto model = std::make_shared<Model>();
  model->work = tests::shippedWork(name);
  model->order = std::get<OrderOfWork>(plan(model->work.assembly));
  model->stages = stagesOf(model->order);
  return model;
}

class Frame : public testing::Test {
 protected:
  std::shared_ptr<const Model> model = modelOf("panel-frame");
  State state;

  void put(const Input& input) { state = turned(std::move(state), input, model.get()); }
  void press(Deed deed) { put(Did{deed}); }
  /// Until nothing moves any more; seconds it took.
  double settle() {
    double seconds = 0;
    while (moves(state) && seconds < 1000) {
      put(Passed{0.05});
      seconds += 0.05;
    }
    return seconds;
  }
};

TEST_F(Frame, ForwardGoesAStepAndTakesItsTime) {
  press(Deed::Forward);
  EXPECT_EQ(stepTold(state), 0);  // told while it is under way
  settle();
  EXPECT_EQ(state.at, 1);
  press(Deed::Forward);  // a rail comes in: 0.9 s
  put(Passed{0.45});
  EXPECT_NEAR(state.at, 1.5, 1e-9);
  EXPECT_NEAR(settle(), 0.45, 0.051);
  EXPECT_EQ(state.at, 2);
}

TEST_F(Frame, PressesInHasteAreAsManySteps) {
  for (int i = 0; i < 5; ++i) press(Deed::Forward);
  settle();
  EXPECT_EQ(state.at, 5);
  press(Deed::Back);
  EXPECT_EQ(state.at, 4);
  press(Deed::Last);
  EXPECT_EQ(state.at, model->steps());
  press(Deed::Forward);
  EXPECT_FALSE(moves(state));
  EXPECT_EQ(state.at, model->steps());
  press(Deed::First);
  press(Deed::Back);
  EXPECT_EQ(state.at, 0);
}

TEST_F(Frame, BackFromTheMiddleOfAStepUndoesThatStep) {
  press(Deed::Forward);
  settle();
  press(Deed::Forward);
  put(Passed{0.3});
  press(Deed::Back);
  EXPECT_EQ(state.at, 1);
  EXPECT_FALSE(moves(state));
}

TEST_F(Frame, RunsToTheEndAndStopsThere) {
  press(Deed::Run);
  EXPECT_TRUE(state.running);
  const double seconds = settle();
  EXPECT_EQ(state.at, model->steps());
  EXPECT_FALSE(state.running);
  EXPECT_GT(seconds, 1.6 * (model->steps() - 1));  // a rest after each step
  press(Deed::First);
  press(Deed::Run);
  press(Deed::Run);
  EXPECT_FALSE(state.running);
}

TEST_F(Frame, ThePencilIsDraggedToAnyMomentAndRestsOnATick) {
  put(DraggedTo{3.37, false});
  EXPECT_NEAR(state.at, 3.37, 1e-12);
  put(DraggedTo{3.37, true});
  EXPECT_EQ(state.at, 3);
  put(DraggedTo{99, false});
  EXPECT_EQ(state.at, model->steps());
}

TEST_F(Frame, LooksGoOnAndOffAndEscapePutsAwayTheLast) {
  press(Deed::SpreadKey);
  EXPECT_EQ(state.spread, 1);
  put(SetSection{scene::SectionWay::Plan, {}});
  EXPECT_EQ(state.section.way, scene::SectionWay::Plan);
  put(SetSection{scene::SectionWay::Height, 0.25});
  EXPECT_EQ(state.section.way, scene::SectionWay::Height);
  EXPECT_EQ(state.section.at, 0.25);
  press(Deed::Sizes);
  press(Deed::Escape);
  EXPECT_FALSE(state.section.way);
  press(Deed::Escape);
  EXPECT_EQ(state.spread, 0);
  press(Deed::Escape);
  EXPECT_FALSE(state.sizes);
  put(SetSection{scene::SectionWay::Plan, {}});
  put(SetSection{scene::SectionWay::Plan, {}});
  EXPECT_FALSE(state.section.way);  // the word that is chosen, pressed again
}

TEST_F(Frame, TurnedByHandIsNoNamedViewAndNearerKeepsWhatIsUnderThePointer) {
  EXPECT_EQ(state.eye.view, "corner");
  put(Turned{10, 500});
  EXPECT_EQ(state.eye.view, "");
  EXPECT_EQ(state.eye.elevationDeg, 90);
  press(Deed::Front);
  EXPECT_EQ(state.eye.view, "front");
  const Vec2 about{0.2, -0.1};
  put(CameNearer{2, about});
  // A place p of the picture (from its middle) goes to p * nearer + slide: the one under the pointer stays.
  const Vec2 there = about * state.eye.nearer + state.eye.slide;
  EXPECT_NEAR(there.x, about.x, 1e-12);
  EXPECT_NEAR(there.y, about.y, 1e-12);
  for (int i = 0; i < 100; ++i) put(CameNearer{2, {}});
  EXPECT_LE(state.eye.nearer, 40);
}

TEST_F(Frame, WhatIsChosenIsHiddenAndShownAgain) {
  put(Clicked{tests::pieceOf(model->work, "panel"), false});
  press(Deed::Hide);
  EXPECT_EQ(state.hidden, std::vector<int>{tests::pieceOf(model->work, "panel")});
  EXPECT_FALSE(state.chosen);
  press(Deed::ShowAll);
  EXPECT_TRUE(state.hidden.empty());
  put(Clicked{tests::pieceOf(model->work, "rail.top"), true});
  EXPECT_TRUE(state.jointOnly);
}

TEST_F(Frame, AFileThatChangesKeepsThePlaceAndOneThatFailsTellsIt) {
  press(Deed::Last);
  const auto smaller = modelOf("practice-corner");
  put(NotLoaded{{"a.toml:3: no such key"}});
  EXPECT_EQ(state.message.size(), 1u);
  EXPECT_EQ(state.at, model->steps());
  put(Clicked{static_cast<int>(model->work.pieces.size()) - 1, false});
  put(Loaded{smaller});
  EXPECT_TRUE(state.message.empty());
  EXPECT_EQ(state.at, smaller->steps());
  EXPECT_FALSE(state.chosen);
}

TEST_F(Frame, TheCardTellsTheStepItsPiecesAndTheNext) {
  state.at = 4;
  const CardText card = cardOf(*model, state);
  EXPECT_EQ(card.number, "4");
  EXPECT_EQ(card.title, "Panel");
  ASSERT_EQ(card.rows.size(), 1u);
  // panel-frame.toml: 820 high, rails 90 and 180 wide, grooves 12 deep: sizes from the solid itself.
  const Vec3 mm =
      sizeOf(model->work.pieces[static_cast<size_t>(tests::pieceOf(model->work, "panel"))].last().shell);
  EXPECT_EQ(card.rows[0].size.substr(0, card.rows[0].size.find(' ')), std::to_string(std::lround(mm.x)));
  EXPECT_EQ(card.next, "Right stile");
  EXPECT_NE(card.why.find("right stile"), std::string::npos);
  state.chosen = tests::pieceOf(model->work, "rail.top");
  const CardText piece = cardOf(*model, state);
  EXPECT_EQ(piece.number, "2");
  EXPECT_EQ(piece.title, "Top rail");
  EXPECT_NE(piece.why.find("left stile"), std::string::npos);
}

TEST_F(Frame, StagesCoverAllStepsInOrder) {
  int next = 0;
  for (const StageSpan& span : model->stages) {
    EXPECT_EQ(span.first, next);
    next = span.end();
  }
  EXPECT_EQ(next, model->steps());
}

}  // namespace
}  // namespace dryfit::ui
