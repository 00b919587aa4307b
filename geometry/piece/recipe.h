// Recipe: a piece as a blank and an ordered list of features, in the piece's own frame. Declarative: sizes
// and named planes, never shapes. Equal recipes are one solid placed many times.
//
// Piece frame: x along the grain, y across the width, z through the thickness out of the face that shows;
// origin at the blank's centre. "Low" is the -x end or the -y edge, "high" the +x end or the +y edge.
// Millimetres.
//
// Roles: a face is named after the feature whose plane it lies on, FEATURE.PLANE ("mortise.cheek.front").
// Front is +z, back is -z. The blank's own faces: end.low, end.high, edge.low, edge.high, face (+z), back
// (-z); `blankRoles` renames them. Where features share a plane, the last one owns its part.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/profile.h"
#include "base/station.h"
#include "base/vec.h"

namespace dryfit {

struct Span {
  double from = 0, to = 0;
  double size() const { return to - from; }
  double middle() const { return (from + to) / 2; }
  friend bool operator==(const Span&, const Span&) = default;
};

enum class Towards { Low, High };  ///< the low or the high side along one axis

/// Sawn box, centred.
struct BoxBlank {
  double length = 0, width = 0, thickness = 0;
  friend bool operator==(const BoxBlank&, const BoxBlank&) = default;
};
/// Round rod along x, centred.
struct RodBlank {
  double length = 0, diameter = 0;
  friend bool operator==(const RodBlank&, const RodBlank&) = default;
};

/// A part that is cast or rolled, not sawn: a box that need not stand about the origin. Its `blankRoles` are
/// those of any box.
struct CastBlank {
  Vec3 low, high;
  friend bool operator==(const CastBlank&, const CastBlank&) = default;
};
/// A body turned about x; it has no features. Its faces: blankRoles[0] and [1] the two flat ends, "side"
/// where it is a cylinder, "cone.1", "cone.2" ... the cones from the low end.
struct TurnedBlank {
  Stations stations;  ///< by x
  friend bool operator==(const TurnedBlank&, const TurnedBlank&) = default;
};

/// All beyond x = `at` is taken off: horns, tenons left proud. Cut to a slope over the thickness, `at` is its
/// place in the middle of it.
/// Planes: the role itself.
struct CutOff {
  std::string role;
  Towards end = Towards::High;
  double at = 0;
  double lean = 0;  ///< x at the blank's face (+z) less x at its back
  friend bool operator==(const CutOff&, const CutOff&) = default;
};

/// A groove ploughed in an edge, right through or between stops.
/// Planes: .bottom .cheek.front .cheek.back .stop.low .stop.high
struct Groove {
  std::string role = "groove";
  Towards edge = Towards::High;
  double depth = 0;
  Span z;
  std::optional<Span> x;  ///< empty: right through
  friend bool operator==(const Groove&, const Groove&) = default;
};

/// A mortise entered at one edge. Through: no depth; then its mouth at the far edge may be longer, the
/// wedging allowance: parallel for `parallelDepth` from the entered edge, then straight to `allowance` more
/// at each end. An end may slope over the thickness: `leanLow`, `leanHigh` are its x at the blank's face (+z)
/// less x at the back, and `x` its place in the middle (z = 0).
/// Planes: .cheek.front .cheek.back .end.low .end.high .slope.low .slope.high .bottom
struct Mortise {
  std::string role = "mortise";
  Towards edge = Towards::High;  ///< the edge the tenon enters at
  Span x, z;
  std::optional<double> depth;
  double parallelDepth = 0, allowanceLow = 0, allowanceHigh = 0;
  double leanLow = 0, leanHigh = 0;
  friend bool operator==(const Mortise&, const Mortise&) = default;
};

/// What stands beyond the shoulder: a tenon, a haunch.
/// Planes: .cheek.front .cheek.back .edge.low .edge.high .end
struct Tongue {
  std::string role;
  Span y;
  double projection = 0;  ///< from the shoulder; the blank ends it when it is longer
  friend bool operator==(const Tongue&, const Tongue&) = default;
};

/// An end cut to a shoulder with tongues left standing, all equally thick and in line.
/// Planes: .front .back (the shoulders on the two faces), .between (beside tongues), and those of each
/// tongue.
struct ShoulderedEnd {
  std::string role = "shoulder";
  Towards end = Towards::High;
  double shoulder = 0;  ///< x of the shoulder
  Span z;
  std::vector<Tongue> tongues;  ///< ascending in y, not overlapping
  friend bool operator==(const ShoulderedEnd&, const ShoulderedEnd&) = default;
};

/// A round hole along z, right through.
/// Planes: the role itself.
struct Bore {
  std::string role = "bore";
  double x = 0, y = 0, radius = 0;
  friend bool operator==(const Bore&, const Bore&) = default;
};

/// A round hole square to one of the piece's sides and bored in from it, right through or to a flat bottom.
/// The side: an end (axis 0), an edge (1), the back or the face (2). A hole may start below its side, at a
/// groove's bottom; its depth is told from the blank's own side all the same.
/// Planes: the role itself, .bottom
struct RoundHole {
  std::string role = "hole";
  int axis = 1;
  Towards side = Towards::High;  ///< entered at the low or high side along the axis
  Vec3 at;                       ///< its middle; the part along the axis is 0
  double radius = 0;
  std::optional<double> depth;  ///< from the blank's side; empty: right through
  friend bool operator==(const RoundHole&, const RoundHole&) = default;
};

/// An end shaped as a single dovetail over the piece's whole thickness, `length` long: full width at the very
/// end, narrower by `loss` at each edge where it begins. Planes: .side.low .side.high .shoulder.low
/// .shoulder.high
struct DovetailEnd {
  std::string role = "dovetail";
  Towards end = Towards::High;
  double length = 0, loss = 0;
  friend bool operator==(const DovetailEnd&, const DovetailEnd&) = default;
};

/// A notch in an edge through the whole thickness, its sides splayed: `x` at the face (+z), narrower by
/// `loss` at each end at the back. Planes: .bottom .side.low .side.high
struct DovetailNotch {
  std::string role = "notch";
  Towards edge = Towards::High;
  double depth = 0;
  Span x;
  double loss = 0;  ///< negative: narrower at the face
  friend bool operator==(const DovetailNotch&, const DovetailNotch&) = default;
};

/// A panel raised on one face: all round, a flat tongue `flat` wide at height `tongue` from the middle plane,
/// then a bevel `bevel` wide up to `step` below the face, then a square step up to the field. Planes: .tongue
/// .bevel .step
struct Raising {
  std::string role;  ///< "raised.front" or "raised.back"
  bool front = true;
  double tongue = 0;            ///< |z| of the tongue's surface
  double flatX = 0, flatY = 0;  ///< width of the tongue at the ends (x) and the edges (y)
  double bevel = 0, step = 0;
  friend bool operator==(const Raising&, const Raising&) = default;
};

/// An edge cut to a straight slope over the whole thickness: from y = `atLow` at the low end of the blank to
/// y = `atHigh` at the high end; what lies beyond, towards the named edge, goes.
/// Planes: the role itself.
struct Taper {
  std::string role = "slope";
  Towards edge = Towards::High;
  double atLow = 0, atHigh = 0;
  friend bool operator==(const Taper&, const Taper&) = default;
};

/// An edge planed to a slope over the thickness: at one face it stays where the blank's edge is, at the other
/// it lies `loss` further in.
/// Planes: the role itself.
struct EdgeBevel {
  std::string role;
  Towards edge = Towards::High;
  double loss = 0;
  Towards narrow = Towards::Low;  ///< the narrower side: Low is the back (-z), High the face
  friend bool operator==(const EdgeBevel&, const EdgeBevel&) = default;
};

/// A square recess; sides that reach the blank's faces open there.
/// Planes: .end.low .end.high (x) .side.low .side.high (y) .back .front (z)
struct Recess {
  std::string role;
  Span x, y, z;
  friend bool operator==(const Recess&, const Recess&) = default;
};

/// A section run along the whole piece with a plane: the waste that is taken off, outlined in (y, z), the
/// path closed by a straight line from its end to its start, the waste to its left. Lines of it may lie
/// outside the blank. Planes: .flat .round .hollow
struct RunSection {
  std::string role = "section";
  Profile waste;
  friend bool operator==(const RunSection&, const RunSection&) = default;
};

/// An end cut on a slant across the width, square to the face: x of the cut at the low and at the high edge.
/// Planes: the role itself.
struct Mitre {
  std::string role = "mitre";
  Towards end = Towards::High;
  double atLow = 0, atHigh = 0;
  friend bool operator==(const Mitre&, const Mitre&) = default;
};

/// A convex part of the blank taken out by planes in any direction: all points with dot(normal, p) <= offset
/// for every side. Planes: ROLE.NAME, or the role itself where the name is empty.
struct PlanedWaste {
  struct Side {
    Vec3 normal;  ///< unit, out of the waste
    double offset = 0;
    std::string name{};
    friend bool operator==(const Side&, const Side&) = default;
  };
  std::string role;
  std::vector<Side> sides;
  friend bool operator==(const PlanedWaste&, const PlanedWaste&) = default;
};

/// A turned hole, bored square to one of the piece's sides like a RoundHole: a countersink and its shank, a
/// shank and its point. `stations`: depth from the blank's side and radius there. The first lies in the air
/// (a depth under 0 for what stands out of the piece) or on the face where the hole begins; what of the hole
/// lies in air is not there. Right through when `through`, its last station then lies at the far side or
/// beyond. Planes: the role itself where it is a cylinder, .cone.1 .cone.2 ... from the mouth, .bottom
struct TurnedHole {
  std::string role = "hole";
  int axis = 1;
  Towards side = Towards::High;  ///< entered at the low or high side along the axis
  Vec3 at;                       ///< its middle; the part along the axis is 0
  Stations stations;
  bool through = false;
  friend bool operator==(const TurnedHole&, const TurnedHole&) = default;
};

/// A hinge plate with its knuckles, from a CastBlank whose pin lies along x through the origin: the plate
/// lies in `plate` (z) from y = `clearance` to the blank's high edge; along each span of `knuckles` it goes
/// on, tangent, to a barrel of `radius` about x, else it stops at y = `clearance`, clear of the other plate's
/// knuckles. Planes: .N.round .N.end.low .N.end.high (N from the low end), .clear (y = clearance), .inner
/// (the plate's side towards the pin's axis, which cuts the barrel). The plate's outer side is the blank's
/// own back or face.
struct Barrel {
  std::string role = "knuckle";
  std::vector<Span> knuckles;  ///< along x, rising
  double radius = 0, clearance = 0;
  Span plate;  ///< one end of it at -radius or +radius
  friend bool operator==(const Barrel&, const Barrel&) = default;
};

using Feature =
    std::variant<CutOff, Groove, Mortise, ShoulderedEnd, Bore, RoundHole, DovetailEnd, DovetailNotch, Raising,
                 Taper, Recess, EdgeBevel, RunSection, Mitre, PlanedWaste, TurnedHole, Barrel>;
using Blank = std::variant<BoxBlank, RodBlank, CastBlank, TurnedBlank>;

struct Recipe {
  Blank blank;
  /// Names of the blank's own faces: -x, +x, -y, +y, -z, +z.
  std::array<std::string, 6> blankRoles{"end.low", "end.high", "edge.low", "edge.high", "back", "face"};
  std::vector<Feature> features;
  friend bool operator==(const Recipe&, const Recipe&) = default;
};

/// Stable 64-bit hash over every size and name; the key of every cache.
std::uint64_t hashOf(const Recipe& recipe);
/// The recipe as JSON-free text, one line a feature: what the hash is taken over.
std::string toText(const Recipe& recipe);
/// Turned over in y: the handed piece. Mirroring twice gives the recipe back.
Recipe mirrored(const Recipe& recipe);
Vec3 blankSize(const Blank& blank);
Box3 blankBox(const Blank& blank);
/// The feature that gives a blank a section: `path` runs from its back edge (across 0) over the face to its
/// back (height 0), the back edge at +y or at -y.
RunSection runSection(const std::string& role, const Profile& path, double widthMm, double thicknessMm,
                      bool backAtHighEdge);

}  // namespace dryfit
