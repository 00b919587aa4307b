// A shell's own topology put straight into the kernel's data: no booleans, no healing, so that coordinates
// stay as they are. Planes carry no parameter curves (the kernel computes them where it needs them);
// cylinders do, with a seam, as the kernel's own cylinders have.
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <Geom2dAPI_Interpolate.hxx>
#include <Geom2d_BSplineCurve.hxx>
#include <Geom2d_Line.hxx>
#include <Geom_Circle.hxx>
#include <Geom_ConicalSurface.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Ellipse.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <TColStd_HArray1OfReal.hxx>
#include <TColgp_HArray1OfPnt2d.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <algorithm>
#include <array>
#include <map>
#include <numbers>

#include "base/tolerance.h"
#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

using detail::toDir;
using detail::toPnt;

/// The kernel's own smallest tolerance.
constexpr double kKernelTolerance = 1e-7;

/// An edge and which way it has been used; a closed shell uses it once each way.
struct SharedEdge {
  TopoDS_Edge edge;
  std::array<bool, 2> used{false, false};  ///< forward, reversed
};

/// A circle between a round and a flat or another round; it runs right-handed about the round's axis.
struct RimEdge {
  SharedEdge shared;
  TopoDS_Vertex seamCorner;  ///< where the seam meets it
};

struct RoundEdges {
  Vec3 axis, seam;  ///< unit
  double lengthMm = 0;
  std::array<int, 2> rims{-1, -1};  ///< at `from`, at `to`
};

/// An arc edge in the kernel: its parameter is the strip's angle less `shift`.
struct KernelArc {
  SharedEdge shared;
  double shift = 0;
};

/// A direction square to the axis: along a coordinate axis when the round itself is along one.
Vec3 seamDirection(Vec3 axis) {
  int least = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(axis[i]) < std::abs(axis[least])) least = i;
  Vec3 other;
  other[least] = 1;
  return normalized(other - axis * dot(axis, other));
}

class ShellBuilder {
 public:
  explicit ShellBuilder(const Shell& shell) : shell_(shell) {}

  Result<Solid> build() {
    findTolerance();
    makeRims();
    TopoDS_Shell kernelShell;
    builder_.MakeShell(kernelShell);
    std::vector<std::string> roles;
    for (const FlatFace& face : shell_.flats) {
      builder_.Add(kernelShell, flatFace(face));
      roles.push_back(face.role);
    }
    for (size_t i = 0; i < shell_.rounds.size() && fault_.empty(); ++i) {
      builder_.Add(kernelShell, roundFace(i));
      roles.push_back(shell_.rounds[i].role);
    }
    for (const StripFace& strip : shell_.strips) {
      if (!fault_.empty()) break;
      builder_.Add(kernelShell, stripFace(strip));
      roles.push_back(strip.role);
    }
    checkAllUsedTwice();
    if (!fault_.empty()) return Diagnostic{Fault::WorkFault, "solid", fault_, "", {}};
    kernelShell.Closed(true);
    TopoDS_Solid solid;
    builder_.MakeSolid(solid);
    builder_.Add(solid, kernelShell);
    return Solid(std::make_shared<const Solid::Body>(Solid::Body{solid, roles}));
  }

 private:
  void fail(const std::string& what) {
    if (fault_.empty()) fault_ = what;
  }

  bool known(int vertex) const { return vertex >= 0 && vertex < static_cast<int>(shell_.vertices.size()); }

  /// Corners may stand off their planes by rounding: the kernel is told by how much, and nothing is moved.
  void findTolerance() {
    double off = 0;
    for (const FlatFace& face : shell_.flats)
      for (const auto& loop : face.loops)
        for (int v : loop)
          if (known(v)) off = std::max(off, std::abs(dot(face.normal, shell_.vertices[v]) - face.offset));
    for (const ArcEdge& arc : shell_.arcs)
      for (const auto& [vertex, angle] :
           {std::pair{arc.from, 0.0}, std::pair{arc.to, shell_.strips[arc.strip].turn}})
        if (known(vertex)) off = std::max(off, length(shell_.vertices[vertex] - pointOn(shell_, arc, angle)));
    if (off > 10 * tolerance::kPlane) fail("a corner lies " + std::to_string(off) + " mm off its face");
    toleranceMm_ = std::max(kKernelTolerance, 2 * off);
    corners_.resize(shell_.vertices.size());
    kernelArcs_.resize(shell_.arcs.size());
  }

