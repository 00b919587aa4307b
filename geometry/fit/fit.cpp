#include "fit/fit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/face_distance.h"
#include "fit/fault_text.h"

namespace dryfit {

namespace {

/// Expectations below this are none.
constexpr double kNoArea = 1e-9;

struct Expected {
  double areaMm2 = 0;
  std::vector<std::string> joints;
};

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) {
    if (!text.empty()) text += ", ";
    text += name;
  }
  return text;
}

/// Fit of one assembly. What two bodies share in two states is worked out once, however many stages ask.
class Fitting {
 public:
  explicit Fitting(const Assembly& assembly) : assembly_(assembly) {}

  FitStage stage(const std::vector<int>& states, const std::string& at, std::vector<FitFault>& faults) {
    REQUIRE(states.size() == assembly_.bodies.size());
    states_ = &states;
    faults_ = &faults;
    stage_ = {at, {}, {}, {}};
    const auto expected = expectations();
    const int count = static_cast<int>(states.size());
    for (int a = 0; a < count; ++a)
      for (int b = a + 1; b < count; ++b)
        if (stands(a) && stands(b)) comparePair(a, b, expected);
    for (const ExpectedGap& gap : assembly_.gaps)
      if (holds(gap)) addGap(gap, measured(gap, gapBetween), "wrong-gap");
    for (const ExpectedFlush& flush : assembly_.flushes)
      if (holds(flush)) addGap(flush, measured(flush, stepBetween), "not-flush");
    return std::move(stage_);
  }

 private:
  using RolePair = std::pair<std::string, std::string>;
  using Expectations = std::map<std::pair<int, int>, std::map<RolePair, Expected>>;

  struct Placed {
    PlanningMesh mesh;
    Box3 bounds;
  };
  struct Shared {
    SharedVolume volume;
    std::vector<Touch> touches;
  };

  bool stands(int body) const { return (*states_)[body] >= 0; }

  template <class Statement>
  bool holds(const Statement& s) const {
    return stands(s.a) && stands(s.b) && s.statesA.holds((*states_)[s.a]) && s.statesB.holds((*states_)[s.b]);
  }

  const Placed& standing(int body) {
    const int state = (*states_)[body];
    const auto key = std::make_pair(body, state);
    if (const auto known = placed_.find(key); known != placed_.end()) return known->second;
    const Body& of = assembly_.bodies[body];
    REQUIRE(state < static_cast<int>(of.states.size()) && of.states[state].mesh);
    PlanningMesh mesh = placed(*of.states[state].mesh, of.worldFromPiece);
    const Box3 box = bounds(mesh);
    return placed_.emplace(key, Placed{std::move(mesh), box}).first->second;
  }
  const PlanningMesh& mesh(int body) { return standing(body).mesh; }

  /// Keyed by bodies in index order, their roles likewise: a joint may name them either way.
  Expectations expectations() const {
    Expectations all;
    for (const ExpectedContact& e : assembly_.contacts) {
      if (!holds(e) || e.areaMm2 <= kNoArea) continue;
      const bool inOrder = e.a < e.b;
      Expected& sum =
          all[std::minmax(e.a, e.b)][inOrder ? RolePair{e.roleA, e.roleB} : RolePair{e.roleB, e.roleA}];
      sum.areaMm2 += e.areaMm2;
      if (std::find(sum.joints.begin(), sum.joints.end(), e.joint) == sum.joints.end())
        sum.joints.push_back(e.joint);
    }
    return all;
  }

  const Shared* sharedBy(int a, int b) {
    const Placed& one = standing(a);
    const Placed& other = standing(b);
    if (!near(one.bounds, other.bounds, tolerance::kTouch)) return nullptr;
    const auto key = std::make_tuple(a, (*states_)[a], b, (*states_)[b]);
    const auto [at, isNew] = shared_.try_emplace(key);
    if (isNew)
      at->second = {sharedVolume(one.mesh, one.bounds, other.mesh, other.bounds),
                    touches(one.mesh, one.bounds, other.mesh, other.bounds)};
    return &at->second;
  }

  /// A statement's distance between its faces, in the states the two bodies have now.
  template <class Statement, class Measure>
  const std::optional<FaceDistance>& measured(const Statement& s, Measure measure) {
    const auto key = std::make_tuple(static_cast<const void*>(&s), (*states_)[s.a], (*states_)[s.b]);
    const auto [at, isNew] = measured_.try_emplace(key);
    if (isNew) at->second = measure(mesh(s.a), s.roleA, mesh(s.b), s.roleB, s.statedMm);
    return at->second;
  }

