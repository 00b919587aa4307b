// The proof of an order of work as a command prints it.
#pragma once

#include <optional>

#include "cli/command.h"
#include "cli/json.h"
#include "joint/cut_work.h"
#include "order/order.h"
#include "proof/proof.h"

namespace dryfit::cli {

/// What the options of the proof say without --prove.
std::optional<Diagnostic> proofWordsFault(const Arguments& arguments);

/// Fails: bad input for options that cannot be read; exit 1 with the culprits when the proof does not hold.
Outcome proved(const CutWork& work, const OrderOfWork& order, const Arguments& arguments);

/// As assets/schemas/proof.schema.json.
Json proofJson(const Assembly& assembly, const Proof& proof);
std::string proofText(const CutWork& work, const OrderOfWork& order, const Proof& proof);

}  // namespace dryfit::cli
