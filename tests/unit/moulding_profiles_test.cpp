// Sections of mouldings: areas by closed formula (rectangles, quarter and half circles), listed sections
// against named ones, every fault in full.
#include "settingout/moulding_profiles.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
/// mm2: sums of a dozen products of doubles over some hundreds.
constexpr double kExact = 1e-10;

struct Named {
  std::string name;
  double width, thickness, radius;
  double area;  ///< by the formula beside it
};

/// Fillet and step that the trade leaves beside, above and below a curve that fills `size` of `whole`.
double beside(double whole, double size) {
  return (whole - size) / 2;
}

/// Timber under a fillet, a quarter of a circle (round: its own quarter; hollow: the square less it), and the
/// lower fillet.
double quarterArea(double w, double t, double r, bool hollow) {
  const double fillet = beside(w, r), step = beside(t, r);
  const double curve = hollow ? r * r - kPi * r * r / 4 : kPi * r * r / 4;
  return fillet * t + r * step + curve + fillet * step;
}

/// Two quarters of radius r, round above hollow: together they fill r x r beside r x r full.
double ogeeArea(double w, double t, double r) {
  const double fillet = beside(w, 2 * r), step = beside(t, 2 * r);
  return fillet * t + r * (step + r) + kPi * r * r / 4 + r * step + r * r - kPi * r * r / 4 + fillet * step;
}

std::vector<Named> sections() {
  std::vector<Named> all;
  for (const auto& [w, t] : {std::pair{20.0, 14.0}, {32.0, 19.0}, {16.0, 25.4}}) {
    all.push_back({"chamfer", w, t, 8, w * t - 8 * 8 / 2.0});
    all.push_back({"ovolo", w, t, 10, quarterArea(w, t, 10, false)});
    all.push_back({"scotia", w, t, 10, quarterArea(w, t, 10, true)});
    all.push_back({"ogee", w, t, 5.5, ogeeArea(w, t, 5.5)});
    all.push_back({"bead", w, t, 5, w * (t - 5) + kPi * 25 / 2});
  }
  return all;
}

TEST(MouldingProfiles, AreasAreThoseOfTheirParts) {
  for (const Named& n : sections()) {
    SCOPED_TRACE(fmt::format("{} {} by {}", n.name, n.width, n.thickness));
    const auto path = namedProfile(n.name, n.width, n.thickness, n.radius);
    ASSERT_TRUE(path.ok()) << path.faults()[0].message;
    EXPECT_NEAR(timberArea(path.value()), n.area, kExact);
    EXPECT_FALSE(profileFault(path.value(), n.width, n.thickness));
  }
  EXPECT_EQ(timberArea(namedProfile("square", 20, 14, {}).value()), 280);
}

/// Each arc of turn a and radius r as its own chords loses or adds r^2 (a/n - sin(a/n)) n / 2.
TEST(MouldingProfiles, ChordsTakeTheirSegmentsOff) {
  auto segments = [](double turn, double r) {
    const double n = std::ceil(turn / (2 * kPi / 64) - 1e-9);
    return r * r * n / 2 * (turn / n - std::sin(turn / n));
  };
  for (const Named& n : sections()) {
    SCOPED_TRACE(n.name);
    const Profile path = namedProfile(n.name, n.width, n.thickness, n.radius).value();
    const double off = n.name == "ovolo"    ? segments(kPi / 2, n.radius)
                       : n.name == "scotia" ? -segments(kPi / 2, n.radius)
                       : n.name == "bead"   ? segments(kPi, n.radius)
                                            : 0;  // an ogee's two arcs make it up
    EXPECT_NEAR(timberArea(path) - timberAreaByChords(path), off, kExact);
  }
}

TEST(MouldingProfiles, UsualRadiiLeaveFilletsAndSteps) {
  EXPECT_EQ(usualRadius("ovolo", 20, 14), 12);  // 14 less steps of 1
  EXPECT_EQ(usualRadius("ovolo", 14, 20), 10);  // 14 less fillets of 2
  EXPECT_EQ(usualRadius("ogee", 20, 14), 6);
  EXPECT_EQ(usualRadius("ogee", 20, 10), 4);
  EXPECT_EQ(usualRadius("bead", 20, 14), 6);
  EXPECT_EQ(usualRadius("bead", 20, 5), 4);
  EXPECT_EQ(usualRadius("chamfer", 20, 14), 8);
  EXPECT_EQ(usualRadius("chamfer", 20, 6), 5);
  for (const std::string& name : profileNames()) {
    const auto path = namedProfile(name, 20, 14, {});
    ASSERT_TRUE(path.ok()) << name;
    if (name == "square") continue;
    EXPECT_EQ(path.value(), namedProfile(name, 20, 14, usualRadius(name, 20, 14)).value()) << name;
  }
}

