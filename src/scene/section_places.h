// Where a section goes: by a height or breadth given, or through a piece or a joint so that it shows most.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joint/cut_work.h"
#include "scene/camera.h"
#include "scene/scene.h"
#include "scene/section.h"

namespace dryfit::scene {

/// Plan: level, at a height Z. Height: upright from front to back, at X. Across: upright, parallel to the
/// front, at Y.
enum class SectionWay { Plan, Height, Across };
/// "plan", "height", "across".
const std::vector<std::pair<std::string, SectionWay>>& sectionWays();

struct SectionPlace {
  std::optional<SectionWay> way;  ///< empty: as the piece or joint asks for
  double atMm = 0;                ///< of a way, where it is through nothing
  /// By index: through the middle of a piece, or through a joint (Assembly::joints).
  std::optional<int> piece, joint;
  std::string name;  ///< for CutPlane::name
};

/// The plane, its normal to the front, the right or up. In the scene's world: a piece that is not at home is
/// cut where it stands.
///
/// Through a piece with no way given: square to its grain, in the middle of its length. Through a joint:
/// 1. where faces slope (wedges, dovetails, mitres): the plane in which the slope shows true;
/// 2. where pieces touch along a run at least four times as long as wide (grooves, planted mouldings): square
///    to the run;
/// 3. else across: parallel to the front; where they only lie on each other along the front, square to the
///    longer side of where they do.
/// It goes through the middle of what the joint's pieces share: half-way between the joint's faces that are
/// parallel to it (a tenon's cheeks), or of the whole. Through a piece that belongs to a joint (wedge, pin):
/// the joint's way, the piece's middle.
///
/// Empty when the scene does not show the piece, or not two pieces of the joint.
std::optional<CutPlane> planeOf(const SectionPlace& place, const CutWork& work, const Scene& scene);

/// The same plane, the other side taken away where that one is towards the looker. A plane seen edge on stays
/// as it is.
CutPlane turnedTo(const CutPlane& plane, Vec3 towardsLooker);

/// From where the solid pieces begin to where they end, along the plane's normal, mm.
std::pair<double, double> extentAlong(const Scene& scene, Vec3 normal);

/// Looks square on to the plane, by the named view where there is one.
View squareOn(const CutPlane& plane);

}  // namespace dryfit::scene