  void comparePair(int a, int b, const Expectations& expected) {
    const Shared* shared = sharedBy(a, b);
    if (shared && shared->volume.volumeMm3 > tolerance::kOverlapVolume) {
      stage_.overlaps.push_back({a, b, shared->volume.volumeMm3, shared->volume.centroid});
      faults_->push_back(faultOf(assembly_, stage_.overlaps.back()));
    }
    const auto found = expected.find({a, b});
    std::map<RolePair, Expected> open;
    if (found != expected.end()) open = found->second;
    if (shared)
      for (const Touch& touch : shared->touches) {
        const auto at = open.find({touch.roleA, touch.roleB});
        const Expected stated = at == open.end() ? Expected{} : at->second;
        if (at != open.end()) open.erase(at);
        addContact(
            {a, b, touch.roleA, touch.roleB, touch.areaMm2, stated.areaMm2, joined(stated.joints), touch.at});
      }
    const Vec3 between = (standing(a).bounds.centre() + standing(b).bounds.centre()) * 0.5;
    for (const auto& [roles, stated] : open)
      addContact({a, b, roles.first, roles.second, 0, stated.areaMm2, joined(stated.joints), between});
  }

  void addContact(Contact contact) {
    const double allowed = tolerance::kContactArea + tolerance::kContactAreaRelative * contact.expectedMm2;
    std::string kind;
    if (contact.expectedMm2 == 0)
      kind = contact.areaMm2 > tolerance::kContactArea ? "unexplained-contact" : "";
    else if (contact.areaMm2 == 0)
      kind = "missing-contact";
    else if (std::abs(contact.areaMm2 - contact.expectedMm2) > allowed)
      kind = "wrong-area";
    if (!kind.empty()) faults_->push_back(faultOf(assembly_, contact, kind));
    stage_.contacts.push_back(std::move(contact));
  }

  template <class Statement>
  void addGap(const Statement& s, const std::optional<FaceDistance>& found, const std::string& kind) {
    GapFound gap{s.joint, s.what, s.a, s.b, s.roleA, s.roleB, s.statedMm, found.has_value(), 0, {}};
    if (found) {
      gap.foundMm = found->mm;
      gap.at = found->at;
    } else {
      gap.at = (standing(s.a).bounds.centre() + standing(s.b).bounds.centre()) * 0.5;
    }
    if (!found || std::abs(gap.foundMm - gap.statedMm) > tolerance::kSize)
      faults_->push_back(faultOf(assembly_, gap, kind));
    stage_.gaps.push_back(std::move(gap));
  }

  const Assembly& assembly_;
  const std::vector<int>* states_ = nullptr;
  std::vector<FitFault>* faults_ = nullptr;
  FitStage stage_;
  std::map<std::pair<int, int>, Placed> placed_;
  std::map<std::tuple<int, int, int, int>, Shared> shared_;
  std::map<std::tuple<const void*, int, int>, std::optional<FaceDistance>> measured_;
};

bool within(const Assembly& assembly, int unit, int ancestor) {
  while (unit >= 0 && unit != ancestor) unit = assembly.units[unit].parent;
  return unit == ancestor;
}

/// States at the end of the unit, -1 for what is not in it.
std::vector<int> statesAtEnd(const Assembly& assembly, int unit) {
  const bool whole = assembly.units[unit].parent < 0;
  std::vector<int> states;
  for (const Body& body : assembly.bodies) {
    const int last = static_cast<int>(body.states.size()) - 1;
    states.push_back(whole ? last : within(assembly, body.unit, unit) ? 0 : -1);
  }
  if (whole) return states;
  for (const Operation& operation : assembly.operations) {
    if (!within(assembly, operation.unit, unit)) continue;
    for (const StateChange& change : operation.changes)
      if (states[change.body] >= 0) states[change.body] = std::max(states[change.body], change.from + 1);
  }
  return states;
}

void childrenFirst(const Assembly& assembly, int parent, std::vector<int>& order) {
  for (int unit = 0; unit < static_cast<int>(assembly.units.size()); ++unit) {
    if (assembly.units[unit].parent != parent) continue;
    childrenFirst(assembly, unit, order);
    order.push_back(unit);
  }
}

/// The same fault found again at a later stage is told once.
std::vector<FitFault> once(const std::vector<FitFault>& faults) {
  std::set<std::tuple<std::string, int, int, std::string, std::string>> seen;
  std::vector<FitFault> kept;
  for (const FitFault& f : faults)
    if (seen.emplace(f.kind, f.a, f.b, f.roleA, f.roleB).second) kept.push_back(f);
  return kept;
}

}  // namespace

FitStage fitBodies(const Assembly& assembly, const std::vector<int>& states, const std::string& at,
                   std::vector<FitFault>& faults) {
  return Fitting(assembly).stage(states, at, faults);
}

FitReport fit(const Assembly& assembly) {
  std::vector<int> order;
  childrenFirst(assembly, -1, order);
  Fitting fitting(assembly);
  FitReport report;
  std::vector<FitFault> faults;
  for (const int unit : order)
    report.stages.push_back(fitting.stage(statesAtEnd(assembly, unit), assembly.units[unit].name, faults));
  report.swings = swingsOf(assembly);
  for (const Swing& swing : report.swings)
    if (swing.strike) faults.push_back(faultOf(assembly, swing));
  report.faults = once(faults);
  return report;
}

}  // namespace dryfit
