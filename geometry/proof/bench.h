// What stands on the bench while an order is played: pieces, their states and places, pivots, bonds. And what
// was found wrong so far.
#pragma once

#include <string>
#include <vector>

#include "proof/judge.h"
#include "proof/proof.h"

namespace dryfit::proof {

struct Bench {
  explicit Bench(const Assembly& a)
      : assembly(a), states(a.bodies.size(), 0), stands(a.bodies.size(), false), placed(stands) {}

  const Assembly& assembly;
  int unit = -1;
  std::vector<int> states;   ///< per body, kept from bench to bench
  std::vector<bool> stands;  ///< on this bench
  std::vector<bool> placed;  ///< on any bench so far
  std::vector<int> lain;     ///< what came first here: it lies on the bench
  std::vector<int> propped;  ///< units that came here and are held for a while by what Unit::heldBy names
  std::vector<double> anglesRad;  ///< per pivot
  std::vector<int> pivotOrder;    ///< those not at home as the step's pose tells them: the first carries
  std::vector<Bond> bonds;        ///< made so far, anywhere

  const std::string& id(int body) const { return assembly.bodies[static_cast<size_t>(body)].id; }
  /// Where the body is in its present state and pose.
  Put put(int body) const;
  std::vector<int> standing() const;
  bool within(int body, int ofUnit) const;
  /// A bond ties a piece of the unit to one that stands here and is none of it.
  bool bondedHere(int ofUnit) const;
};

/// "a", "a and b", "a, b and 3 more".
std::string listed(const Bench& bench, const std::vector<int>& bodies);

class Findings {
 public:
  void at(int step) { step_ = step; }
  void add(ProofFault::Kind kind, std::vector<int> bodies, std::string text) {
    faults_.push_back({kind, step_, std::move(bodies), std::move(text)});
  }
  std::vector<ProofFault> take() { return std::move(faults_); }

 private:
  int step_ = 0;
  std::vector<ProofFault> faults_;
};

}  // namespace dryfit::proof
