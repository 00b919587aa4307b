// Plays an order of work step by step and holds it to what must never happen: a piece placed twice or never,
// moved while a bond holds it to something left behind, a change out of turn, a piece passing through
// another, or one standing in another pose than it was left in. Judged by shared volume at places along every
// leg, not by the projection the planner uses.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <utility>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "order/order.h"

namespace dryfit::ordertest {

class Replay {
 public:
  static constexpr int kPlacesALeg = 9;
  static constexpr int kPlacesAChord = 4;
  /// 0.16 % of a pin 5 thick and 30 long: what 64 chords leave of a circle.
  static constexpr double kSliverMm3 = 1;

  Replay(const Assembly& assembly, const OrderOfWork& work) : assembly_(assembly) {
    state_.assign(assembly.bodies.size(), -1);
    for (const Step& step : work.steps) play(step);
    for (size_t b = 0; b < state_.size(); ++b)
      EXPECT_GE(state_[b], 0) << assembly.bodies[b].id << " was never placed";
    EXPECT_LE(worstMm3_, tolerance::kOverlapVolume) << worst_;
  }

 private:
  void play(const Step& step) {
    if (step.unit != bench_) {
      present_.clear();
      pose_.clear();
    }
    bench_ = step.unit;
    poseOf(step);
    for (const StateChange& c : step.changes) {
      if (state_[c.body] < 0) state_[c.body] = 0;
      EXPECT_EQ(state_[c.body], c.from) << assembly_.bodies[c.body].id;
      state_[c.body] = c.from + 1;
    }
    const bool places =
        step.event == "fit" || step.event == "drive" || step.event == "fasten" || step.event == "form";
    std::set<int> coming;
    if (places) coming.insert(step.bodies.begin(), step.bodies.end());
    const bool unitComes =
        std::any_of(coming.begin(), coming.end(), [&](int b) { return placed_.count(b) > 0; });
    for (int b : coming) {
      EXPECT_FALSE(present_.count(b)) << "placed twice on one bench";
      EXPECT_TRUE(placed_.insert(b).second || unitComes) << assembly_.bodies[b].id << " placed twice";
      if (state_[b] < 0) state_[b] = 0;
    }
    for (const Move& m : step.moves) step.event == "turn" ? turn(m) : move(m, coming);
    present_.insert(coming.begin(), coming.end());
    for (const Bond& b : step.bonds) bonds_.push_back(b);
  }

  static double angleAt(const Pose& pose, int pivot) {
    for (const PivotAt& at : pose)
      if (at.pivot == pivot) return at.angleRad;
    return 0;
  }

  /// What stands keeps its pose but by a turn.
  void poseOf(const Step& step) {
    const Pose before = std::exchange(pose_, step.pose);
    if (!before.empty() || !pose_.empty()) standing_.clear();
    for (int p = 0; p < static_cast<int>(assembly_.pivots.size()); ++p) {
      const Pivot& pivot = assembly_.pivots[p];
      const bool stands =
          std::any_of(pivot.bodies.begin(), pivot.bodies.end(), [&](int b) { return present_.count(b) > 0; });
      double angle = angleAt(before, p);
      if (step.event == "turn" && !step.moves.empty()) {
        const Leg& leg = step.moves[0].legs.at(0);
        if (length(leg.direction - pivot.axis) < 1e-12 && length(leg.through - pivot.through) < 1e-9 &&
            angleAt(pose_, p) != angle)
          angle += leg.angleRad;
      }
      if (!stands) continue;
      EXPECT_NEAR(angleAt(pose_, p), angle, 1e-12) << pivot.name;
    }
  }

  void turn(const Move& m) {
    const std::set<int> turning(m.bodies.begin(), m.bodies.end());
    ASSERT_EQ(m.legs.size(), 1u);
    EXPECT_EQ(m.legs[0].kind, Leg::Kind::Turn);
    for (int b : turning)
      EXPECT_TRUE(present_.erase(b)) << assembly_.bodies[b].id << " turns and is not there";
    const Leg& leg = m.legs[0];
    // At steps of one chord round faces about the axis map onto themselves, between them they share a sliver.
    const double chordRad = 2 * std::numbers::pi / tolerance::kCircleSegments;
    const int chords = static_cast<int>(std::ceil(std::abs(leg.angleRad) / chordRad - 1e-9));
    for (int i = 0; i <= chords * kPlacesAChord; ++i) {
      const double back =
          std::copysign(std::min(std::abs(leg.angleRad), i * chordRad / kPlacesAChord), leg.angleRad);
      judge(turning, rotation(leg.direction, leg.through, -back), i % kPlacesAChord ? kSliverMm3 : 0);
    }
    present_.insert(turning.begin(), turning.end());
  }

