#include "solid/carve_boundary.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/tolerance.h"
#include "solid/carve_lines.h"

namespace dryfit::carver {

namespace {

class Merger {
 public:
  Merger(const Scene& scene, const Welded& welded)
      : scene_(scene), welded_(welded), lines_(scene, welded.points) {
    firstOut_.assign(welded.points.size(), -1);
  }

  Result<Boundary> run() {
    made_.points = welded_.points;
    for (const FlatPart& part : welded_.parts) sort(part);
    for (size_t kind = 0; kind < made_.kinds.size() && !fault_; ++kind) {
      const size_t first = made_.edges.size();
      cancel(static_cast<int>(kind));
      if (!fault_) link(first);
      if (!fault_) makeFaces(static_cast<int>(kind), first);
    }
    if (fault_) return *fault_;
    return std::move(made_);
  }

 private:
  void sort(const FlatPart& part) {
    const FaceKind kind{part.plane, part.sign, part.role};
    size_t i = 0;
    while (i < made_.kinds.size() && !(made_.kinds[i] == kind)) ++i;
    if (i == made_.kinds.size()) {
      made_.kinds.push_back(kind);
      partsOf_.emplace_back();
    }
    partsOf_[i].push_back(&part);
  }

  /// Adds up the fragments' edges along each line: where two run against each other nothing is left.
  void cancel(int kind) {
    const int plane = made_.kinds[kind].plane;
    std::vector<std::vector<int>> steps;
    for (const FlatPart* part : partsOf_[kind])
      for (size_t i = 0; i < part->corners.size(); ++i) {
        const int from = part->corners[i], to = part->corners[(i + 1) % part->corners.size()];
        const int number = lines_.numberOf(plane, part->edgePlanes[i], from);
        const Line& line = lines_.line(plane, number);
        const int begin = line.indexOf(from), end = line.indexOf(to);
        if (begin < 0 || end < 0) {
          fault_ = disagreement("an edge leaves its line", made_.points[from]);
          return;
        }
        if (steps.size() <= static_cast<size_t>(number)) steps.resize(number + 1);
        steps[number].resize(line.points.size(), 0);
        steps[number][begin] += 1;
        steps[number][end] -= 1;
      }
    for (size_t number = 0; number < steps.size() && !fault_; ++number)
      if (!steps[number].empty()) emit(kind, static_cast<int>(number), steps[number]);
  }

  void emit(int kind, int number, const std::vector<int>& steps) {
    const Line& line = lines_.line(made_.kinds[kind].plane, number);
    int sum = 0;
    for (size_t i = 0; i + 1 < steps.size(); ++i) {
      sum += steps[i];
      if (sum == 0) continue;
      const int a = line.points[i].second, b = line.points[i + 1].second;
      if (sum > 1 || sum < -1) {
        fault_ = disagreement("parts of a face overlap", made_.points[a]);
        return;
      }
      HalfEdge edge;
      edge.from = sum > 0 ? a : b;
      edge.to = sum > 0 ? b : a;
      edge.line = number;
      edge.sense = sum;
      edge.kind = kind;
      made_.edges.push_back(edge);
    }
  }

  /// Links each half edge of one kind to the one that follows. Where a corner is passed more than once the
  /// sharpest left turn follows, since between the two edges lies the face itself: faces that meet in a
  /// corner stay apart.
  void link(size_t first) {
    std::vector<int> nextOut(made_.edges.size() - first, -1);
    for (size_t h = first; h < made_.edges.size(); ++h) {
      nextOut[h - first] = firstOut_[made_.edges[h].from];
      firstOut_[made_.edges[h].from] = static_cast<int>(h);
    }
    for (size_t h = first; h < made_.edges.size() && !fault_; ++h) {
      int best = -1;
      double bestTurn = -10;
      for (int out = firstOut_[made_.edges[h].to]; out >= 0; out = nextOut[out - first]) {
        const double turn = nextOut[out - first] < 0 && best < 0 ? 0 : turnBetween(static_cast<int>(h), out);
        if (best >= 0 && turn <= bestTurn) continue;
        best = out;
        bestTurn = turn;
      }
      if (best < 0 || made_.edges[best].previous >= 0) {
        fault_ = disagreement("a face's border is open", made_.points[made_.edges[h].to]);
        break;
      }
      made_.edges[h].next = best;
      made_.edges[best].previous = static_cast<int>(h);
    }
    for (size_t h = first; h < made_.edges.size(); ++h) firstOut_[made_.edges[h].from] = -1;
  }

