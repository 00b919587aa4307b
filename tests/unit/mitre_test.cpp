// Kind "mitre": the meeting area is the section's over the cosine of 45 degrees, nothing is shared, every
// refusal in full.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "fit/fit.h"
#include "order/order.h"
#include "settingout/moulding_profiles.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// One member of the corner or frame; `more` holds its profile.
std::string member(const std::string& id, const std::string& length, const std::string& origin,
                   const std::string& along, const std::string& width, const std::string& more,
                   const std::string& section = "[20, 14]") {
  return fmt::format(
      "[[member]]\nid = \"{}\"\nsection = {}\nlength = {}\norigin = {}\nalong = \"{}\"\nwidth_along = "
      "\"{}\"\n"
      "face = \"-Y\"\n{}\n",
      id, section, length, origin, along, width, more);
}
std::string mitred(const std::string& one, const std::string& other, const std::string& more = "") {
  return fmt::format("[[joint]]\nkind = \"mitre\"\none = \"{}\"\nother = \"{}\"\n{}", one, other, more);
}

/// A frame 300 by 200 over all of four members 20 by 14, the same section all round; `back` is the way its
/// back edge looks: "out" or "in".
std::string frame(const std::string& profile, bool backOut, const std::string& joints = "") {
  auto run = [&](const char* out, const char* in) {
    return profile.empty() ? "" : fmt::format("profile = {}\nback = \"{}\"", profile, backOut ? out : in);
  };
  return "title = \"Frame\"\n" + member("top", "\"rule\"", "[0, 0, 90]", "+X", "+Z", run("+Z", "-Z")) +
         member("left", "\"rule\"", "[-140, 0, 0]", "+Z", "+X", run("-X", "+X")) +
         member("right", "\"rule\"", "[140, 0, 0]", "+Z", "-X", run("+X", "-X")) +
         member("bottom", "\"rule\"", "[0, 0, -90]", "-X", "+Z", run("-Z", "+Z")) +
         mitred("top", "left", joints) + mitred("top", "right", joints) + mitred("bottom", "left", joints) +
         mitred("bottom", "right", joints);
}

TEST(Mitre, MeetsOverTheSectionTimesTheRootOfTwo) {
  for (const std::string& name : profileNames())
    for (bool backOut : {true, false}) {
      SCOPED_TRACE(name + (backOut ? ", back out" : ", back in"));
      const CutWork work = cutText(frame("\"" + name + "\"", backOut));
      const FitReport report = fit(work.assembly);
      for (const FitFault& f : report.faults) ADD_FAILURE() << f.text;
      // Fit measures planning meshes, whose arcs are chords.
      const Profile path = namedProfile(name, 20, 14, {}).value();
      ASSERT_EQ(work.assembly.contacts.size(), 4u);
      double met = 0;
      for (const Contact& c : report.stages.back().contacts) met += c.areaMm2;
      EXPECT_NEAR(met, 4 * std::sqrt(2.0) * timberAreaByChords(path), 4 * 0.05);
      for (const Piece& p : work.pieces) {
        const Shell& shell = p.last().shell;
        int ends = 0;
        for (const FlatFace& f : shell.flats)
          if (f.role == "mitre.low" || f.role == "mitre.high") {
            ++ends;
            EXPECT_NEAR(area(shell, f), std::sqrt(2.0) * timberArea(path), 1e-9) << p.id;
          }
        EXPECT_EQ(ends, 2);
      }
    }
}

/// Pappus for a mitred length: the section's area times the length of the line through its centroid.
TEST(Mitre, VolumesAreTheSectionsAlongItsCentroid) {
  for (bool backOut : {true, false}) {
    const CutWork work = cutText(frame("\"chamfer\"\nradius = 6", backOut));
    // 20 x 14 less the triangle 6 x 6 / 2 at the edge away from the back; the triangle's own centroid is 2
    // from that edge. Distance of the whole's centroid from the back edge:
    const double area = 280 - 18, fromBack = (280 * 10 - 18 * (20 - 2)) / area;
    const double fromOuter = backOut ? fromBack : 20 - fromBack;
    for (const auto& [id, length] :
         {std::pair{"top", 300.0}, {"bottom", 300.0}, {"left", 200.0}, {"right", 200.0}}) {
      const Shell& shell = work.pieces[static_cast<size_t>(pieceOf(work, id))].last().shell;
      EXPECT_NEAR(volume(shell), area * (length - 2 * fromOuter), 1e-8) << id;
    }
  }
}

TEST(Mitre, NothingIsSharedByTheCurvedSolids) {
  const CutWork work = cutText(frame("\"ogee\"", true));
  std::vector<Solid> solids;
  for (const Piece& p : work.pieces) solids.push_back(solidFromShell(p.last().shell).value());
  for (size_t i = 0; i < solids.size(); ++i)
    for (size_t k = i + 1; k < solids.size(); ++k) {
      const auto common =
          commonVolume(solids[i], work.pieces[i].worldFromPiece, solids[k], work.pieces[k].worldFromPiece);
      ASSERT_TRUE(common.ok());
      EXPECT_NEAR(common.value(), 0, 1e-3);  // the kernel's 1e-7 mm over the mitre
    }
}

