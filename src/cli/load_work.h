// From a file's name to a cut work: read, check, set out, cut.
#pragma once

#include <string>

#include "base/result.h"
#include "joint/cut_work.h"

namespace dryfit::cli {

/// Fails: as readFile(), readWork() and cutWork(); every fault of the file in one go.
Result<CutWork> loadWork(const std::string& path);

}  // namespace dryfit::cli
