// What the names in somebody's own order stand for.
#pragma once

#include <string>
#include <vector>

#include "order/tries.h"
#include "order/try_bench.h"

namespace dryfit::order {

/// Tries::find(). `benches`: one a unit of the assembly.
struct EventName {
  int unit = 0, event = 0;  ///< on which bench, which of its events
};
Result<EventName> findName(const Assembly& assembly, const std::vector<TryBench>& benches,
                           const std::string& name);

}  // namespace dryfit::order
