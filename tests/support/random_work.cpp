#include "support/random_work.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace dryfit::tests {

namespace {

using Cell = std::array<int, 3>;

/// Cells from `low` up to but not including `high`.
struct Cells {
  Cell low{}, high{};
  bool holds(const Cell& c) const {
    for (int i = 0; i < 3; ++i)
      if (c[i] < low[i] || c[i] >= high[i]) return false;
    return true;
  }
  template <class F>
  void each(F&& f) const {
    for (int i = low[0]; i < high[0]; ++i)
      for (int j = low[1]; j < high[1]; ++j)
        for (int k = low[2]; k < high[2]; ++k) f(Cell{i, j, k});
  }
};

Cells common(const Cells& a, const Cells& b) {
  Cells c;
  for (int i = 0; i < 3; ++i) {
    c.low[i] = std::max(a.low[i], b.low[i]);
    c.high[i] = std::max(c.low[i], std::min(a.high[i], b.high[i]));
  }
  return c;
}

/// A bar along world axis `axis`; its frame's x, y, z are that axis and the two after it.
struct Bar {
  int axis = 0;
  Cells box;
  std::vector<Feature> features;  ///< besides the recesses
  std::set<Cell> lost;
  int world(int pieceAxis) const { return (axis + pieceAxis) % 3; }
  double middle(int worldAxis) const { return (box.low[worldAxis] + box.high[worldAxis]) * kCellMm / 2; }
  Span span(const Cells& cells, int pieceAxis) const {
    const int w = world(pieceAxis);
    return {cells.low[w] * kCellMm - middle(w), cells.high[w] * kCellMm - middle(w)};
  }
  double size(int pieceAxis) const { return span(box, pieceAxis).size(); }
};

class Maker {
 public:
  explicit Maker(std::mt19937& random) : random_(random) {}

  std::optional<RandomWork> make(int count) {
    const int special = pick(4);  // a dovetail, a tenon, a pair of wedges, nothing but bars
    const int plain = special == 3 ? count : count - 1;
    for (int i = 0; i < plain; ++i) bars_.push_back(crossingBar(i));
    if (special == 0) addDovetail();
    if (special == 1) addTenon();
    if (!dealOut()) return {};
    if (special == 2) splitIntoWedges();
    return cutAll(special == 0 || special == 2);
  }

 private:
  int pick(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }

  /// 60 to 80 long, 20 square, through the middle; bars along one axis lie side by side.
  Bar crossingBar(int i) {
    Bar bar;
    bar.axis = i % 3;
    const int beside = bar.world(1), over = bar.world(2);
    bar.box.low[bar.axis] = -4 + pick(2);
    bar.box.high[bar.axis] = 3 + pick(2);
    bar.box.low[beside] = i < 3 ? -2 : 0;
    bar.box.low[over] = -1;
    bar.box.high[beside] = bar.box.low[beside] + 2;
    bar.box.high[over] = bar.box.low[over] + 2;
    return bar;
  }

  /// A bar whose end lies in a notch in the high edge of the first one, square to its faces.
  void addDovetail() {
    Bar& a = bars_[0];
    Bar b;
    b.axis = a.world(2);
    const int along = a.world(0), across = a.world(1), through = a.world(2);
    b.box.low[along] = a.box.low[along] + 1 + pick(4);
    b.box.high[along] = b.box.low[along] + 2;
    b.box.high[across] = a.box.high[across];
    b.box.low[across] = b.box.high[across] - 1;
    b.box.high[through] = a.box.high[through];
    b.box.low[through] = a.box.low[through] - 4;
    const Cells where = common(a.box, b.box);
    const double loss = 3;
    a.features.push_back(DovetailNotch{"notch", Towards::High, kCellMm, a.span(where, 0), loss});
    b.features.push_back(DovetailEnd{"dovetail", Towards::High, a.size(2), loss});
    reserve(where, b);
  }