  TopoDS_Vertex corner(int vertex) {
    TopoDS_Vertex& v = corners_[vertex];
    if (v.IsNull()) builder_.MakeVertex(v, toPnt(shell_.vertices[vertex]), toleranceMm_);
    return v;
  }

  void makeRims() {
    for (const RoundFace& round : shell_.rounds) {
      RoundEdges edges;
      edges.lengthMm = length(round.to - round.from);
      if (edges.lengthMm < tolerance::kPoint || std::min(round.radius, round.radiusTo) < tolerance::kPoint) {
        fail("round face " + round.role + " has no length or no radius");
        edges.lengthMm = 1;
      }
      edges.axis = (round.to - round.from) * (1 / edges.lengthMm);
      if (fault_.empty()) edges.seam = seamDirection(edges.axis);
      rounds_.push_back(edges);
    }
    for (size_t i = 0; i < rounds_.size() && fault_.empty(); ++i) joinToNext(i);
    for (size_t i = 0; i < rounds_.size() && fault_.empty(); ++i)
      for (size_t end : {0, 1})
        if (rounds_[i].rims[end] < 0) rounds_[i].rims[end] = makeRim(i, end);
  }

  /// One rim for the two rounds, which must fit together there.
  void joinToNext(size_t index) {
    const RoundFace& round = shell_.rounds[index];
    if (round.next < 0) return;
    const size_t next = static_cast<size_t>(round.next);
    if (next >= rounds_.size() || next == index || rounds_[next].rims[0] >= 0 ||
        length(round.to - shell_.rounds[next].from) > tolerance::kPoint ||
        std::abs(round.radiusTo - shell_.rounds[next].radius) > tolerance::kPoint ||
        length(rounds_[index].axis - rounds_[next].axis) > tolerance::kDirection)
      return fail("round face " + round.role + " does not go on in the next one");
    rounds_[index].rims[1] = rounds_[next].rims[0] = makeRim(next, 0);
  }

  int makeRim(size_t index, size_t end) {
    const RoundFace& round = shell_.rounds[index];
    const RoundEdges& edges = rounds_[index];
    const Vec3 centre = end == 0 ? round.from : round.to;
    const double radius = end == 0 ? round.radius : round.radiusTo;
    RimEdge rim;
    builder_.MakeVertex(rim.seamCorner, toPnt(centre + edges.seam * radius), toleranceMm_);
    Handle(Geom_Circle) circle =
        new Geom_Circle(gp_Ax2(toPnt(centre), toDir(edges.axis), toDir(edges.seam)), radius);
    builder_.MakeEdge(rim.shared.edge, circle, toleranceMm_);
    addEnds(rim.shared.edge, rim.seamCorner, 0, rim.seamCorner, 2 * std::numbers::pi);
    rims_.push_back(rim);
    return static_cast<int>(rims_.size()) - 1;
  }

  void addEnds(TopoDS_Edge& edge, const TopoDS_Vertex& from, double first, const TopoDS_Vertex& to,
               double last) {
    builder_.Add(edge, from.Oriented(TopAbs_FORWARD));
    builder_.Add(edge, to.Oriented(TopAbs_REVERSED));
    builder_.Range(edge, first, last);
  }

  TopoDS_Shape use(SharedEdge& shared, bool forward, const std::string& where) {
    bool& used = shared.used[forward ? 0 : 1];
    if (used) fail("an edge of face " + where + " is used twice the same way");
    used = true;
    return shared.edge.Oriented(forward ? TopAbs_FORWARD : TopAbs_REVERSED);
  }

