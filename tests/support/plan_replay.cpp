// A plan played on the kernel's solids, step by step.
#include <algorithm>
#include <limits>
#include <set>

#include "support/brute_kernel.h"

namespace dryfit::tests {

namespace {

class Replay {
 public:
  Replay(KernelScene& scene, const Assembly& assembly, const Places& places)
      : scene_(scene),
        assembly_(assembly),
        places_(places),
        states_(assembly.bodies.size(), 0),
        home_(assembly.bodies.size(), false) {}

  std::vector<std::string> run(const OrderOfWork& work) {
    for (size_t i = 0; i < work.steps.size(); ++i) {
      at_ = "step " + std::to_string(i + 1) + " (" + work.steps[i].text + ")";
      play(work.steps[i]);
    }
    at_ = "end";
    for (size_t b = 0; b < home_.size(); ++b) {
      if (!home_[b]) fault(assembly_.bodies[b].id + " is not placed");
      if (states_[b] + 1 != static_cast<int>(assembly_.bodies[b].states.size()))
        fault(assembly_.bodies[b].id + " is not in its last state");
    }
    return faults_;
  }

 private:
  void fault(const std::string& text) { faults_.push_back(at_ + ": " + text); }

  void play(const Step& step) {
    if (step.unit != unit_) {  // another bench: what was put together before comes to it as a unit
      unit_ = step.unit;
      home_.assign(home_.size(), false);
      if (!benches_.insert(unit_).second) fault("goes back to a bench left before");
    }
    pose_ = step.pose;
    for (int b = 0; b < static_cast<int>(home_.size()); ++b)
      scene_.stand(b, worldFromHome(assembly_, step.pose, b));
    for (const StateChange& c : step.changes) change(c);
    for (const Move& move : step.moves) step.event == "turn" ? playTurn(move) : playMove(move);
    const bool builtOn = std::none_of(home_.begin(), home_.end(), [](bool h) { return h; });
    for (const int b : step.bodies)
      if (!home_[b]) {  // built on, or formed: comes without a move
        if (!builtOn && !assembly_.bodies[b].formed) fault(assembly_.bodies[b].id + " comes by no path");
        place(b);
      }
    for (const Bond& bond : step.bonds) bonds_.push_back(bond);
  }

  void change(const StateChange& c) {
    if (states_[c.body] != c.from) fault(assembly_.bodies[c.body].id + " is not in the state to be changed");
    states_[c.body] = c.from + 1;
    if (home_[c.body]) overlapsAtHome(c.body);
  }

  bool within(int body, int unit) const {
    int u = assembly_.bodies[body].unit;
    while (u >= 0 && u != unit) u = assembly_.units[u].parent;
    return u == unit;
  }

  std::vector<int> bodiesOf(const Move& move) const {
    std::vector<int> bodies = move.bodies;
    for (int b = 0; move.unit >= 0 && b < static_cast<int>(home_.size()); ++b)
      if (within(b, move.unit)) bodies.push_back(b);
    return bodies;
  }

  void playMove(const Move& move) {
    std::vector<PieceAt> movers, standers;
    const std::vector<int> bodies = bodiesOf(move);
    for (int b : bodies) movers.push_back({b, states_[b]});
    for (int b = 0; b < static_cast<int>(home_.size()); ++b)
      if (home_[b]) standers.push_back({b, states_[b]});
    for (int b : bodies) {
      if (home_[b]) fault(assembly_.bodies[b].id + " is placed twice");
      for (const Bond& bond : bonds_) notTorn(bond, b);
    }
    playLegs(move, movers, standers);
    for (int b : bodies) place(b);
  }

  /// Backwards from where it ends.
  void playTurn(const Move& move) {
    constexpr int kPlaces = 45;
    for (int b : move.bodies)
      if (!home_[b]) fault(assembly_.bodies[b].id + " turns and is not there");
    const Leg& leg = move.legs.at(0);
    std::vector<Placement> ends;
    for (int b : move.bodies) ends.push_back(worldFromHome(assembly_, pose_, b));
    for (int i = 1; i <= kPlaces; ++i) {
      const Placement back = rotation(leg.direction, leg.through, -leg.angleRad * i / kPlaces);
      for (size_t k = 0; k < ends.size(); ++k) scene_.stand(move.bodies[k], back * ends[k]);
      for (int a : move.bodies)
        for (int b = 0; b < static_cast<int>(home_.size()); ++b)
          if (home_[b] && std::find(move.bodies.begin(), move.bodies.end(), b) == move.bodies.end() &&
              scene_.shared({a, states_[a]}, {}, {b, states_[b]}) > kSharedMm3)
            fault(assembly_.bodies[a].id + " strikes " + assembly_.bodies[b].id);
    }
    for (size_t k = 0; k < ends.size(); ++k) scene_.stand(move.bodies[k], ends[k]);
  }

  void notTorn(const Bond& bond, int mover) {
    if (std::find(bond.between.begin(), bond.between.end(), mover) == bond.between.end()) return;
    for (int other : bond.between)
      if (home_[other]) fault(assembly_.bodies[mover].id + " is bonded to " + assembly_.bodies[other].id);
  }

  /// Backwards from home; the outermost leg goes on until nothing is near.
  void playLegs(const Move& move, const std::vector<PieceAt>& movers, const std::vector<PieceAt>& standers) {
    Vec3 shift;
    for (size_t i = move.legs.size(); i-- > 0;) {
      const Leg& leg = move.legs[i];
      // A screw fills the room it would fill pushed straight.
      if (leg.kind == Leg::Kind::Turn) return fault("a leg that turns");
      const double travel = i == 0 ? std::numeric_limits<double>::infinity() : leg.travelMm;
      if (const auto hit = firstHit(scene_, movers, standers, shift, -leg.direction, travel, places_))
        fault("meets something " + std::to_string(*hit) + " mm out on leg " + std::to_string(i + 1));
      shift = shift - leg.direction * leg.travelMm;
    }
  }

  void place(int body) {
    home_[body] = true;
    overlapsAtHome(body);
  }

  void overlapsAtHome(int body) {
    for (int b = 0; b < static_cast<int>(home_.size()); ++b)
      if (b != body && home_[b] && scene_.shared({body, states_[body]}, {}, {b, states_[b]}) > kSharedMm3)
        fault(assembly_.bodies[body].id + " stands in " + assembly_.bodies[b].id);
  }

  KernelScene& scene_;
  const Assembly& assembly_;
  const Places& places_;
  std::vector<int> states_;
  std::vector<bool> home_;
  std::vector<Bond> bonds_;
  std::set<int> benches_;
  int unit_ = -1;
  Pose pose_;
  std::string at_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faultsOfPlan(KernelScene& scene, const Assembly& assembly, const OrderOfWork& work,
                                      const Places& places) {
  return Replay(scene, assembly, places).run(work);
}

}  // namespace dryfit::tests