  /// A bar tenoned right through the first one, entering at its high edge.
  void addTenon() {
    Bar& a = bars_[0];
    Bar b;
    b.axis = a.world(1);
    const int along = a.world(0), across = a.world(1), through = a.world(2);
    b.box.low[along] = a.box.low[along] + 1 + pick(4);
    b.box.high[along] = b.box.low[along] + 2;
    b.box.low[through] = a.box.low[through];
    b.box.high[through] = a.box.high[through];
    b.box.low[across] = a.box.low[across];
    b.box.high[across] = a.box.high[across] + 4;
    const Cells where = common(a.box, b.box);
    const Span alongA = a.span(where, 0), tenon{-5, 5};
    Mortise mortise;
    mortise.x = {alongA.middle() - 5, alongA.middle() + 5};
    mortise.z = tenon;
    a.features.push_back(mortise);
    ShoulderedEnd end;
    end.end = Towards::Low;
    end.shoulder = -b.size(0) / 2 + a.size(1);
    end.z = {-5, 5};
    end.tongues = {{"tenon", tenon, a.size(1)}};
    b.features.push_back(end);
    reserve(where, b);
  }

  /// What the first bar and `b` share is theirs alone, and shaped by their features.
  void reserve(const Cells& where, const Bar& b) {
    for (size_t i = 1; i < bars_.size(); ++i)
      common(where, bars_[i].box).each([&](const Cell& c) { bars_[i].lost.insert(c); });
    where.each([&](const Cell& c) { reserved_.insert(c); });
    bars_.push_back(b);
  }

  /// Each cell claimed by several bars goes to one of them, in blocks of one or two cells a side; tried until
  /// every bar is sound.
  bool dealOut() {
    std::map<Cell, std::vector<int>> claims;
    for (int i = 0; i < static_cast<int>(bars_.size()); ++i)
      bars_[i].box.each([&](const Cell& c) {
        if (!reserved_.count(c)) claims[c].push_back(i);
      });
    const std::vector<Bar> before = bars_;
    const Cell block{1 + pick(2), 1 + pick(2), 1 + pick(2)};
    for (int tries = 0; tries < 300; ++tries) {
      bars_ = before;
      std::map<std::pair<std::vector<int>, Cell>, int> owners;
      for (const auto& [cell, who] : claims) {
        if (who.size() < 2) continue;
        Cell at;
        for (int i = 0; i < 3; ++i) at[i] = (cell[i] + 16) / block[i];
        const auto [owner, fresh] = owners.try_emplace({who, at}, 0);
        if (fresh) owner->second = who[pick(static_cast<int>(who.size()))];
        for (int i : who)
          if (i != owner->second) bars_[i].lost.insert(cell);
      }
      if (std::all_of(bars_.begin(), bars_.end(), sound)) return true;
    }
    return false;
  }

  void splitIntoWedges() {
    Bar& a = bars_[pick(static_cast<int>(bars_.size()))];
    const double slope = 3 + pick(4);
    Bar b = a;
    a.features.push_back(Taper{"slope", Towards::High, -slope, slope});
    b.features.push_back(Taper{"slope", Towards::Low, -slope, slope});
    bars_.push_back(b);
  }

  static bool inPiece(const Bar& bar, const Cell& c) { return bar.box.holds(c) && !bar.lost.count(c); }

  /// No two parts that meet only along an edge or in a corner: about each grid point, the cells of the piece
  /// hang together by faces, and so do those that are not. Enough wood left.
  static bool sound(const Bar& bar) {
    int all = 0;
    bar.box.each([&](const Cell&) { ++all; });
    if (static_cast<int>(bar.lost.size()) * 3 > all * 2) return false;
    bool good = true;
    Cells corners = bar.box;
    for (int& h : corners.high) ++h;
    corners.each([&](const Cell& p) {
      std::array<bool, 8> in;
      for (int k = 0; k < 8; ++k)
        in[k] = inPiece(bar, {p[0] - (k & 1), p[1] - (k >> 1 & 1), p[2] - (k >> 2 & 1)});
      for (bool side : {true, false}) good = good && oneLump(in, side);
    });
    return good && hangsTogether(bar);
  }

