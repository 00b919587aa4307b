#include "scene/standing.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/require.h"

namespace dryfit::scene {

namespace {

bool within(const Assembly& assembly, int body, int unit) {
  int u = assembly.bodies.at(static_cast<size_t>(body)).unit;
  while (u >= 0 && u != unit) u = assembly.units.at(static_cast<size_t>(u)).parent;
  return u == unit;
}

/// Events that bring pieces; all others are done to what is there.
bool brings(const Step& step) {
  constexpr std::array<std::string_view, 4> kEvents{"fit", "drive", "fasten", "form"};
  return std::find(kEvents.begin(), kEvents.end(), step.event) != kEvents.end();
}

std::vector<int> comingBy(const Assembly& assembly, const Step& step) {
  std::vector<int> out;
  if (brings(step)) out = step.bodies;
  for (const Move& move : step.moves)
    for (const int body : bodiesOf(assembly, move)) out.push_back(body);
  return out;
}

/// Follows the steps; `roles` are those of the present bench.
class Walk {
 public:
  explicit Walk(const Assembly& assembly) : assembly_(assembly) {
    now_.roles.assign(assembly.bodies.size(), Role::Absent);
    now_.states.assign(assembly.bodies.size(), 0);
  }

  void take(const Step& step) {
    if (step.unit != now_.unit) std::fill(now_.roles.begin(), now_.roles.end(), Role::Absent);
    now_.unit = step.unit;
    now_.pose = step.pose;
    for (Role& role : now_.roles)
      if (role == Role::Comes) role = Role::Stands;
    for (const StateChange& change : step.changes) state(change.body) = change.from + 1;
    for (const int body : comingBy(assembly_, step)) setRole(body, Role::Comes);
  }

  /// What else comes on this bench.
  void look(const Step& step) {
    if (step.unit != now_.unit) return;
    for (const int body : comingBy(assembly_, step)) setRole(body, Role::ToCome);
  }

  const Standing& now() const { return now_; }

 private:
  int& state(int body) { return now_.states.at(static_cast<size_t>(body)); }
  void setRole(int body, Role to) {
    Role& role = now_.roles.at(static_cast<size_t>(body));
    if (role == Role::Absent) role = to;
  }

  const Assembly& assembly_;
  Standing now_;
};

}  // namespace

std::vector<int> bodiesOf(const Assembly& assembly, const Move& move) {
  std::vector<int> out = move.bodies;
  for (int b = 0; move.unit >= 0 && b < static_cast<int>(assembly.bodies.size()); ++b)
    if (within(assembly, b, move.unit)) out.push_back(b);
  return out;
}

Standing standingAt(const Assembly& assembly, const OrderOfWork& order, int step) {
  REQUIRE(step >= 0 && step < static_cast<int>(order.steps.size()));
  Walk walk(assembly);
  for (int i = 0; i <= step; ++i) walk.take(order.steps[static_cast<size_t>(i)]);
  for (size_t i = static_cast<size_t>(step) + 1; i < order.steps.size(); ++i) walk.look(order.steps[i]);
  return walk.now();
}

Standing standingFinished(const Assembly& assembly) {
  Standing out;
  out.roles.assign(assembly.bodies.size(), Role::Stands);
  for (const Body& body : assembly.bodies) out.states.push_back(static_cast<int>(body.states.size()) - 1);
  for (size_t u = 0; u < assembly.units.size(); ++u)
    if (assembly.units[u].parent < 0) out.unit = static_cast<int>(u);
  return out;
}

std::vector<int> statesStanding(const Standing& standing, bool withComing) {
  std::vector<int> out = standing.states;
  for (size_t b = 0; b < out.size(); ++b) {
    const Role role = standing.roles[b];
    if (role != Role::Stands && !(withComing && role == Role::Comes)) out[b] = -1;
  }
  return out;
}

}  // namespace dryfit::scene
