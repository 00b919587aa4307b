// What the commands print for people.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "fit/blocks.h"
#include "fit/fit.h"
#include "joint/cut_work.h"
#include "order/order.h"
#include "piece/alike.h"

namespace dryfit::cli {

std::string piecesText(const CutWork& work, const std::vector<Alike>& alikes);
std::string fitText(const Assembly& assembly, const FitReport& report);
std::string blocksText(const Assembly& assembly, const std::vector<BlockRow>& rows);
/// WorkFault: the unit that cannot be put together, and what holds what.
Diagnostic lockedFault(const Assembly& assembly, const Locked& locked);
/// What a step stands under: its stage, and its unit where the stage does not say it.
std::string stageHeading(const Assembly& assembly, const Step& step);
std::string orderText(const Assembly& assembly, const OrderOfWork& order);

}  // namespace dryfit::cli