  static bool hangsTogether(const Bar& bar) {
    std::set<Cell> left;
    bar.box.each([&](const Cell& c) {
      if (inPiece(bar, c)) left.insert(c);
    });
    std::vector<Cell> open{*left.begin()};
    left.erase(left.begin());
    while (!open.empty()) {
      const Cell c = open.back();
      open.pop_back();
      for (int i = 0; i < 3; ++i)
        for (int step : {-1, 1}) {
          Cell next = c;
          next[i] += step;
          if (left.erase(next)) open.push_back(next);
        }
    }
    return left.empty();
  }

  static bool oneLump(const std::array<bool, 8>& in, bool side) {
    int wanted = 0, seen = 0;
    for (int k = 0; k < 8; ++k)
      if (in[k] == side) wanted |= 1 << k;
    seen = wanted & -wanted;
    for (int round = 0; round < 8; ++round)
      for (int k = 0; k < 8; ++k)
        if (seen >> k & 1)
          for (int bit : {1, 2, 4}) seen |= (1 << (k ^ bit)) & wanted;
    return seen == wanted;
  }

  /// The lost cells as few boxes: each grown along x, then y, then z.
  static std::vector<Cells> boxesOf(std::set<Cell> lost) {
    std::vector<Cells> boxes;
    while (!lost.empty()) {
      Cells box{*lost.begin(), *lost.begin()};
      for (int& h : box.high) ++h;
      for (int i = 0; i < 3; ++i)
        for (bool all = true; all;) {
          Cells slab = box;
          slab.low[i] = box.high[i];
          slab.high[i] = box.high[i] + 1;
          slab.each([&](const Cell& c) { all = all && lost.count(c); });
          if (all) ++box.high[i];
        }
      box.each([&](const Cell& c) { lost.erase(c); });
      boxes.push_back(box);
    }
    return boxes;
  }

  std::optional<RandomWork> cutAll(bool slanted) {
    CutCache cache;
    RandomWork work;
    work.slanted = slanted;
    for (const Bar& bar : bars_) {
      RandomPiece piece;
      const Vec3 axes[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
      piece.worldFromPiece = {axes[bar.world(0)],
                              axes[bar.world(1)],
                              axes[bar.world(2)],
                              {bar.middle(0), bar.middle(1), bar.middle(2)}};
      piece.recipe.blank = BoxBlank{bar.size(0), bar.size(1), bar.size(2)};
      piece.recipe.features = bar.features;
      for (const Cells& box : boxesOf(bar.lost))
        piece.recipe.features.push_back(
            Recess{"recess", bar.span(box, 0), bar.span(box, 1), bar.span(box, 2)});
      auto cut = cache.cut(piece.recipe, "bar");
      if (!cut) return {};  // falls apart
      piece.cut = cut.value();
      work.pieces.push_back(std::move(piece));
    }
    return work;
  }

  std::mt19937& random_;
  std::vector<Bar> bars_;
  std::set<Cell> reserved_;
};

}  // namespace

Assembly RandomWork::assembly(bool withUnit) const {
  Assembly assembly;
  assembly.units.push_back({"work", -1, {}});
  if (withUnit) assembly.units.push_back({"pair", 0, {}});
  for (size_t i = 0; i < pieces.size(); ++i) {
    Body body;
    body.id = "bar." + std::to_string(i + 1);
    body.position = static_cast<int>(i);
    body.unit = withUnit && (i == 0 || i + 1 == pieces.size()) ? 1 : 0;
    body.worldFromPiece = pieces[i].worldFromPiece;
    body.states.push_back({"finished", pieces[i].cut->mesh});
    assembly.bodies.push_back(body);
  }
  return assembly;
}

RandomWork randomWork(std::mt19937& random, int count) {
  for (;;)
    if (auto work = Maker(random).make(count)) return std::move(*work);
}

}  // namespace dryfit::tests