TEST(MouldingProfiles, RadiiThatDoNotFitAreRefused) {
  auto said = [](const std::string& name, double w, double t, std::optional<double> r) {
    const auto path = namedProfile(name, w, t, r);
    return path ? "it fits" : path.faults()[0].message + "; " + path.faults()[0].hint;
  };
  EXPECT_EQ(said("ovolo", 20, 14, 12.5), "ovolo of radius 12.5 does not fit a section 20 by 14; 0.5 to 12");
  EXPECT_EQ(said("scotia", 14, 20, 11), "scotia of radius 11 does not fit a section 14 by 20; 0.5 to 10");
  EXPECT_EQ(said("ogee", 20, 14, 6.1), "ogee of radius 6.1 does not fit a section 20 by 14; 0.5 to 6");
  EXPECT_EQ(said("bead", 20, 30, 8.5), "bead of radius 8.5 does not fit a section 20 by 30; 0.5 to 8");
  EXPECT_EQ(said("chamfer", 20, 14, 14), "chamfer of radius 14 does not fit a section 20 by 14; 0.5 to 13");
  EXPECT_EQ(said("ovolo", 20, 14, 0.4), "ovolo of radius 0.4 does not fit a section 20 by 14; 0.5 to 12");
  EXPECT_EQ(said("ovolo", 4, 14, {}), "no ovolo fits a section 4 by 14; a larger section, or \"square\"");
  EXPECT_EQ(said("ovolo", 4, 14, 1.0), "ovolo of radius 1 does not fit a section 4 by 14; a larger section");
  EXPECT_EQ(said("square", 20, 14, 3), "a square section has no radius; leave it out");
  EXPECT_EQ(said("ovolo", 20, 14, 12), "it fits");
}

std::string faultOf(const Profile& path, double w = 20, double t = 14) {
  const auto fault = profileFault(path, w, t);
  return fault ? fault->message + "; " + fault->hint : "it is fit";
}

TEST(MouldingProfiles, FaultsOfListedSectionsAreToldInFull) {
  const std::string rule = "from the back edge (across 0) over the face to the back (height 0)";
  EXPECT_EQ(faultOf({{0, 14}, {}}), "the section has one point only; " + rule);
  EXPECT_EQ(faultOf({{2, 14}, {{{20, 0}}}}),
            "the section begins at [2, 14]; on the back edge: [0, height], the height at least 1");
  EXPECT_EQ(faultOf({{0, 0.5}, {{{20, 0}}}}),
            "the section begins at [0, 0.5]; on the back edge: [0, height], the height at least 1");
  EXPECT_EQ(faultOf({{0, 14}, {{{20, 3}}}}),
            "the section ends at [20, 3]; on the back: [across, 0], at least 1 across");
  EXPECT_EQ(faultOf({{0, 14}, {{{0.5, 0}}}}),
            "the section ends at [0.5, 0]; on the back: [across, 0], at least 1 across");
  EXPECT_EQ(faultOf({{0, 14}, {{{0, 14}}, {{20, 0}}}}),
            "the section is not fit: step 1 has no length; " + rule);
  EXPECT_EQ(faultOf({{0, 14}, {{{4, 14}}, {{20, 0}, 6}}}),
            "the section is not fit: step 2: a radius of 6 does not reach over 21.26; " + rule);
  EXPECT_EQ(faultOf({{0, 14}, {{{12, 14}}, {{12, 6}}, {{4, 6}}, {{4, 20}}, {{20, 0}}}}),
            "the section is not fit: the path crosses or touches itself; " + rule);
  EXPECT_EQ(faultOf({{0, 14}, {{{22, 14}}, {{22, 0}}}}),
            "the section reaches [22, 14], outside 20 by 14; keep within the width and the thickness");
  // A round may bulge out between two points that lie within; its first corner outside is told.
  EXPECT_EQ(faultOf({{0, 7}, {{{10, 7}, 5}, {{20, 0}}}}, 20, 11),
            "the section reaches [2.222, 11.16], outside 20 by 11; keep within the width and the thickness");
  EXPECT_EQ(faultOf({{0, 1}, {{{1, 0}}}}), "the section leaves 0.5 mm2 of timber; at least 1");
  EXPECT_EQ(faultOf({{0, 14}, {{{4, 14}}, {{16, 2}, 12}, {{20, 2}}, {{20, 0}}}}), "it is fit");
}

