// Making cards of members of the whole oar store and of small works. The order of making is held against the
// trade's own: face and edge, mortise from both edges, tenon cheeks, plough, haunch, shoulders last (common
// practice; Joyce, The Technique of Furniture Making: the joint first, the groove after). Sizes are held
// against the solids: blanks, faces of the cut shell, not the recipe that made the card.
#include "card/card.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Texts round to a hundredth; sizes come from sums of a handful of doubles.
constexpr double kExactMm = 1e-6;

class Cards : public testing::Test {
 protected:
  static const CutWork& oarStore() {
    static const CutWork work = cutWholeSet(std::string(DRYFIT_ROOT) + "/assets/doorsets/oar-store.toml");
    return work;
  }
  static MakingCard cardOf(const std::string& id, const CutWork& work = oarStore()) {
    const auto card = makingCard(work, pieceOf(work, id));
    if (!card) throw std::runtime_error(toText(card.faults()[0]));
    return card.value();
  }
  static const Piece& piece(const std::string& id) {
    return oarStore().pieces[static_cast<size_t>(pieceOf(oarStore(), id))];
  }
  /// Each kind of doing once, in the card's order.
  static std::vector<Making> sequence(const MakingCard& card) {
    std::vector<Making> out;
    for (const CardLine& line : card.lines)
      if (out.empty() || out.back() != line.making) out.push_back(line.making);
    return out;
  }
  static double size(const CardLine& line, const std::string& name) {
    for (const CardSize& s : line.sizes)
      if (s.name == name) return s.mm;
    throw std::runtime_error(line.text + " has no " + name);
  }
  static std::vector<CardLine> linesOf(const MakingCard& card, Making making) {
    std::vector<CardLine> out;
    for (const CardLine& line : card.lines)
      if (line.making == making) out.push_back(line);
    return out;
  }
  static const CardLine& one(const MakingCard& card, Making making) {
    for (const CardLine& line : card.lines)
      if (line.making == making) return line;
    throw std::runtime_error("no such line");
  }
  /// Places of the flat faces of a role along an axis of the piece, of its first state or its last.
  static std::vector<double> facesAt(const Piece& piece, const std::string& role, int axis,
                                     bool last = false) {
    const PlanningMesh& mesh = *(last ? piece.states.back() : piece.states.front()).cut->mesh;
    std::vector<double> at;
    for (const Facet& f : mesh.facets)
      if (mesh.roles[static_cast<size_t>(f.role)] == role)
        for (const Vec3 p : f.points)
          if (std::none_of(at.begin(), at.end(), [&](double v) { return std::abs(v - p[axis]) < kExactMm; }))
            at.push_back(p[axis]);
    std::sort(at.begin(), at.end());
    return at;
  }
};

using enum Making;

TEST_F(Cards, AStileIsMortisedPloughedAndHungLast) {
  const MakingCard card = cardOf("leaf.stile.hanging");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, SetOut, Mortise, Plough, Horns, LetIn, Screws}));
  EXPECT_EQ(card.alike,
            "Make 1. A pair with the closing stile, alike until something is let in: set the two out "
            "together, face edge to face edge.");
  EXPECT_EQ(card.measured,
            "Lengths from the top, horns not counted; across from the face edge, the inner edge; "
            "gauges from the face.");
}

TEST_F(Cards, AStilesMortisesStandWhereTheSolidHasThem) {
  const Piece& stile = piece("leaf.stile.hanging");
  const double top = facesAt(stile, "end.high", 0, true).at(0);  // horns off
  std::vector<double> ends = facesAt(stile, "mortise.end.low", 0),
                      high = facesAt(stile, "mortise.end.high", 0);
  for (const char* number : {".1", ".2"}) {
    const std::string role = std::string("mortise") + number;
    for (const double x : facesAt(stile, role + ".end.low", 0)) ends.push_back(x);
    for (const double x : facesAt(stile, role + ".end.high", 0)) high.push_back(x);
  }
  ends.insert(ends.end(), high.begin(), high.end());
  std::sort(ends.begin(), ends.end());
  std::vector<double> told;
  for (const CardLine& line : linesOf(cardOf("leaf.stile.hanging"), SetOut))
    if (line.text.rfind("Mortise", 0) == 0)
      for (const char* name : {"from", "to"}) told.push_back(top - size(line, name));
  std::sort(told.begin(), told.end());
  ASSERT_EQ(told.size(), 10u);  // five tenons
  ASSERT_EQ(ends.size(), told.size());
  for (size_t i = 0; i < told.size(); ++i) EXPECT_NEAR(told[i], ends[i], kExactMm);
}

