#include "solid/carve_shell.h"

#include <fmt/format.h>

#include "base/tolerance.h"

namespace dryfit::carver {

namespace {

class ShellMaker {
 public:
  ShellMaker(const Scene& scene, const Boundary& boundary) : scene_(scene), b_(boundary) {}

  Result<Shell> run() {
    findCorners();
    for (const BoundaryFace& face : b_.faces) add(face);
    if (auto fault = shortEdge()) return *fault;
    return std::move(shell_);
  }

 private:
  /// A corner is real when some face turns there; else its edges run straight through it.
  void findCorners() {
    isCorner_.assign(b_.points.size(), false);
    number_.assign(b_.points.size(), -1);
    for (const HalfEdge& edge : b_.edges) {
      const HalfEdge& before = b_.edges[edge.previous];
      if (before.line != edge.line || before.sense != edge.sense) isCorner_[edge.from] = true;
    }
  }

  int numberOf(int point) {
    if (number_[point] < 0) {
      number_[point] = static_cast<int>(shell_.vertices.size());
      shell_.vertices.push_back(b_.points[point]);
    }
    return number_[point];
  }

  void add(const BoundaryFace& face) {
    const FaceKind& kind = b_.kinds[face.kind];
    const Plane& plane = scene_.planes[kind.plane];
    FlatFace flat;
    flat.role = scene_.roles[kind.role];
    flat.normal = plane.normal * kind.sign;
    flat.offset = plane.offset * kind.sign;
    for (int start : face.loops) {
      std::vector<int> loop;
      int h = start;
      do {
        if (isCorner_[b_.edges[h].from]) loop.push_back(numberOf(b_.edges[h].from));
        h = b_.edges[h].next;
      } while (h != start);
      flat.loops.push_back(std::move(loop));
    }
    shell_.flats.push_back(std::move(flat));
  }

  std::optional<Diagnostic> shortEdge() const {
    for (const HalfEdge& edge : b_.edges) {
      if (!isCorner_[edge.from]) continue;
      const HalfEdge* last = &edge;
      while (!isCorner_[last->to]) last = &b_.edges[last->next];
      const double size = length(b_.points[last->to] - b_.points[edge.from]);
      if (size >= tolerance::kShortestEdge - tolerance::kPoint) continue;
      const std::string &a = roleOf(edge), &b = roleOf(b_.edges[edge.twin]);
      return Diagnostic{Fault::WorkFault,
                        "",
                        fmt::format("the edge between {} and {} at {} is only {:.2g} mm long", a, b,
                                    placeText(b_.points[edge.from]), size),
                        fmt::format("no edge may be shorter than {:g} mm", tolerance::kShortestEdge),
                        {}};
    }
    return std::nullopt;
  }

  const std::string& roleOf(const HalfEdge& edge) const { return scene_.roles[b_.kinds[edge.kind].role]; }

  const Scene& scene_;
  const Boundary& b_;
  std::vector<bool> isCorner_;
  std::vector<int> number_;
  Shell shell_;
};

}  // namespace

Result<Shell> shellOf(const Scene& scene, const Boundary& boundary) {
  return ShellMaker(scene, boundary).run();
}

}  // namespace dryfit::carver
