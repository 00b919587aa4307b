// Random interlocking blocks on a grid, three to seven pieces of joined cells, and a judge that knows only
// cells: one piece at a time, whole steps along the axes, at most three legs, the last one to infinity. It
// shares no code with the planner.
#pragma once

#include <algorithm>
#include <array>
#include <random>
#include <set>
#include <vector>

#include "order_blocks.h"

namespace dryfit::ordertest {

using Cell = std::array<int, 3>;
using Cells = std::set<Cell>;

inline constexpr double kCellMm = 10;
inline constexpr int kFar = 16;  ///< cells: beyond any puzzle here
inline const Cell kAxes[] = {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};

inline Cell plus(Cell a, Cell b, int times = 1) {
  return {a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]};
}

inline bool hits(const Cells& piece, const Cells& standing, Cell offset) {
  for (const Cell& c : piece)
    if (standing.count(plus(c, offset))) return true;
  return false;
}

inline bool freeFor(const Cells& piece, const Cells& standing, Cell from, Cell way) {
  for (int t = 1; t <= kFar; ++t)
    if (hits(piece, standing, plus(from, way, t))) return false;
  return true;
}

/// Whether the piece can leave in at most `legs` legs from `from`.
inline bool leaves(const Cells& piece, const Cells& standing, Cell from, int legs) {
  for (const Cell& way : kAxes)
    if (freeFor(piece, standing, from, way)) return true;
  if (legs == 1) return false;
  for (const Cell& way : kAxes)
    for (int t = 1; t <= kFar && !hits(piece, standing, plus(from, way, t)); ++t)
      if (leaves(piece, standing, plus(from, way, t), legs - 1)) return true;
  return false;
}

/// Pieces that stay when all that can has left, the last of a set standing by itself counted as free.
inline std::set<int> lockedByCells(const std::vector<Cells>& pieces) {
  std::set<int> left;
  for (int i = 0; i < static_cast<int>(pieces.size()); ++i) left.insert(i);
  for (bool moved = true; moved;) {
    moved = false;
    for (int i : std::set<int>(left)) {
      Cells standing;
      for (int j : left)
        if (j != i) standing.insert(pieces[j].begin(), pieces[j].end());
      if (!leaves(pieces[i], standing, {0, 0, 0}, 3)) continue;
      left.erase(i);
      moved = true;
    }
  }
  return left;
}

inline bool joined(const Cells& cells) {
  if (cells.empty()) return false;
  Cells seen{*cells.begin()};
  std::vector<Cell> open{*cells.begin()};
  while (!open.empty()) {
    const Cell c = open.back();
    open.pop_back();
    for (const Cell& way : kAxes)
      if (cells.count(plus(c, way)) && seen.insert(plus(c, way)).second) open.push_back(plus(c, way));
  }
  return seen.size() == cells.size();
}

/// Grows `count` pieces in a box of cells. Some grow as winding arms first, which hook in one another; the
/// rest of the box is then filled by chance. Some cells stay empty, so that pieces have play.
inline std::vector<Cells> puzzle(std::mt19937& random, int count) {
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  const int size = 4 + pick(2);
  std::set<Cell> taken;
  std::vector<Cells> pieces(count);
  std::vector<Cell> tips(count);
  const auto inside = [&](const Cell& c) {
    return std::all_of(c.begin(), c.end(), [&](int x) { return x >= 0 && x < size; });
  };
  const auto grow = [&](int i, Cell c) {
    if (!inside(c) || !taken.insert(c).second) return;
    pieces[i].insert(c);
    tips[i] = c;
  };
  for (int i = 0; i < count; ++i)
    while (pieces[i].empty()) grow(i, {pick(size), pick(size), pick(size)});
  const int winding = pick(2) ? 60 * count : 8 * count;
  for (int n = 0; n < winding; ++n) {
    const int i = pick(count);
    grow(i, plus(tips[i], kAxes[pick(6)]));
  }
  const int wanted = size * size * size - pick(2 * size);
  for (int tries = 0; static_cast<int>(taken.size()) < wanted && tries < 6000; ++tries) {
    const int i = pick(count);
    auto it = pieces[i].begin();
    std::advance(it, pick(static_cast<int>(pieces[i].size())));
    grow(i, plus(*it, kAxes[pick(6)]));
  }
  return pieces;
}

inline Assembly assemblyOf(const std::vector<Cells>& pieces) {
  World w;
  for (size_t i = 0; i < pieces.size(); ++i) {
    std::vector<Block> blocks;
    for (const Cell& c : pieces[i]) {
      const Vec3 low{c[0] * kCellMm, c[1] * kCellMm, c[2] * kCellMm};
      blocks.push_back(add(low, low + Vec3{kCellMm, kCellMm, kCellMm}));
    }
    w.piece("p" + std::to_string(i), boxes(blocks));
  }
  return w.assembly;
}

}  // namespace dryfit::ordertest
