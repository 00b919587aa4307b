// The chamfer distance over a grid: two sweeps with steps of 1 and the root of 2. Source: Rosenfeld and
// Pfaltz, "Distance functions on digital pictures" (1968), from memory.
#pragma once

#include <array>

namespace dryfit::scene {

/// Calls `reach(x, y, dx, dy, step)` for every cell and its neighbours that the sweep has already seen, down
/// and then up the grid. Neighbours may lie beyond the grid.
template <class Reach>
void sweepTwice(int columns, int rows, Reach reach) {
  constexpr float kSlant = 1.41421356f;
  const auto visit = [&](int x, int y, int dx, int dy) { reach(x, y, dx, dy, dx && dy ? kSlant : 1.0f); };
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < columns; ++x)
      for (const auto& d : {std::array{-1, 0}, {-1, -1}, {0, -1}, {1, -1}}) visit(x, y, d[0], d[1]);
  for (int y = rows - 1; y >= 0; --y)
    for (int x = columns - 1; x >= 0; --x)
      for (const auto& d : {std::array{1, 0}, {1, 1}, {0, 1}, {-1, 1}}) visit(x, y, d[0], d[1]);
}

}  // namespace dryfit::scene
