// Tries: one answer of each kind on small works of boxes and on shipped works. Sizes of boxes are written
// here; expected distances follow from them, those of shipped works from their files.
#include "order/tries.h"

#include <gtest/gtest.h>

#include "order_blocks.h"
#include "order_replay.h"
#include "support/works.h"

namespace dryfit {
namespace {

using namespace ordertest;
using Kind = Operation::Kind;

Try put(Tries& tries, const std::string& name) {
  const auto found = tries.find(name);
  if (!found) throw std::runtime_error(toText(found.faults()[0]));
  return tries.put(found.value());
}

/// The verdicts of one move after another.
std::vector<std::string> verdicts(Tries& tries, const std::vector<std::string>& names) {
  std::vector<std::string> all;
  for (const std::string& name : names) all.push_back(nameOf(put(tries, name).verdict));
  return all;
}

std::string faultOf(const Tries& tries, const std::string& name) {
  const auto found = tries.find(name);
  return found ? "" : toText(found.faults()[0]);
}

/// A box open to +X with a peg in it and a lid over the opening.
struct Box : World {
  int box = piece("box", boxes({add({0, 0, 0}, {60, 60, 60}), cut({10, 10, 10}, {60, 50, 50})}));
  int peg = piece("peg", boxes({add({15, 10, 10}, {55, 50, 50})}));
  int lid = piece("lid", boxes({add({60, 0, 0}, {70, 60, 60})}));
};

TEST(Tries, AnyOrderThatCanBeDoneIsRight) {
  const Box b;
  for (const std::vector<std::string>& order :
       {std::vector<std::string>{"box", "peg", "lid"}, {"peg", "box", "lid"}, {"peg", "lid", "box"}}) {
    Tries tries(b.assembly);
    EXPECT_EQ(verdicts(tries, order), (std::vector<std::string>{"goes", "goes", "goes"}));
    EXPECT_TRUE(tries.finished());
    EXPECT_TRUE(tries.left().empty());
    Replay(b.assembly, tries.soFar());
  }
}

TEST(Tries, WhatGoesSaysOnWhatWay) {
  const Box b;
  Tries tries(b.assembly);
  const Try first = put(tries, "box");
  EXPECT_TRUE(first.step.moves.empty());
  EXPECT_EQ(first.text, "Start with box.");
  const Try peg = put(tries, "peg");
  ASSERT_EQ(peg.step.moves.size(), 1u);
  ASSERT_EQ(peg.step.moves[0].legs.size(), 1u);
  EXPECT_EQ(peg.step.moves[0].legs[0].direction, (Vec3{-1, 0, 0}));
  EXPECT_NEAR(peg.step.moves[0].legs[0].travelMm, 45, 1e-9);  // from 15 until it is clear at 60
  EXPECT_EQ(peg.text, "Set peg in place. It comes from the right.");
  EXPECT_EQ(put(tries, "peg").verdict, Verdict::There);
}

TEST(Tries, WhatWouldBeShutOutIsNamedWithFacesWayAndDistance) {
  const Box b;
  Tries tries(b.assembly);
  put(tries, "box");
  const Try lid = put(tries, "lid");
  EXPECT_EQ(lid.verdict, Verdict::LocksOut);
  ASSERT_EQ(lid.lockedOut.size(), 1u);
  EXPECT_EQ(lid.lockedOut[0].what.bodies, std::vector<int>{b.peg});
  ASSERT_EQ(lid.lockedOut[0].stops.size(), 6u);
  // Most room on the way to the lid and on the one to the bottom: 5 each; the likelier way first.
  for (const Stop& s : lid.lockedOut[0].stops) {
    EXPECT_EQ(s.mover, b.peg);
    const bool toLid = s.wayHome == Vec3{-1, 0, 0}, fromBottom = s.wayHome == Vec3{1, 0, 0};
    EXPECT_EQ(s.stander, toLid ? b.lid : b.box);
    EXPECT_NEAR(s.gapMm, toLid || fromBottom ? 5 : 0, 1e-9);
    if (!toLid) continue;
    EXPECT_EQ(s.roleMover, "x+");
    EXPECT_EQ(s.roleStander, "x-");
  }
  EXPECT_NE(lid.text.find("there would be no way in for peg: from the "), std::string::npos) << lid.text;
  EXPECT_NE(lid.text.find("which stands 5.0 mm off its place"), std::string::npos) << lid.text;
  EXPECT_EQ(verdicts(tries, {"peg", "lid"}), (std::vector<std::string>{"goes", "goes"}));  // nothing was done
}

/// A sill with a horn that is sawn off once the post stands; a cap goes where the horn was, a tray under it.
struct Horn : World {
  int sill, post, cap;
  Horn() {
    sill = piece("sill", {boxes({add({0, 0, 0}, {100, 40, 20}), add({80, 0, 20}, {100, 40, 60})}),
                          boxes({add({0, 0, 0}, {100, 40, 20})})});
    post = piece("post", boxes({add({0, 0, 20}, {20, 40, 100})}));
    cap = piece("cap", boxes({add({70, 0, 20}, {100, 40, 40})}));
    Operation& trim = operation(Kind::Trim, "horn off", 100, {sill});
    trim.changes = {{sill, 0}};
    trim.after = {post};
  }
};

TEST(Tries, WhatStandsInWasteIsBlockedUntilItIsCut) {
  const Horn h;
  Tries tries(h.assembly);
  put(tries, "sill");
  const Try early = put(tries, "cap");
  EXPECT_EQ(early.verdict, Verdict::Blocked);
  ASSERT_EQ(early.stops.size(), 1u);
  EXPECT_EQ(early.stops[0].kind, Stop::Kind::InWaste);
  EXPECT_EQ(early.stops[0].stander, h.sill);
  EXPECT_EQ(early.text, "There is no way in for cap: it would stand where sill is not yet cut to its end.");
  const Try post = put(tries, "post");
  ASSERT_EQ(post.after.size(), 1u);  // the horn comes off as soon as the post stands
  EXPECT_EQ(post.after[0].event, "trim");
  EXPECT_EQ(post.text, "Set post in place. It comes from the left. Due now: Do horn off.");
  EXPECT_EQ(put(tries, "cap").verdict, Verdict::Goes);
  EXPECT_TRUE(tries.finished());
  Replay(h.assembly, tries.soFar());
}

TEST(Tries, WhatACutLeavesNoWayToIsBlockedByFaces) {
  Horn h;
  // Under a horn that reaches over it, between the post and a cheek: in from above only.
  h.assembly.bodies[h.sill].states[0].mesh =
      boxes({add({0, 0, 0}, {100, 40, 20}), add({80, 0, 20}, {100, 40, 60}), add({20, 0, 50}, {80, 40, 60}),
             add({20, -10, 0}, {80, 0, 60}), add({20, 40, 0}, {80, 50, 60})});
  h.assembly.bodies[h.sill].states[1].mesh =
      boxes({add({0, 0, 0}, {100, 40, 20}), add({20, -10, 0}, {80, 0, 60}), add({20, 40, 0}, {80, 50, 60})});
  h.assembly.bodies[h.cap].states[0].mesh = boxes({add({30, 0, 20}, {80, 40, 42})});
  h.assembly.operations[0].after.clear();
  h.assembly.operations[0].afterOperations = {"wedge"};
  const int wedge = h.piece("wedge", boxes({add({0, 40, 20}, {20, 50, 40})}));
  Operation& drive = h.operation(Kind::Drive, "wedge", 90, {wedge});
  drive.after = {h.sill, h.post};
  Tries tries(h.assembly);
  EXPECT_EQ(verdicts(tries, {"sill", "post"}), (std::vector<std::string>{"goes", "goes"}));
  const Try cap = put(tries, "cap");
  EXPECT_EQ(cap.verdict, Verdict::Blocked);
  ASSERT_FALSE(cap.stops.empty());
  for (const Stop& s : cap.stops) {
    if (s.wayHome != Vec3{0, 0, -1}) continue;
    EXPECT_EQ(s.stander, h.sill);
    EXPECT_NEAR(s.gapMm, 8, 1e-9);  // from 42 to 50
  }
  EXPECT_EQ(verdicts(tries, {"wedge", "cap"}), (std::vector<std::string>{"goes", "goes"}));
}

/// A corridor with four bends through a block, a cube at its inner end: more legs than are looked at.
TEST(Tries, PastTheLimitTheAnswerIsUnknown) {
  World w;
  const auto cell = [](int x, int y, int z) {
    const Vec3 low{10.0 * x, 10.0 * y, 10.0 * z};
    return cut(low, low + Vec3{10, 10, 10});
  };
  w.piece("block", boxes({add({-10, -10, -10}, {40, 40, 40}), cell(0, 0, 0), cell(1, 0, 0), cell(1, 1, 0),
                          cell(1, 1, 1), cell(2, 1, 1), cell(3, 1, 1)}));
  w.piece("cube", boxes({add({0, 0, 0}, {10, 10, 10})}));
  Tries tries(w.assembly);
  const Try block = put(tries, "block");
  EXPECT_EQ(block.verdict, Verdict::Unknown);
  EXPECT_EQ(block.limit, "ways in: there is one of more than 3 legs");
  EXPECT_EQ(
      block.text,
      "It is not known whether the work could then still be finished: the search came to its limit (ways "
      "in: there is one of more than 3 legs).");
  EXPECT_FALSE(tries.finished());
  EXPECT_EQ(tries.left().size(), 2u);
}

TEST(Tries, APieceThatNeedsAnotherSaysWhich) {
  const CutWork work = tests::shippedWork("practice-corner");
  Tries tries(work.assembly);
  EXPECT_EQ(put(tries, "rail").verdict, Verdict::Goes);
  const Try wedge = put(tries, "wedge.rail.stile.1");
  EXPECT_EQ(wedge.verdict, Verdict::Needs);
  ASSERT_EQ(wedge.missing.size(), 1u);
  EXPECT_EQ(wedge.missing[0].bodies, std::vector<int>{tests::pieceOf(work, "stile")});
  EXPECT_EQ(wedge.text, "Not yet. First: the stile.");
}

TEST(Tries, AUnitIsFinishedBeforeItGoesIn) {
  const CutWork work = tests::shippedWork("hatch-grounds");
  Tries tries(work.assembly);
  const Try unit = put(tries, "front frame");
  EXPECT_EQ(unit.verdict, Verdict::Needs);
  EXPECT_EQ(unit.missing.size(), 5u);  // two jambs, a head, wedges at either end of it
  EXPECT_EQ(put(tries, "backing.left.1").verdict, Verdict::Goes);  // another bench, at any time
  EXPECT_EQ(verdicts(tries, {"grounds.front.head", "grounds.front.jamb.right", "grounds.front.jamb.left"}),
            (std::vector<std::string>{"goes", "goes", "goes"}));
  EXPECT_EQ(put(tries, "front frame").missing.size(), 2u);
}

TEST(Tries, ARuleIsToldWithItsSourceAndWhatShapeSays) {
  const CutWork work = tests::shippedWork("panel-frame");
  for (const bool byShape : {false, true}) {
    Tries tries(work.assembly, {byShape});
    EXPECT_EQ(verdicts(tries, {"stile.left", "rail.top"}), (std::vector<std::string>{"goes", "goes"}));
    const auto left = tries.left();
    const auto wedge = std::find_if(left.begin(), left.end(), [](const std::string& id) {
      return id.rfind("wedge.", 0) == 0 && id.find(".left.") != std::string::npos;
    });
    ASSERT_NE(wedge, left.end());
    const Try early = put(tries, *wedge);
    if (byShape) {
      EXPECT_NE(early.verdict, Verdict::Rule);
      continue;
    }
    ASSERT_EQ(early.verdict, Verdict::Rule) << early.text;
    const TradeRule& rule = work.assembly.rules.at(static_cast<size_t>(early.rule));
    EXPECT_EQ(rule.name, "wedge after cramping and squaring");
    EXPECT_NE(early.text.find(rule.because + " (rule \"" + rule.name + "\"; " +
                              toldSource(rule.source, rule.confidence) + ")"),
              std::string::npos)
        << early.text;
    EXPECT_FALSE(early.missing.empty());
  }
}

TEST(Tries, NamesAreOfPiecesUnitsAndWhatIsDrivenTogether) {
  const CutWork work = tests::shippedWork("hatch-grounds");
  const Tries tries(work.assembly);
  const auto same = [&](const std::string& a, const std::string& b) {
    const auto x = tries.find(a), y = tries.find(b);
    return x.ok() && y.ok() && x.value() == y.value();
  };
  EXPECT_TRUE(same("grounds.front.wedge.head.left.1", "grounds.front.wedge.head.left.1.lower"));
  EXPECT_TRUE(same("grounds.front.wedge.head.left.1.upper", "grounds.front.wedge.head.left.1.lower"));
  EXPECT_EQ(faultOf(tries, "front frame"), "");
  EXPECT_EQ(faultOf(tries, "backing.lef.1"),
            "\"backing.lef.1\" names no piece and no unit of this work; did you mean backing.left.1?");
  EXPECT_EQ(faultOf(tries, "hatch"),
            "\"hatch\" is the whole work: it goes into nothing; name its pieces and units");
  EXPECT_EQ(faultOf(tries, "backing.left"),
            "\"backing.left\" is how the ids of several pieces begin; say which: backing.left.1 and "
            "backing.left.2");
}

}  // namespace
}  // namespace dryfit