TEST(Mitre, AFrameOfSquareStuffIsGluedDryOrNailed) {
  const CutWork dry = cutText(frame("", true)), glued = cutText(frame("", true, "fixing = \"glued\"\n"));
  auto glues = [](const CutWork& work) {
    int count = 0;
    for (const Operation& op : work.assembly.operations) count += static_cast<int>(op.bonds.size());
    return count;
  };
  EXPECT_EQ(glues(dry), 0);
  EXPECT_EQ(glues(glued), 4);
  EXPECT_TRUE(fit(glued.assembly).clean());
  EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(glued.assembly)));
}

/// A shift of any member any way is seen.
TEST(Mitre, NoShiftGoesUnseen) {
  const CutWork work = cutText(frame("\"ovolo\"", true));
  for (size_t body = 0; body < 4; ++body)
    for (int axis = 0; axis < 3; ++axis)
      for (double by : {0.05, -0.05}) {
        Assembly moved = work.assembly;
        moved.bodies[body].worldFromPiece.origin[axis] += by;
        EXPECT_FALSE(fit(moved).clean()) << body << " " << axis << " " << by;
      }
}

std::string corner(const std::string& one, const std::string& other) {
  const auto faults = faultsOfText("title = \"T\"\n" + one + other + mitred("top", "side"));
  std::string all;
  for (const std::string& f : faults) all += f.substr(f.find(": ") + 2) + "\n";
  return all;
}

TEST(Mitre, RefusesWhatDoesNotMeet) {
  const std::string top = member("top", "300", "[0, 0, 90]", "+X", "+Z", "");
  auto side = [](const std::string& origin, const std::string& along, const std::string& width,
                 const std::string& section = "[20, 14]", const std::string& more = "",
                 const std::string& length = "200") {
    return member("side", length, origin, along, width, more, section);
  };
  const std::string stands =
      "joint[1].one: top and side do not stand as a mitre needs them; two members of one width and "
      "thickness, square to each other, their faces in one plane\n";
  EXPECT_EQ(corner(top, side("[-140, 0, 0]", "+Z", "+X")), "");
  EXPECT_EQ(corner(top, side("[-140, 0, 0]", "+X", "+Z")), stands);              // side by side
  EXPECT_EQ(corner(top, side("[-140, 1, 0]", "+Z", "+X")), stands);              // out of plane
  EXPECT_EQ(corner(top, side("[-139, 0, 0]", "+Z", "+X", "[22, 14]")), stands);  // wider
  EXPECT_EQ(corner(top, side("[-140, 0, 0]", "+Z", "+X", "[20, 12]")), stands);  // thinner
  std::string turned = side("[-140, 0, 0]", "+Z", "+X");
  turned.replace(turned.find("-Y"), 2, "+Y");
  EXPECT_EQ(corner(top, turned), stands);  // faces away
  const std::string ovolo = "profile = \"ovolo\"\nback = ";
  const std::string differ =
      "joint[1].one: top and side have different sections; one section, its back edge outside at both or "
      "inside at both\n";
  const std::string moulded = member("top", "300", "[0, 0, 90]", "+X", "+Z", ovolo + "\"+Z\"");
  EXPECT_EQ(corner(moulded, side("[-140, 0, 0]", "+Z", "+X")), differ);
  EXPECT_EQ(corner(moulded, side("[-140, 0, 0]", "+Z", "+X", "[20, 14]", ovolo + "\"+X\"")), differ);
  EXPECT_EQ(
      corner(moulded, side("[-140, 0, 0]", "+Z", "+X", "[20, 14]", "profile = \"scotia\"\nback = \"-X\"")),
      differ);
  EXPECT_EQ(corner(moulded, side("[-140, 0, 0]", "+Z", "+X", "[20, 14]", ovolo + "\"-X\"")), "");
  EXPECT_EQ(corner(top, side("[-143, 0, 0]", "+Z", "+X")),
            "joint[1].one: top ends 3 short of the outer corner; its length runs from outer corner to outer "
            "corner: leave it to the rule\n");
  EXPECT_EQ(corner(top, side("[-138, 0, 0]", "+Z", "+X")),
            "joint[1].one: top ends 2 beyond the outer corner; its length runs from outer corner to outer "
            "corner: leave it to the rule\n");
  EXPECT_EQ(corner(top, side("[-140, 0, 80]", "+Z", "+X", "[20, 14]", "", "40")),
            "joint[1].one: side is 40 long, too short for mitres 20 wide; longer than 41\n");
}

TEST(Mitre, RefusesAMemberWithItself) {
  EXPECT_EQ(faultsOfText("title = \"T\"\n" + member("top", "300", "[0, 0, 90]", "+X", "+Z", "") +
                         mitred("top", "top"))
                .size(),
            1u);
}

}  // namespace
}  // namespace dryfit::tests
