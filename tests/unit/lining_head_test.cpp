// The corner of a lining: each form, rebates at both edges, one or none, both listed orders, in every state.
// Expected figures are closed formulas of the sizes given.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fit/fit.h"
#include "order/order.h"
#include "support/wall_frames.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

LiningFrame lining(const std::string& form, const std::string& rebates) {
  LiningFrame frame;
  frame.form = form;
  frame.rebates = rebates;
  if (form == "housed") frame.depth = 9.5;
  return frame;
}

TEST(LiningHead, FitsInEachFormWithAnyRebatesInEveryState) {
  for (const char* form : {"trenched", "housed", "rebated"})
    for (const char* rebates : {"double", "single", "none"})
      for (bool headFirst : {false, true}) {
        SCOPED_TRACE(std::string(form) + " " + rebates + (headFirst ? " head first" : ""));
        LiningFrame frame = lining(form, rebates);
        frame.headFirst = headFirst;
        const CutWork work = cutText(liningFrame(frame));
        EXPECT_EQ(mostStates(work.assembly), std::string(form) == "rebated" ? 1 : 2);
        for (const std::string& f : faultsInEveryState(work, headFirst)) ADD_FAILURE() << f;
        const auto order = plan(work.assembly);
        ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
      }
}

// Trenched, head first: the jambs go up into it; the horns are the last that is done, and nothing holds the
// corners then but what the nailing bonded.
TEST(LiningHead, TrenchedGoesTogetherUpwardsThenIsNailedThenCutFlush) {
  LiningFrame frame = lining("trenched", "double");
  frame.headFirst = true;
  const CutWork work = cutText(liningFrame(frame));
  const auto order = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order));
  const auto& steps = std::get<OrderOfWork>(order).steps;
  int up = 0, nailed = 0;
  for (const Step& s : steps) {
    for (const auto& move : s.moves) up += move.legs.back().direction.z > 0.999;
    nailed += s.event == "fasten";
    if (s.event == "fasten") {
      EXPECT_NE(s.text.find("nails and glue alone hold the corner"), std::string::npos) << s.text;
    }
  }
  EXPECT_EQ(up, 2);
  EXPECT_EQ(nailed, 2);
  EXPECT_EQ(steps.back().event, "trim");
}

TEST(LiningHead, HousedGoesTogetherSideways) {
  const CutWork work = cutText(liningFrame(lining("housed", "double")));
  const auto order = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order));
  for (const Step& s : std::get<OrderOfWork>(order).steps)
    for (const auto& move : s.moves) EXPECT_GT(std::abs(move.legs.back().direction.x), 0.999) << s.text;
}

// 253 wide, 32 thick, 742 between the lands, 1977 under the head, rebates 12 x 45 at both edges, horns 40.
TEST(LiningHead, VolumesAreClosedFormulas) {
  const double W = 253, t = 32, r = 12 * 45 * 2, land = W - 90;
  const CutWork trenched = cutText(liningFrame(lining("trenched", "double")));
  const double head = (742 + 2 * t) * (W * t - r) - 2 * 20 * 12 * land;
  EXPECT_NEAR(volume(piece(trenched, "lining.head").last().shell), head, 1e-6);
  EXPECT_NEAR(volume(piece(trenched, "lining.head").states.front().cut->shell), head + 2 * 40 * (W * t - r),
              1e-6);
  // The whole section to the rebate's floor at 1989, the shoulder's part stops at 1977.
  EXPECT_NEAR(volume(piece(trenched, "lining.jamb.left").last().shell), 1989 * (W * t - r) - 12 * 12 * land,
              1e-6);

  const CutWork rebated = cutText(liningFrame(lining("rebated", "double")));
  EXPECT_NEAR(volume(piece(rebated, "lining.head").last().shell), head, 1e-6);

  const CutWork housed = cutText(liningFrame(lining("housed", "double")));
  EXPECT_NEAR(volume(piece(housed, "lining.head").last().shell),
              (742 + 2 * 12) * (W * t - r) - 2 * 2.5 * t * land, 1e-6);
  EXPECT_NEAR(volume(piece(housed, "lining.jamb.right").last().shell),
              (1977 + t) * (W * t - r) - 9.5 * t * land, 1e-6);
}