  double turnBetween(int in, int out) const {
    const Vec3 a = made_.points[made_.edges[in].to] - made_.points[made_.edges[in].from];
    const Vec3 b = made_.points[made_.edges[out].to] - made_.points[made_.edges[out].from];
    return std::atan2(dot(cross(a, b), outward(made_.edges[in].kind)), dot(a, b));
  }

  Vec3 outward(int kind) const {
    return scene_.planes[made_.kinds[kind].plane].normal * made_.kinds[kind].sign;
  }

  struct Loop {
    int start = 0;
    double area = 0;
  };

  /// Outer loops become faces; each inner one goes to the smallest outer loop round it.
  void makeFaces(int kind, size_t first) {
    std::vector<Loop> outer, inner;
    std::vector<bool> seen(made_.edges.size() - first, false);
    for (size_t h = first; h < made_.edges.size(); ++h) {
      if (seen[h - first]) continue;
      for (int e = static_cast<int>(h); !seen[e - first]; e = made_.edges[e].next) seen[e - first] = true;
      const Loop loop{static_cast<int>(h), loopArea(static_cast<int>(h), kind)};
      (loop.area > 0 ? outer : inner).push_back(loop);
    }
    const size_t firstFace = made_.faces.size();
    for (const Loop& loop : outer) made_.faces.push_back({kind, {loop.start}});
    for (const Loop& hole : inner) {
      int home = -1;
      for (size_t i = 0; i < outer.size(); ++i) {
        if (home >= 0 && outer[home].area <= outer[i].area) continue;
        if (outer[i].area > -hole.area && isRound(outer[i].start, hole.start, kind))
          home = static_cast<int>(i);
      }
      if (home < 0) {
        fault_ = disagreement("a hole lies in no face", made_.points[made_.edges[hole.start].from]);
        return;
      }
      made_.faces[firstFace + home].loops.push_back(hole.start);
    }
    for (size_t f = firstFace; f < made_.faces.size(); ++f)
      for (int start : made_.faces[f].loops) {
        int h = start;
        do {
          made_.edges[h].face = static_cast<int>(f);
          h = made_.edges[h].next;
        } while (h != start);
      }
  }

  double loopArea(int start, int kind) const {
    Vec3 sum;
    const Vec3 origin = made_.points[made_.edges[start].from];
    for (int h = made_.edges[start].next; h != start; h = made_.edges[h].next)
      sum = sum + cross(made_.points[made_.edges[h].from] - origin, made_.points[made_.edges[h].to] - origin);
    return dot(sum, outward(kind)) / 2;
  }

  /// Does the outer loop run round the middle of the inner loop's first edge? It cannot lie on the outer
  /// loop.
  bool isRound(int outerStart, int innerStart, int kind) const {
    const HalfEdge& edge = made_.edges[innerStart];
    const Vec3 at = (made_.points[edge.from] + made_.points[edge.to]) * 0.5;
    CrossingCount count(at, outward(kind));
    int h = outerStart;
    do {
      count.add(made_.points[made_.edges[h].from], made_.points[made_.edges[h].to]);
      h = made_.edges[h].next;
    } while (h != outerStart);
    return count.inside();
  }

  const Scene& scene_;
  const Welded& welded_;
  Lines lines_;
  std::vector<std::vector<const FlatPart*>> partsOf_;
  std::vector<int> firstOut_;  ///< by point, only while linking
  Boundary made_;
  std::optional<Diagnostic> fault_;
};

}  // namespace

Result<Boundary> boundaryOf(const Scene& scene, const Welded& welded) {
  return Merger(scene, welded).run();
}

std::string placeText(Vec3 at) {
  for (int i = 0; i < 3; ++i) at[i] = std::round(at[i] * 1000) / 1000 + 0.0;  // + 0.0: no "-0"
  return fmt::format("({:g}, {:g}, {:g})", at.x, at.y, at.z);
}

Diagnostic disagreement(const std::string& what, Vec3 at) {
  return {Fault::WorkFault,
          "",
          fmt::format("the solid disagrees with itself near {}: {}", placeText(at), what),
          "two cuts almost, but not quite, meet there: make their sizes equal or clearly different",
          {}};
}

}  // namespace dryfit::carver