  void move(const Move& m, const std::set<int>& coming) {
    const std::set<int> named(m.bodies.begin(), m.bodies.end());
    EXPECT_TRUE(m.unit < 0 ? std::includes(coming.begin(), coming.end(), named.begin(), named.end())
                           : named.empty());
    // Of several moves one goes after another, each past those before.
    const std::set<int> movers = m.unit < 0 ? named : coming;
    for (const Bond& b : bonds_)
      for (int in : b.between)
        for (int out : b.between) EXPECT_FALSE(coming.count(in) && present_.count(out)) << "bonded";
    Vec3 offset;
    for (size_t l = m.legs.size(); l-- > 0;) {
      const Leg& leg = m.legs[l];
      EXPECT_TRUE(leg.kind == Leg::Kind::Straight || turnsInItself(m, l)) << l;
      EXPECT_NEAR(length(leg.direction), 1, 1e-12);
      EXPECT_GT(leg.travelMm, tolerance::kTouch);
      for (int i = 1; i <= kPlacesALeg; ++i)
        judge(movers, translation(offset - leg.direction * (leg.travelMm * i / kPlacesALeg)));
      offset = offset - leg.direction * leg.travelMm;
    }
    present_.insert(movers.begin(), movers.end());
  }

  /// A screw that is turned in, in the last leg, by its pitch about its own axis: it fills the room it would
  /// fill pushed straight.
  bool turnsInItself(const Move& m, size_t l) const {
    const Leg& leg = m.legs[l];
    if (leg.kind != Leg::Kind::Screw || l + 1 != m.legs.size() || m.bodies.size() != 1) return false;
    const Placement home = placeOf(m.bodies[0]);
    return std::any_of(assembly_.operations.begin(), assembly_.operations.end(), [&](const Operation& op) {
      return op.pitchMm > 0 && std::count(op.bodies.begin(), op.bodies.end(), m.bodies[0]) &&
             std::abs(leg.angleRad * op.pitchMm - 2 * std::numbers::pi * leg.travelMm) < 1e-9 &&
             length(leg.through - home.origin) < 1e-9 && length(cross(leg.direction, home.xAxis)) < 1e-9;
    });
  }

  void judge(const std::set<int>& coming, const Placement& away, double allowedMm3 = 0) {
    for (int a : coming) {
      const Placement there = away * placeOf(a);
      const PlanningMesh moving = placed(*assembly_.bodies[a].states[state_[a]].mesh, there);
      for (int b : present_) {
        const PlanningMesh& standing = standingMesh(b);
        if (!near(bounds(moving), bounds(standing), 0)) continue;
        const double shared = sharedVolume(moving, standing).volumeMm3 - allowedMm3;
        if (shared <= worstMm3_) continue;
        worstMm3_ = shared;
        worst_ = assembly_.bodies[a].id + " through " + assembly_.bodies[b].id;
      }
    }
  }

  const PlanningMesh& standingMesh(int b) {
    auto [it, fresh] = standing_.try_emplace({b, state_[b]});
    if (fresh) it->second = placed(*assembly_.bodies[b].states[state_[b]].mesh, placeOf(b));
    return it->second;
  }

  Placement placeOf(int b) const {
    return worldFromHome(assembly_, pose_, b) * assembly_.bodies[b].worldFromPiece;
  }

  const Assembly& assembly_;
  std::vector<int> state_;
  std::set<int> placed_, present_;
  std::vector<Bond> bonds_;
  Pose pose_;
  std::map<std::pair<int, int>, PlanningMesh> standing_;  ///< in this pose
  int bench_ = -1;
  double worstMm3_ = 0;
  std::string worst_;
};

}  // namespace dryfit::ordertest
