// The order of work as a Markdown page with a picture a step.
#pragma once

#include <string>

#include "base/assembly.h"
#include "order/order.h"

namespace dryfit::cli {

/// "step-01.png"; as many digits as the last step needs, two at least. `step` from 1.
std::string stepPictureName(size_t step, size_t steps);

/// A heading a stage, and a step's number, picture, text, reason and caution. Pictures by name, beside the
/// page. Source: CommonMark 0.30.
std::string stepsPage(const Assembly& assembly, const OrderOfWork& order);

/// Text that Markdown shows as it is.
std::string markdownText(const std::string& text);

}  // namespace dryfit::cli
