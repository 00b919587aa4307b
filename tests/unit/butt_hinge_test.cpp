// A leaf hung by butt hinges. Sizes by arithmetic on those of the file; areas on the planner's 64-gon,
// volumes exact.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "exchange/step.h"
#include "hung_stile.h"
#include "joint/screws.h"
#include "solid/solid.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kExact = 1e-6;  // mm3: sums of some dozen products of doubles under 1e7

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

double volumeOf(const CutWork& work, const std::string& id) {
  return volume(piece(work, id).last().shell);
}

/// A screw 4.2 by 32, head 8.4 at 90 degrees, the last 5 a cone to a point of radius 0.25: what of it lies
/// between two depths.
double cone(double r1, double r2, double h) {
  return kPi * h / 3 * (r1 * r1 + r1 * r2 + r2 * r2);
}

TEST(ButtHinge, StandsWhereTheTradeHasIt) {
  for (bool left : {true, false}) {
    const CutWork work = cutOf(hanging({left}));
    const Piece& plate = piece(work, "hinge.1.plate.leaf");
    // Pin 5 before the face, R - 2.5 = 1 from the jamb: in the middle of the gap of 2.
    EXPECT_NEAR(plate.worldFromPiece.origin.x, across(left, 1), 1e-12);
    EXPECT_NEAR(plate.worldFromPiece.origin.y, -5, 1e-12);
    EXPECT_NEAR(plate.worldFromPiece.origin.z, 1900, 1e-12);
    EXPECT_EQ(plate.worldFromPiece.xAxis, (Vec3{0, 0, 1}));
    EXPECT_EQ(plate.worldFromPiece.yAxis, (Vec3{0, 1, 0}));
    EXPECT_EQ(work.pieces.size(), 2u + 2 * (3 + 10));
  }
}

TEST(ButtHinge, FitsWithoutAFault) {
  for (bool left : {true, false})
    for (bool loose : {false, true})
      expectClean(cutOf(hanging({left, {1000}, {{"loose_pin", loose}}})).assembly);
  expectClean(cutOf(hanging({true, {1900, 1100, 300}})).assembly);
}

/// Seconds each: either pin, either hand.
TEST(ButtHinge, LeavesNoShiftUnseen) {
  for (bool loose : {false, true})
    expectShiftsTold(cutOf(hanging({loose, {1000}, {{"loose_pin", loose}}})).assembly);
}

/// All 5 let into the stile: both plates lie in its recess, the jamb's on the jamb's own face.
TEST(ButtHinge, MayBeLetIntoTheStileAlone) {
  for (bool left : {true, false}) {
    const CutWork work = cutOf(hanging({left, {1000}, {{"let_in", 5.0}, {"jamb_let_in", 0.0}}}));
    EXPECT_NEAR(piece(work, "hinge.1.pin").worldFromPiece.origin.x, across(left, 3.5), 1e-12);
    expectClean(work.assembly);
    if (left) expectShiftsTold(work.assembly);
    // A recess 5 deep, 30 in from the face; screw holes besides.
    const double holes = 5 * (kPi * 2.1 * 2.1 * 24.5 + cone(2.1, 0.25, 5));
    EXPECT_NEAR(volumeOf(work, "stile"), 1980.0 * 95 * 44 - 100 * 30 * 5 - holes, kExact);
  }
}

TEST(ButtHinge, BoresWhatItsScrewsEnter) {
  const CutWork work = cutOf(hanging({true, {1000}}));
  const double shank = kPi * 2.1 * 2.1, holes = 5 * (shank * 24.5 + cone(2.1, 0.25, 5));
  EXPECT_NEAR(volumeOf(work, "stile"), 1980.0 * 95 * 44 - 100 * 30 * 2.5 - holes, kExact);
  EXPECT_NEAR(volumeOf(work, "jamb"), 2000.0 * 140 * 40 - 100 * 30 * 2.5 - holes, kExact);
  EXPECT_NEAR(volumeOf(work, "hinge.1.screw.leaf.1"), cone(4.2, 2.1, 2.1) + shank * 24.9 + cone(2.1, 0.25, 5),
              kExact);
  EXPECT_NEAR(volumeOf(work, "hinge.1.pin"), kPi * 1.75 * 1.75 * 100, kExact);
  // From the top, 10 and 20 in from the face by turns, heads flush with the plate.
  const std::vector<Vec2> places{{38, 10}, {19, 20}, {0, 10}, {-19, 20}, {-38, 10}};
  for (int i = 0; i < 5; ++i) {
    const Piece& screw = piece(work, "hinge.1.screw.leaf." + std::to_string(i + 1));
    const Vec3 head = screw.worldFromPiece.point({-16, 0, 0});
    EXPECT_NEAR(head.z - 1000, places[static_cast<size_t>(i)].x, 1e-9);
    EXPECT_NEAR(head.y, places[static_cast<size_t>(i)].y, 1e-9);
    EXPECT_NEAR(head.x, 2, 1e-9);
    EXPECT_EQ(screw.worldFromPiece.xAxis, (Vec3{1, 0, 0}));
  }
  const CutWork inLine = cutOf(hanging({true, {1000}, {{"staggered", false}}}));
  EXPECT_NEAR(piece(inLine, "hinge.1.screw.jamb.2").worldFromPiece.origin.y, 15, 1e-9);
  expectClean(inLine.assembly);
}