  TopoDS_Shape straightEdge(int a, int b, const std::string& where) {
    const bool forward = a < b;
    SharedEdge& shared = straights_[std::minmax(a, b)];
    if (shared.edge.IsNull()) {
      const int from = std::min(a, b), to = std::max(a, b);
      const Vec3 along = shell_.vertices[to] - shell_.vertices[from];
      Handle(Geom_Line) line = new Geom_Line(toPnt(shell_.vertices[from]), toDir(along));
      builder_.MakeEdge(shared.edge, line, toleranceMm_);
      addEnds(shared.edge, corner(from), 0, corner(to), length(along));
    }
    return use(shared, forward, where);
  }

  /// The circle or ellipse where the arc's plane cuts the cylinder.
  void makeArc(const ArcEdge& arc, KernelArc& made) {
    const StripFace& strip = shell_.strips[arc.strip];
    const Vec3 up = arc.normal * (dot(arc.normal, strip.axis) < 0 ? -1 : 1);
    const double lean = dot(up, strip.axis);
    const Vec3 centre = (pointOn(shell_, arc, 0) + pointOn(shell_, arc, std::numbers::pi)) * 0.5;
    double first = 0;
    Handle(Geom_Curve) curve;
    if (length(cross(up, strip.axis)) < tolerance::kDirection) {
      curve = new Geom_Circle(gp_Ax2(toPnt(centre), toDir(strip.axis), toDir(strip.start)), strip.radius);
    } else {
      const Vec3 minor = normalized(cross(strip.axis, up)), major = cross(minor, up);
      // The ellipse's own angle counts from where its long axis stands over the cylinder.
      const Vec3 under = major - strip.axis * dot(strip.axis, major);
      const double at = std::atan2(dot(under, cross(strip.axis, strip.start)), dot(under, strip.start));
      first = -at;
      if (first < 0) first += 2 * std::numbers::pi;
      made.shift = -first;
      curve =
          new Geom_Ellipse(gp_Ax2(toPnt(centre), toDir(up), toDir(major)), strip.radius / lean, strip.radius);
    }
    builder_.MakeEdge(made.shared.edge, curve, toleranceMm_);
    addEnds(made.shared.edge, corner(arc.from), first, corner(arc.to), first + strip.turn);
  }

  TopoDS_Shape arcEdge(int number, int from, const std::string& where) {
    const ArcEdge& arc = shell_.arcs[number];
    KernelArc& made = kernelArcs_[number];
    if (made.shared.edge.IsNull()) makeArc(arc, made);
    return use(made.shared, from == arc.from, where);
  }

  TopoDS_Wire loopWire(const std::string& role, const std::vector<int>& loop, const std::vector<int>* arcs) {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    for (size_t i = 0; i < loop.size(); ++i) {
      const int a = loop[i], b = loop[(i + 1) % loop.size()];
      if (!known(a) || !known(b) || length(shell_.vertices[a] - shell_.vertices[b]) < tolerance::kPoint)
        fail("face " + role + " has an edge without length");
      if (!fault_.empty()) return wire;
      const int arc = arcs ? (*arcs)[i] : -1;
      builder_.Add(wire, arc >= 0 ? arcEdge(arc, a, role) : straightEdge(a, b, role));
    }
    wire.Closed(true);
    return wire;
  }

  TopoDS_Wire rimWire(const FlatFace& face, const Rim& rim) {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    if (rim.bore < 0 || rim.bore >= static_cast<int>(rounds_.size()))
      fail("face " + face.role + " has an unknown rim");
    if (!fault_.empty()) return wire;
    RoundEdges& round = rounds_[rim.bore];
    const size_t end = std::abs(rim.along) < tolerance::kPoint ? 0 : 1;
    if (end == 1 && std::abs(rim.along - round.lengthMm) > tolerance::kPoint)
      fail("a rim of face " + face.role + " does not lie at an end of its round face");
    // Timber lies to the left of an edge seen from outside: round a rod's end or a blind hole's bottom, but
    // outside a hole's mouth.
    const bool turnsWithNormal = face.loops.empty() && &rim == &face.rims.front();
    const bool axisWithNormal = dot(face.normal, round.axis) > 0;
    builder_.Add(wire, use(rims_[round.rims[end]].shared, turnsWithNormal == axisWithNormal, face.role));
    wire.Closed(true);
    return wire;
  }