TEST_F(Cards, AStilesGrooveAndGaugesAreTheSolids) {
  const MakingCard card = cardOf("leaf.stile.hanging");
  const Piece& stile = piece("leaf.stile.hanging");
  const CardLine& groove = one(card, Plough);
  const double edge = facesAt(stile, "edge.inner", 1).at(0), face = facesAt(stile, "face", 2).at(0);
  EXPECT_NEAR(size(groove, "depth"), std::abs(facesAt(stile, "groove.bottom", 1).at(0) - edge), kExactMm);
  EXPECT_NEAR(size(groove, "gauge from"), face - facesAt(stile, "groove.cheek.front", 2).at(0), kExactMm);
  EXPECT_EQ(groove.text,
            "Plough the groove in the inner edge: 14 wide, 15 from the face, 12 deep, right through.");
  EXPECT_NEAR(size(one(card, Saw), "length"), 2040 + 2 * 40, kExactMm);  // the leaf and its horns
}

TEST_F(Cards, ARailsShouldersComeLast) {
  const MakingCard card = cardOf("leaf.rail.top");
  EXPECT_EQ(sequence(card),
            (std::vector<Making>{Saw, Mark, SetOut, Cheeks, Plough, Haunch, Shoulders, CleanOff}));
  const Piece& rail = piece("leaf.rail.top");
  const auto shoulders = facesAt(rail, "shoulder.front", 0);
  EXPECT_NEAR(size(linesOf(card, SetOut)[0], "between shoulders"), shoulders.back() - shoulders.front(),
              kExactMm);
  // joinery's own example of 95: haunch 35.5, tenon 47.5, groove 12, from the outer edge in.
  EXPECT_EQ(linesOf(card, SetOut)[1].text,
            "Tenon at each end, from the face edge: 12 to 59.5; haunch 59.5 to 95.");
  const double end = facesAt(rail, "haunch.end", 0).back();
  EXPECT_NEAR(size(one(card, Haunch), "projection"), end - shoulders.back(), kExactMm);
}

TEST_F(Cards, AMuntinsStubsAreToldFromItsShoulders) {
  const CutWork work = shippedWork("muntin-frame");
  const MakingCard card = cardOf("muntin", work);
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, SetOut, Cheeks, Plough, Shoulders}));
  const Piece& muntin = work.pieces[static_cast<size_t>(pieceOf(work, "muntin"))];
  const auto shoulders = facesAt(muntin, "shoulder.front", 0);
  EXPECT_NEAR(size(linesOf(card, SetOut)[0], "between shoulders"), shoulders.back() - shoulders.front(),
              kExactMm);
  EXPECT_NE(one(card, Plough).text.find("both edges"), std::string::npos);
}

TEST_F(Cards, APanelIsRaisedOnBothSides) {
  const MakingCard card = cardOf("leaf.panel.1.1");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, Raise}));
  const Piece& panel = piece("leaf.panel.1.1");
  const double front = facesAt(panel, "raised.front.tongue", 2).at(0),
               back = facesAt(panel, "raised.back.tongue", 2).at(0);
  EXPECT_NEAR(size(one(card, Raise), "tongue"), front - back, kExactMm);
  EXPECT_NEAR(size(linesOf(card, Mark)[1], "width"), sizeOf(panel.last().shell).y, kExactMm);
}

TEST_F(Cards, AHeadGroundIsSplayedFirstAndCleanedOffToIt) {
  const MakingCard card = cardOf("grounds.front.head");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, SetOut, EarlySplay, Cheeks, Haunch, Dovetail,
                                                 Shoulders, CleanOff}));
  EXPECT_EQ(card.alike, "Make 2 alike: this and the back head ground.");
}