/// The timber would hang together by a line only, or not at all.
TEST(MouldingProfiles, ASectionThatComesBackToItsFlatSidesIsRefused) {
  const std::string hint = "; between its ends the path keeps off the back edge and the back";
  EXPECT_EQ(faultOf({{0, 14}, {{{8, 14}}, {{0, 6}}, {{20, 0}}}}),
            "the section comes back to the back edge or the back at [0, 6]" + hint);
  EXPECT_EQ(faultOf({{0, 14}, {{{4, 14}}, {{10, 0}}, {{16, 8}}, {{20, 0}}}}),
            "the section comes back to the back edge or the back at [10, 0]" + hint);
  EXPECT_EQ(faultOf({{0, 14}, {{{0, 5}}, {{20, 0}}}}),
            "the section comes back to the back edge or the back at [0, 5]" + hint);
  EXPECT_EQ(faultOf({{0, 14}, {{{10, 14}}, {{10, 0}}, {{20, 0}}}}),
            "the section comes back to the back edge or the back at [10, 0]" + hint);
}

// ---- a listed section is the named one ----

std::string beadFile(const std::string& profile) {
  return "title = \"T\"\n[[member]]\nid = \"rest\"\nsection = [20, 14]\nlength = 300\norigin = [0, 0, "
         "0]\nalong = \"+X\"\nwidth_along = \"+Z\"\nback = \"-Z\"\nprofile = " +
         profile + "\n";
}

TEST(MouldingProfiles, ListedOnesAreTheNamedOnes) {
  const std::vector<std::pair<std::string, std::string>> pairs{
      {"\"square\"", "[[0, 14], [20, 14], [20, 0]]"},
      {"\"chamfer\"\nradius = 8", "[[0, 14], [12, 14], [20, 6], [20, 0]]"},
      {"\"ovolo\"\nradius = 10",
       "[[0, 14], [5, 14], [5, 12], { round = 10, to = [15, 2] }, [20, 2], [20, 0]]"},
      {"\"scotia\"\nradius = 10",
       "[[0, 14], [5, 14], [5, 12], { hollow = 10, to = [15, 2] }, [20, 2], [20, 0]]"},
      {"\"ogee\"\nradius = 5",
       "[[0, 14], [5, 14], [5, 12], { round = 5, to = [10, 7] }, { hollow = 5, to = [15, 2] }, [20, 2], [20, "
       "0]]"},
      {"\"bead\"\nradius = 4", "[[0, 10], [6, 10], { round = 4, to = [14, 10] }, [20, 10], [20, 0]]"},
      // The same in inches and fractions, each of them a whole number of 127ths of a millimetre.
      {"\"chamfer\"\nradius = \"5/16 in\"", "[[0, 14], [12.0625, 14], [\"20 mm\", 6.0625], [20, 0]]"},
  };
  for (const auto& [named, listed] : pairs) {
    SCOPED_TRACE(named);
    const CutWork one = cutText(beadFile(named)), other = cutText(beadFile(listed));
    const Shell &a = one.pieces[0].last().shell, &b = other.pieces[0].last().shell;
    EXPECT_EQ(one.pieces[0].last().recipe.features.size(), 1u);
    ASSERT_EQ(a.vertices.size(), b.vertices.size());
    ASSERT_EQ(a.strips.size(), b.strips.size());
    EXPECT_EQ(shapeKey({&a}), shapeKey({&b}));
    for (size_t i = 0; i < a.vertices.size(); ++i)
      EXPECT_NEAR(length(a.vertices[i] - b.vertices[i]), 0, 1e-12);
  }
}

}  // namespace
}  // namespace dryfit::tests