  /// Faces of one plane have one point of it as their origin: the first one's.
  Vec3 originOf(const FlatFace& face) {
    const std::array<double, 4> plane{face.normal.x, face.normal.y, face.normal.z, face.offset};
    return origins_.try_emplace(plane, pointOf(face)).first->second;
  }

  /// A point of the plane that the data holds exactly.
  Vec3 pointOf(const FlatFace& face) const {
    if (!face.loops.empty() && !face.loops[0].empty() && known(face.loops[0][0]))
      return shell_.vertices[face.loops[0][0]];
    if (face.rims.empty() || face.rims[0].bore >= static_cast<int>(rounds_.size()))
      return face.normal * face.offset;
    const RoundFace& round = shell_.rounds[face.rims[0].bore];
    return std::abs(face.rims[0].along) < tolerance::kPoint ? round.from : round.to;
  }

  TopoDS_Face flatFace(const FlatFace& face) {
    TopoDS_Face kernelFace;
    Handle(Geom_Plane) plane = new Geom_Plane(
        gp_Ax3(toPnt(originOf(face)), toDir(face.normal), toDir(seamDirection(normalized(face.normal)))));
    builder_.MakeFace(kernelFace, plane, kKernelTolerance);
    for (size_t l = 0; l < face.loops.size(); ++l)
      builder_.Add(kernelFace,
                   loopWire(face.role, face.loops[l], face.arcs.empty() ? nullptr : &face.arcs[l]));
    for (const Rim& rim : face.rims) builder_.Add(kernelFace, rimWire(face, rim));
    if (face.loops.empty() && face.rims.empty()) fail("face " + face.role + " has no boundary");
    return kernelFace;
  }

  /// A cone's surface in the kernel opens along its axis, so that one that narrows has its axis the other
  /// way.
  Handle(Geom_Surface) surfaceOf(const RoundFace& round, const RoundEdges& edges) const {
    if (!isConical(round))
      return new Geom_CylindricalSurface(gp_Ax3(toPnt(round.from), toDir(edges.axis), toDir(edges.seam)),
                                         round.radius);
    const bool opens = round.radiusTo > round.radius;
    const double angle = std::atan2(std::abs(round.radiusTo - round.radius), edges.lengthMm);
    return new Geom_ConicalSurface(gp_Ax3(toPnt(opens ? round.from : round.to),
                                          toDir(opens ? edges.axis : -edges.axis), toDir(edges.seam)),
                                   angle, std::min(round.radius, round.radiusTo));
  }
  static bool isConical(const RoundFace& round) {
    return std::abs(round.radiusTo - round.radius) > tolerance::kPoint;
  }

  /// The unrolled surface: the rim at its start, seam up, the other rim backwards, seam down. A hole's wall
  /// is turned over. Where a cone's axis is the other way than the round's, so are its rims.
  TopoDS_Face roundFace(size_t index) {
    TopoDS_Face face;
    const RoundFace& round = shell_.rounds[index];
    const RoundEdges& edges = rounds_[index];
    builder_.MakeFace(face, surfaceOf(round, edges), kKernelTolerance);
    const bool same = !isConical(round) || round.radiusTo > round.radius;
    RimEdge &first = rims_[edges.rims[same ? 0 : 1]], &last = rims_[edges.rims[same ? 1 : 0]];
    const double turn = 2 * std::numbers::pi,
                 up = std::hypot(edges.lengthMm, isConical(round) ? round.radiusTo - round.radius : 0.0);
    auto line2d = [](double u, double v, double du, double dv) -> Handle(Geom2d_Line) {
      return new Geom2d_Line(gp_Pnt2d(u, v), gp_Dir2d(du, dv));
    };
    for (auto& [rim, v] : {std::pair{&first, 0.0}, std::pair{&last, up}})
      builder_.UpdateEdge(rim->shared.edge, line2d(same ? 0 : turn, v, same ? 1 : -1, 0), face, toleranceMm_);
    const Vec3 foot = (same ? round.from : round.to) + edges.seam * (same ? round.radius : round.radiusTo),
               head = (same ? round.to : round.from) + edges.seam * (same ? round.radiusTo : round.radius);
    TopoDS_Edge seam;
    builder_.MakeEdge(seam,
                      new Geom_Line(toPnt(foot), isConical(round) ? toDir(head - foot) : toDir(edges.axis)),
                      toleranceMm_);
    addEnds(seam, first.seamCorner, 0, last.seamCorner, up);
    builder_.UpdateEdge(seam, line2d(turn, 0, 0, 1), line2d(0, 0, 0, 1), face, toleranceMm_);
    builder_.Continuity(seam, face, face, GeomAbs_CN);
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    // In the turned-over face of a hole the rims run the other way round.
    const bool ahead = round.hollow != same;
    use(first.shared, ahead, round.role);
    use(last.shared, !ahead, round.role);
    builder_.Add(wire, first.shared.edge.Oriented(same ? TopAbs_FORWARD : TopAbs_REVERSED));
    builder_.Add(wire, seam.Oriented(TopAbs_FORWARD));
    builder_.Add(wire, last.shared.edge.Oriented(same ? TopAbs_REVERSED : TopAbs_FORWARD));
    builder_.Add(wire, seam.Oriented(TopAbs_REVERSED));
    wire.Closed(true);
    builder_.Add(face, wire);
    face.Orientation(round.hollow ? TopAbs_REVERSED : TopAbs_FORWARD);
    return face;
  }

