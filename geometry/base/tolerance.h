// Every tolerance of the library, each with what it bounds and why. Lengths in millimetres.
#pragma once

namespace dryfit::tolerance {

/// Two points nearer than this are one vertex. Sizes are doubles of at most a few thousand mm, so rounding
/// stays under 1e-11; the smallest real feature is 0.01 (`kShortestEdge`): this stands well clear of both.
inline constexpr double kPoint = 1e-6;
/// A point this near a plane lies on it (same reasoning as kPoint).
inline constexpr double kPlane = 1e-6;
/// Two unit normals whose difference is shorter than this are one direction. A wedge's slope is 0.05.
inline constexpr double kDirection = 1e-9;
/// No edge of a piece may be shorter: below it other CAD heals edges away.
inline constexpr double kShortestEdge = 0.01;
/// Flat fragments of less area (mm2) are rounding, not faces.
inline constexpr double kSliverArea = 1e-7;

/// Fit: faces this near, and parallel, touch. Contract: fit resolves 0.001 mm.
inline constexpr double kTouch = 1e-3;
/// Fit: a found size may differ from the stated one by this much.
inline constexpr double kSize = 1e-3;
/// Fit: areas (mm2) of contacts agree within this, absolutely and relatively. 0.05 mm2 is far below the 1 mm2
/// of contact that must be noticed, far above the rounding of clipped polygons.
inline constexpr double kContactArea = 0.05;
inline constexpr double kContactAreaRelative = 1e-6;
/// Fit: two unit normals whose difference (or sum) is shorter than this are parallel; 0.002 mm over a long
/// stile.
inline constexpr double kParallel = 1e-6;
/// Fit: touching areas (mm2) below this are rounding along shared edges (2 m at 1e-9 mm), not contacts.
inline constexpr double kTouchArea = 1e-3;
/// Fit: pieces overlap if they share more volume (mm3) than this; the closed formula's rounding is under
/// 1e-5.
inline constexpr double kOverlapVolume = 1e-3;

/// Blocking (measured, see DEVELOPERS.md): a facet whose normal is this near square to the way is along it.
inline constexpr double kAlongTheWay = 1e-4;
/// Blocking: how far behind a facet counts as touching it; larger makes long mitres look blocked.
inline constexpr double kBlockDepth = 1e-3;
/// Blocking: blocked only if the shadows share more area (mm2) than this ...
inline constexpr double kBlockArea = 0.5;
/// ... and one shared polygon is wider (2 area / perimeter) than this; area alone calls a 2 m mitre blocked.
inline constexpr double kBlockWidth = 0.01;

/// Blocking: bodies whose boxes come this near are engaged with each other.
inline constexpr double kEngaged = 0.01;
/// Blocking: facets this near across the way lie beside each other, so the body is not clear until it is
/// past. More than any clearance of a joint (a wide panel has 3 in its groove): a tongue with play in its
/// groove is still in it.
inline constexpr double kBeside = 5;

/// Swing: the least clearance of a turn is known this well.
inline constexpr double kSwing = 5e-4;

/// Segments of a circle in planning meshes; a multiple of four, so that quarter turns map it onto itself.
inline constexpr int kCircleSegments = 64;

}  // namespace dryfit::tolerance
