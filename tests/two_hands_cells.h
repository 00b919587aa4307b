// The judge of works that are put together in two hands, on cells (order_cells.h): any set of the pieces that
// stand may be moved as one, singles in three legs at most, larger sets in `groupLegs`; each part is then
// taken apart in its turn. Every set is tried, nothing is taken for granted about which to take first.
#pragma once

#include <map>
#include <random>
#include <utility>
#include <vector>

#include "order_cells.h"

namespace dryfit::ordertest {

class TwoHands {
 public:
  TwoHands(const std::vector<Cells>& pieces, int groupLegs)
      : pieces_(pieces), groupLegs_(groupLegs), known_(size_t{1} << pieces.size(), -1) {}

  /// The set of pieces, a bit each, can be taken apart into single ones.
  bool comesApart(unsigned set) {
    signed char& known = known_[set];
    if (known >= 0) return known;
    known = (set & (set - 1)) == 0;
    for (unsigned part = (set - 1) & set; part && !known; part = (part - 1) & set) {
      const unsigned rest = set & ~part;
      if (parts(part, rest) && comesApart(part) && comesApart(rest)) known = 1;
    }
    return known;
  }
  bool comesApart() { return comesApart((1u << pieces_.size()) - 1); }

  /// All of the set but what is kept can be taken away and apart, the kept ones standing still.
  bool downTo(unsigned kept, unsigned set) {
    if (set == kept) return true;
    const auto [known, fresh] = downTo_.try_emplace({kept, set}, false);
    if (!fresh) return known->second;
    const unsigned others = set & ~kept;
    bool can = false;
    for (unsigned part = others; part && !can; part = (part - 1) & others)
      can = (part == set || parts(part, set & ~part)) && comesApart(part) && downTo(kept, set & ~part);
    return downTo_[{kept, set}] = can;
  }
  /// The part finds a way in past what stands: a single piece or a set as one body.
  bool parts(unsigned part, unsigned rest) const {
    return leaves(cellsOf(part), cellsOf(rest), {0, 0, 0}, single(part) ? 3 : groupLegs_);
  }

 private:
  static bool single(unsigned set) { return (set & (set - 1)) == 0; }

  Cells cellsOf(unsigned set) const {
    Cells all;
    for (size_t i = 0; i < pieces_.size(); ++i)
      if (set >> i & 1) all.insert(pieces_[i].begin(), pieces_[i].end());
    return all;
  }

  const std::vector<Cells>& pieces_;
  int groupLegs_;
  std::vector<signed char> known_;
  std::map<std::pair<unsigned, unsigned>, bool> downTo_;  ///< by what is kept and what stands
};

/// Four bars in a ring, each with a tenon in the next, in three layers: no single one comes out.
inline std::vector<Cells> ring(Cell at) {
  const auto bar = [&](int x0, int x1, int z0, int z1) {
    Cells all;
    for (int x = x0; x <= x1; ++x)
      for (int z = z0; z <= z1; ++z)
        for (int y = 0; y < 3; ++y) all.insert(plus(at, {x, y, z}));
    return all;
  };
  std::vector<Cells> bars{bar(0, 5, 0, 1), bar(6, 7, 0, 5), bar(2, 7, 6, 7), bar(0, 1, 2, 7)};
  const Cell tenons[] = {{6, 1, 1}, {6, 1, 6}, {1, 1, 6}, {1, 1, 1}};
  for (size_t i = 0; i < 4; ++i) {
    bars[i].insert(plus(at, tenons[i]));
    bars[(i + 1) % 4].erase(plus(at, tenons[i]));
  }
  return bars;
}

/// A cell given to another piece, put on or taken away, or a piece cut in two; pieces stay joined.
inline std::vector<Cells> altered(std::mt19937& random, std::vector<Cells> pieces, size_t most) {
  const auto pick = [&](size_t n) { return static_cast<size_t>(random() % n); };
  const auto anyOf = [&](const Cells& cells) {
    auto it = cells.begin();
    std::advance(it, pick(cells.size()));
    return *it;
  };
  const size_t i = pick(pieces.size());
  const Cells old = pieces[i];
  if (pieces.size() < most && pick(6) == 0) {
    const size_t axis = pick(3);
    const int at = anyOf(old)[axis];
    Cells low, high;
    for (const Cell& c : old) (c[axis] < at || (c[axis] == at && pick(2)) ? low : high).insert(c);
    if (!joined(low) || !joined(high)) return pieces;
    pieces[i] = low;
    pieces.push_back(high);
    return pieces;
  }
  const Cell cell = plus(anyOf(old), kAxes[pick(6)]);
  for (Cells& other : pieces) other.erase(cell);
  if (pick(4)) pieces[i].insert(cell);
  const bool whole = std::all_of(pieces.begin(), pieces.end(), joined);
  return whole ? pieces : std::vector<Cells>{};
}

}  // namespace dryfit::ordertest
