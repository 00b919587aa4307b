// The sizes of joints as authors print them, against the setting-out rules. Each check names its author:
//   Fairham, Woodwork Joints; Noyes, Handwork in Wood (1910); Rivington's Notes on Building Construction;
//   Goring, Manual of Purpose-Made Woodworking Joinery; Hasluck (ed.), Cassell's Carpentry and Joinery
//   (1907); Construction Superintendence; Building Construction vol. 2; Allen, Practical Building
//   Construction.
// Rules are plain sums of the sizes given, so figures are held to 1e-9 mm unless the author rounds.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

#include "settingout/tenon_rules.h"

namespace dryfit {
namespace {

constexpr double kExact = 1e-9, kInch = 25.4;

/// "GTHTH": the kinds from the outer edge inwards.
std::string kindsOf(const std::vector<RailPart>& parts) {
  std::string text;
  for (const RailPart& p : parts) text += "THGW"[static_cast<int>(p.kind)];
  return text;
}

/// Sets the rail out and holds its parts, from the outer edge, to the author's.
void expectParts(const RailEnd& rail, const std::string& kinds, const std::vector<double>& sizes,
                 double tolerance = kExact) {
  const auto parts = setOutRailEnd(rail);
  ASSERT_TRUE(parts);
  ASSERT_EQ(kindsOf(*parts), kinds);
  double at = 0;
  for (size_t i = 0; i < sizes.size(); ++i) {
    EXPECT_NEAR((*parts)[i].size(), sizes[i], tolerance) << "part " << i;
    EXPECT_NEAR((*parts)[i].from, at, kExact) << "parts leave a gap before part " << i;
    at = (*parts)[i].to;
  }
  EXPECT_NEAR(at, rail.width, kExact);
}

RailEnd endRail(double width, double thickness, double grooveInner) {
  RailEnd rail;
  rail.width = width;
  rail.tenonThickness = thickness;
  rail.grooveInner = grooveInner;
  return rail;
}

RailEnd middleRail(double width, double thickness, double groove) {
  RailEnd rail = endRail(width, thickness, groove);
  rail.grooveOuter = groove;
  rail.atStileEnd = false;
  return rail;
}

double widestOf(const std::vector<RailPart>& parts, RailPart::Kind kind) {
  double widest = 0;
  for (const RailPart& p : parts)
    if (p.kind == kind) widest = std::max(widest, p.size());
  return widest;
}

long countOf(const std::vector<RailPart>& parts, RailPart::Kind kind) {
  return std::count_if(parts.begin(), parts.end(), [&](const RailPart& p) { return p.kind == kind; });
}

double widestBetweenTenons(const std::vector<RailPart>& parts) {
  double widest = 0;
  for (size_t i = 2; i < parts.size(); ++i)
    if (parts[i].kind == RailPart::Kind::Tenon && parts[i - 2].kind == RailPart::Kind::Tenon)
      widest = std::max(widest, parts[i - 1].size());
  return widest;
}

// Fairham: a third of the member's thickness. To the nearest chisel: common practice.
TEST(PublishedJoints, TenonIsAThirdToTheNearestChisel) {
  EXPECT_DOUBLE_EQ(tenonThicknessFor(44), 14);  // 14.67; 16 is used too, 1.33 off
  EXPECT_DOUBLE_EQ(tenonThicknessFor(35), 12);  // 11.67
  EXPECT_DOUBLE_EQ(tenonThicknessFor(57), 19);
  EXPECT_DOUBLE_EQ(tenonThicknessFor(19), 6);  // 6.33
}

// Rivington: a third to a quarter, cheeks enough. A chisel may pass the third by half the step between
// chisels of that size (1.5, common practice), never fall under the quarter.
TEST(PublishedJoints, TenonLiesBetweenRivingtonsThirdAndQuarter) {
  for (double stuff = 18; stuff <= 75; stuff += 0.5) {
    const double t = tenonThicknessFor(stuff);
    EXPECT_GE(t, stuff / 4) << stuff;
    EXPECT_LE(t, stuff / 3 + 1.5) << stuff;
  }
}

// A top rail of 95 with a 12 groove: each author's tenon.
TEST(PublishedJoints, AuthorsDisagreeOnAnEndTenonsWidth) {
  EXPECT_NEAR(tenonWidthNoyes(95, 12), 35.5, kExact);    // Noyes: half the rail less the groove
  EXPECT_NEAR(tenonWidthCassell(95), 47.5, kExact);      // Cassell's: at most half the rail
  EXPECT_NEAR(tenonWidthCollege(95, 12), 55.33, 0.005);  // two thirds of the net, from memory; told to 0.01
  // Cassell's would call the college's too wide: the stile's end is driven out in wedging.
  EXPECT_GT(tenonWidthCollege(95, 12) - tenonWidthCassell(95), 7.8);
}

// Construction Superintendence: about two thirds of the piece; over about 7 in, two tenons.
TEST(PublishedJoints, SuperintendencesTenons) {
  EXPECT_NEAR(tenonWidthCollege(6 * kInch, 0), 4 * kInch, kExact);  // and so never over his 4 in
  const auto parts = setOutRailEnd(endRail(7 * kInch, tenonThicknessFor(44), 0));
  ASSERT_TRUE(parts);
  EXPECT_EQ(countOf(*parts, RailPart::Kind::Tenon), 2);
}

// Each author's width can be asked for; the haunch takes the rest. Unasked, Cassell's most.
TEST(PublishedJoints, TopRailTakesEachAuthorsTenon) {
  RailEnd rail = endRail(95, 14, 12);
  expectParts(rail, "HTG", {35.5, 47.5, 12});
  rail.tenonWidth = tenonWidthNoyes(95, 12);
  expectParts(rail, "HTG", {47.5, 35.5, 12});
  rail.tenonWidth = tenonWidthCollege(95, 12);
  expectParts(rail, "HTG", {83.0 / 3, 166.0 / 3, 12});  // a third of 83 the haunch, two thirds the tenon
}

// Rivington: five times the thickness at most, or it bends. Superintendence: 4 in at most.
TEST(PublishedJoints, WidestSingleTenon) {
  EXPECT_NEAR(widestTenonRivington(14), 70, kExact);
  EXPECT_NEAR(widestTenonRivington(44.0 / 3), 73.33, 0.005);  // of 44 stuff, told to 0.01
  EXPECT_NEAR(widestTenonSuperintendence(), 101.6, kExact);
  // The two part company from 21 thick: 4 in is the narrower then.
  EXPECT_LT(widestTenonSuperintendence(), widestTenonRivington(22));
}

// Goring: a rail too narrow to split but over five thicknesses keeps 5 t and is haunched at both edges.
TEST(PublishedJoints, GoringsNarrowMiddleRail) {
  expectParts(middleRail(120, 14, 12), "GHTHG", {12, 13, 70, 13, 12});
  expectParts(middleRail(94, 14, 12), "GTG", {12, 70, 12});  // 5 t to the hair: no haunch
  expectParts(middleRail(80, 14, 12), "GTG", {12, 56, 12});
}

// Rivington: bottom and lock rails have a pair in line, a haunch between, so that the stile is not cut in
// two. Fairham: tenons and gaps about equal. Whole fives: common practice.
TEST(PublishedJoints, PairsInLineByThirds) {
  expectParts(endRail(195, 14, 12), "HTHTG", {40, 50, 43, 50, 12});
  expectParts(middleRail(195, 14, 12), "GTHTG", {12, 57, 57, 57, 12});
  // Just short of nine thicknesses there is no room for a pair: tenon, gap and tenon under three t each.
  expectParts(middleRail(149, 14, 12), "GHTHG", {12, 27.5, 70, 27.5, 12});
  expectParts(middleRail(150, 14, 12), "GTHTG", {12, 42, 42, 42, 12});
}

// Building Construction vol. 2, bottom rail: two tenons of 2 1/2 in, 1 1/2 in between them, 1 1/2 in from the
// lower one to the rail's bottom. With a 1/2 in groove that is a rail of 8 1/2 in.
TEST(PublishedJoints, BottomRailOfBuildingConstruction) {
  RailEnd rail = endRail(8.5 * kInch, 1.0 / 2 * kInch, 0.5 * kInch);
  rail.tenons = 2;
  rail.tenonWidth = 2.5 * kInch;
  rail.haunchWidth = 1.5 * kInch;
  expectParts(rail, "HTHTG", {1.5 * kInch, 2.5 * kInch, 1.5 * kInch, 2.5 * kInch, 0.5 * kInch});
  // Unasked, our pair keeps that author's haunch in round millimetres (40 for 38.1), but takes Fairham's
  // equal tenons and gap for the rest: 55 and 54, not 63.5 and 38.1.
  const auto unasked = setOutRailEnd(endRail(8.5 * kInch, 14, 12));
  ASSERT_TRUE(unasked);
  EXPECT_NEAR(unasked->front().size(), 1.5 * kInch, 2);
  EXPECT_NEAR((*unasked)[1].size(), (*unasked)[2].size(), 1.5);  // to the next 5 above a third
}

// Fairham: gaps between tenons never above 3 in; tenons and gaps about equal.
TEST(PublishedJoints, ThreeTenonsWhereAPairLeavesTooWideAGap) {
  expectParts(endRail(262, 14, 12), "HTHTG", {40, 70, 70, 70, 12});  // a pair at its widest
  expectParts(middleRail(264, 14, 12), "GTHTHTG", {12, 48, 48, 48, 48, 48, 12});
  expectParts(endRail(300, 14, 12), "HTHTHTG", {40, 49.6, 49.6, 49.6, 49.6, 49.6, 12});
}

// All authors' limits at once over every rail that can be met with in 44 stuff: parts without gaps, no tenon
// over 5 t (Rivington), a single end tenon at most half the rail (Cassell's), no gap over 3 in (Fairham).
// Up to 532: four tenons of 70, three gaps of 76 and a middle rail's grooves reach no further.
TEST(PublishedJoints, EveryRailKeepsEveryAuthorsLimit) {
  for (bool atEnd : {true, false})
    for (double width = 50; width <= 532; width += 1) {
      const RailEnd rail = atEnd ? endRail(width, 14, 12) : middleRail(width, 14, 12);
      const auto parts = setOutRailEnd(rail);
      ASSERT_TRUE(parts) << width;
      const double sum = std::accumulate(parts->begin(), parts->end(), 0.0,
                                         [](double s, const RailPart& p) { return s + p.size(); });
      EXPECT_NEAR(sum, width, kExact);
      const bool single = countOf(*parts, RailPart::Kind::Tenon) == 1;
      const double most = single && atEnd ? width / 2 : 70;
      EXPECT_LE(widestOf(*parts, RailPart::Kind::Tenon), std::min(most, 70.0) + kExact) << width;
      EXPECT_LE(widestBetweenTenons(*parts), 3 * kInch) << width;
    }
}

// A joints manual: wedges about 3/4 of the tenon's length, 3 thick; trade: 2/3 of the stile. The mouth longer
// by 3 to 5 at each end: common practice. Ours: 0.7 long, a nineteenth thick, the tip a fifteenth of that.
TEST(PublishedJoints, WedgesOfAStile) {
  const WedgeSetting w = wedgeFor(95, 12);
  EXPECT_NEAR(w.parallelMm, 23.75, kExact);
  EXPECT_NEAR(w.allowanceMm, 5, kExact);
  EXPECT_NEAR(w.lengthMm, 66.5, kExact);
  EXPECT_NEAR(w.thicknessAt(95), 5, kExact);
  EXPECT_NEAR(w.thicknessAt(95 - w.lengthMm), 5.0 / 15, kExact);
  for (double stile = 57; stile <= 95; stile += 1) {
    const WedgeSetting s = wedgeFor(stile, 12);
    EXPECT_GE(s.lengthMm, stile * 0.67) << stile;
    EXPECT_LE(s.lengthMm, stile * 0.75) << stile;
    EXPECT_GE(s.allowanceMm, 3 - kExact) << stile;
    EXPECT_LE(s.allowanceMm, 5 + kExact) << stile;
    EXPECT_NEAR(s.thicknessAt(stile), s.allowanceMm, kExact);
    EXPECT_NEAR(s.thicknessAt(stile - s.lengthMm), s.allowanceMm / 15, kExact);
  }
}

// A groove or haunch deeper than a quarter of the stile: the mortise stays parallel past it.
TEST(PublishedJoints, WedgesBeginBehindTheGroove) {
  const WedgeSetting w = wedgeFor(57, 20);
  EXPECT_NEAR(w.parallelMm, 20, kExact);
  EXPECT_NEAR(w.lengthMm, 37 * 14.0 / 15, kExact);
  EXPECT_NEAR(w.thicknessAt(57), 3, kExact);
}

// Allen: a muntin's stub tenon about 2 in (ours 50). Never nearer than 20 to the far edge; where two meet,
// each takes half of that: common practice.
TEST(PublishedJoints, StubTenonOfAMuntin) {
  EXPECT_NEAR(stubLength(195, false), 2 * kInch, 1);
  EXPECT_NEAR(stubLength(195, true), 50, kExact);
  EXPECT_NEAR(stubLength(95, true), 37.5, kExact);
  EXPECT_NEAR(stubLength(95, false), 50, kExact);
  EXPECT_NEAR(stubLength(60, false), 40, kExact);
}

}  // namespace
}  // namespace dryfit
