#include "ui/model.h"

#include "base/require.h"

namespace dryfit::ui {

const StageSpan& Model::stageOf(int step) const {
  REQUIRE(step >= 0 && step < steps());
  for (const StageSpan& span : stages)
    if (step < span.end()) return span;
  REQUIRE(false);
  return stages.front();
}

std::vector<StageSpan> stagesOf(const OrderOfWork& order) {
  std::vector<StageSpan> spans;
  for (size_t i = 0; i < order.steps.size(); ++i) {
    // "Leaf: put together" and "Leaf: plant on" are one stretch of work at the bench.
    const std::string& stage = order.steps[i].stage;
    const std::string name = stage.substr(0, stage.find(':'));
    if (spans.empty() || spans.back().name != name) spans.push_back({name, static_cast<int>(i), 0});
    ++spans.back().count;
  }
  return spans;
}

}  // namespace dryfit::ui
