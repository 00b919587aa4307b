// Plays an order of work step by step and holds it to what must never happen: a piece placed twice or never,
// moved while a bond holds it to something left behind, a change out of turn, or a piece passing through
// another. Judged by shared volume at places along every leg, not by the projection the planner uses.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "order/order.h"

namespace dryfit::ordertest {

class Replay {
 public:
  static constexpr int kPlacesALeg = 9;

  Replay(const Assembly& assembly, const OrderOfWork& work) : assembly_(assembly) {
    state_.assign(assembly.bodies.size(), -1);
    for (const Step& step : work.steps) play(step);
    for (size_t b = 0; b < state_.size(); ++b)
      EXPECT_GE(state_[b], 0) << assembly.bodies[b].id << " was never placed";
    EXPECT_LE(worstMm3_, tolerance::kOverlapVolume) << worst_;
  }

 private:
  void play(const Step& step) {
    if (step.unit != bench_) present_.clear();
    bench_ = step.unit;
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
    for (const Move& m : step.moves) move(m, coming);
    present_.insert(coming.begin(), coming.end());
    for (const Bond& b : step.bonds) bonds_.push_back(b);
  }

  void move(const Move& m, const std::set<int>& coming) {
    const std::set<int> named(m.bodies.begin(), m.bodies.end());
    EXPECT_TRUE(m.unit < 0 ? named == coming : named.empty());
    for (const Bond& b : bonds_)
      for (int in : b.between)
        for (int out : b.between) EXPECT_FALSE(coming.count(in) && present_.count(out)) << "bonded";
    Vec3 offset;
    for (size_t l = m.legs.size(); l-- > 0;) {
      const Leg& leg = m.legs[l];
      EXPECT_EQ(leg.kind, Leg::Kind::Straight);
      EXPECT_NEAR(length(leg.direction), 1, 1e-12);
      EXPECT_GT(leg.travelMm, tolerance::kTouch);
      for (int i = 1; i <= kPlacesALeg; ++i)
        judge(coming, offset - leg.direction * (leg.travelMm * i / kPlacesALeg));
      offset = offset - leg.direction * leg.travelMm;
    }
  }

  void judge(const std::set<int>& coming, Vec3 offset) {
    for (int a : coming) {
      const Placement there = translation(offset) * assembly_.bodies[a].worldFromPiece;
      const PlanningMesh moving = placed(*assembly_.bodies[a].states[state_[a]].mesh, there);
      for (int b : present_) {
        const PlanningMesh& standing = home(b);
        if (!near(bounds(moving), bounds(standing), 0)) continue;
        const double shared = sharedVolume(moving, standing).volumeMm3;
        if (shared <= worstMm3_) continue;
        worstMm3_ = shared;
        worst_ = assembly_.bodies[a].id + " through " + assembly_.bodies[b].id;
      }
    }
  }

  const PlanningMesh& home(int b) {
    auto [it, fresh] = home_.try_emplace({b, state_[b]});
    if (fresh)
      it->second = placed(*assembly_.bodies[b].states[state_[b]].mesh, assembly_.bodies[b].worldFromPiece);
    return it->second;
  }

  const Assembly& assembly_;
  std::vector<int> state_;
  std::set<int> placed_, present_;
  std::vector<Bond> bonds_;
  std::map<std::pair<int, int>, PlanningMesh> home_;
  int bench_ = -1;
  double worstMm3_ = 0;
  std::string worst_;
};

}  // namespace dryfit::ordertest
