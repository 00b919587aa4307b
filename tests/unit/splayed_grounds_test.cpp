// Framed grounds with splayed outer edges: the haunch on the head's slope, tenons and wedges cut to the
// jambs', horns to the head's, the corner a hip. Expected figures are closed formulas of the sizes given.
#include <gtest/gtest.h>

#include <cmath>

#include "fit/fit.h"
#include "order/order.h"
#include "support/wall_frames.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-9;  // mm: plain sums of doubles

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

const JointSize* sizeNamed(const CutWork& work, const std::string& name) {
  for (const JointSize& s : work.sizes)
    if (s.name == name) return &s;
  return nullptr;
}

TEST(SplayedGrounds, FitBeforeAndAfterCleaningOffAndWithTheHornsOff) {
  for (bool backFace : {false, true})
    for (bool feet : {false, true}) {
      SCOPED_TRACE(std::string(backFace ? "back" : "front") + (feet ? ", with feet" : ""));
      GroundsFrame frame;
      frame.backFace = backFace;
      frame.feet = feet;
      const CutWork work = cutText(groundsFrame(frame));
      ASSERT_EQ(mostStates(work.assembly), 3);  // as made, cleaned off, horns off
      for (const std::string& f : faultsInEveryState(work, !feet)) ADD_FAILURE() << f;
      EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
    }
}

// The trade's corner is made of the sizes given: half the head is tenon, 6 thick in 19, the haunch
// projects 12.
TEST(SplayedGrounds, TakeTheTradesCorner) {
  const CutWork work = cutText(groundsFrame({}));
  ASSERT_NE(sizeNamed(work, "tenon_width"), nullptr);
  EXPECT_EQ(sizeNamed(work, "tenon_width")->value, 38);
  EXPECT_EQ(sizeNamed(work, "haunch_width")->value, 38);
  EXPECT_EQ(sizeNamed(work, "tenon_thickness")->value, 6);
  EXPECT_EQ(sizeNamed(work, "haunch_projection")->value, 12);
}

// With the horns off nothing of the frame lies outside two planes that meet in the hip, and both are reached
// on both faces: 5 further in at the back.
TEST(SplayedGrounds, EndInAHip) {
  for (bool backFace : {false, true}) {
    GroundsFrame frame;
    frame.backFace = backFace;
    const CutWork work = cutText(groundsFrame(frame));
    const double side = frame.opening / 2 + frame.width, top = frame.height + frame.width;
    int corners = 0;
    for (const Piece& p : work.pieces) {
      const PlanningMesh world = placed(*p.last().mesh, p.worldFromPiece);
      for (const Facet& f : world.facets)
        for (const Vec3& v : f.points) {
          const double back = backFace ? 19 - v.y : v.y, in = 5 * back / 19;
          EXPECT_LE(std::abs(v.x), side - in + kExact) << p.id;
          EXPECT_LE(v.z, top - in + kExact) << p.id;
          corners += std::abs(std::abs(v.x) - (side - in)) < kExact && std::abs(v.z - (top - in)) < kExact;
        }
    }
    EXPECT_GE(corners, 4 * 3);  // both corners of both jambs, each in three facets
  }
}

// Head between the shoulders less its splay; tenons and haunches likewise, the tenons' ends on the jambs'
// slope.
TEST(SplayedGrounds, VolumesAreClosedFormulas) {
  const CutWork work = cutText(groundsFrame({}));
  const double w = 76, t = 19, s = 5, tenon = 6;
  const double head = 850 * t * (w - s / 2) + 2 * tenon * (38 * (w - s / 2) + 12 * (38 - s / 2));
  EXPECT_NEAR(volume(piece(work, "ground.head").last().shell), head, 1e-6);
  // Before it is cleaned off the tenons stand 10 proud of a square edge.
  const double proud = 850 * t * (w - s / 2) + 2 * tenon * (38 * (w + 10) + 12 * (38 - s / 2));
  EXPECT_NEAR(volume(piece(work, "ground.head").states.front().cut->shell), proud, 1e-6);
  // The jamb's section is smaller by k y on both of its outer sides at y from its face: the integral of
  // (w - k y)(h - k y); less the mortise with its mouths (a quarter parallel, then w/19 wider each) up to the
  // slope, and the haunching up to the head's.
  const double h = 2031 + w, k = s / t;
  auto over = [&](auto f) { return (f(6.5) + 4 * f(9.5) + f(12.5)) * tenon / 6; };  // Simpson: exact here
  auto mortise = [&](double y) {
    const double mouth = w - k * y - w / 4;
    return 38 * (w - k * y) + mouth * mouth * (w / 19) / (w * 3 / 4);
  };
  auto haunching = [&](double y) { return 12 * (38 - k * y); };
  const double jamb = w * h * t - (w + h) * s * t / 2 + s * s * t / 3 - over(mortise) - over(haunching);
  EXPECT_NEAR(volume(piece(work, "ground.jamb.left").last().shell), jamb, 1e-6);
  EXPECT_NEAR(volume(piece(work, "ground.jamb.right").last().shell), jamb, 1e-6);
}

