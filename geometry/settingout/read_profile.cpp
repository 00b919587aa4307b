// A moulding's section: by the trade's name, or a list of points and arcs.
#include <fmt/format.h>

#include "base/text.h"
#include "settingout/moulding_profiles.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

constexpr size_t kMostSteps = 60;
constexpr const char* kStepHint =
    "a point [across, height], or an arc { round = radius, to = [across, height] } or { hollow = ... }";

std::optional<Vec2> pointOf(const Slot& at) {
  const auto numbers = listOf(at, "point", 2, 2);
  if (!numbers) return std::nullopt;
  const auto across = lengthOf((*numbers)[0], "across", kMarginMm);
  const auto height = lengthOf((*numbers)[1], "height", kMarginMm);
  if (!across || !height) return std::nullopt;
  return Vec2{*across, *height};
}

std::optional<ProfileStep> arcStepOf(const Slot& at, const toml::table& table) {
  const size_t before = at.state->faults.size();
  const TableReader arc(table, at.path, *at.state, {"round", "hollow", "to"});
  const bool misspelt = at.state->faults.size() > before;
  const auto round = arc.find("round"), hollow = arc.find("hollow");
  if (!round && !hollow && misspelt) return std::nullopt;
  if (round.has_value() == hollow.has_value()) {
    fault(at, round ? "the arc is round and hollow at once" : "the arc has no radius", kStepHint);
    return std::nullopt;
  }
  const auto radius = lengthOf(round ? *round : *hollow, "radius", {0.5, 5000});
  const auto toSlot = arc.need("to", kStepHint);
  const auto to = toSlot ? pointOf(*toSlot) : std::nullopt;
  if (!radius || !to) return std::nullopt;
  return ProfileStep{*to, *radius, hollow.has_value()};
}

std::optional<Profile> listedProfile(const Slot& at) {
  const auto steps = listOf(at, "section", 2, kMostSteps);
  if (!steps) return std::nullopt;
  Profile path;
  for (size_t i = 0; i < steps->size(); ++i) {
    const Slot& slot = (*steps)[i];
    const toml::table* table = slot.node->as_table();
    if (i == 0 || !table) {
      if (!slot.node->is_array()) {
        fault(slot, given(*slot.node) + (i == 0 ? " begins no section" : " is no step of a section"),
              i == 0 ? "a point [0, height] on the back edge" : kStepHint);
        return std::nullopt;
      }
      const auto point = pointOf(slot);
      if (!point) return std::nullopt;
      if (i == 0)
        path.start = *point;
      else
        path.steps.push_back({*point});
      continue;
    }
    const auto step = arcStepOf(slot, *table);
    if (!step) return std::nullopt;
    path.steps.push_back(*step);
  }
  return path;
}

}  // namespace

std::optional<GivenProfile> givenProfileOf(const Slot& at) {
  GivenProfile out;
  if (at.node->is_array()) {
    const auto listed = listedProfile(at);
    if (!listed) return std::nullopt;
    out.name = "moulding";
    out.path = *listed;
    return out;
  }
  const auto name = choiceOf(at, "section", profileNames());
  if (!name) return std::nullopt;
  out.name = *name;
  return out;
}

std::optional<Profile> drawnProfile(const Slot& at, const GivenProfile& given, double width, double thickness,
                                    const std::optional<Slot>& radiusAt) {
  std::optional<double> radius;
  if (radiusAt) {
    radius = lengthOf(*radiusAt, "radius", {0.5, 5000});
    if (!radius) return std::nullopt;
    if (given.path) {
      fault(*radiusAt, "a section listed point by point takes no radius", "leave it out");
      return std::nullopt;
    }
  }
  auto tell = [&](const Diagnostic& d, const Slot& slot) {
    fault(slot, d.message, d.hint);
    return std::nullopt;
  };
  if (given.path) {
    if (const auto wrong = profileFault(*given.path, width, thickness)) return tell(*wrong, at);
    return given.path;
  }
  const auto named = namedProfile(given.name, width, thickness, radius);
  if (!named) return tell(named.faults()[0], radiusAt ? *radiusAt : at);
  return named.value();
}

}  // namespace dryfit::reading