TEST_F(Cards, AJambGroundIsBevelledOnceWedgedAndItsHornCutWhenFixed) {
  const MakingCard card = cardOf("grounds.front.jamb.hanging");
  EXPECT_EQ(sequence(card),
            (std::vector<Making>{Saw, Mark, SetOut, Mortise, Haunch, Dovetail, Splay, Horns}));
  const Piece& jamb = piece("grounds.front.jamb.hanging");
  EXPECT_NEAR(size(one(card, Dovetail), "depth"), 22, kExactMm);  // a backing's thickness
  const CardLine notch = linesOf(card, SetOut).at(2);
  EXPECT_NEAR(size(notch, "to") - size(notch, "from"), 100 + 20, kExactMm);  // hinge and 20
  EXPECT_NEAR(size(one(card, Horns), "off"), sizeOf(jamb.states[0].cut->shell).x / 2 - 1054.5, kExactMm);
}

TEST_F(Cards, ABackingHasADovetailAtEachEnd) {
  const MakingCard card = cardOf("backing.hanging.2");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, SetOut, Dovetail}));
  // 60 narrows at 1:6 over 19 to 53.67, as joinery has it.
  EXPECT_NEAR(size(one(card, Dovetail), "narrow"), 60 - 2 * 19.0 / 6, kExactMm);
  EXPECT_EQ(card.measured,
            "Lengths from the front; across from the face edge, the lower edge; gauges from the face.");
}

TEST_F(Cards, ALiningJambIsRebatedBeforeItsTongueAndHinges) {
  const MakingCard card = cardOf("lining.jamb.hanging");
  EXPECT_EQ(sequence(card),
            (std::vector<Making>{Saw, Mark, SetOut, Rebate, Cheeks, Shoulders, LetIn, Screws}));
  EXPECT_EQ(card.alike,
            "Make 1. A pair with the closing jamb lining, alike until something is let in: set the two out "
            "together, face edge to face edge.");
  EXPECT_NEAR(size(one(card, Cheeks), "thickness"), 20, kExactMm);  // the tongue's default
  EXPECT_NEAR(size(one(card, LetIn), "depth"), 2.5,
              kExactMm);  // a plate's thickness, from the rebate's floor
  EXPECT_EQ(sequence(cardOf("lining.head")), (std::vector<Making>{Saw, Mark, SetOut, Rebate, Trench, Horns}));
}

TEST_F(Cards, AMouldingIsWorkedInOneLengthThenMitred) {
  const MakingCard card = cardOf("leaf.moulding.1.1.front.top");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Mark, Section, Mitre}));
  EXPECT_NEAR(size(one(card, Mitre), "long") - size(one(card, Mitre), "short"), 2 * 20,
              kExactMm);  // 45 degrees
  EXPECT_EQ(card.alike, "Make 8 alike.");
}

TEST_F(Cards, AWedgeIsTaperedAndCutFlush) {
  const MakingCard card = cardOf("leaf.wedge.rail.top.hanging.1.upper");
  EXPECT_EQ(sequence(card), (std::vector<Making>{Saw, Taper, CleanOff}));
  // w/19 at the stile's edge over 0.7 w, 10 proud, tip a fifteenth of w/19; w = 95.
  EXPECT_NEAR(size(one(card, Saw), "length"), 0.7 * 95 + 10, kExactMm);
  EXPECT_NEAR(size(one(card, Taper), "thin"), 5.0 / 15, kExactMm);
}

// 14 mm is 0.551 in: 35/64 is 0.547, so no rule of 64ths reads nearer. 1 in = 25.4 mm.
TEST_F(Cards, InInchesSizesAreFractionsOfARule) {
  const CutWork work = cutDoorSet("title = \"Inches\"\nunit = \"in\"");
  const MakingCard card = cardOf("leaf.rail.top", work);
  EXPECT_NE(one(card, Plough).text.find("35/64 wide"), std::string::npos) << one(card, Plough).text;
  for (size_t i = 0; i < work.pieces.size(); ++i) {
    const auto made = makingCard(work, static_cast<int>(i));
    if (!made) continue;
    for (const CardLine& line : made.value().lines)
      for (size_t at = 0; (at = line.text.find('.', at)) != std::string::npos; ++at)
        EXPECT_FALSE(at + 1 < line.text.size() && line.text[at + 1] >= '0' && line.text[at + 1] <= '9' &&
                     line.text.find("panel " + line.text.substr(at - 1, 3)) == std::string::npos &&
                     line.text.find("muntin " + line.text.substr(at - 1, 3)) == std::string::npos)
            << line.text;
  }
}