  /// On the unrolled cylinder a slanted cut is a wave: a spline through so many of its points that it stays
  /// within the kernel's tolerance (a quarter round of 100 mm at 45 degrees: under 2e-8 off).
  Handle(Geom2d_BSplineCurve) wave(const ArcEdge& arc, double shift) const {
    constexpr int kPoints = 161;
    const StripFace& strip = shell_.strips[arc.strip];
    Handle(TColgp_HArray1OfPnt2d) points = new TColgp_HArray1OfPnt2d(1, kPoints);
    Handle(TColStd_HArray1OfReal) at = new TColStd_HArray1OfReal(1, kPoints);
    for (int i = 0; i < kPoints; ++i) {
      const double angle = strip.turn * i / (kPoints - 1);
      points->SetValue(i + 1, {angle, dot(pointOn(shell_, arc, angle) - strip.centre, strip.axis)});
      at->SetValue(i + 1, angle - shift);
    }
    Geom2dAPI_Interpolate spline(points, at, /*PeriodicFlag=*/false, 1e-12);
    spline.Perform();
    return spline.Curve();
  }

  /// Angles run along u, the axis along v; edges get their lines there. A hollow's face is turned over.
  TopoDS_Face stripFace(const StripFace& strip) {
    TopoDS_Face face;
    Handle(Geom_CylindricalSurface) cylinder = new Geom_CylindricalSurface(
        gp_Ax3(toPnt(strip.centre), toDir(strip.axis), toDir(strip.start)), strip.radius);
    builder_.MakeFace(face, cylinder, kKernelTolerance);
    const TopoDS_Wire wire = loopWire(strip.role, strip.loop, &strip.arcs);
    if (!fault_.empty()) return face;
    for (size_t i = 0; i < strip.loop.size(); ++i) {
      if (strip.arcs[i] >= 0) {
        const KernelArc& made = kernelArcs_[strip.arcs[i]];
        builder_.UpdateEdge(made.shared.edge, wave(shell_.arcs[strip.arcs[i]], made.shift), face,
                            toleranceMm_);
        continue;
      }
      const int a = strip.loop[i], b = strip.loop[(i + 1) % strip.loop.size()];
      const Vec3 from = shell_.vertices[std::min(a, b)] - strip.centre;
      const bool ahead =
          dot(shell_.vertices[std::max(a, b)] - shell_.vertices[std::min(a, b)], strip.axis) > 0;
      const Vec3 arm = from - strip.axis * dot(from, strip.axis);
      const bool atStart = length(arm - strip.start * strip.radius) < 1e-5;
      builder_.UpdateEdge(straights_[std::minmax(a, b)].edge,
                          new Geom2d_Line(gp_Pnt2d(atStart ? 0 : strip.turn, dot(from, strip.axis)),
                                          gp_Dir2d(0, ahead ? 1 : -1)),
                          face, toleranceMm_);
    }
    builder_.Add(face, wire.Oriented(strip.hollow ? TopAbs_REVERSED : TopAbs_FORWARD));
    face.Orientation(strip.hollow ? TopAbs_REVERSED : TopAbs_FORWARD);
    return face;
  }

