// What `explain` says of sizes, measured back from the cut pieces, and of what depends on them, worked out by
// hand.
#include "cli/explain.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <optional>
#include <set>

#include "cli/command.h"
#include "cli/command_line.h"
#include "doorset/leaf_keys.h"
#include "joint/joint_kind.h"
#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::cli {
namespace {

using tests::cutDoorSet;
using tests::pieceOf;
using Names = std::vector<std::string>;

Explanation explained(const std::string& text, const std::string& key = "") {
  const auto made = explain(text, "test.toml", key);
  if (!made) throw std::runtime_error(toText(made.faults().front()));
  return made.value();
}

const Explained& sizeOf(const Explanation& all, const std::string& key) {
  for (const Explained& size : all.sizes)
    if (size.key == key) return size;
  throw std::runtime_error("no size " + key);
}

std::string contentOf(const std::string& path) {
  std::ifstream in(path);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool begins(const std::string& text, const std::string& head) {
  return text.rfind(head, 0) == 0;
}
bool ends(const std::string& text, const std::string& tail) {
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
  explicit Bench(const std::string& text) : work_(cutDoorSet(text)) {}

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

/// The leaf of two panels that no keys at all give, but without mouldings: few enough pieces to work by hand.
const std::string kPlain = "title = \"T\"\n[leaf.moulding]\nkind = \"none\"\n";

struct Trial {
  std::string name, text;
};
void PrintTo(const Trial& trial, std::ostream* out) {
  *out << trial.name;
}

class EverySize : public testing::TestWithParam<Trial> {};

/// 1e-6: coordinates are doubles of at most a few thousand mm (tolerance::kPoint).
TEST_P(EverySize, IsMeasuredBackFromThePieces) {
  const Explanation all = explained(GetParam().text);
  const Bench bench(GetParam().text);
  const Measure measure(bench, all);
  int measured = 0;
  for (const Explained& size : all.sizes) {
    if (size.unit != "mm") continue;
    const auto found = measure.of(size.key);
    if (!found) continue;
    EXPECT_NEAR(*found, std::get<double>(size.value), 1e-6) << size.key;
    ++measured;
  }
  EXPECT_GE(measured, 60);
}
INSTANTIATE_TEST_SUITE_P(
    Explain, EverySize,
    testing::Values(
        Trial{"default", "title = \"T\"\n"},
        Trial{"oar_store", contentOf(DRYFIT_ROOT "/assets/doorsets/oar-store.toml")},
        Trial{"boat_hall", contentOf(DRYFIT_ROOT "/assets/doorsets/boat-hall.toml")},
        Trial{"rigging_loft", contentOf(DRYFIT_ROOT "/assets/doorsets/rigging-loft.toml")},
        Trial{
            "fills",
            "title = \"T\"\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"lock\"\nwidth = \"fill\"\n"
            "[[leaf.rail]]\nname = \"bottom\"\n[[leaf.row]]\nheight = 900\n[[leaf.row]]\nheight = "
            "520\nmuntins = 2\nwidth = 80\n"}),
    [](const auto& info) { return info.param.name; });

/// What any leaf has; what hangs on fixing, kind of panel or section is measured on the leaves above.
const std::set<std::string> kMeasured{
    "width",    "height", "thickness", "hanging",         "closing",          "length",      "horns",
    "top_edge", "centre", "depth",     "clearance_along", "clearance_across", "tenon_width", "haunch_width"};

/// The same of leaves nobody has drawn; by hand with DRYFIT_LEAVES=100.
TEST(Explain, EverySizeOfRandomLeavesIsMeasuredBack) {
  tests::Chance chance{std::mt19937(1981)};
  const int leaves = tests::leavesAsked(3);
  int measured = 0;
  for (int n = 0; n < leaves;) {
    const std::string text = tests::doorSetOf(tests::randomLeaf(chance));
    if (!tests::faultsOfDoorSet(text).empty()) continue;
    ++n;
    SCOPED_TRACE(text);
    const Explanation all = explained(text);
    const Bench bench(text);
    const Measure measure(bench, all);
    const bool across = text.find("grain = \"across\"") != std::string::npos;
    for (const Explained& size : all.sizes) {
      // The rule is laid on panels whose grain stands upright.
      if (across && begins(size.key, "leaf.panel.clearance")) continue;
      const std::string tail = size.key.substr(size.key.rfind('.') + 1);
      if (size.unit != "mm" || !kMeasured.count(tail) || begins(size.key, "leaf.moulding")) continue;
      const auto found = measure.of(size.key);
      if (!found) continue;
      EXPECT_NEAR(*found, std::get<double>(size.value), 1e-6) << size.key;
      ++measured;
    }
  }
  EXPECT_GE(measured, 20 * leaves);
}

// Cases worked by hand.

/// The middle rail's place: the openings above and below it, so the panels in them; the stiles' mortises lie
/// elsewhere; the rail and its wedges only move. Its own joints, widths and the other rails stay.
TEST(Dependents, OfARailsPlace) {
  const Explanation all = explained(kPlain, "leaf.rail.middle.top_edge");
  ASSERT_EQ(all.sizes.size(), 1u);
  const Explained& size = all.sizes[0];
  EXPECT_EQ(size.sizes, (Names{"leaf.row.1.height", "leaf.row.2.height", "leaf.panel.1.1.length",
                               "leaf.panel.2.1.length"}));
  EXPECT_EQ(size.pieces,
            (Names{"leaf.stile.hanging", "leaf.panel.1.1", "leaf.panel.2.1", "leaf.stile.closing"}));
  ASSERT_EQ(size.moved.size(), 1u + 8u);  // a pair of tenons at each end, two wedges each
  EXPECT_EQ(size.moved[0], "leaf.rail.middle");
  for (size_t i = 1; i < size.moved.size(); ++i)
    EXPECT_TRUE(begins(size.moved[i], "leaf.wedge.rail.middle.")) << size.moved[i];
}

/// The leaf's width: rails' lengths, panels' widths and with them what they swell; the stiles only stand
/// elsewhere, and the wedges with them. Heights and joints stay.
TEST(Dependents, OfTheLeafsWidth) {
  const Explanation all = explained(kPlain, "leaf.width");
  const Explained& size = all.sizes.at(0);
  EXPECT_EQ(size.sizes,
            (Names{"leaf.panel.clearance_across", "leaf.rail.top.length", "leaf.rail.middle.length",
                   "leaf.rail.bottom.length", "leaf.panel.1.1.width", "leaf.panel.2.1.width"}));
  EXPECT_EQ(size.pieces, (Names{"leaf.rail.top", "leaf.rail.middle", "leaf.rail.bottom", "leaf.panel.1.1",
                                "leaf.panel.2.1"}));
  EXPECT_EQ(size.moved.size(), 2u + 20u);  // two stiles; 4 + 8 + 8 wedges
}

/// The floor's gap lifts all and changes nothing.
TEST(Dependents, OfTheGapUnderTheLeaf) {
  const Explanation all = explained(kPlain, "leaf.gap_floor");
  EXPECT_EQ(all.sizes.at(0).sizes, Names{});
  EXPECT_EQ(all.sizes.at(0).pieces, Names{});
  EXPECT_EQ(all.sizes.at(0).moved, all.pieces);
}

/// The groove's depth: haunches project as deep, tenons of a rail lose a groove at an edge, and the panels
/// grow with it. The top rail's tenon is half its width whatever the groove, so its haunch takes the rest.
TEST(Dependents, OfTheGroovesDepth) {
  const Explanation all = explained(kPlain, "leaf.groove.depth");
  const Explained& size = all.sizes.at(0);
  const std::set<std::string> sizes(size.sizes.begin(), size.sizes.end());
  for (const char* one :
       {"leaf.tenon.haunch_projection", "leaf.rail.top.haunch_width", "leaf.rail.middle.tenon_width.1",
        "leaf.panel.1.1.length", "leaf.panel.1.1.width", "leaf.panel.2.1.length"})
    EXPECT_TRUE(sizes.count(one)) << one;
  for (const char* one : {"leaf.rail.top.tenon_width", "leaf.rail.top.length", "leaf.row.1.height",
                          "leaf.stile.hanging.width", "leaf.panel.1.1.thickness"})
    EXPECT_FALSE(sizes.count(one)) << one;
}

/// Turned about: what a panel's length follows from.
TEST(Dependents, OfNothingAreToldWhatTheyFollowFrom) {
  const Explanation all = explained(kPlain, "leaf.panel.2.1.length");
  EXPECT_EQ(all.sizes.at(0).follows,
            (Names{"leaf.rail.middle.width", "leaf.rail.bottom.width", "leaf.rail.middle.top_edge",
                   "leaf.rail.bottom.top_edge", "leaf.row.1.height", "leaf.row.2.height", "leaf.panel.grain",
                   "leaf.groove.depth", "leaf.panel.clearance_along"}));
  EXPECT_EQ(all.sizes.at(0).setBy, Names{});
}

TEST(Explain, TellsWhereASizeComesFrom) {
  const Explanation all = explained(
      "title = \"T\"\n[leaf]\nwidth = 800\nstile = 100\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = "
      "\"bottom\"\nwidth = 180\n"
      "[leaf.rail.tenon]\nproud = 6\n[leaf.groove]\ndepth = 10\n[timber]\nleaf = \"Cedar, western red\"\n");
  const Explained& width = sizeOf(all, "leaf.width");
  EXPECT_EQ(width.from, Size::From::Given);
  EXPECT_EQ(width.where.line, 3);
  const Explained& height = sizeOf(all, "leaf.height");
  EXPECT_EQ(height.from, Size::From::Default);
  EXPECT_EQ(height.source, "a traditional height, 6 ft 6 in");
  const Explained& stile = sizeOf(all, "leaf.stile.closing");
  EXPECT_EQ(stile.from, Size::From::Given);
  EXPECT_EQ(stile.setBy, Names{"leaf.stile"});
  EXPECT_EQ(sizeOf(all, "leaf.rail.top.width").from, Size::From::Default);
  const Explained& edge = sizeOf(all, "leaf.rail.bottom.top_edge");
  EXPECT_EQ(edge.from, Size::From::Rule);
  EXPECT_EQ(edge.rule, "the bottom rail's edge is the leaf's");
  const Explained& proud = sizeOf(all, "leaf.rail.bottom.proud");
  EXPECT_EQ(proud.from, Size::From::Given);
  EXPECT_EQ(proud.setBy, Names{"leaf.rail[2].tenon.proud"});
  EXPECT_EQ(std::get<double>(proud.value), 6);
  EXPECT_EQ(std::get<double>(sizeOf(all, "leaf.rail.top.proud").value), 10);
  EXPECT_EQ(sizeOf(all, "leaf.groove.depth").from, Size::From::Given);
  EXPECT_EQ(sizeOf(all, "leaf.panel.step").source, "common practice");
  const Explained& panels = sizeOf(all, "timber.leaf.panels");
  EXPECT_EQ(std::get<std::string>(panels.value), "Cedar, western red");
  const Explained& length = sizeOf(all, "leaf.rail.top.length");
  EXPECT_EQ(length.from, Size::From::Rule);
  EXPECT_EQ(length.setBy, Names{});
}

/// The plain defaults of keys handed on to joints are what the joints have in force.
TEST(Explain, DefaultsOfJointsKeysAreInForce) {
  const Explanation all = explained("title = \"T\"\n");
  int checked = 0;
  for (const LeafKey& key : leafKeys(keysOf(standardJoints()))) {
    const auto standard = standardValue(key);
    if (key.kind.empty() || !standard || key.path.find("[]") != std::string::npos) continue;
    const auto found = std::find_if(all.sizes.begin(), all.sizes.end(),
                                    [&](const Explained& e) { return e.key == key.path; });
    if (found == all.sizes.end()) continue;  // pins of a wedged leaf
    EXPECT_EQ(found->value, *standard) << key.path;
    EXPECT_EQ(found->from, Size::From::Default) << key.path;
    EXPECT_EQ(found->source, key.source) << key.path;
    ++checked;
  }
  EXPECT_GE(checked, 8);
}

TEST(Explain, PrintsLengthsInTheFilesUnit) {
  const std::string text =
      "title = \"T\"\nunit = \"in\"\n[leaf]\nwidth = \"2 ft 8 in\"\nheight = 80\nthickness = 1.75\n";
  const std::string said = explainText(explained(text, "leaf.thickness"));
  EXPECT_NE(said.find("\nleaf.thickness = 1 3/4 in\n"), std::string::npos) << said;
  EXPECT_NE(explainText(explained(text, "leaf.width")).find("\nleaf.width = 32 in\n"), std::string::npos);
  EXPECT_NE(explainText(explained(kPlain, "leaf.width")).find("\nleaf.width = 762 mm\n"), std::string::npos);
}

TEST(Explain, TakesAKeyOrHowKeysBegin) {
  const std::string text = "title = \"T\"\n";
  const Explanation rail = explained(text, "leaf.rail.top");
  EXPECT_GE(rail.sizes.size(), 6u);
  for (const Explained& size : rail.sizes) EXPECT_TRUE(begins(size.key, "leaf.rail.top.")) << size.key;
  const Explanation count =
      explained(text, "leaf.tenon.count");  // by the file's key, whatever each is called
  EXPECT_EQ(count.sizes.size(), 3u);
  const Explanation widths = explained(text, "leaf.rail[].width");
  EXPECT_EQ(widths.sizes.size(), 3u);
  EXPECT_EQ(explained(text, "leaf.rail[2].width").sizes.size(), 3u);
}

/// An author's rule is named as the source of what it may have decided.
TEST(Explain, NamesTheAuthorWhoseRuleIsInForce) {
  const Explanation all = explained("title = \"T\"\n[leaf.tenon]\nrule = \"noyes\"\n", "leaf.rail.top");
  const Explained& width = sizeOf(all, "leaf.rail.top.tenon_width");
  EXPECT_EQ(std::get<double>(width.value), 95.0 / 2 - 12);  // Noyes, Handwork in Wood: half less the groove
  EXPECT_EQ(width.source, "Noyes, Handwork in Wood, 1910");
  EXPECT_NE(width.rule.find("rule noyes"), std::string::npos) << width.rule;
}

/// Dowels stand in the place of tenons: the word that put them there is told, and what it changes.
TEST(Explain, TellsAWordThatPutAnotherJointInPlace) {
  const Explanation all = explained("title = \"T\"\n[leaf.tenon]\nfixing = \"dowelled\"\n", "leaf.tenon");
  const Explained& fixing = sizeOf(all, "leaf.tenon.fixing");
  EXPECT_EQ(std::get<std::string>(fixing.value), "dowelled");
  EXPECT_EQ(fixing.from, Size::From::Given);
  EXPECT_EQ(fixing.where.line, 3);
  EXPECT_NE(std::find(fixing.sizes.begin(), fixing.sizes.end(), "leaf.rail.top.length"), fixing.sizes.end());
  EXPECT_EQ(std::get<double>(sizeOf(all, "leaf.tenon.dowel_diameter").value), 10);
}

TEST(Explain, SaysWhyASizeCannotBeChangedAlone) {
  const Explained size = explained("title = \"T\"\n", "leaf.tenon.thickness").sizes.at(0);
  EXPECT_EQ(size.alone,
            "a millimetre more, and the tenon is 15 thick and out of line with the groove; tenon, haunch and "
            "groove are equally thick and run in line");
  EXPECT_EQ(size.pieces, Names{});
}

TEST(Explain, TakesAWorkFileToo) {
  const std::string text = contentOf(DRYFIT_ROOT "/assets/works/practice-corner.toml");
  const Explanation all = explained(text);
  EXPECT_EQ(std::get<double>(sizeOf(all, "stile.length").value), 400);  // 440 less the horn of 40
  const Explained& width = sizeOf(all, "rail.width");
  EXPECT_EQ(width.from, Size::From::Given);
  EXPECT_EQ(width.setBy, Names{"member[2].section"});
  EXPECT_EQ(width.sizes, (Names{"rail.tenon_width", "rail.haunch_width"}));  // half the rail, and the rest
  const Explained& tenon = sizeOf(all, "rail.tenon_width");
  EXPECT_EQ(std::get<double>(tenon.value), 45);
  EXPECT_EQ(tenon.setBy, Names{"joint[1].tenon_width"});
}

size_t linesIn(const std::string& text) {
  return static_cast<size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// What is alike is told once, what the file gives first; worked out by hand for two panels.
TEST(Explain, TellsAlikeSizesTogetherAndWhatIsGivenFirst) {
  const std::string text = kPlain + "[leaf.groove]\nthickness = 14\n[leaf.panel]\nplay = 0.5\n";
  EXPECT_EQ(explainText(explained(text, "leaf.panel.play")),
            "T: 1 size in force\n"
            "\n"
            "leaf.panel.play = 0.5 mm\n"
            "    tongue thinner than the groove, in all\n"
            "    given in line 7\n"
            "    pieces cut by it: leaf.panel.* (2)\n");
  const std::string panels = explainText(explained(text, "leaf.panel"));
  const std::string given = "Given in the file\n-----------------\n\nleaf.panel.play = 0.5 mm\n";
  const size_t at = panels.find(given), defaults = panels.find("\nDefaults\n"),
               rules = panels.find("\nBy rule, "), follows = panels.find("\nWhat follows, ");
  EXPECT_LT(at, defaults) << panels;
  EXPECT_LT(defaults, rules);
  EXPECT_LT(rules, follows);
  EXPECT_NE(panels.find("\nleaf.panel.*.thickness (2) = 32 mm\n"
                        "    by rule: what its joints ask for\n"
                        "    it follows from: leaf.thickness, leaf.panel.kind\n"),
            std::string::npos)
      << panels;
  EXPECT_EQ(panels.find("leaf.panel.1.1.thickness"), std::string::npos);
}

/// The whole text. Heights and widths are those of the key table; 2081 = 1981 + 2 horns of 50; ten of the
/// twenty wedges stand on either side.
TEST(Explain, TellsASmallSelectionAParagraphASize) {
  const std::string text = "title = \"T\"\n[leaf]\nhorns = 50\n[leaf.moulding]\nkind = \"none\"\n";
  const std::string expected =
      "T: 8 sizes in force\n"
      "\n"
      "Defaults\n"
      "--------\n"
      "\n"
      "leaf.stile.hanging = 95 mm\n"
      "    the stile that carries the hinges\n"
      "    default (old BS 459-1, from memory: 95 ex 100, 195 ex 200)\n"
      "    sizes that depend on it: leaf.panel.clearance_across,\n"
      "    leaf.rail.*.tenon_length (3), leaf.rail.*.wedge_length (3),\n"
      "    leaf.rail.*.wedging_allowance (3), leaf.stile.hanging.width,\n"
      "    leaf.panel.*.width (2)\n"
      "    pieces cut by it: leaf.stile.hanging, leaf.rail.* (3), leaf.panel.* (2),\n"
      "    leaf.wedge.*.hanging.* (10)\n"
      "\n"
      "leaf.stile.closing = 95 mm\n"
      "    the stile that takes the lock\n"
      "    default (old BS 459-1, from memory: 95 ex 100, 195 ex 200)\n"
      "    sizes that depend on it: leaf.panel.clearance_across,\n"
      "    leaf.rail.*.tenon_length (3), leaf.rail.*.wedge_length (3),\n"
      "    leaf.rail.*.wedging_allowance (3), leaf.panel.*.width (2),\n"
      "    leaf.stile.closing.width\n"
      "    pieces cut by it: leaf.rail.* (3), leaf.panel.* (2), leaf.stile.closing,\n"
      "    leaf.wedge.*.closing.* (10)\n"
      "\n"
      "What follows, and no key sets\n"
      "-----------------------------\n"
      "\n"
      "leaf.stile.*.length (2) = 2081 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: leaf.height, leaf.horns\n"
      "\n"
      "leaf.stile.*.width (2) = 95 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: leaf.stile.hanging, leaf.stile.closing\n"
      "\n"
      "leaf.stile.*.thickness (2) = 44 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: leaf.thickness\n";
  EXPECT_EQ(explainText(explained(text, "leaf.stile")), expected);
}

/// Sixteen planted mouldings, 156 sizes: few enough lines to be read, none longer than a terminal's.
TEST(Explain, TellsAWholeLeafInFewLines) {
  const std::string oars = contentOf(DRYFIT_ROOT "/assets/doorsets/oar-store.toml");
  const Explanation all = explained(oars);
  EXPECT_EQ(all.keys.size(), all.sizes.size());
  const std::string text = explainText(all);
  EXPECT_LT(linesIn(text), 250u);
  EXPECT_NE(text.find("\nleaf.moulding.*.width (16) = 20 mm; from "), std::string::npos) << text;
  EXPECT_EQ(text.find("dry"), std::string::npos);
  for (size_t from = 0; from < text.size(); from = text.find('\n', from) + 1)
    EXPECT_LE(text.find('\n', from) - from, 80u) << text.substr(from, 100);
  // One side of one moulding is told by itself when it is asked for.
  const std::string one = explainText(explained(oars, "leaf.moulding.1.1.front.top.length"));
  EXPECT_EQ(one.find("Oar store door: 1 size in force\n\nleaf.moulding.1.1.front.top.length = 636 mm\n"), 0u)
      << one;
  EXPECT_NE(one.find("it follows from: leaf.width, "), std::string::npos) << one;
}

TEST(Explain, ThePagesExampleIsWhatItPrints) {
  const std::string text = contentOf(DRYFIT_ROOT "/assets/doorsets/oar-store.toml");
  const std::string& example = explainCommand().page.example;
  EXPECT_EQ(example.substr(example.find('\n') + 1), explainText(explained(text, "leaf.panel.play")));
  const std::string& keys = keysCommand().page.example;
  EXPECT_EQ(keys.substr(keys.find('\n') + 1), runCommandLine({"keys", "leaf.gap"}).out);
}

}  // namespace
}  // namespace dryfit::cli
