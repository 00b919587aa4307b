// Staging: from a cut work and its order to a scene: what stands at a step, what moves, what is still to
// come; a work spread, one joint alone, pieces hidden or seen through.
//
// A step is staged on the bench of its unit, by the unit's benchFromWorld, with what has come to it by then;
// the bench of the whole work is where it is fixed, and what turns stands in the step's pose. Without a step:
// the finished work, at home. Spread, pieces stand off from home whatever the pose.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "joint/cut_work.h"
#include "order/order.h"
#include "scene/scene.h"
#include "scene/standing.h"

namespace dryfit::scene {

struct StagingRequest {
  std::optional<int> step;  ///< from 0; empty: the work when all is done
  /// Of the step's moves, 0 (outside, about to go in) to 1 (home). Several moves follow one another.
  double moving = 1;
  double furtherMm = 0;         ///< moves begin further outside by this, so that a gap is seen
  std::vector<Vec3> offsets;    ///< Spread::offsetsAt, one a body, world; empty: not spread
  std::vector<int> seeThrough;  ///< pieces by index
  std::vector<int> hidden;      ///< pieces by index: put away
  std::optional<int> joint;     ///< index into Assembly::joints: alone, long pieces broken off
};

class Staging {
 public:
  /// `work` and `order` must outlive it. `order` may be null: then no step can be asked for.
  Staging(const CutWork& work, const OrderOfWork* order);

  /// Pieces in file order. Requires: a step that there is, indices that are.
  Scene scene(const StagingRequest& request);
  /// Everything that any step of the same unit shows, at home and outside, in every state: what a camera that
  /// stays for all of them has to frame. The request's `moving`, `offsets` and `joint` do not matter.
  Scene wholeUnit(const StagingRequest& request);
  /// What stands at the request's step.
  Standing standing(const StagingRequest& request) const;

 private:
  std::shared_ptr<const Shape> shapeOfState(int piece, int state);
  Item item(int piece, int state);
  bool wanted(int piece, const Standing& standing, const StagingRequest& request) const;
  bool outlined(int piece, const Standing& standing) const;
  Placement posed(int piece, const Pose& pose) const;
  void turn(Scene& scene, const Pose& pose) const;
  void toBench(Scene& scene, const StagingRequest& request, int unit) const;
  void move(Scene& scene, const Step& step, const StagingRequest& request, const Standing& now);
  Vec3 middleThen(const std::vector<int>& bodies, const Standing& now);

  const CutWork& work_;
  const OrderOfWork* order_;
  std::vector<std::string> groups_, kinds_;                          ///< one a piece
  std::map<const CutRecipe*, std::shared_ptr<const Shape>> shapes_;  ///< each recipe's once
};

}  // namespace dryfit::scene