/// A plate's section at a knuckle: a round of 3.5 about the pin and what joins it to the plate, which is 2.5
/// thick and begins 3.7 from the pin elsewhere.
TEST(ButtHinge, PlatesAreNotchedRoundEachOther) {
  const CutWork work = cutOf(hanging({true, {1000}}));
  const double r = 3.5, sinks = 5 * (cone(4.2, 2.1, 2.1) + kPi * 2.1 * 2.1 * 0.4);
  const double segment =
      r * r * std::acos(1 / r) - std::sqrt(r * r - 1);  // of the round, beyond 1 from the pin
  const double knuckle = kPi * (r * r - 1.75 * 1.75) + 3.7 * 2.5 - segment / 2;
  const double plate = 100 * 31.3 * 2.5 - sinks;
  EXPECT_NEAR(volumeOf(work, "hinge.1.plate.leaf"), plate + 2 * 19.92 * knuckle, kExact);
  EXPECT_NEAR(volumeOf(work, "hinge.1.plate.jamb"), plate + 3 * 19.92 * knuckle, kExact);
}

TEST(ButtHinge, OpensTowardsTheFront) {
  for (bool left : {true, false}) {
    const CutWork work = cutOf(hanging({left, {1000}, {{"opening", 110.0}}}));
    const Pivot& leaf = work.assembly.pivots[static_cast<size_t>(pivotOf(work.assembly, "leaf"))];
    EXPECT_NEAR(std::abs(leaf.openRad), 110 * kPi / 180, 1e-12);
    const Vec3 freeEdge{across(left, 97), 0, 1000};
    const Vec3 open = rotation(leaf.axis, leaf.through, std::copysign(kPi / 2, leaf.openRad)).point(freeEdge);
    EXPECT_NEAR(open.y, -5 - 96, 1e-9);  // as far before the pin as it was beside it
    EXPECT_NEAR(open.x, across(left, 1 + 5), 1e-9);
    // All but the jamb's plate and the pin turn with it.
    std::set<std::string> turning;
    for (int b : leaf.bodies) turning.insert(work.assembly.bodies[static_cast<size_t>(b)].id);
    EXPECT_EQ(turning.size(), 7u);
    EXPECT_TRUE(turning.count("stile") && turning.count("hinge.1.plate.leaf"));
    EXPECT_FALSE(turning.count("hinge.1.plate.jamb") || turning.count("hinge.1.pin"));
    // By itself the hinge opens the other way about: its jamb's plate folds to the front.
    const Pivot& own = work.assembly.pivots[static_cast<size_t>(pivotOf(work.assembly, "hinge.1"))];
    const Vec3 folded = rotation(own.axis, own.through, own.openRad / 2).point({across(left, 1), 30, 1000});
    EXPECT_NEAR(folded.x, across(left, 1 - 35), 1e-9);
    EXPECT_NEAR(folded.y, -5, 1e-9);
  }
}

/// The kernel finds nothing shared, shut, half open and folded right back, of the hinge by itself and with
/// the leaf.
TEST(ButtHinge, NothingMeetsAsItTurns) {
  for (bool left : {true, false})
    for (bool loose : {false, true}) {
      const CutWork work = cutOf(hanging({left, {1000}, {{"opening", 180.0}, {"loose_pin", loose}}}));
      const int pivot = pivotOf(work.assembly, "leaf");
      const double open = work.assembly.pivots[static_cast<size_t>(pivot)].openRad;
      std::vector<Solid> solids;
      for (const Piece& p : work.pieces) {
        auto solid = solidFromShell(p.last().shell);
        ASSERT_TRUE(solid) << toText(solid.faults()[0]);
        solids.push_back(std::move(solid).value());
      }
      for (double part : {0.0, 0.5, 1.0}) {
        const auto pieces = turned(work, pivot, open * part);
        for (size_t a = 0; a < pieces.size(); ++a)
          for (size_t b = a + 1; b < pieces.size(); ++b) {
            const bool metal = !pieces[a].id.rfind("hinge", 0) || !pieces[b].id.rfind("hinge", 0);
            if (!metal && part == 0) continue;
            const auto shared =
                commonVolume(solids[a], pieces[a].worldFromPiece, solids[b], pieces[b].worldFromPiece);
            ASSERT_TRUE(shared) << pieces[a].id << " " << pieces[b].id;
            EXPECT_LT(shared.value(), 1e-6) << pieces[a].id << " " << pieces[b].id << " " << part;
          }
      }
    }
}

