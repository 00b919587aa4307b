// Pieces planted on a flat side and nailed. Areas and volumes by closed formulas of the sizes in the file; a
// round hole's planning polygon has 64 corners.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
/// mm3: sums of some dozen products of doubles over 2e6.
constexpr double kExact = 1e-6;

const Piece& piece(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}
double volumeOf(const CutWork& work, const std::string& id) {
  return volume(piece(work, id).last().shell);
}

/// A post 80 x 50 and a batten 30 x 20 on its front face, 200 of it on the post.
std::string batten(const std::string& more, const std::string& origin = "[-10, -35, 300]") {
  return "title = \"Batten\"\n[[member]]\nid = \"post\"\nsection = [80, 50]\nlength = 400\norigin = [0, 0, "
         "200]\nalong = \"+Z\"\nwidth_along = \"+X\"\n[[member]]\nid = \"batten\"\nsection = [30, "
         "20]\nlength "
         "= 240\norigin = " +
         origin +
         "\nalong = \"+Z\"\nwidth_along = \"+X\"\n[[joint]]\nkind = \"nailed-face\"\npiece = "
         "\"batten\"\nto = \"post\"\n" +
         more;
}

const ExpectedContact& contactOf(const CutWork& work, const std::string& one, const std::string& other) {
  const int a = pieceOf(work, one), b = pieceOf(work, other);
  for (const ExpectedContact& c : work.assembly.contacts)
    if ((c.a == a && c.b == b) || (c.a == b && c.b == a)) return c;
  throw std::runtime_error("no contact between " + one + " and " + other);
}

const Operation& nailing(const CutWork& work) {
  for (const Operation& op : work.assembly.operations)
    if (op.kind == Operation::Kind::Fasten) return op;
  throw std::runtime_error("nothing is nailed");
}

TEST(NailedFace, ListedNailsAreToldAndHoldButAreNoPieces) {
  const CutWork work = cutText(batten(""));
  ASSERT_EQ(work.pieces.size(), 2u);
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_EQ(volumeOf(work, "batten"), 240.0 * 30 * 20);
  ASSERT_EQ(work.assembly.contacts.size(), 1u);
  EXPECT_NEAR(work.assembly.contacts[0].areaMm2, 220 * 30, 1e-9);  // 20 stand above the post
  const Operation& op = nailing(work);
  EXPECT_EQ(op.text,
            "Nail the batten to the post: 2 nails, 2.5 by 50, 170 apart, heads punched 2 below the surface.");
  ASSERT_EQ(op.bonds.size(), 1u);
  EXPECT_EQ(op.bonds[0].kind, "nail");
  EXPECT_EQ(op.bonds[0].between.size(), 2u);
  EXPECT_NE(op.caution.find("eye protection"), std::string::npos);
}

/// Without nails as pieces, flush sides alone hold it along the post: a shift either way is found.
TEST(NailedFace, ListedNailsLeaveNoShiftUnseen) {
  const CutWork work = cutText(batten(""));
  for (int body : {0, 1})
    for (int axis = 0; axis < 3; ++axis)
      for (double by : {0.05, -0.05, 3.0}) {
        Assembly moved = work.assembly;
        moved.bodies[static_cast<size_t>(body)].worldFromPiece.origin[axis] += by;
        EXPECT_FALSE(fit(moved).clean()) << body << " " << axis << " " << by;
      }
}

TEST(NailedFace, NailsAsPiecesBoreWhatTheyEnter) {
  const CutWork work =
      cutText(batten("nails = \"pieces\"\ndiameter = 3\nlength = 45\npitch = 60\nmargin = 20\n"));
  ASSERT_EQ(work.pieces.size(), 6u);  // 180 in steps of at most 60: four nails
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const double round = kPi * 1.5 * 1.5;
  EXPECT_NEAR(volumeOf(work, "batten"), 240.0 * 30 * 20 - 4 * round * 20, kExact);
  EXPECT_NEAR(volumeOf(work, "post"), 400.0 * 80 * 50 - 4 * round * 27, kExact);  // 45 - (20 - 2)
  const Piece& nail = piece(work, "nail.batten.post.1");
  EXPECT_NEAR(volume(nail.last().shell), round * 45, kExact);
  EXPECT_EQ(nail.worldFromPiece.xAxis, (Vec3{0, 1, 0}));  // from head to point
  EXPECT_NEAR(nail.worldFromPiece.point({-22.5, 0, 0}).y, -45 + 2, 1e-9);
  EXPECT_EQ(nail.densityKgM3, 7850);
  EXPECT_EQ(piece(work, "nail.batten.post.4").worldFromPiece.origin.z - nail.worldFromPiece.origin.z, 180);
}

TEST(NailedFace, TakesWhicheverSidesMeet) {
  // The batten's edge against the post's right edge: nails run along the batten's width.
  const CutWork edge = cutText(batten("nails = \"pieces\"\n", "[55, 4, 200]"));
  for (const FitFault& f : fit(edge.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_EQ(piece(edge, "nail.batten.post.1").worldFromPiece.xAxis, (Vec3{-1, 0, 0}));
  EXPECT_NEAR(contactOf(edge, "batten", "post").areaMm2,
              240 * 20 - 2 * 32 * 1.25 * 1.25 * std::sin(2 * kPi / 64), 1e-9);
  // Its back on the post's back.
  const CutWork back = cutText(batten("nails = \"pieces\"\n", "[0, 35, 200]"));
  for (const FitFault& f : fit(back.assembly).faults) ADD_FAILURE() << f.text;
  EXPECT_EQ(piece(back, "nail.batten.post.1").worldFromPiece.xAxis, (Vec3{0, -1, 0}));
}

/// Away from the post and sideways a planted piece is free until it is nailed; the nails leave outwards only.
TEST(NailedFace, IsFreeUntilFastened) {
  const CutWork work = cutText(batten("nails = \"pieces\"\n"));
  const auto found = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(found));
  const auto& steps = std::get<OrderOfWork>(found).steps;
  ASSERT_EQ(steps.size(), 3u);
  EXPECT_EQ(steps[1].event, "fit");
  EXPECT_EQ(steps[1].moves[0].legs[0].direction, (Vec3{0, 1, 0}));
  EXPECT_EQ(steps[2].event, "fasten");
  EXPECT_EQ(steps[2].moves[0].legs[0].direction, (Vec3{0, 1, 0}));
  EXPECT_NEAR(steps[2].moves[0].legs[0].travelMm, 50, 2);  // out of the holes and clear of the surface
  const std::vector<int> states = lastStates(work.assembly);
  EXPECT_TRUE(wayOut(work.assembly, states, {1}, nailing(work).bonds).empty());
}

/// A planted piece goes on when the frame is glued; the frame is squared up without waiting for it.
TEST(NailedFace, GoesOnTheFinishedWork) {
  const CutWork work = shippedWork("boat-chock");
  const auto found = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(found));
  std::vector<std::string> events;
  for (const Step& s : std::get<OrderOfWork>(found).steps) events.push_back(s.event);
  EXPECT_EQ(events, (std::vector<std::string>{"fit", "drive", "fit", "check", "glue", "fit", "fasten", "fit",
                                              "fasten"}));
}

}  // namespace
}  // namespace dryfit::tests
