// A rule and a square for the tests of `explain`: what a key says, measured on the cut pieces of its leaf.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/explain.h"
#include "doorset/door_set_keys.h"
#include "joint/joint_kind.h"
#include "support/random_leaf.h"
#include "support/works.h"
#include "unit/temporary_folder.h"

namespace dryfit::cli {

using tests::cutLeafAlone;
using tests::pieceOf;
using Names = std::vector<std::string>;

inline Explanation explained(const std::string& text, const std::string& key = "") {
  const auto made = explain(tests::leafAlone(text), "test.toml", key);
  if (!made) throw std::runtime_error(toText(made.faults().front()));
  return made.value();
}

inline const Explained& sizeOf(const Explanation& all, const std::string& key) {
  for (const Explained& size : all.sizes)
    if (size.key == key) return size;
  throw std::runtime_error("no size " + key);
}

inline bool begins(const std::string& text, const std::string& head) {
  return text.rfind(head, 0) == 0;
}
inline bool ends(const std::string& text, const std::string& tail) {
  return text.size() >= tail.size() && text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

/// Least and greatest coordinate along a world axis (0, 1, 2).
struct Extent {
  double low = 1e9, high = -1e9;
  double size() const { return high - low; }
  double middle() const { return (low + high) / 2; }
  void take(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
};

/// A rule and a square for one leaf: lengths taken off the cut pieces' corners and faces alone.
class Bench {
 public:
  explicit Bench(const std::string& text) : work_(cutLeafAlone(text)) {}

  const Piece& piece(const std::string& id) const {
    return work_.pieces[static_cast<size_t>(pieceOf(work_, id))];
  }
  bool has(const std::string& id) const {
    return std::any_of(work_.pieces.begin(), work_.pieces.end(), [&](const Piece& p) { return p.id == id; });
  }
  Names ids(const std::string& head) const {
    Names out;
    for (const Piece& p : work_.pieces)
      if (begins(p.id, head)) out.push_back(p.id);
    return out;
  }
  Extent across(const std::string& id, int axis) const {
    Extent e;
    for (const Vec3& v : piece(id).last().shell.vertices) e.take(piece(id).worldFromPiece.point(v)[axis]);
    return e;
  }
  Extent own(const std::string& id, int axis) const {
    Extent e;
    for (const Vec3& v : piece(id).last().shell.vertices) e.take(v[axis]);
    return e;
  }
  /// Corners of the faces with a role, on the piece's end towards +x or -x (0: both), along a piece axis.
  Extent faces(const std::string& id, const std::string& role, int axis, int end = 0,
               bool first = false) const {
    Extent e;
    const Piece& p = piece(id);
    const Shell& shell = (first ? *p.states.front().cut : p.last()).shell;
    for (const FlatFace& f : shell.flats) {
      if (f.role != role) continue;
      for (const auto& loop : f.loops)
        for (const int v : loop) {
          const Vec3 at = shell.vertices[static_cast<size_t>(v)];
          if (end * at.x >= 0) e.take(at[axis]);
        }
    }
    EXPECT_LT(e.low, 1e9) << "no face " << role << " on " << id;
    return e;
  }
  /// Of each tenon's end on one side, from the rail's upper edge down.
  std::vector<Extent> tenonEnds(const std::string& id, int axis, int end) const {
    std::vector<std::pair<double, Extent>> found;
    const Shell& shell = piece(id).last().shell;
    for (const FlatFace& f : shell.flats) {
      if (f.role != "tenon.end") continue;
      Extent along, place, size;
      for (const int v : f.loops.at(0)) {
        const Vec3 at = shell.vertices[static_cast<size_t>(v)];
        along.take(at.x);
        place.take(at.y);
        size.take(at[axis]);
      }
      if (along.middle() * end > 0) found.push_back({-place.middle(), size});
    }
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Extent> ends;
    for (const auto& [place, size] : found) ends.push_back(size);
    return ends;
  }
  const CutWork& work() const { return work_; }

 private:
  CutWork work_;
};

/// Measures what a key of explain says, in the leaf of the bench.
class Measure {
 public:
  Measure(const Bench& bench, const Explanation& all) : b_(bench), all_(all), rails_(b_.ids("leaf.rail.")) {}

  /// Nothing where the size has no piece yet to be measured on.
  std::optional<double> of(const std::string& key) const {
    const std::string tail = key.substr(key.rfind('.') + 1), head = key.substr(0, key.rfind('.'));
    if (key == "leaf.width")
      return b_.across("leaf.stile.hanging", 0).size() + leafBetween() +
             b_.across("leaf.stile.closing", 0).size();
    if (key == "leaf.height") return b_.across(rails_.front(), 2).high - b_.across(rails_.back(), 2).low;
    if (key == "leaf.thickness") return b_.across("leaf.stile.hanging", 1).size();
    if (key == "leaf.gap") return std::nullopt;  // no lining to measure to
    if (key == "leaf.gap_floor") return b_.across(rails_.back(), 2).low;
    if (key == "leaf.horns")
      return b_.across("leaf.stile.hanging", 2).high - b_.across(rails_.front(), 2).high;
    if (key == "leaf.closing_bevel")
      return b_.faces("leaf.stile.closing", "face", 1).size() -
             b_.faces("leaf.stile.closing", "back", 1).size();
    if (key == "leaf.stile.hanging" || key == "leaf.stile.closing") return b_.across(key, 0).size();
    if (tail == "top_edge") return b_.across(head, 2).high - b_.across(rails_.back(), 2).low;
    if (begins(key, "leaf.row.")) return openingHeight(std::stoul(key.substr(9)) - 1);
    if (tail == "centre") return std::abs(b_.across(head, 0).middle() - hangingEdge());
    if (b_.has(head) && tail == "length") return b_.own(head, 0).size();
    if (b_.has(head) && tail == "width") return b_.own(head, 1).size();
    if (b_.has(head) && tail == "thickness") return b_.own(head, 2).size();
    if (begins(key, "leaf.moulding.")) return ofMoulding(tail);
    if (begins(key, "leaf.groove.") || begins(key, "leaf.panel.")) return ofPanel(key);
    return ofTenon(key);
  }

 private:
  /// Nails that are only listed, and the curve of a section, have nothing to lay a rule on.
  std::optional<double> ofMoulding(const std::string& tail) const {
    const std::string moulding = b_.ids("leaf.moulding.").at(0);
    if (tail == "width") return b_.own(moulding, 1).size();
    if (tail == "thickness") return b_.own(moulding, 2).size();
    return std::nullopt;
  }
  double hangingEdge() const {
    const Extent hanging = b_.across("leaf.stile.hanging", 0), closing = b_.across("leaf.stile.closing", 0);
    return hanging.middle() < closing.middle() ? hanging.low : hanging.high;
  }
  double leafBetween() const {
    const Extent hanging = b_.across("leaf.stile.hanging", 0), closing = b_.across("leaf.stile.closing", 0);
    return hanging.middle() < closing.middle() ? closing.low - hanging.high : hanging.low - closing.high;
  }
  double openingHeight(size_t row) const {
    return b_.across(rails_[row], 2).low - b_.across(rails_[row + 1], 2).high;
  }
  /// Between the uprights on either side of a panel.
  double openingWidth(size_t row, const std::string& panel) const {
    Names uprights = b_.ids(fmt::format("leaf.muntin.{}.", row + 1));
    for (const char* stile : {"leaf.stile.hanging", "leaf.stile.closing"}) uprights.push_back(stile);
    const double at = b_.across(panel, 0).middle();
    double low = -1e9, high = 1e9;
    for (const std::string& id : uprights) {
      const Extent e = b_.across(id, 0);
      if (e.middle() < at) low = std::max(low, e.high);
      if (e.middle() > at) high = std::min(high, e.low);
    }
    return high - low;
  }
  double grooveDepth() const {
    const std::string stile = "leaf.stile.hanging";
    return std::abs(b_.faces(stile, "groove.bottom", 1).middle() - b_.faces(stile, "edge.inner", 1).middle());
  }
  double grooveThickness() const {
    const std::string stile = "leaf.stile.hanging";
    return b_.faces(stile, "groove.cheek.front", 2).middle() -
           b_.faces(stile, "groove.cheek.back", 2).middle();
  }

  /// A bead down the panel's edge, measured on the one towards +y: across its round, and across the floor
  /// beside it.
  double ofBead(const std::string& panel, const std::string& what) const {
    const Shell& shell = b_.piece(panel).last().shell;
    Extent round, floor;
    for (const StripFace& f : shell.strips)
      if (f.role.rfind("bead", 0) == 0) round.take(2 * f.radius);
    for (const FlatFace& f : shell.flats)
      if (f.role == "bead.flat" && std::abs(f.normal.z) > 0.5)
        for (const int v : f.loops.at(0))
          if (const Vec3& at = shell.vertices[static_cast<size_t>(v)]; at.y > 0) floor.take(at.y);
    EXPECT_EQ(round.size(), 0) << "beads of several widths";
    return what == "bead" ? round.high : floor.size();
  }
  /// A flush panel's tongue lies behind a shoulder, a raised one's before and behind the middle.
  double tongueThickness(const std::string& panel) const {
    if (!b_.piece(panel).last().shell.strips.empty())
      return b_.faces(panel, "shoulder.front.tongue", 2).low - b_.faces(panel, "back", 2).low;
    return b_.faces(panel, "raised.front.tongue", 2).high - b_.faces(panel, "raised.back.tongue", 2).low;
  }

  double ofPanel(const std::string& key) const {
    const std::string tail = key.substr(key.rfind('.') + 1), head = key.substr(0, key.rfind('.'));
    if (key == "leaf.groove.depth") return grooveDepth();
    if (key == "leaf.groove.thickness") return grooveThickness();
    const std::string panel = b_.has(head) ? head : "leaf.panel.1.1";
    const size_t row = std::stoul(panel.substr(11)) - 1;
    if (tail == "bead" || tail == "quirk") return ofBead(panel, tail);
    if (tail == "play") return grooveThickness() - tongueThickness(panel);
    if (tail == "clearance_along")
      return (openingHeight(row) + 2 * grooveDepth() - b_.across(panel, 2).size()) / 2;
    if (tail == "clearance_across")
      return (openingWidth(row, panel) + 2 * grooveDepth() - b_.across(panel, 0).size()) / 2;
    const double field = b_.faces(panel, "face", 1).size(),
                 bevels = b_.faces(panel, "raised.front.bevel", 1).size();
    if (tail == "bevel") return (bevels - field) / 2;
    if (tail == "margin_front" || tail == "margin_back")
      return (b_.own(panel, 1).size() - bevels) / 2 - grooveDepth();
    if (tail == "step")
      return b_.faces(panel, "face", 2).high - b_.faces(panel, "raised.front.bevel", 2).high;
    ADD_FAILURE() << "nothing measures " << key;
    return NAN;
  }

  /// "leaf.rail.top.tenon_width.2": the rail, what, and which of several.
  double ofTenon(const std::string& key) const {
    const size_t plus = key.find('+');
    std::string rail = rails_.front(), name = key.substr(key.rfind('.') + 1), number;
    if (std::isdigit(static_cast<unsigned char>(name[0]))) {
      number = "." + name;
      const std::string rest = key.substr(0, key.rfind('.'));
      name = rest.substr(rest.rfind('.') + 1);
    }
    for (const Piece& p : b_.work().pieces)
      if (begins(key, p.id + ".") || begins(key, p.id + "+")) rail = p.id;
    int end = 1;
    if (plus != std::string::npos) {
      const std::string into = key.substr(plus + 1);
      const std::string other =
          begins(into, "leaf.stile.closing") ? "leaf.stile.closing" : into.substr(0, into.rfind('.'));
      const Vec3 way = b_.piece(other).worldFromPiece.origin - b_.piece(rail).worldFromPiece.origin;
      end = dot(way, b_.piece(rail).worldFromPiece.xAxis) > 0 ? 1 : -1;
    }
    const size_t which = number.empty() ? 0 : std::stoul(number.substr(1)) - 1;
    const double shoulder = b_.faces(rail, "shoulder.front", 0, end).middle();
    if (name == "tenon_width" || name == "width") return b_.tenonEnds(rail, 1, end).at(which).size();
    if (name == "tenon_thickness" || name == "thickness") return b_.tenonEnds(rail, 2, end).at(which).size();
    if (name == "tenon_length") return std::abs(b_.faces(rail, "tenon.end", 0, end).middle() - shoulder);
    if (name == "haunch_width") return b_.faces(rail, "haunch" + number + ".end", 1, end).size();
    if (name == "haunch_projection") return std::abs(haunchEnd(rail, end) - shoulder);
    if (name == "proud")
      return std::abs(b_.faces(rail, "tenon.end", 0, end, true).middle() -
                      b_.faces(rail, "tenon.end", 0, end).middle());
    if (name == "mortise_clearance") return stubClearance(rail);
    return ofFixing(key, name, rail, end, shoulder);
  }
  double haunchEnd(const std::string& rail, int end) const {
    for (const FlatFace& f : b_.piece(rail).last().shell.flats)
      if (begins(f.role, "haunch") && ends(f.role, ".end")) return b_.faces(rail, f.role, 0, end).middle();
    return NAN;
  }
  /// From a muntin's end to the bottom of the mortise below it, along the world's height.
  double stubClearance(const std::string& muntin) const {
    const size_t row = std::stoul(muntin.substr(12)) - 1;
    const Piece& rail = b_.piece(rails_[row + 1]);
    const double end = b_.across(muntin, 2).low;
    double nearest = 1e9;
    for (const FlatFace& f : rail.last().shell.flats) {
      if (!begins(f.role, "mortise") || !ends(f.role, ".bottom")) continue;
      Extent place;
      for (const int v : f.loops.at(0))
        place.take(rail.worldFromPiece.point(rail.last().shell.vertices[static_cast<size_t>(v)]).z);
      if (place.middle() < end) nearest = std::min(nearest, end - place.middle());
    }
    return nearest;
  }

  double ofFixing(const std::string& key, const std::string& name, const std::string& rail, int end,
                  double shoulder) const {
    const std::string last = rail.substr(rail.rfind('.') + 1),
                      side = end * b_.piece(rail).worldFromPiece.xAxis.x *
                                         (hangingEdge() < b_.across("leaf.stile.closing", 0).low ? 1 : -1) >
                                     0
                                 ? "closing"
                                 : "hanging";
    if (begins(name, "wedg")) {
      const Names wedges = b_.ids("leaf.wedge.rail." + last + "." + side);
      return b_.own(wedges.at(0), name == "wedge_length" ? 0 : 1).size();
    }
    const auto bore = [&](bool first) {
      const Piece& p = b_.piece(rail);
      for (const RoundFace& r : (first ? *p.states.front().cut : p.last()).shell.rounds)
        if (r.from.x * end > 0) return r;
      throw std::runtime_error("no bore in " + rail);
    };
    if (name == "pin_diameter") return 2 * bore(false).radius;
    if (name == "pin_offset") return std::abs(bore(true).from.x - bore(false).from.x);
    if (name == "pin_from_shoulder") return std::abs(bore(false).from.x - shoulder);
    ADD_FAILURE() << "nothing measures " << key;
    return NAN;
  }

  const Bench& b_;
  const Explanation& all_;
  Names rails_;
};

}  // namespace dryfit::cli
