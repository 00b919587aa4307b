#include "solid/carve_strips.h"

#include <algorithm>
#include <map>
#include <numbers>
#include <optional>
#include <set>
#include <utility>

#include "base/tolerance.h"
#include "solid/carve_boundary.h"

namespace dryfit::carver {

namespace {

using Ends = std::pair<int, int>;

/// An edge of a strip's border and the face on its other side.
struct BorderEdge {
  int from = 0, to = 0;
  int beyond = -1;  ///< flat face
  bool alongAxis = false;
};

class Rounder {
 public:
  explicit Rounder(Shell shell) : shell_(std::move(shell)), merged_(shell_.flats.size(), false) {
    for (size_t f = 0; f < shell_.flats.size(); ++f) {
      FlatFace& face = shell_.flats[f];
      face.arcs.clear();
      for (const auto& loop : face.loops) {
        face.arcs.emplace_back(loop.size(), -1);
        for (size_t i = 0; i < loop.size(); ++i)
          faceOf_[{loop[i], loop[(i + 1) % loop.size()]}] = static_cast<int>(f);
      }
    }
  }

  Result<Shell> run(const std::vector<StripCut>& strips) {
    for (const StripCut& strip : strips)
      if (auto fault = makeStrips(strip)) return *fault;
    tidy();
    return std::move(shell_);
  }

 private:
  double angleOf(const StripCut& s, int vertex) const {
    const Vec3 arm = shell_.vertices[vertex] - s.centre;
    const Vec3 start = arm0(s), other = cross(s.axis, start);
    double angle = std::atan2(dot(arm, other), dot(arm, start));
    if (angle < -1e-6) angle += 2 * std::numbers::pi;
    return angle;
  }
  static Vec3 arm0(const StripCut& s) {
    const Vec3 arm = s.from - s.centre;
    return normalized(arm - s.axis * dot(arm, s.axis));
  }
  double offCylinder(const StripCut& s, int vertex) const {
    const Vec3 arm = shell_.vertices[vertex] - s.centre;
    return std::abs(length(arm - s.axis * dot(arm, s.axis)) - s.radius);
  }

  /// The flats that stand for this strip. A flat of its name one of whose corners has left the cylinder has
  /// been cut into.
  std::optional<Diagnostic> findFlats(const StripCut& s, std::vector<int>& found) const {
    for (size_t f = 0; f < shell_.flats.size(); ++f) {
      const FlatFace& face = shell_.flats[f];
      if (merged_[f] || face.role != s.role || std::abs(dot(face.normal, s.axis)) > tolerance::kDirection)
        continue;
      int on = 0, count = 0;
      Vec3 sum;
      for (const auto& loop : face.loops)
        for (int v : loop) {
          on += offCylinder(s, v) < 10 * tolerance::kPoint;
          ++count;
          sum = sum + shell_.vertices[v];
        }
      if (on == 0) continue;
      const Vec3 arm = sum * (1.0 / count) - s.centre;
      if ((dot(face.normal, arm) > 0) == s.hollow) continue;  // another arc's, met at the border
      if (on < count || face.loops.size() != 1) {
        if (on <= 2) continue;  // shares its border only
        return cutInto(s, sum * (1.0 / count));
      }
      found.push_back(static_cast<int>(f));
    }
    return std::nullopt;
  }

  static Diagnostic cutInto(const StripCut& s, Vec3 at) {
    return {Fault::WorkFault,
            "",
            "something cuts into " + s.role + " near " + placeText(at) + ", not across it",
            "keep other cuts clear of what is run along the piece, or let them cross all of it",
            {}};
  }

  std::optional<Diagnostic> makeStrips(const StripCut& s) {
    std::vector<int> flats;
    if (auto fault = findFlats(s, flats)) return fault;
    while (!flats.empty()) {
      std::set<int> part = takeConnected(flats, s);
      if (auto fault = makeStrip(s, part)) return fault;
    }
    return std::nullopt;
  }

  bool alongAxis(const StripCut& s, int a, int b) const {
    const Vec3 way = shell_.vertices[b] - shell_.vertices[a];
    return length(cross(way, s.axis)) < 1e-7 * length(way) + tolerance::kPoint;
  }

  std::set<int> takeConnected(std::vector<int>& flats, const StripCut& s) const {
    std::set<int> part{flats.back()};
    flats.pop_back();
    for (bool grown = true; grown;) {
      grown = false;
      for (size_t i = 0; i < flats.size(); ++i) {
        const auto& loop = shell_.flats[flats[i]].loops[0];
        for (size_t k = 0; k < loop.size(); ++k) {
          const int a = loop[k], b = loop[(k + 1) % loop.size()];
          const auto beyond = faceOf_.find({b, a});
          if (beyond == faceOf_.end() || !part.count(beyond->second) || !alongAxis(s, a, b)) continue;
          part.insert(flats[i]);
          flats.erase(flats.begin() + static_cast<long>(i));
          grown = true;
          break;
        }
        if (grown) break;
      }
    }
    return part;
  }

