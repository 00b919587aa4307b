#include "solid/carve_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/tolerance.h"
#include "solid/carve_lines.h"

namespace dryfit::carver {

namespace {

Diagnostic workFault(const std::string& message, const std::string& hint = "") {
  return {Fault::WorkFault, "", message, hint, {}};
}

class Checker {
 public:
  Checker(const Scene& scene, Boundary& boundary) : scene_(scene), b_(boundary) {}

  std::optional<Diagnostic> run() {
    if (b_.faces.empty()) return workFault("nothing is left of the piece", "a cut takes all of it");
    pairEdges();
    if (!fault_) checkCorners();
    if (!fault_) checkLumps();
    if (!fault_) checkTouching();
    return fault_;
  }

 private:
  const std::string& roleOf(int edge) const { return scene_.roles[b_.kinds[b_.edges[edge].kind].role]; }
  int planeOf(int edge) const { return b_.kinds[b_.edges[edge].kind].plane; }
  Vec3 middle(int edge) const {
    return (b_.points[b_.edges[edge].from] + b_.points[b_.edges[edge].to]) * 0.5;
  }

  /// Each edge is to be run once each way. Twice each way: two wedges of timber meet in a line.
  void pairEdges() {
    std::vector<int> order(b_.edges.size());
    std::iota(order.begin(), order.end(), 0);
    auto ends = [&](int h) { return std::minmax(b_.edges[h].from, b_.edges[h].to); };
    std::sort(order.begin(), order.end(), [&](int a, int b) {
      const auto x = ends(a), y = ends(b);
      return x != y ? x < y : a < b;
    });
    for (size_t i = 0; i < order.size();) {
      size_t end = i + 1;
      while (end < order.size() && ends(order[end]) == ends(order[i])) ++end;
      int balance = 0;
      for (size_t k = i; k < end; ++k) balance += b_.edges[order[k]].from < b_.edges[order[k]].to ? 1 : -1;
      if (balance != 0) {
        fault_ = disagreement("the surface is open at an edge of " + roleOf(order[i]), middle(order[i]));
        return;
      }
      if (end - i > 2) {
        fault_ = touches("along the edge between " + roleOf(order[i]) + " and " + roleOf(order[i + 1]),
                         middle(order[i]));
        return;
      }
      b_.edges[order[i]].twin = order[i + 1];
      b_.edges[order[i + 1]].twin = order[i];
      i = end;
    }
  }

  static Diagnostic touches(const std::string& how, Vec3 at) {
    return workFault("the piece touches itself " + how + " at " + placeText(at),
                     "let the cuts overlap, or leave timber between them");
  }

  /// The faces round a corner are to be one ring.
  void checkCorners() {
    std::vector<bool> seen(b_.edges.size(), false), ringed(b_.points.size(), false);
    for (size_t h = 0; h < b_.edges.size(); ++h) {
      if (seen[h]) continue;
      const int corner = b_.edges[h].from;
      if (ringed[corner]) {
        fault_ = touches("in a corner of " + roleOf(static_cast<int>(h)), b_.points[corner]);
        return;
      }
      ringed[corner] = true;
      for (int e = static_cast<int>(h); !seen[e]; e = b_.edges[b_.edges[e].twin].next) seen[e] = true;
    }
  }

  void checkLumps() {
    std::vector<int> parent(b_.faces.size());
    std::iota(parent.begin(), parent.end(), 0);
    auto root = [&](int f) {
      while (parent[f] != f) f = parent[f] = parent[parent[f]];
      return f;
    };
    // Edges join neighbours; a face with inner loops joins what stands on them by itself.
    for (const HalfEdge& edge : b_.edges) parent[root(edge.face)] = root(b_.edges[edge.twin].face);
    std::vector<double> volumes(b_.faces.size(), 0);
    for (size_t f = 0; f < b_.faces.size(); ++f)
      volumes[root(static_cast<int>(f))] += coneVolume(b_.faces[f]);
    int lumps = 0, hollows = 0;
    for (size_t f = 0; f < b_.faces.size(); ++f)
      if (parent[f] == static_cast<int>(f)) ++(volumes[f] > 0 ? lumps : hollows);
    if (lumps > 1) {
      fault_ =
          workFault(fmt::format("the cuts leave the piece in {} parts", lumps), "they must leave it whole");
    } else if (hollows > 0) {
      fault_ =
          workFault("the cuts leave a closed hollow inside the piece", "a cut must be open to the outside");
    }
  }

  double coneVolume(const BoundaryFace& face) const {
    const Plane& plane = scene_.planes[b_.kinds[face.kind].plane];
    Vec3 sum;
    for (int start : face.loops) {
      const Vec3 origin = b_.points[b_.edges[start].from];
      for (int h = b_.edges[start].next; h != start; h = b_.edges[h].next)
        sum = sum + cross(b_.points[b_.edges[h].from] - origin, b_.points[b_.edges[h].to] - origin);
    }
    return plane.offset * dot(plane.normal, sum) / 6;
  }

  /// An edge or corner that lies in a face it does not belong to: no timber, or no room, is left between
  /// them.
  void checkTouching() {
    std::vector<std::vector<int>> facesIn(scene_.planes.size()), leaving(b_.points.size());
    for (size_t f = 0; f < b_.faces.size(); ++f)
      facesIn[b_.kinds[b_.faces[f].kind].plane].push_back(static_cast<int>(f));
    for (size_t h = 0; h < b_.edges.size(); ++h) leaving[b_.edges[h].from].push_back(static_cast<int>(h));
    for (size_t plane = 0; plane < scene_.planes.size() && !fault_; ++plane)
      if (!facesIn[plane].empty()) checkPlane(static_cast<int>(plane), facesIn[plane], leaving);
  }

  void checkPlane(int plane, const std::vector<int>& faces, const std::vector<std::vector<int>>& leaving) {
    auto isOn = [&](int point) {
      return std::abs(scene_.planes[plane].above(b_.points[point])) < tolerance::kPlane;
    };
    for (size_t p = 0; p < leaving.size(); ++p) {
      if (leaving[p].empty() || !isOn(static_cast<int>(p))) continue;
      bool belongs = false;
      for (int h : leaving[p]) {
        const bool own = planeOf(h) == plane || planeOf(b_.edges[h].twin) == plane;
        belongs |= own;
        if (!own && isOn(b_.edges[h].to)) checkInside(middle(h), h, faces);
      }
      if (!belongs) checkInside(b_.points[p], leaving[p][0], faces);
    }
  }

  void checkInside(Vec3 at, int edge, const std::vector<int>& faces) {
    for (int f : faces) {
      const BoundaryFace& face = b_.faces[f];
      CrossingCount count(at, scene_.planes[b_.kinds[face.kind].plane].normal);
      for (int start : face.loops) {
        int h = start;
        do {
          count.add(b_.points[b_.edges[h].from], b_.points[b_.edges[h].to]);
          h = b_.edges[h].next;
        } while (h != start);
      }
      if (count.inside())
        fault_ = touches("where " + roleOf(edge) + " meets " + scene_.roles[b_.kinds[face.kind].role], at);
    }
  }

  const Scene& scene_;
  Boundary& b_;
  std::optional<Diagnostic> fault_;
};

}  // namespace

std::optional<Diagnostic> pairAndCheck(const Scene& scene, Boundary& boundary) {
  return Checker(scene, boundary).run();
}

}  // namespace dryfit::carver
