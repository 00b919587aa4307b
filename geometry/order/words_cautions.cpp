#include <fmt/format.h>

#include <cmath>

#include "order/words.h"

namespace dryfit::order {

namespace {

/// One alone lifts no more, at waist height and close to the body: the guideline filter's figure for women,
/// the lower of the two (25 for men; HSE guidance on manual handling, from memory). A guide, no limit by law.
constexpr double kOneLiftsKg = 16;

/// What moves as one; empty: nothing of it has a known density.
struct Lifted {
  double massKg = 0;
  bool allKnown = true;
};

Lifted liftedBy(const Assembly& assembly, const Undone& u) {
  Lifted all;
  for (const Placed p : u.movers) {
    const auto mass = assembly.bodies[p.body].states[p.state].massKg;
    all.massKg += mass.value_or(0);
    all.allKnown = all.allKnown && mass;
  }
  return all;
}

std::string liftingText(const Assembly& assembly, const Undone& u) {
  const Lifted lifted = liftedBy(assembly, u);
  if (lifted.massKg <= kOneLiftsKg) return "";
  return fmt::format(
      "{} {} kg: two or more lift it, or it is lifted with help; your employer's and local rules come first.",
      lifted.allKnown ? "It weighs about" : "It weighs over", std::lround(lifted.massKg));
}

/// Of what is formed in place: walls, floors, plaster.
constexpr const char* kOtherTrades =
    "Another trade's work: that trade's cautions and the site's own rules come first.";

std::string given(const Assembly& assembly, const Event& event) {
  return event.kind == Event::Kind::Operation ? assembly.operations[event.index].caution : "";
}

}  // namespace

std::string cautionOf(const Assembly& assembly, const Event& event, const Undone& u) {
  if (event.comes() && !event.moves && given(assembly, event).empty()) return kOtherTrades;
  const std::string own = given(assembly, event);
  const std::string lifting = event.moves ? liftingText(assembly, u) : "";
  return lifting + (lifting.empty() || own.empty() ? "" : " ") + own;
}

}  // namespace dryfit::order
