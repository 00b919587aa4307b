// A work as the window needs it: read, cut, planned and set out once, handed over whole and never changed.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "joint/cut_work.h"
#include "order/order.h"

namespace dryfit::ui {

/// Steps that follow one another at one bench, or in one stage on site.
struct StageSpan {
  std::string name;
  int first = 0, count = 0;  ///< steps, from 0
  int end() const { return first + count; }
};

struct Model {
  std::string path;
  CutWork work;
  OrderOfWork order;
  std::vector<StageSpan> stages;

  int steps() const { return static_cast<int>(order.steps.size()); }
  /// Of a step, from 0.
  const StageSpan& stageOf(int step) const;
};

std::vector<StageSpan> stagesOf(const OrderOfWork& order);

/// From a path to a model; called on a thread of its own.
/// Fails: as reading, cutting and planning do.
using Load = std::function<Result<std::shared_ptr<const Model>>(const std::string& path)>;

}  // namespace dryfit::ui
