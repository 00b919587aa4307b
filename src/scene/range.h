// A stretch of numbers: the least and the greatest of those added.
#pragma once

#include <algorithm>

namespace dryfit::scene {

/// Empty until a number is added: then `low` is over `high`.
struct Range {
  double low = 1e300, high = -1e300;
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
  double size() const { return high - low; }
  double middle() const { return (low + high) / 2; }
};

}  // namespace dryfit::scene
