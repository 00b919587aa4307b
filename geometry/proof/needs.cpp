#include "proof/needs.h"

#include <fmt/format.h>

#include <algorithm>

namespace dryfit::proof {

namespace {

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

bool brings(const Operation& op) {
  return (op.kind == Operation::Kind::Drive || op.kind == Operation::Kind::Fasten) && !op.bodies.empty();
}

bool sameBond(const Bond& a, const Bond& b) {
  return a.kind == b.kind && a.between == b.between;
}

bool holdsBonds(const Step& step, const std::vector<Bond>& bonds) {
  return std::all_of(bonds.begin(), bonds.end(), [&](const Bond& bond) {
    return std::any_of(step.bonds.begin(), step.bonds.end(),
                       [&](const Bond& made) { return sameBond(bond, made); });
  });
}

bool holdsChanges(const Step& step, const std::vector<StateChange>& changes) {
  return std::all_of(changes.begin(), changes.end(), [&](const StateChange& c) {
    return std::any_of(step.changes.begin(), step.changes.end(),
                       [&](const StateChange& made) { return c.body == made.body && c.from == made.from; });
  });
}

/// What is different when it is done.
bool leavesTrace(const Operation& op) {
  return brings(op) || op.turn || !op.bonds.empty() || !op.changes.empty();
}

}  // namespace

bool Needs::asked(const Operation& op) const {
  return leavesTrace(op) || !byShape_;
}

bool Needs::doneBy(const Operation& op, const Step& step, const std::vector<int>& coming) const {
  if (op.unit != step.unit || !asked(op)) return false;
  if (!leavesTrace(op)) return step.text == op.text && step.bodies == op.bodies;
  if (brings(op) &&
      !std::all_of(op.bodies.begin(), op.bodies.end(), [&](int b) { return contains(coming, b); }))
    return false;
  if (op.turn) {
    const Pivot& pivot = assembly_.pivots[static_cast<size_t>(op.turn->pivot)];
    if (step.event != "turn" || step.moves.empty() ||
        !std::all_of(step.moves.front().bodies.begin(), step.moves.front().bodies.end(),
                     [&](int b) { return contains(pivot.bodies, b); }))
      return false;
  }
  return holdsBonds(step, op.bonds) && holdsChanges(step, op.changes);
}

const Operation* Needs::operation(const std::string& key) const {
  for (const Operation& op : assembly_.operations)
    if (op.key == key) return &op;
  return nullptr;
}

std::vector<std::string> Needs::play(const Bench& bench, const Step& step, const std::vector<int>& coming) {
  std::vector<std::string> lacks;
  for (size_t i = 0; i < done_.size(); ++i) {
    const Operation& op = assembly_.operations[i];
    if (done_[i] || !doneBy(op, step, coming)) continue;
    done_[i] = true;
    for (int b : op.after)
      if (!bench.stands[static_cast<size_t>(b)])
        lacks.push_back(fmt::format("{} is not there, and {} needs it", bench.id(b), op.key));
    for (const std::string& key : op.afterOperations) {
      const Operation* before = operation(key);
      if (before && asked(*before) && !done_[static_cast<size_t>(before - assembly_.operations.data())])
        lacks.push_back(fmt::format("{} is done before {}, which it needs", op.key, key));
    }
  }
  return lacks;
}

std::vector<std::string> Needs::leftUndone() const {
  std::vector<std::string> undone;
  for (size_t i = 0; i < done_.size(); ++i)
    if (!done_[i] && asked(assembly_.operations[i]))
      undone.push_back(
          fmt::format("{} is never done: {}", assembly_.operations[i].key, assembly_.operations[i].text));
  return undone;
}

}  // namespace dryfit::proof