  std::optional<std::vector<BorderEdge>> borderOf(const StripCut& s, const std::set<int>& part) const {
    std::map<int, BorderEdge> from;
    for (int f : part) {
      const auto& loop = shell_.flats[f].loops[0];
      for (size_t k = 0; k < loop.size(); ++k) {
        const int a = loop[k], b = loop[(k + 1) % loop.size()];
        const auto beyond = faceOf_.find({b, a});
        if (beyond == faceOf_.end()) return std::nullopt;
        if (part.count(beyond->second)) continue;
        if (!from.emplace(a, BorderEdge{a, b, beyond->second, alongAxis(s, a, b)}).second)
          return std::nullopt;
      }
    }
    std::vector<BorderEdge> border;
    if (from.empty()) return std::nullopt;
    for (int at = from.begin()->first; border.size() < from.size(); at = border.back().to) {
      const auto next = from.find(at);
      if (next == from.end()) return std::nullopt;
      border.push_back(next->second);
    }
    if (border.back().to != border.front().from) return std::nullopt;
    // Begin where an arc begins.
    for (size_t i = 0; i < border.size(); ++i)
      if (!border[i].alongAxis && border[(i + border.size() - 1) % border.size()].alongAxis) {
        std::rotate(border.begin(), border.begin() + static_cast<long>(i), border.end());
        return border;
      }
    return std::nullopt;
  }

  std::optional<Diagnostic> makeStrip(const StripCut& s, const std::set<int>& part) {
    const Vec3 somewhere = shell_.vertices[shell_.flats[*part.begin()].loops[0][0]];
    const auto border = borderOf(s, part);
    if (!border) return cutInto(s, somewhere);
    StripFace strip;
    strip.role = s.role;
    strip.centre = s.centre;
    strip.axis = s.axis;
    strip.start = arm0(s);
    strip.radius = s.radius;
    strip.turn = s.turn;
    strip.hollow = s.hollow;
    int arcCount = 0;
    for (size_t i = 0; i < border->size();) {
      const BorderEdge& first = (*border)[i];
      if (first.alongAxis) {
        strip.loop.push_back(first.from);
        strip.arcs.push_back(-1);
        ++i;
        continue;
      }
      std::vector<int> chain{first.from};
      size_t k = i;
      while (k < border->size() && !(*border)[k].alongAxis) {
        if ((*border)[k].beyond != first.beyond) return cutInto(s, shell_.vertices[(*border)[k].from]);
        chain.push_back((*border)[k++].to);
      }
      const auto arc = makeArc(s, chain, first.beyond);
      if (!arc) return cutInto(s, shell_.vertices[first.from]);
      strip.loop.push_back(first.from);
      strip.arcs.push_back(*arc);
      ++arcCount;
      i = k;
    }
    if (arcCount != 2) return cutInto(s, somewhere);
    shell_.strips.push_back(std::move(strip));
    for (int f : part) merged_[f] = true;
    return std::nullopt;
  }

  /// Puts one arc in the place of a chain of chords in the face beyond; gives its number.
  std::optional<int> makeArc(const StripCut& s, const std::vector<int>& chain, int beyond) {
    const double angles[2] = {angleOf(s, chain.front()), angleOf(s, chain.back())};
    const bool ahead = angles[0] < angles[1];
    if (std::abs(angles[ahead ? 0 : 1]) > 1e-5 || std::abs(angles[ahead ? 1 : 0] - s.turn) > 1e-5)
      return std::nullopt;
    FlatFace& face = shell_.flats[beyond];
    const int number = static_cast<int>(shell_.arcs.size());
    const size_t inner = chain.size() - 2;
    for (size_t l = 0; l < face.loops.size(); ++l) {
      auto &loop = face.loops[l], &arcs = face.arcs[l];
      const auto at = std::find(loop.begin(), loop.end(), chain.back());
      if (at == loop.end() || loop.size() < inner + 2) continue;
      std::rotate(arcs.begin(), arcs.begin() + (at - loop.begin()), arcs.end());
      std::rotate(loop.begin(), at, loop.end());
      for (size_t i = 0; i < chain.size(); ++i)
        if (loop[i] != chain[chain.size() - 1 - i]) return std::nullopt;
      loop.erase(loop.begin() + 1, loop.begin() + 1 + static_cast<long>(inner));
      arcs.erase(arcs.begin() + 1, arcs.begin() + 1 + static_cast<long>(inner));
      arcs[0] = number;
      shell_.arcs.push_back({chain[ahead ? 0 : chain.size() - 1], chain[ahead ? chain.size() - 1 : 0],
                             static_cast<int>(shell_.strips.size()), face.normal, face.offset});
      return number;
    }
    return std::nullopt;
  }

  /// Takes out the merged flats and the corners nothing uses any more.
  void tidy() {
    std::vector<FlatFace> flats;
    for (size_t f = 0; f < shell_.flats.size(); ++f) {
      if (merged_[f]) continue;
      FlatFace& face = shell_.flats[f];
      const bool straight = std::all_of(face.arcs.begin(), face.arcs.end(), [](const auto& loop) {
        return std::all_of(loop.begin(), loop.end(), [](int arc) { return arc < 0; });
      });
      if (straight) face.arcs.clear();
      flats.push_back(std::move(face));
    }
    shell_.flats = std::move(flats);
    std::vector<int> number(shell_.vertices.size(), -1);
    std::vector<Vec3> kept;
    auto renumber = [&](int& v) {
      if (number[v] < 0) {
        number[v] = static_cast<int>(kept.size());
        kept.push_back(shell_.vertices[v]);
      }
      v = number[v];
    };
    for (FlatFace& face : shell_.flats)
      for (auto& loop : face.loops)
        for (int& v : loop) renumber(v);
    for (StripFace& strip : shell_.strips)
      for (int& v : strip.loop) renumber(v);
    for (ArcEdge& arc : shell_.arcs) {
      renumber(arc.from);
      renumber(arc.to);
    }
    shell_.vertices = std::move(kept);
  }

  Shell shell_;
  std::vector<bool> merged_;
  std::map<Ends, int> faceOf_;
};

}  // namespace

Result<Shell> rounded(Shell shell, const std::vector<StripCut>& strips) {
  return Rounder(std::move(shell)).run(strips);
}

}  // namespace dryfit::carver
