// A small hanging set out by hand, for tests of hinges and locks: one stile as the whole leaf, a plain jamb
// beside it, 2 apart, fronts flush at Y = 0.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "fit/fit.h"
#include "support/set_out.h"
#include "support/works.h"

namespace dryfit::tests {

struct Hanging {
  bool left = true;  ///< the jamb stands at -X
  std::vector<double> centres{1900, 300};
  Given hinge{};  ///< keys besides leaf, jamb, number, centre
  double jambThickness = 40;
  double gap = 2;
  bool hingeUnits = true;
  double rebate = 0;   ///< depth of the jamb's rebate, 45 wide; its floor stands where a plain face does
  double backing = 0;  ///< a backing this far behind the jamb, at each hinge; 0: none
};

/// World x of a distance from the jamb's face towards the leaf.
inline double across(bool left, double u) {
  return left ? u : -u;
}

/// Jamb 2000 x 140, stile 1980 x 95 x 44.
inline SettingOut hanging(const Hanging& h) {
  const double s = h.left ? 1 : -1;
  std::vector<Member> members{
      member("jamb", {2000, 140, h.jambThickness}, along("+Z", h.left ? "-Y" : "+Y"),
             {s * (h.rebate - h.jambThickness / 2), 70, 1000}),
      member("stile", {1980, 95, 44}, along("+Z", "-X"), {s * (h.gap + 47.5), 22, 1000})};
  for (size_t i = 0; h.backing > 0 && i < h.centres.size(); ++i)
    members.push_back(member("backing." + std::to_string(i + 1), {160, 120, 22},
                             along("+Y", h.left ? "+Z" : "-Z"),
                             {-s * (h.jambThickness - h.rebate + h.backing + 11), 70, h.centres[i]}));
  if (h.rebate > 0) {
    RebateMark& rebate = members[0].rebates.emplace_back();
    rebate.towards = {0, -1, 0};
    rebate.depthMm = h.rebate;
    rebate.widthMm = 45;
    rebate.path = "jamb.rebate";
  }
  SettingOut work = setOut(members);
  work.units.push_back({"leaf", 0, {}, false, {}});
  work.members[1].unit = 1;
  for (size_t i = 0; i < h.centres.size(); ++i) {
    const std::string n = std::to_string(i + 1);
    if (h.hingeUnits) work.units.push_back({"hinge." + n, 1, {}, false, {}});
    Given given{{"leaf", std::string("stile")},
                {"jamb", std::string("jamb")},
                {"number", static_cast<double>(i + 1)},
                {"centre", h.centres[i]}};
    if (h.backing > 0) given.push_back({"behind", std::vector<std::string>{"backing." + n}});
    given.insert(given.end(), h.hinge.begin(), h.hinge.end());
    work.joints.push_back(mark("butt-hinge", given));
  }
  return work;
}

/// The stile hung on a post at its left by one hinge and locked against the jamb at its right, 13 from it: as
/// narrow as it is its back corner swings far out (107.8 from the pin, which is 96 from the edge).
inline SettingOut hungAndLocked() {
  Hanging h;
  h.left = false;
  h.centres = {};
  h.gap = 13;
  SettingOut work = hanging(h);
  work.members.push_back(member("post", {2000, 140, 40}, along("+Z", "-Y"), {-108 - 2 - 20, 70, 1000}));
  work.units.push_back({"hinge.1", 1, {}, false, {}});
  work.joints = {
      mark("butt-hinge", {{"leaf", std::string("stile")}, {"jamb", std::string("post")}, {"centre", 300.0}}),
      mark("mortise-lock",
           {{"stile", std::string("stile")}, {"jamb", std::string("jamb")}, {"centre", 1000.0}})};
  return work;
}

inline void expectClean(const Assembly& assembly) {
  for (const FitFault& f : fit(assembly).faults) ADD_FAILURE() << f.text;
}

/// The last states of a body and of those a joint states something of it with; the others left out.
inline std::vector<int> withItsNeighbours(const Assembly& assembly, int body) {
  std::vector<int> last = lastStates(assembly), states(last.size(), -1);
  const auto take = [&](const auto& statements) {
    for (const auto& s : statements)
      if (s.a == body || s.b == body)
        for (int i : {s.a, s.b}) states[static_cast<size_t>(i)] = last[static_cast<size_t>(i)];
  };
  take(assembly.contacts);
  take(assembly.gaps);
  take(assembly.flushes);
  return states;
}

/// Every piece, shifted by 0.05 along each axis either way, is told by what is stated of it and its
/// neighbours.
inline void expectShiftsTold(const Assembly& assembly) {
  for (size_t body = 0; body < assembly.bodies.size(); ++body)
    for (int axis = 0; axis < 3; ++axis)
      for (double by : {0.05, -0.05}) {
        Assembly moved = assembly;
        moved.bodies[body].worldFromPiece.origin[axis] += by;
        std::vector<FitFault> faults;
        fitBodies(moved, withItsNeighbours(moved, static_cast<int>(body)), "", faults);
        EXPECT_FALSE(faults.empty()) << assembly.bodies[body].id << " " << axis << " " << by;
      }
}

inline const Operation& operationOf(const Assembly& assembly, const std::string& key) {
  for (const Operation& op : assembly.operations)
    if (op.key == key) return op;
  throw std::runtime_error("no operation " + key);
}
inline int pivotOf(const Assembly& assembly, const std::string& name) {
  for (size_t i = 0; i < assembly.pivots.size(); ++i)
    if (assembly.pivots[i].name == name) return static_cast<int>(i);
  throw std::runtime_error("no pivot " + name);
}

/// The pieces with one pivot turned.
inline std::vector<Piece> turned(const CutWork& work, int pivot, double angleRad) {
  const Pivot& p = work.assembly.pivots[static_cast<size_t>(pivot)];
  std::vector<Piece> pieces = work.pieces;
  for (int b : p.bodies) {
    Placement& at = pieces[static_cast<size_t>(b)].worldFromPiece;
    at = rotation(p.axis, p.through, angleRad) * at;
  }
  return pieces;
}

}  // namespace dryfit::tests
