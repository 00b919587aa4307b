// A doorway as authors size it, set out by the program and measured on its cut pieces. Each check names its
// author; figures of inches are held to the half millimetre that rounding to whole millimetres may take,
// plain sums to 1e-6 mm.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fit/fit.h"
#include "reference/leaf_measures.h"

namespace dryfit::tests {
namespace {

constexpr double kInch = 25.4, kRounded = 0.5;

CutWork doorway(const std::string& text = "") {
  return cutDoorSet("title = \"T\"\n" + text);
}

const CutWork& usual() {
  static const CutWork work = doorway();
  return work;
}
const CutWork& single() {
  static const CutWork work = doorway("[lining]\nrebate = \"single\"\n");
  return work;
}
const CutWork& plain() {
  static const CutWork work = doorway("[lining]\nrebate = \"none\"\n");
  return work;
}

/// Between the two jambs' faces of this role, the hanging one at -X.
double between(const CutWork& work, const std::string& role) {
  return faceAt(work, "lining.jamb.closing", role, 0, -1) - faceAt(work, "lining.jamb.hanging", role, 0, 1);
}

/// Between what stands at the hanging and at the closing side, outside to outside of the way through.
double sight(const CutWork& work, const std::string& id) {
  return worldBox(work, id + ".closing").low.x - worldBox(work, id + ".hanging").high.x;
}

Swing swingOfLeaf(const CutWork& work) {
  const Assembly& a = work.assembly;
  for (size_t p = 0; p < a.pivots.size(); ++p)
    if (a.pivots[p].name == "leaf") return swingOf(a, static_cast<int>(p), runningPairs(a, a.pivots[p]));
  throw std::runtime_error("no leaf is hung");
}

int countOf(const CutWork& work, const std::string& head) {
  return static_cast<int>(std::count_if(work.pieces.begin(), work.pieces.end(),
                                        [&](const Piece& p) { return p.id.rfind(head, 0) == 0; }));
}

// A leaf 2 ft 6 in by 6 ft 6 in (762 by 1981, the traditional British sizes), 2 of gap (BS 4787-1, from
// memory), 6 under it, a lining of 32 rebated 12, backings of 22: the sums by hand.
TEST(PublishedDoorway, ChainOfSizesIsThatOfItsSolids) {
  const CutWork& w = usual();
  EXPECT_NEAR(worldBox(w, "leaf.stile.closing").high.x - worldBox(w, "leaf.stile.hanging").low.x, 762,
              kExact);
  EXPECT_NEAR(between(w, "rebate.floor"), 762 + 2 * 2, kExact);  // 766
  EXPECT_NEAR(between(w, "face"), 766 - 2 * 12, kExact);         // 742, between the lands
  EXPECT_NEAR(faceAt(w, "wall", "opening.closing", 0, -1) - faceAt(w, "wall", "opening.hanging", 0, 1),
              766 + 2 * (32 - 12) + 2 * 22, kExact);                                   // 850
  EXPECT_NEAR(faceAt(w, "lining.head", "rebate.floor", 2, -1), 1981 + 6 + 2, kExact);  // 1989
  EXPECT_NEAR(faceAt(w, "lining.head", "face", 2, -1), 1989 - 12, kExact);             // 1977
  EXPECT_NEAR(faceAt(w, "wall", "opening.head", 2, -1), 1977 + 32 + 22, kExact);       // 2031
  EXPECT_NEAR(worldBox(w, "leaf.stile.hanging").low.z, 6, kExact);
}

// With the leaf at 90 degrees its face stands 5 + 1 and its thickness 44 in from the rebate: the way through
// ends at its far face. 742 less what the leaf takes of it: pin at 1 from the rebate's floor, leaf's face 5
// beyond its axis, 44 thick: 1 + 5 + 44 - 12 = 38 (arithmetic).
TEST(PublishedDoorway, PassageWithTheLeafOpen) {
  const Swing swing = swingOfLeaf(usual());
  ASSERT_TRUE(swing.passageMm);
  EXPECT_NEAR(*swing.passageMm, 742 - 38, 1e-3);  // 704; found by search within the kernel's fit resolution
}

// NHBC Standards 6.7: architraves parallel and at an equal margin; 6 mm (UK custom), which lies between the
// 3/16 in and 5/16 in of American manuals.
TEST(PublishedDoorway, ArchitravesShowAnEqualMargin) {
  for (const auto& [work, front, back] : {std::tuple(&usual(), 778.0, 778.0), {&single(), 778.0, 754.0}}) {
    EXPECT_NEAR(sight(*work, "architrave.front.jamb"), front, kExact);
    EXPECT_NEAR(sight(*work, "architrave.back.jamb"), back, kExact);
  }
  const double side = (778 - 766) / 2.0;
  EXPECT_GE(side, 3.0 / 16 * kInch);
  EXPECT_LE(side, 5.0 / 16 * kInch);
  for (const char* face : {"front", "back"})
    EXPECT_NEAR(worldBox(usual(), fmt::format("architrave.{}.head", face)).low.z -
                    faceAt(usual(), "lining.head", "rebate.floor", 2, -1),
                side, kExact)
        << face;
}

// Joyce, The Technique of Furniture Making: the upper hinge 6 in down, the lower 9 in up, a third evenly
// between.
TEST(PublishedDoorway, HingesByJoyce) {
  const auto middle = [](const CutWork& w, int n) {
    return worldBox(w, fmt::format("hinge.{}.plate.jamb", n)).centre().z;
  };
  const Box3 leaf = worldBox(usual(), "leaf.stile.hanging");
  EXPECT_NEAR(leaf.high.z - worldBox(usual(), "hinge.1.plate.jamb").high.z, 6 * kInch, kRounded);
  EXPECT_NEAR(worldBox(usual(), "hinge.2.plate.jamb").low.z - leaf.low.z, 9 * kInch, kRounded);
  EXPECT_NEAR(middle(usual(), 1) - middle(usual(), 2), 1981 - 152 - 229 - 100, kExact);  // 1500
  const CutWork three = doorway("leaf.height = 2040\n");
  ASSERT_EQ(countOf(three, "hinge.3.pin"), 1);
  EXPECT_NEAR(middle(three, 1) - middle(three, 2), middle(three, 2) - middle(three, 3), kExact);
}

// CPWD Specifications 9.19.5: hinges 200 from the top and the bottom of the shutter, one at mid-height: of a
// leaf whose lock rail is clear of it.
TEST(PublishedDoorway, HingesByCpwd) {
  const CutWork w = doorway("hinge.rule = \"cpwd\"\nleaf.height = 2100\n");
  const Box3 leaf = worldBox(w, "leaf.stile.hanging");
  EXPECT_NEAR(leaf.high.z - worldBox(w, "hinge.1.plate.jamb").high.z, 200, kExact);
  EXPECT_NEAR(worldBox(w, "hinge.2.plate.jamb").centre().z, leaf.centre().z, kExact);
  EXPECT_NEAR(worldBox(w, "hinge.3.plate.jamb").low.z - leaf.low.z, 200, kExact);
}

// American architectural practice: 5 in from the head's rebate to the upper hinge's top, 10 in from the floor
// to the lower one's foot; American residential: 7 in and 11 in, measured on the leaf.
TEST(PublishedDoorway, HingesByAmericanRules) {
  const CutWork arch = doorway("hinge.rule = \"us-architectural\"\n");
  EXPECT_NEAR(
      faceAt(arch, "lining.head", "rebate.floor", 2, -1) - worldBox(arch, "hinge.1.plate.jamb").high.z,
      5 * kInch, kExact);
  ASSERT_EQ(countOf(arch, "hinge.3.pin"), 1);  // BHMA: over 60 in, up to 90 in: three
  EXPECT_NEAR(worldBox(arch, "hinge.3.plate.jamb").low.z, 10 * kInch, kExact);
  const CutWork home = doorway("hinge.rule = \"us-residential\"\n");
  const Box3 leaf = worldBox(home, "leaf.stile.hanging");
  EXPECT_NEAR(leaf.high.z - worldBox(home, "hinge.1.plate.jamb").high.z, 7 * kInch, kExact);
  EXPECT_NEAR(worldBox(home, "hinge.3.plate.jamb").low.z - leaf.low.z, 11 * kInch, kExact);
}

// Rivington's Notes on Building Construction, part II: framed grounds 3 to 6 in wide, about 3/4 in proud of
// the bare wall, their inner edges equidistant from the centre line, two posts with a head haunched and
// tenoned between; Cassell's (1907): glued and wedged.
TEST(PublishedDoorway, GroundsByRivington) {
  const CutWork& w = usual();
  for (const std::string face : {"front", "back"}) {
    const std::string frame = "grounds." + face + ".";
    const Box3 hanging = worldBox(w, frame + "jamb.hanging"), closing = worldBox(w, frame + "jamb.closing");
    EXPECT_GE(hanging.size().x, 3 * kInch - kRounded);
    EXPECT_LE(hanging.size().x, 6 * kInch);
    EXPECT_NEAR(hanging.size().y, 0.75 * kInch, kRounded);
    EXPECT_NEAR(closing.low.x, -hanging.high.x, kExact);
    EXPECT_FALSE(facesOf(w, frame + "head", "haunch.end", 0, 1).empty());
    EXPECT_FALSE(facesOf(w, frame + "head", "haunch.end", 0, -1).empty());
    EXPECT_EQ(countOf(w, frame + "wedge."), 4);
  }
  const Box3 wall = worldBox(w, "wall");
  EXPECT_NEAR(wall.low.y - worldBox(w, "grounds.front.jamb.hanging").low.y, 0.75 * kInch, kRounded);
  EXPECT_NEAR(worldBox(w, "grounds.back.jamb.hanging").high.y - wall.high.y, 0.75 * kInch, kRounded);
  // The plasterer's screed: flush with the plaster.
  EXPECT_NEAR(worldBox(w, "plaster.front").low.y, worldBox(w, "grounds.front.head").low.y, kExact);
}

// NHBC Standards 6.7: a frame fixed at no more than 600; custom: one backing behind each hinge.
TEST(PublishedDoorway, BackingsAreNoMoreThan600Apart) {
  for (const std::string side : {"hanging", "closing"}) {
    double below = 0;
    const int count = countOf(usual(), "backing." + side + ".");
    for (int i = 1; i <= count; ++i) {
      const double at = worldBox(usual(), fmt::format("backing.{}.{}", side, i)).centre().z;
      EXPECT_LE(at - below, 600 + kExact);
      below = at;
    }
    EXPECT_LE(worldBox(usual(), "lining.head").high.z - below, 600 + kExact);
  }
  for (const char* plate : {"hinge.1.plate.jamb", "hinge.2.plate.jamb"}) {
    const Box3 hinge = worldBox(usual(), plate);
    int behind = 0;
    for (int i = 1; i <= countOf(usual(), "backing.hanging."); ++i) {
      const Box3 b = worldBox(usual(), fmt::format("backing.hanging.{}", i));
      behind += b.low.z < hinge.low.z && b.high.z > hinge.high.z;
    }
    EXPECT_EQ(behind, 1) << plate;
  }
}

// Fairham, Woodwork Joints: a dovetail never more acute than 1 in 6. Carpenters' custom: a waist of two
// thirds of the width at least.
TEST(PublishedDoorway, BackingsDovetailIsOneInSix) {
  const Piece& p = pieceNamed(usual(), "backing.hanging.2");
  int sides = 0;
  for (const FlatFace& f : p.last().shell.flats) {
    if (f.role.find("dovetail.side") == std::string::npos) continue;
    const Vec3 n = p.worldFromPiece.direction(f.normal);
    EXPECT_NEAR(std::abs(n.y / n.z), 1.0 / 6, 1e-9);
    ++sides;
  }
  EXPECT_GE(sides, 4);  // two at each end
  const double width = 60;
  EXPECT_GE(width - 2 * 19 / 6.0, width * 2 / 3);
}

// Allen, Practical Building Construction: a casing rebated 1/2 in, a 2 in one leaves 1 1/2; NHBC
// Standards 6.7: its width that of wall and finishes.
TEST(PublishedDoorway, LiningByAllen) {
  const CutWork& w = usual();
  EXPECT_NEAR((between(w, "rebate.floor") - between(w, "face")) / 2, 0.5 * kInch,
              0.7);  // 12: he gives 1/2 in
  const Box3 wall = worldBox(w, "wall"), jamb = worldBox(w, "lining.jamb.hanging");
  EXPECT_NEAR(jamb.size().y, wall.size().y + 19 + 19, kExact);
  EXPECT_NEAR(jamb.low.y, worldBox(w, "plaster.front").low.y, kExact);
  EXPECT_NEAR(jamb.high.y, worldBox(w, "plaster.back").high.y, kExact);
  // As deep as the leaf is thick, and 1: the leaf closes flush with the lining's edge.
  EXPECT_NEAR(faceAt(w, "lining.jamb.hanging", "rebate.side", 1, -1), 44 + 1, kExact);
  EXPECT_NEAR(worldBox(w, "leaf.stile.hanging").low.y, jamb.low.y, kExact);
}

// Carpenters' Guide: the head let 3/8 in into each jamb.
TEST(PublishedDoorway, HousedHeadByTheCarpentersGuide) {
  const CutWork w = doorway("[lining]\nrebate = \"none\"\nhead_joint = \"housed\"\n");
  const double inside = between(w, "face");
  EXPECT_NEAR((worldBox(w, "lining.head").size().x - inside) / 2, 3.0 / 8 * kInch, kRounded);
}

// Noyes, Handwork in Wood; Fairham: half of the hinge's thickness gained into the door, half into the jamb,
// the joint between them left out: each plate in its own.
TEST(PublishedDoorway, HingesAreLetInHalfAndHalf) {
  const CutWork& w = usual();
  const double inLeaf =
      faceAt(w, "hinge.1.plate.leaf", "outer", 0, 1) - worldBox(w, "leaf.stile.hanging").low.x;
  const double inJamb = faceAt(w, "lining.jamb.hanging", "rebate.floor", 0, 1) -
                        faceAt(w, "hinge.1.plate.jamb", "outer", 0, -1);
  EXPECT_NEAR(inLeaf, inJamb, kExact);
  const double knuckle = 2 * 3.5;
  EXPECT_NEAR(inLeaf + inJamb + 2, knuckle, kExact);  // and the gap of 2
}

// Fairham: to lie back clear of the architrave the pin's centre stands half as far out as the architrave's
// face.
TEST(PublishedDoorway, PinsProjectionByFairham) {
  const std::string open =
      "leaf.opening_angle = 180\narchitrave.profile = \"square\"\nhinge.size = [100, 42]\nhinge.pin_proud = ";
  EXPECT_TRUE(swingOfLeaf(doorway(open + "10.8\n")).strike);  // 22 thick: half is 11
  EXPECT_FALSE(swingOfLeaf(doorway(open + "11.2\n")).strike);
}

// Rivington: the architrave covers lining, ground and the plaster's joint; on wrought grounds it laps about
// half the ground's width.
TEST(PublishedDoorway, ArchitravesCoverTheGroundsByRivington) {
  EXPECT_GT(worldBox(usual(), "architrave.front.jamb.closing").high.x,
            worldBox(usual(), "grounds.front.jamb.closing").high.x);
  const CutWork wrought = doorway("architrave.lap = -38\n");
  const Box3 ground = worldBox(wrought, "grounds.front.jamb.closing");
  EXPECT_NEAR(worldBox(wrought, "architrave.front.jamb.closing").high.x, ground.centre().x,
              5.0);  // up to the next 5
}

// 20 of lining (32 plain) less 6 of margin, 76 of ground, 12 of lap, up to the next 5: common practice.
TEST(PublishedDoorway, ArchitravesWidthByTheRule) {
  EXPECT_NEAR(worldBox(usual(), "architrave.front.jamb.closing").size().x, 105, kExact);
  EXPECT_NEAR(worldBox(plain(), "architrave.front.jamb.closing").size().x, 115, kExact);
}

// Rivington; Building Construction vol. 2: the casing is thick enough to receive the skirting's end.
TEST(PublishedDoorway, SkirtingsButtTheThickerArchitrave) {
  for (const std::string face : {"front", "back"}) {
    const Box3 skirting = worldBox(usual(), "skirting." + face + ".right"),
               architrave = worldBox(usual(), "architrave." + face + ".jamb.closing");
    EXPECT_NEAR(skirting.low.x, architrave.high.x, kExact);
    EXPECT_GT(architrave.size().y, skirting.size().y);
    EXPECT_NEAR(skirting.low.z, 0, kExact);
  }
}

}  // namespace
}  // namespace dryfit::tests