// No void and no step: what the lining's stuff fills, seen from the front, is a frame 32 wide on the land and
// 20 in the rebates, whatever the joint. So all forms together have the same volume once the horns are off.
TEST(LiningHead, AllFormsFillTheSameFrame) {
  for (const char* rebates : {"double", "single", "none"}) {
    const double W = 253, n = std::string(rebates) == "double" ? 2 : std::string(rebates) == "single" ? 1 : 0;
    const double inRebates = 45 * n, land = W - inRebates;
    const double frame = land * ((742 + 64) * (1977 + 32.0) - 742 * 1977.0) +
                         inRebates * ((742 + 64) * (1977 + 32.0) - (742 + 24) * (1977 + 12.0));
    for (const char* form : {"trenched", "housed", "rebated"}) {
      const CutWork work = cutText(liningFrame(lining(form, rebates)));
      double all = 0;
      for (const Piece& p : work.pieces) all += volume(p.last().shell);
      EXPECT_NEAR(all, frame, 1e-5) << form << " " << rebates;
    }
  }
}

TEST(LiningHead, SizesAreMeasuredOnTheSolids) {
  for (const char* form : {"trenched", "housed", "rebated"}) {
    const CutWork work = cutText(liningFrame(lining(form, "double")));
    EXPECT_GE(work.dimensions.size(), 2u);
    for (const Dimension& d : work.dimensions) {
      auto planeOf = [&](const FaceRef& face) {
        const Piece& p = piece(work, face.id);
        for (const FlatFace& f : p.last().shell.flats)
          if (f.role == face.role)
            return std::pair{
                p.worldFromPiece.direction(f.normal),
                p.worldFromPiece.point(p.last().shell.vertices[static_cast<size_t>(f.loops[0][0])])};
        throw std::runtime_error(face.role);
      };
      const auto [n, a] = planeOf(d.from);
      const auto [m, b] = planeOf(d.to);
      EXPECT_NEAR(std::abs(dot(n, b - a)), d.statedMm, 1e-9) << d.what;
    }
  }
}

TEST(LiningHead, ATongueOfItsOwnThicknessFits) {
  for (const char* tongue : {"tongue = 14\n", "tongue = 24\n"})
    for (const char* rebates : {"double", "single", "none"}) {
      SCOPED_TRACE(std::string(tongue) + rebates);
      LiningFrame frame = lining("trenched", rebates);
      frame.more = tongue;
      const CutWork work = cutText(liningFrame(frame));
      for (const std::string& f : faultsInEveryState(work, false)) ADD_FAILURE() << f;
    }
}

void expectRefused(const std::string& text, const std::string& words) {
  const auto faults = faultsOfText(text);
  ASSERT_FALSE(faults.empty()) << words;
  EXPECT_NE(faults[0].find(words), std::string::npos) << faults[0];
}
std::string changed(std::string text, const std::string& from, const std::string& to) {
  const size_t at = text.find(from);
  if (at == text.npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

TEST(LiningHead, WhatCannotBeMadeIsRefused) {
  const std::string text = liningFrame(lining("trenched", "double"));
  expectRefused(changed(text, "form = \"trenched\"", "form = \"housed\""), "has no horns");
  expectRefused(changed(text, "form = \"trenched\"", "form = \"rebated\""), "has no horns");
  expectRefused(changed(text, "depth = 12\n", "depth = 10\n"), "leaves a step");
  expectRefused(changed(text, "depth = 12\n", "depth = 12\ntongue = 31\n"), "no shoulder");
  expectRefused(changed(text, "width = 45 }, {", "width = 40 }, {"), "do not run on");
  expectRefused(changed(text, "depth = 12, width = 45 }]", "depth = 14, width = 45 }]"), "not equally deep");
  expectRefused(changed(text, "face = \"-Z\"", "face = \"+Z\""), "do not look to the doorway");
  expectRefused(changed(text, "length = 1989", "length = 1985"), "short of where the joint has it");
  LiningFrame narrow;
  narrow.width = 90;
  expectRefused(liningFrame(narrow), "leave a land of 0");
  LiningFrame deep;
  deep.rebateDepth = deep.depth = 30;
  expectRefused(liningFrame(deep), "30 deep leaves 2 of");
  LiningFrame housed = lining("housed", "double");
  housed.depth = 13;
  expectRefused(liningFrame(housed), "deeper than the rebate");
}

}  // namespace
}  // namespace dryfit::tests