TEST(SplayedGrounds, TellTheHornsSlopeAndTheJambsSplayOnly) {
  const CutWork work = cutText(groundsFrame({}));
  const auto order = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order));
  std::string text;
  for (const Step& s : std::get<OrderOfWork>(order).steps) text += s.text + "\n";
  EXPECT_NE(text.find("Saw off the horns to their slope, 5 less at the back than at the face"), text.npos);
  EXPECT_NE(text.find("Plane the edge of ground.jamb.left to its bevel: 5 less"), text.npos) << text;
  EXPECT_EQ(text.find("Plane the edge of ground.head"), text.npos) << text;  // worked before
}

// Left square the same frame is what it always was: no flush face of a slope, no third state but the horns'.
TEST(SplayedGrounds, SquareOnesAreUnchanged) {
  GroundsFrame frame;
  frame.splay = 0;
  const CutWork work = cutText(groundsFrame(frame));
  for (const std::string& f : faultsInEveryState(work, false)) ADD_FAILURE() << f;
  const double head = 850 * 19 * 76.0 + 2 * 6 * (38 * 76.0 + 12 * 38);
  EXPECT_NEAR(volume(piece(work, "ground.head").last().shell), head, 1e-6);
}

// Horns cut square above a sloping head: the haunching keeps its sloping end for good.
TEST(SplayedGrounds, HornsMayBeCutSquareToo) {
  std::string text = groundsFrame({});
  for (size_t at; (at = text.find("horn_slope")) != text.npos;) text.erase(at, text.find('\n', at) - at + 1);
  const CutWork work = cutText(text);
  for (const std::string& f : faultsInEveryState(work, false)) ADD_FAILURE() << f;
}

// Without a haunch the shoulder between runs up to the slope.
TEST(SplayedGrounds, MayHaveBareTenons) {
  std::string text = groundsFrame({});
  for (size_t at = 0; (at = text.find("tenons = 1\n", at)) != text.npos; ++at)
    text.insert(at, "haunch = false\n"), at += 15;
  const CutWork work = cutText(text);
  for (const std::string& f : faultsInEveryState(work, false)) ADD_FAILURE() << f;
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  const size_t at = text.find(from);
  if (at == text.npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

void expectRefused(const std::string& text, const std::string& words) {
  const auto faults = faultsOfText(text);
  ASSERT_FALSE(faults.empty()) << words;
  EXPECT_NE(faults[0].find(words), std::string::npos) << faults[0];
}

TEST(SplayedGrounds, WhatCannotBeMadeIsRefused) {
  const std::string text = groundsFrame({});
  expectRefused(changed(text, ", worked = \"first\"", ""), "work the bevel first");
  expectRefused(changed(text, "bevel = { edge = \"-X\", back = 5",
                        "bevel = { edge = \"-X\", back = 5, worked = \"first\""),
                "could not be cleaned off flush");
  expectRefused(changed(text, "worked = \"first\"", "worked = \"last\""), "last");
  expectRefused(changed(text, "back = 5 }", "back = 12 }"), "too steep");
  expectRefused(changed(text, "end = \"high\"", "end = \"low\""), "there is no horn at the low end");
  expectRefused(changed(text, "horn_slope = [{ end = \"high\"", "horn_slope = [{ end = \"up\""), "up");
  // The head's edge above the jamb's: 5 at the back, where the horn's cut loses 8.
  expectRefused(changed(text, "end = \"high\", back = 5", "end = \"high\", back = 8"), "beyond the end");
}

// A tenon at a sloping edge has no square side to wedge against.
TEST(SplayedGrounds, ATenonAtTheSlopeIsRefused) {
  // The head's lower edge, where the tenon is.
  expectRefused(changed(groundsFrame({}), "edge = \"+Z\"", "edge = \"-Z\""), "sloping edge");
}

}  // namespace
}  // namespace dryfit::tests