TEST(ButtHinge, GoesOutAsStepByItsNames) {
  const CutWork work = cutOf(hanging({true, {1000}}));
  StepInput input{work.title, work.pieces, work.assembly.units, {}};
  input.stageOf.assign(work.pieces.size(), "hanging");
  const auto bytes = stepBytes(input);
  ASSERT_TRUE(bytes) << toText(bytes.faults()[0]);
  for (const Piece& p : work.pieces)
    EXPECT_NE(bytes.value().find("'" + p.id + "'"), std::string::npos) << p.id;
}

TEST(ButtHinge, TellsHowAFixedPinIsHung) {
  const CutWork work = cutOf(hanging({true, {1900, 300}}));
  const Assembly& a = work.assembly;
  const auto unitOf = [&](const std::string& key) {
    return a.units[static_cast<size_t>(operationOf(a, key).unit)].name;
  };
  EXPECT_EQ(unitOf("pin:hinge.1"), "hinge.1");
  EXPECT_EQ(unitOf("screw:hinge.1.leaf"), "leaf");
  EXPECT_EQ(unitOf("fold:hinge.2"), "leaf");
  EXPECT_EQ(unitOf("screw:hinge.2.jamb"), "work");
  EXPECT_EQ(unitOf("shut:leaf"), "work");
  const Operation& shut = operationOf(a, "shut:leaf");
  EXPECT_EQ(shut.afterOperations,
            (std::vector<std::string>{"screw:hinge.1.jamb.first", "screw:hinge.1.jamb",
                                      "screw:hinge.2.jamb.first", "screw:hinge.2.jamb"}));
  ASSERT_TRUE(shut.turn);
  EXPECT_NEAR(shut.turn->fromRad, -kPi / 2, 1e-12);
  EXPECT_EQ(shut.turn->toRad, 0);
  const Operation& fold = operationOf(a, "fold:hinge.1");
  ASSERT_TRUE(fold.turn);
  EXPECT_NEAR(fold.turn->fromRad, kPi, 1e-12);
  EXPECT_EQ(operationOf(a, "screw:hinge.1.leaf").way, (Vec3{1, 0, 0}));
  EXPECT_EQ(operationOf(a, "screw:hinge.1.jamb").way, (Vec3{-1, 0, 0}));
  EXPECT_EQ(operationOf(a, "screw:hinge.1.leaf").text,
            "Screw hinge 1, standing open, to the stile: 5 screws, 4.2 by 32.");
  EXPECT_EQ(operationOf(a, "screw:hinge.1.jamb.first").text,
            "Fix hinge 1 to the jamb by one screw, near the middle of its plate: 4.2 by 32.");
  EXPECT_EQ(operationOf(a, "screw:hinge.1.jamb").text,
            "Drive the other 4 screws of hinge 1 into the jamb: 4.2 by 32.");
}

TEST(ButtHinge, TellsHowALoosePinIsHung) {
  const CutWork work =
      cutOf(hanging({false, {1000}, {{"loose_pin", true}, {"opening", 60.0}}, 40, 2, false}));
  const Assembly& a = work.assembly;
  const auto unit = [&](const std::string& id) {
    return a.units[static_cast<size_t>(a.bodies[static_cast<size_t>(pieceOf(work, id))].unit)].name;
  };
  EXPECT_EQ(unit("hinge.1.plate.leaf"), "leaf");
  EXPECT_EQ(unit("hinge.1.screw.leaf.1"), "leaf");
  EXPECT_EQ(unit("hinge.1.plate.jamb"), "work");
  EXPECT_EQ(unit("hinge.1.pin"), "work");
  EXPECT_EQ(operationOf(a, "pin:hinge.1").way, (Vec3{0, 0, -1}));
  const Operation& shut = operationOf(a, "shut:leaf");
  EXPECT_NEAR(shut.turn->fromRad, kPi / 3, 1e-12);  // offered no further than it opens
  EXPECT_EQ(shut.afterOperations, (std::vector<std::string>{"screw:hinge.1.jamb", "pin:hinge.1"}));
  EXPECT_EQ(a.pivots.size(), 1u);
}