TEST_F(Cards, LeftAndRightAreAsSeenFromTheFront) {
  const auto says = [&](const std::string& id) {
    return cardOf(id).measured.find("Left and right as seen from the front.") != std::string::npos;
  };
  EXPECT_TRUE(says("leaf.rail.top"));
  EXPECT_FALSE(says("leaf.stile.hanging"));  // top and bottom, inner and outer edge
}

TEST_F(Cards, ABeadAndButtPanelIsRebatedToItsTongueAndBeadedOnBothEdges) {
  const CutWork work = cutWholeSet(std::string(DRYFIT_ROOT) + "/assets/doorsets/rigging-loft.toml");
  const MakingCard card = cardOf("leaf.panel.1.1", work);
  const Piece& panel = work.pieces[static_cast<size_t>(pieceOf(work, "leaf.panel.1.1"))];
  const double front = facesAt(panel, "shoulder.front.tongue", 2).at(0),
               back = facesAt(panel, "back", 2).at(0);
  EXPECT_NEAR(size(one(card, Raise), "tongue"), front - back, kExactMm);
  EXPECT_EQ(one(card, Raise).text, "Rebate the face to leave a tongue 13.7 thick all round, 12 wide.");
  const auto beads = linesOf(card, Section);
  ASSERT_EQ(beads.size(), 2u);
  EXPECT_EQ(beads[1].text, "Work the bead along the whole left edge, radius 4.5.");
  EXPECT_EQ(beads[0].text, "Work the bead along the whole right edge, radius 4.5.");
}

TEST_F(Cards, PinsOfARailAreToldByTheEndTheyAreAt) {
  const CutWork work = cutWholeSet(std::string(DRYFIT_ROOT) + "/assets/doorsets/rigging-loft.toml");
  const auto bores = linesOf(cardOf("leaf.rail.top", work), Hole);
  ASSERT_EQ(bores.size(), 2u);
  EXPECT_NE(bores[0].text.find("Bore for the pins at the "), std::string::npos) << bores[0].text;
  EXPECT_NE(bores[0].text.substr(0, 32), bores[1].text.substr(0, 32));
}

TEST_F(Cards, WhatIsFormedOrBoughtHasNone) {
  const auto refused = [&](const std::string& id) {
    const auto card = makingCard(oarStore(), pieceOf(oarStore(), id));
    return card ? std::string("made") : toText(card.faults()[0]);
  };
  EXPECT_EQ(refused("wall"),
            "wall: is formed in place: there is nothing to make on the bench; dryfit order tells when it is "
            "formed");
  EXPECT_EQ(refused("hinge.1.plate.leaf"),
            "hinge.1.plate.leaf: is bought, not made; dryfit pieces lists its size");
  EXPECT_EQ(refused("hinge.1.pin"), "hinge.1.pin: is bought, not made; dryfit pieces lists its size");
}

TEST_F(Cards, EveryWoodenPieceOfTheShippedWorksHasOneThatNamesEveryFeature) {
  std::vector<CutWork> works;
  for (const std::string& path : shippedWorks()) works.push_back(cutFile(path));
  for (const std::string& path : shippedDoorSets()) works.push_back(cutWholeSet(path));
  size_t cards = 0;
  for (const CutWork& work : works) {
    const auto groups = alikes(work.pieces);
    for (size_t i = 0; i < work.pieces.size(); ++i) {
      const auto card = makingCard(work, static_cast<int>(i), groups);
      if (!card) continue;
      ++cards;
      EXPECT_TRUE(std::is_sorted(card.value().lines.begin(), card.value().lines.end(),
                                 [](const CardLine& a, const CardLine& b) { return a.making < b.making; }));
      const auto told = [&](const std::string& role) {
        return std::any_of(card.value().lines.begin(), card.value().lines.end(), [&](const CardLine& line) {
          return std::find(line.roles.begin(), line.roles.end(), role) != line.roles.end();
        });
      };
      for (const PieceState& state : work.pieces[i].states)
        for (const Feature& f : state.cut->recipe.features) {
          const std::string role = std::visit([](const auto& one) { return one.role; }, f);
          EXPECT_TRUE(told(role)) << work.title << ", " << work.pieces[i].id << ": " << role;
        }
    }
  }
  EXPECT_GT(cards, 200u);
}

}  // namespace
}  // namespace dryfit::tests