  void checkAllUsedTwice() {
    auto open = [](const SharedEdge& e) { return !e.used[0] || !e.used[1]; };
    for (const auto& [ends, edge] : straights_)
      if (open(edge)) fail("the shell is open at an edge of its flat faces");
    for (const KernelArc& arc : kernelArcs_)
      if (open(arc.shared)) fail("the shell is open at an arc");
    for (const RimEdge& rim : rims_)
      if (open(rim.shared)) fail("the shell is open at the rim of a round face");
    if (shell_.flats.empty()) fail("the shell has no faces");
  }

  const Shell& shell_;
  BRep_Builder builder_;
  double toleranceMm_ = kKernelTolerance;
  std::map<std::array<double, 4>, Vec3> origins_;  ///< by normal and offset
  std::vector<TopoDS_Vertex> corners_;
  std::map<std::pair<int, int>, SharedEdge> straights_;
  std::vector<KernelArc> kernelArcs_;
  std::vector<RoundEdges> rounds_;
  std::vector<RimEdge> rims_;
  std::string fault_;
};

/// Holes that no circle bounds are cut by the kernel's general boolean; faces keep their roles.
Result<Solid> withOpenBores(const Solid& solid, const Shell& shell) {
  BRepAlgoAPI_Cut cut;
  TopTools_ListOfShape objects, tools;
  objects.Append(solid.body().shape);
  std::vector<std::pair<TopoDS_Shape, std::string>> walls;
  for (const OpenBore& bore : shell.openBores) {
    const Vec3 axis = bore.to - bore.from;
    BRepPrimAPI_MakeCylinder cylinder(gp_Ax2(toPnt(bore.from), toDir(axis)), bore.radius, length(axis));
    tools.Append(cylinder.Shape());
    walls.push_back({cylinder.Face(), bore.role});
  }
  cut.SetArguments(objects);
  cut.SetTools(tools);
  cut.Build();
  if (!cut.IsDone() || cut.HasErrors())
    return Diagnostic{Fault::WorkFault, "solid", "the kernel could not bore the holes of a section", "", {}};
  TopTools_IndexedMapOfShape solids, before, after;
  TopExp::MapShapes(cut.Shape(), TopAbs_SOLID, solids);
  if (solids.Extent() != 1)
    return Diagnostic{
        Fault::WorkFault, "solid", "boring the holes of a section left no single solid", "", {}};
  TopExp::MapShapes(solid.body().shape, TopAbs_FACE, before);
  TopExp::MapShapes(solids(1), TopAbs_FACE, after);
  Solid::Body body{TopoDS::Solid(solids(1)), std::vector<std::string>(static_cast<size_t>(after.Extent()))};
  auto name = [&](const TopoDS_Shape& source, const std::string& role) {
    const TopTools_ListOfShape& made = cut.Modified(source);
    if (made.IsEmpty() && after.Contains(source))
      body.roles[static_cast<size_t>(after.FindIndex(source) - 1)] = role;
    for (const TopoDS_Shape& face : made)
      if (after.Contains(face)) body.roles[static_cast<size_t>(after.FindIndex(face) - 1)] = role;
  };
  for (int i = 1; i <= before.Extent(); ++i) name(before(i), solid.body().roles[static_cast<size_t>(i - 1)]);
  for (const auto& [wall, role] : walls) name(wall, role);
  return Solid(std::make_shared<const Solid::Body>(std::move(body)));
}

}  // namespace

Result<Solid> solidFromShell(const Shell& shell) {
  return detail::guarded(Fault::WorkFault, "solid", "building a solid from its faces",
                         [&]() -> Result<Solid> {
                           Result<Solid> solid = ShellBuilder(shell).build();
                           if (!solid || shell.openBores.empty()) return solid;
                           return withOpenBores(solid.value(), shell);
                         });
}

}  // namespace dryfit