/// Screws of 60 through a jamb of 32 and a gap of 1 into a backing of 22: 40 + 1 + 17 and the plate.
TEST(ButtHinge, ScrewsGoOnIntoTheBacking) {
  Hanging h{true, {1900, 300}, {{"screw_length", 50.0}}};
  h.jambThickness = 32;
  h.backing = 1;
  const CutWork work = cutOf(hanging(h));
  expectClean(work.assembly);
  // Head at 0: plate to 2.5, jamb to 32, air to 33, backing from there; cone from 45 to 50.
  const double shank = kPi * 2.1 * 2.1;
  EXPECT_NEAR(volumeOf(work, "jamb"), 2000.0 * 140 * 32 - 2 * (100 * 30 * 2.5 + 5 * shank * 29.5), kExact);
  EXPECT_NEAR(volumeOf(work, "backing.1"), 160.0 * 120 * 22 - 5 * (shank * 12 + cone(2.1, 0.25, 5)), kExact);
  expectShiftsTold(cutOf(hanging({h.left, {1000}, h.hinge, 32, 2, true, 0, 1})).assembly);
}

/// A lining 32 thick, rebated 12: 17.5 of wood behind the plate, the screws go on by 12 into the backing.
TEST(ButtHinge, StandsOnARebatesFloor) {
  for (bool left : {true, false}) {
    const CutWork work = cutOf(hanging({left, {1900, 300}, {}, 32, 2, true, 12, 1}));
    expectClean(work.assembly);
    EXPECT_NEAR(piece(work, "hinge.1.pin").worldFromPiece.origin.x, across(left, 1), 1e-12);
    EXPECT_NEAR(volumeOf(work, "jamb"),
                2000.0 * (140 * 32 - 45 * 12) - 2 * (100 * 30 * 2.5 + 5 * kPi * 2.1 * 2.1 * 17.5), kExact);
    if (!left)
      expectShiftsTold(
          cutOf(hanging({left, {1000}, {{"let_in", 5.0}, {"jamb_let_in", 0.0}}, 32, 2, true, 12, 1}))
              .assembly);
  }
}

std::string firstFault(const SettingOut& work) {
  const auto faults = faultsOf(work);
  return faults.empty() ? "" : faults[0];
}
std::string refused(const Given& keys, double centre = 1000) {
  return firstFault(hanging({true, {centre}, keys}));
}

TEST(ButtHinge, RefusesWhatCannotBeHung) {
  const auto says = [](const std::string& fault, const std::string& words) {
    EXPECT_NE(fault.find(words), std::string::npos) << words << "\n" << fault;
  };
  says(refused({{"width", 44.0}}), "stop 5 short of the stop-side face");
  EXPECT_EQ(refused({{"width", 43.0}}), "");
  says(refused({{"proud", 3.0}}), "knuckles, 7 thick, would stand in the wood");
  says(refused({{"screw_length", 100.0}}), "come out on the other side of the stile");
  says(refused({{"screw_length", 60.0}}), "come out on the other side of the jamb");
  says(refused({}, 1960), "beyond the end of the stile");
  says(refused({{"barrel", 8.0}}), "leaves a gap of 3; they stand 2 apart");
  says(refused({{"countersunk", false}}), "would meet");
  says(refused({{"knuckles", 4.0}}), "outer ones");
  says(refused({{"screw_head", 10.0}}), "goes through a plate of 2.5");
  says(refused({{"screws", 11.0}, {"staggered", false}}), "no room");
  says(refused({{"pin", 6.0}}), "no wall");
  says(firstFault(hanging({true, {1000, 950}})), "hinges 1 and 2 would overlap");
  SettingOut outOfLine = hanging({true, {1900, 300}});
  outOfLine.joints[1].given.push_back({"proud", 6.0, {}, ""});
  says(firstFault(outOfLine), "not in one line");
  Hanging thin;
  thin.jambThickness = 7;
  says(firstFault(hanging(thin)), "of wood behind it in the jamb");
  Hanging behind{true, {1000}, {{"screw_length", 50.0}}, 32, 2, true, 0, 1};
  SettingOut missed = hanging(behind);
  missed.members[2].origin->z += 40;
  says(firstFault(missed), "would miss backing.1");
}

}  // namespace
}  // namespace dryfit::tests
