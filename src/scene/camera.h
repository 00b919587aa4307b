// Camera: from where the work is seen, and how a point of the world falls on the picture.
//
// Picture: pixels, origin at the top left corner, y downwards. View axes: x right, y up, z towards the
// looker.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/placement.h"
#include "base/vec.h"

namespace dryfit::scene {

struct PictureSize {
  int width = 1920, height = 1080;
  friend bool operator==(const PictureSize&, const PictureSize&) = default;
};

/// A direction to look from. Azimuth 0 looks at the front (along +Y), 90 from the right (along -X); elevation
/// 90 looks straight down. Degrees: this is what people type.
struct View {
  double azimuthDeg = 0, elevationDeg = 0;
  bool parallel = true;
  double fieldOfViewDeg = 20;  ///< across the height; perspective only
  std::string name;            ///< "front"; empty for angles
};

/// front, back, side, plan, corner.
const std::vector<View>& namedViews();

/// Unit, world: from the work towards a looker far away.
Vec3 towardsLookerOf(const View& view);

/// Room kept free at the picture's edges, pixels.
struct Margins {
  double left = 0, right = 0, top = 0, bottom = 0;
};

/// A place on the picture; `depth` grows away from the looker, in mm along the view's axis.
struct PicturePoint {
  Vec2 at;
  double depth = 0;
};

struct Camera {
  Placement viewFromWorld;  ///< the eye at the origin when not parallel
  bool parallel = true;
  double pixelsPerMm = 1;          ///< parallel: scale; perspective: pixels a unit of tangent (focal length)
  Vec2 centre;                     ///< pixel the view's axis goes through
  double nearMm = 1, farMm = 1e5;  ///< depth that is drawn

  PicturePoint project(Vec3 world) const;
  /// Unit, from the point of the world towards the looker.
  Vec3 towardsLooker(Vec3 world) const;
  /// Pixels a millimetre there.
  double scaleAt(Vec3 world) const;
};

/// The camera that looks that way with all points inside the margins, as large as they go, in the middle of
/// what is left. `points` must not be empty.
Camera framed(const View& view, const std::vector<Vec3>& points, PictureSize size, const Margins& margins);

/// The same camera, drawing from the nearest to the farthest of the box's corners too; what stands behind the
/// eye is left out. An empty box changes nothing.
Camera reaching(Camera camera, const Box3& box);

}  // namespace dryfit::scene
