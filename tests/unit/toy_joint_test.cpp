// A kind of joint made by a test alone: two members halved across each other. No other file knows it, yet the
// reader checks its keys, the pieces are cut, the fit is explained, the order found.
#include <gtest/gtest.h>

#include "fit/blocks.h"
#include "fit/fit.h"
#include "joint/member_view.h"
#include "joint/tenon_joint.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

Result<Announcement> announceNothing(const JointContext&) {
  return Announcement{};
}

/// Where `other` crosses `m`, along m's grain.
Span crossing(const MemberView& m, const MemberView& other) {
  const double at = (inverse(m.frame) * other.frame).origin.x;
  return {at - other.width() / 2, at + other.width() / 2};
}

Result<JointWork> makeHalving(const JointContext& context) {
  auto over = memberOf(context, "over"), under = memberOf(context, "under");
  if (!over) return over.faults();
  if (!under) return under.faults();
  const MemberView &a = over.value(), &b = under.value();
  const double t = a.thickness(), half = t / 2, wa = a.width(), wb = b.width();
  JointWork work;
  const std::string joint = context.nameJoint(a.id(), b.id());
  const Span allA{-wa / 2, wa / 2}, allB{-wb / 2, wb / 2};
  work.features.push_back({a.index, {Recess{"halving", crossing(a, b), allA, {-half, 0}}, {}, {}}});
  work.features.push_back({b.index, {Recess{"halving", crossing(b, a), allB, {0, half}}, {}, {}}});
  auto touch = [&](const std::string& roleA, const std::string& roleB, double area) {
    work.contacts.push_back({joint, {a.id(), roleA}, {b.id(), roleB}, area});
  };
  touch("halving.front", "halving.back", wa * wb);
  for (int side : {0, 1}) {
    const bool same = dot(a.frame.xAxis, b.frame.yAxis) > 0, sameB = dot(b.frame.xAxis, a.frame.yAxis) > 0;
    const std::string end = side == 0 ? "halving.end.low" : "halving.end.high";
    touch(end, blankFace(2 + (same ? side : 1 - side)), wa * half);
    touch(blankFace(2 + (sameB ? side : 1 - side)), end, wb * half);
  }
  work.paths.push_back({joint, a.id(), b.id(), {Leg{Leg::Kind::Straight, -a.frame.zAxis, half, {}, 0}}});
  work.joints.push_back({joint, {a.id(), b.id()}});
  return work;
}

std::vector<JointKind> withHalving() {
  std::vector<JointKind> kinds = standardJoints();
  KindSpec spec;
  spec.name = "halving";
  spec.keys = {{"over", KeyType::Member, true, "", "", 0, 0, {}, ""},
               {"under", KeyType::Member, true, "", "", 0, 0, {}, ""}};
  kinds.push_back({spec, announceNothing, makeHalving});
  return kinds;
}

const char* kCross = R"(
title = "Cross"
[[member]]
id = "level"
section = [80, 40]
length = 600
origin = [0, 0, 0]
along = "+X"
width_along = "+Z"
[[member]]
id = "upright"
section = [70, 40]
length = 500
origin = [60, 0, 20]
along = "+Z"
width_along = "+X"
[[joint]]
kind = "halving"
over = "level"
under = "upright"
)";

TEST(ToyJoint, IsReadCutFittedAndOrdered) {
  const CutWork work = cutText(kCross, withHalving());
  ASSERT_EQ(work.pieces.size(), 2u);
  // Volume: the whole bar less half its thickness over the crossing.
  EXPECT_NEAR(volume(work.pieces[0].last().shell), 600.0 * 80 * 40 - 70 * 80 * 20, 1e-6);
  EXPECT_NEAR(volume(work.pieces[1].last().shell), 500.0 * 70 * 40 - 80 * 70 * 20, 1e-6);
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
  const auto order = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
  const auto& steps = std::get<OrderOfWork>(order).steps;
  ASSERT_EQ(steps.size(), 2u);
  ASSERT_EQ(steps[1].moves.size(), 1u);
  EXPECT_NEAR(std::abs(steps[1].moves[0].legs.back().direction.y), 1, 1e-12);  // only through the thickness
}

TEST(ToyJoint, MisspeltKeysAreMetWithItsOwn) {
  std::string text = kCross;
  text.replace(text.find("under = "), 8, "undr = ");
  const auto faults = faultsOfText(text, withHalving());
  ASSERT_FALSE(faults.empty());
  EXPECT_NE(faults[0].find("undr"), std::string::npos);
  EXPECT_NE(faults[0].find("under"), std::string::npos);
}

TEST(ToyJoint, IsUnknownWithoutIt) {
  const auto faults = faultsOfText(kCross);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_NE(faults[0].find("halving"), std::string::npos);
}

}  // namespace
}  // namespace dryfit::tests
