// Many boxes, to find those near another one: looked through in runs of a few that follow one another, each
// run passed over when the box about it is not near. The facets of a feature follow one another in a mesh, so
// most runs are small. Order is kept: what is summed over the near ones stays the same to the last bit.
// Private to fit.
#pragma once

#include <cstddef>
#include <vector>

namespace dryfit {

/// `Box` is Box3 or Rect2.
template <class Box>
class BoxRuns {
 public:
  void add(const Box& box) {
    if (boxes_.size() % kRun == 0) runs_.emplace_back();
    boxes_.push_back(box);
    runs_.back().add(box);
    all_.add(box);
  }
  size_t size() const { return boxes_.size(); }
  const Box& operator[](size_t i) const { return boxes_[i]; }
  const Box& all() const { return all_; }

  /// `visit(i)` for each box within `marginMm` of `box`, in order, until it says false. False when it did.
  template <class Visit>
  bool eachNear(const Box& box, double marginMm, const Visit& visit) const {
    if (!near(all_, box, marginMm)) return true;
    for (size_t run = 0; run < runs_.size(); ++run) {
      if (!near(runs_[run], box, marginMm)) continue;
      const size_t end = run + 1 < runs_.size() ? (run + 1) * kRun : boxes_.size();
      for (size_t i = run * kRun; i < end; ++i)
        if (near(boxes_[i], box, marginMm) && !visit(i)) return false;
    }
    return true;
  }

 private:
  static constexpr size_t kRun = 8;
  std::vector<Box> boxes_, runs_;
  Box all_;
};

}  // namespace dryfit
