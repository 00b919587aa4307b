// A shell's own topology put straight into the kernel's data: no booleans, no healing, so that coordinates
// stay as they are. Planes carry no parameter curves (the kernel computes them where it needs them);
// cylinders do, with a seam, as the kernel's own cylinders have.
#include <BRep_Builder.hxx>
#include <Geom2d_Line.hxx>
#include <Geom_Circle.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
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

struct RoundEdges {
  Vec3 axis, seam;  ///< unit
  double lengthMm = 0;
  std::array<SharedEdge, 2> rims;            ///< at `from`, at `to`
  std::array<TopoDS_Vertex, 2> seamCorners;  ///< where the seam meets the rims
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
    for (size_t i = 0; i < shell_.rounds.size(); ++i) {
      builder_.Add(kernelShell, roundFace(i));
      roles.push_back(shell_.rounds[i].role);
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
    if (off > 10 * tolerance::kPlane) fail("a corner lies " + std::to_string(off) + " mm off its face");
    toleranceMm_ = std::max(kKernelTolerance, 2 * off);
    corners_.resize(shell_.vertices.size());
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
      if (edges.lengthMm < tolerance::kPoint || round.radius < tolerance::kPoint) {
        fail("round face " + round.role + " has no length or no radius");
        edges.lengthMm = 1;
      }
      edges.axis = (round.to - round.from) * (1 / edges.lengthMm);
      if (fault_.empty()) {
        edges.seam = seamDirection(edges.axis);
        for (int end : {0, 1}) makeRim(round, edges, end);
      }
      rounds_.push_back(edges);
    }
  }

  void makeRim(const RoundFace& round, RoundEdges& edges, int end) {
    const Vec3 centre = end == 0 ? round.from : round.to;
    builder_.MakeVertex(edges.seamCorners[end], toPnt(centre + edges.seam * round.radius), toleranceMm_);
    Handle(Geom_Circle) circle =
        new Geom_Circle(gp_Ax2(toPnt(centre), toDir(edges.axis), toDir(edges.seam)), round.radius);
    TopoDS_Edge& edge = edges.rims[end].edge;
    builder_.MakeEdge(edge, circle, toleranceMm_);
    addEnds(edge, edges.seamCorners[end], 0, edges.seamCorners[end], 2 * std::numbers::pi);
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

  TopoDS_Wire loopWire(const FlatFace& face, const std::vector<int>& loop) {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    for (size_t i = 0; i < loop.size(); ++i) {
      const int a = loop[i], b = loop[(i + 1) % loop.size()];
      if (!known(a) || !known(b) || length(shell_.vertices[a] - shell_.vertices[b]) < tolerance::kPoint)
        fail("face " + face.role + " has an edge without length");
      if (!fault_.empty()) return wire;
      builder_.Add(wire, straightEdge(a, b, face.role));
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
    const int end = std::abs(rim.along) < tolerance::kPoint ? 0 : 1;
    if (end == 1 && std::abs(rim.along - round.lengthMm) > tolerance::kPoint)
      fail("a rim of face " + face.role + " does not lie at an end of its round face");
    // Timber lies to the left of an edge seen from outside: round a rod's end or a blind hole's bottom, but
    // outside a hole's mouth.
    const bool turnsWithNormal = face.loops.empty() && &rim == &face.rims.front();
    const bool axisWithNormal = dot(face.normal, round.axis) > 0;
    builder_.Add(wire, use(round.rims[end], turnsWithNormal == axisWithNormal, face.role));
    wire.Closed(true);
    return wire;
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
        gp_Ax3(toPnt(pointOf(face)), toDir(face.normal), toDir(seamDirection(normalized(face.normal)))));
    builder_.MakeFace(kernelFace, plane, kKernelTolerance);
    for (const auto& loop : face.loops) builder_.Add(kernelFace, loopWire(face, loop));
    for (const Rim& rim : face.rims) builder_.Add(kernelFace, rimWire(face, rim));
    if (face.loops.empty() && face.rims.empty()) fail("face " + face.role + " has no boundary");
    return kernelFace;
  }

  /// The unrolled cylinder: rim at `from`, seam up, rim at `to` backwards, seam down. A hole's wall is turned
  /// over.
  TopoDS_Face roundFace(size_t index) {
    TopoDS_Face face;
    if (!fault_.empty()) return face;
    const RoundFace& round = shell_.rounds[index];
    RoundEdges& edges = rounds_[index];
    Handle(Geom_CylindricalSurface) cylinder = new Geom_CylindricalSurface(
        gp_Ax3(toPnt(round.from), toDir(edges.axis), toDir(edges.seam)), round.radius);
    builder_.MakeFace(face, cylinder, kKernelTolerance);
    const double turn = 2 * std::numbers::pi, up = edges.lengthMm;
    auto line2d = [](double u, double v, double du, double dv) -> Handle(Geom2d_Line) {
      return new Geom2d_Line(gp_Pnt2d(u, v), gp_Dir2d(du, dv));
    };
    for (int end : {0, 1})
      builder_.UpdateEdge(edges.rims[end].edge, line2d(0, end * up, 1, 0), face, toleranceMm_);
    TopoDS_Edge seam;
    builder_.MakeEdge(seam, new Geom_Line(toPnt(round.from + edges.seam * round.radius), toDir(edges.axis)),
                      toleranceMm_);
    addEnds(seam, edges.seamCorners[0], 0, edges.seamCorners[1], up);
    builder_.UpdateEdge(seam, line2d(turn, 0, 0, 1), line2d(0, 0, 0, 1), face, toleranceMm_);
    builder_.Continuity(seam, face, face, GeomAbs_CN);
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    // In the turned-over face of a hole the rims run the other way round.
    const bool ahead = !round.hollow;
    use(edges.rims[0], ahead, round.role);
    use(edges.rims[1], !ahead, round.role);
    builder_.Add(wire, edges.rims[0].edge.Oriented(TopAbs_FORWARD));
    builder_.Add(wire, seam.Oriented(TopAbs_FORWARD));
    builder_.Add(wire, edges.rims[1].edge.Oriented(TopAbs_REVERSED));
    builder_.Add(wire, seam.Oriented(TopAbs_REVERSED));
    wire.Closed(true);
    builder_.Add(face, wire);
    face.Orientation(round.hollow ? TopAbs_REVERSED : TopAbs_FORWARD);
    return face;
  }

  void checkAllUsedTwice() {
    auto open = [](const SharedEdge& e) { return !e.used[0] || !e.used[1]; };
    for (const auto& [ends, edge] : straights_)
      if (open(edge)) fail("the shell is open at an edge of its flat faces");
    for (const RoundEdges& round : rounds_)
      if (open(round.rims[0]) || open(round.rims[1])) fail("the shell is open at the rim of a round face");
    if (shell_.flats.empty()) fail("the shell has no faces");
  }

  const Shell& shell_;
  BRep_Builder builder_;
  double toleranceMm_ = kKernelTolerance;
  std::vector<TopoDS_Vertex> corners_;
  std::map<std::pair<int, int>, SharedEdge> straights_;
  std::vector<RoundEdges> rounds_;
  std::string fault_;
};

}  // namespace

Result<Solid> solidFromShell(const Shell& shell) {
  return detail::guarded(Fault::WorkFault, "solid", "building a solid from its faces",
                         [&] { return ShellBuilder(shell).build(); });
}

}  // namespace dryfit
