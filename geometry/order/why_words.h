// The sentence of one link: why one thing comes before another.
#pragma once

#include <optional>
#include <vector>

#include "order/swing.h"
#include "order/undoing.h"
#include "order/why.h"

namespace dryfit::order {

/// A link as it was found, by events of the bench.
struct FoundLink {
  int first = 0, then = 0;
  WhyLink::Kind kind = WhyLink::Kind::Shape;
  std::vector<WhyStop> stops{};  ///< all ways in which `first` is stopped
  int rule = -1;
  int body = -1;  ///< Cut: what is cut
  std::optional<Struck> struck{};
};

/// What the group meets first on each way square to the world or of its own.
std::vector<WhyStop> stopsOf(Scene& scene, const std::vector<Placed>& movers,
                             const std::vector<Placed>& standing);
WhyStop stopOf(Vec3 wayOut, const Meeting& meeting);

WhyLink toldLink(Scene& scene, const Bench& bench, const FoundLink& link);

/// With a capital, unless it begins with an id.
std::string capital(std::string text);
/// `one` or, of a name that means several ("the front grounds", "backings 1 and 2"), `many`.
std::string agreeing(const std::string& name, const std::string& one, const std::string& many);

/// 'the step "Glue the joints"': its first words, up to a stop.
std::string stepName(const Operation& op);

}  // namespace dryfit::order
