#include "joint/assembly_links.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "base/tolerance.h"
#include "joint/assembly_pivots.h"
#include "joint/assembly_stages.h"
#include "joint/edge_bevels.h"
#include "joint/leaf_pivot.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

// Places in the file's order: checks and glue after the unit's members, trims after everything.
constexpr int kCheckPlace = 100'000'000, kGluePlace = 200'000'000, kCleanPlace = 300'000'000,
              kHornsPlace = 400'000'000;

struct Linker {
  const SettingOut& work;
  const std::vector<JointWork>& made;
  const std::vector<int>& units;
  const std::vector<StagedRecipe>& recipes;
  CutWork& out;
  std::map<std::string, int> indexOf{};
  std::map<std::string, size_t> operationOf{};
  std::map<std::string, std::vector<std::string>> group{};  ///< keys of the operations in it
  std::vector<Diagnostic> faults{};

  Assembly& assembly() { return out.assembly; }
  int body(const std::string& id) const {
    const auto found = indexOf.find(id);
    REQUIRE(found != indexOf.end());
    return found->second;
  }
  std::vector<int> bodiesOf(const std::vector<std::string>& ids) const {
    std::vector<int> all;
    for (const std::string& id : ids) all.push_back(body(id));
    return all;
  }
  std::string roleOf(const FaceRef& face) const {
    return recipes[static_cast<size_t>(body(face.id))].roleOf(face.role);
  }

  void unitsAndPivots() {
    assembly().title = work.title;
    for (const UnitMark& u : work.units)
      assembly().units.push_back({u.name, u.parent, u.benchFromWorld, u.heldBy});
    assembly().pivots = pivotsOf(work, made, out.pieces);
  }

  void bodies() {
    for (size_t i = 0; i < out.pieces.size(); ++i) {
      const Piece& p = out.pieces[i];
      indexOf[p.id] = static_cast<int>(i);
      Body b;
      b.id = p.id;
      b.name = p.name;
      b.unit = p.unit;
      b.position = p.position;
      b.formed = p.formed;
      b.worldFromPiece = p.worldFromPiece;
      for (const PieceState& s : p.states) b.states.push_back({s.name, s.cut->mesh, massKg(p, s)});
      assembly().bodies.push_back(std::move(b));
    }
    for (const JointWork& joint : made)  // members are the first bodies, in the same order
      for (int member : joint.planted) assembly().bodies[static_cast<size_t>(member)].planted = true;
  }

  /// The states of a piece after one change and before another; one the piece does not know bounds nothing.
  StateRange between(const std::string& id, const std::string& from, const std::string& until) const {
    const StagedRecipe& recipe = recipes[static_cast<size_t>(body(id))];
    StateRange range;
    if (const int before = recipe.stateBefore(from); before >= 0) range.first = before + 1;
    if (const int before = recipe.stateBefore(until); before >= 0) range.last = before;
    return range;
  }

  void statements() {
    for (const JointWork& joint : made) {
      for (const JointContact& c : joint.contacts) {
        if (c.bySides) continue;  // addLaidContacts()
        assembly().contacts.push_back({c.joint,
                                       body(c.a.id),
                                       body(c.b.id),
                                       roleOf(c.a),
                                       roleOf(c.b),
                                       c.areaMm2,
                                       {},
                                       between(c.b.id, c.bFrom, c.bUntil)});
      }
      for (const JointGap& g : joint.gaps)
        assembly().gaps.push_back(
            {g.joint, g.what, body(g.a.id), body(g.b.id), roleOf(g.a), roleOf(g.b), g.statedMm, {}, {}});
      for (const JointFlush& f : joint.flushes)
        assembly().flushes.push_back({f.joint,
                                      f.what,
                                      body(f.a.id),
                                      body(f.b.id),
                                      roleOf(f.a),
                                      roleOf(f.b),
                                      f.statedMm,
                                      {},
                                      between(f.b.id, f.bFrom, f.bUntil)});
      for (const JointPath& p : joint.paths)
        assembly().paths.push_back({p.joint, body(p.mover), body(p.stays), p.legs});
      for (const Dimension& d : joint.dimensions) {
        Dimension named = d;
        named.from.role = roleOf(d.from);
        named.to.role = roleOf(d.to);
        out.dimensions.push_back(named);
      }
      for (const auto& name : joint.joints) assembly().joints.push_back({name.id, bodiesOf(name.pieces)});
    }
  }

  /// All but what is formed in place, or planted on the finished work.
  std::vector<int> membersWithin(int unit) {
    std::vector<int> all;
    for (size_t i = 0; i < work.members.size(); ++i)
      if (isWithin(work, work.members[i].unit, unit) && !work.members[i].formed &&
          !assembly().bodies[i].planted)
        all.push_back(static_cast<int>(i));
    return all;
  }

  static void join(std::vector<int>& into, const std::vector<int>& more) {
    for (int b : more)
      if (std::find(into.begin(), into.end(), b) == into.end()) into.push_back(b);
  }
  template <class T>
  static void join(std::vector<T>& into, const T& one) {
    if (std::find(into.begin(), into.end(), one) == into.end()) into.push_back(one);
  }

  /// What an operation that brings no piece is about: nails that are only listed.
  static std::vector<std::string> piecesBonded(const JointOperation& op) {
    std::vector<std::string> all;
    for (const auto& bond : op.bonds) all.insert(all.end(), bond.between.begin(), bond.between.end());
    return all;
  }

  int placeOf(const JointOperation& op, const std::vector<int>& about) const {
    if (op.kind == Operation::Kind::Check || op.kind == Operation::Kind::Wait) return kCheckPlace;
    if (op.kind == Operation::Kind::Glue) return kGluePlace;
    if (op.kind == Operation::Kind::Trim) return kCleanPlace;
    int place = 0;
    for (int b : about) place = std::max(place, out.pieces[static_cast<size_t>(b)].position);
    return place;
  }

  Operation& operation(const JointOperation& op, int unit) {
    if (auto known = operationOf.find(op.key); known != operationOf.end())
      return assembly().operations[known->second];
    operationOf[op.key] = assembly().operations.size();
    Operation& fresh = assembly().operations.emplace_back();
    fresh.kind = op.kind;
    fresh.key = op.key;
    fresh.unit = unit;
    fresh.way = op.way;
    fresh.pitchMm = op.pitchMm;
    fresh.assembles = op.assembles;
    fresh.text = op.text;
    fresh.caution = op.caution;
    fresh.position = placeOf(op, bodiesOf(op.pieces.empty() ? piecesBonded(op) : op.pieces));
    if (op.turn) {
      const std::vector<Pivot>& pivots = assembly().pivots;
      const auto pivot = std::find_if(pivots.begin(), pivots.end(),
                                      [&](const Pivot& p) { return p.name == op.turn->pivot; });
      REQUIRE(pivot != pivots.end() && op.kind == Operation::Kind::Turn);
      fresh.turn = TurnBy{static_cast<int>(pivot - pivots.begin()), op.turn->fromRad, op.turn->toRad};
    }
    return fresh;
  }

  void addOperation(const JointOperation& op, int jointUnit) {
    const int unit = op.unit.empty() ? jointUnit : unitNamed(work, op.unit);
    Operation& o = operation(op, unit);
    if (!op.group.empty()) join(group[op.group], op.key);
    join(o.bodies, bodiesOf(op.pieces));
    for (const auto& change : op.changes) {
      const int b = body(change.piece);
      const int from = recipes[static_cast<size_t>(b)].stateBefore(change.state.key);
      if (from < 0) continue;  // the piece has nothing to change here
      const bool known = std::any_of(o.changes.begin(), o.changes.end(),
                                     [&](const StateChange& c) { return c.body == b && c.from == from; });
      if (!known) o.changes.push_back({b, from});
      if (op.kind == Operation::Kind::Trim) join(o.bodies, std::vector<int>{b});
    }
    for (const auto& bond : op.bonds) {
      o.bonds.push_back({bond.kind, bodiesOf(bond.between)});
      if (op.kind == Operation::Kind::Glue) join(o.bodies, bodiesOf(bond.between));
    }
    join(o.after, bodiesOf(op.after));
    for (const std::string& key : op.afterOperations) join(o.afterOperations, key);
    if (!op.joint.empty()) join(o.joints, op.joint);
    if (op.kind == Operation::Kind::Check && op.pieces.empty()) {
      join(o.bodies, membersWithin(unit));
      join(o.after, membersWithin(unit));
    }
  }

  void operations() {
    for (size_t j = 0; j < made.size(); ++j)
      for (const JointOperation& op : made[j].operations) addOperation(op, units[j]);
    for (const TaskMark& task : work.tasks) addTask(task);
    for (size_t u = 0; u < work.units.size(); ++u) addBevels(static_cast<int>(u));
    for (size_t u = 0; u < work.units.size(); ++u) addHorns(static_cast<int>(u));
  }

  void addTask(const TaskMark& task) {
    using Kind = Operation::Kind;
    REQUIRE(task.kind == Kind::Fasten || task.kind == Kind::Check || task.kind == Kind::Trim ||
            task.kind == Kind::Wait);
    REQUIRE(!operationOf.count(task.key));
    JointOperation op;
    op.kind = task.kind;
    op.key = task.key;
    op.pieces = task.members;
    op.text = task.text;
    op.caution = task.caution;
    Operation& fresh = operation(op, task.unit);
    fresh.after = bodiesOf(task.members);
    if (task.kind != Kind::Fasten)
      fresh.bodies = fresh.after;  // a Fasten's own would be what goes in with it
  }

  /// Does it fix what is planted? That comes after cleaning off.
  bool isOfPlanted(const Operation& o) {
    return std::any_of(o.after.begin(), o.after.end(),
                       [&](int b) { return assembly().bodies[static_cast<size_t>(b)].planted; });
  }

  /// Is it about what a joint's rule has go on only after the operation of this key? Hinges after cleaning
  /// off.
  bool comesAfter(const Operation& o, const std::string& key) {
    for (const JointWork& joint : made)
      for (const JointRule& r : joint.rules) {
        if (std::find(r.operationsFirst.begin(), r.operationsFirst.end(), key) == r.operationsFirst.end())
          continue;
        for (int piece : bodiesOf(r.piecesThen))
          if (std::count(o.after.begin(), o.after.end(), piece) +
              std::count(o.bodies.begin(), o.bodies.end(), piece))
            return true;
      }
    return false;
  }

  /// Edges are planed to their bevel when the unit is cleaned off, once everything in it is fixed but what is
  /// planted on the finished work.
  void addBevels(int unit) {
    JointOperation clean = cleanOff(work.units[static_cast<size_t>(unit)].name);
    std::string sentences;
    for (const Member& m : work.members) {
      if (m.unit != unit || !isBevelledLater(m)) continue;
      clean.changes.push_back({m.id, bevelled(work, m)});
      for (const BevelMark& bevel : m.bevels)
        if (!bevel.first) sentences += " " + bevelSentence(work, m, bevel);
    }
    if (clean.changes.empty()) return;
    for (const Operation& o : assembly().operations)
      if (o.unit == unit && o.kind != Operation::Kind::Trim && !isOfPlanted(o) && !comesAfter(o, clean.key))
        clean.afterOperations.push_back(o.key);
    if (!operationOf.count(clean.key)) clean.text = sentences.substr(1), sentences.clear();
    addOperation(clean, unit);
    assembly().operations[operationOf.at(clean.key)].text += sentences;
  }

  /// Does it fix a piece within this unit to what stands before the unit in the file?
  bool fixes(const Operation& o, int unit) {
    int last = 0;
    bool any = false;
    for (const Body& b : assembly().bodies)
      if (isWithin(work, b.unit, unit)) last = std::max(last, b.position);
    for (int b : o.after) {
      const Body& body = assembly().bodies[static_cast<size_t>(b)];
      any = any || isWithin(work, body.unit, unit);
      if (body.position > last) return false;
    }
    return any && o.kind == Operation::Kind::Fasten;
  }

  bool turns(const std::vector<JointOperation::Change>& changes) const {
    return std::any_of(changes.begin(), changes.end(), [&](const JointOperation::Change& c) {
      const auto& pivots = out.assembly.pivots;
      return std::any_of(pivots.begin(), pivots.end(), [&](const Pivot& p) {
        return std::count(p.bodies.begin(), p.bodies.end(), body(c.piece)) > 0;
      });
    });
  }

  /// Horns go last of all in their unit but what a rule puts after them; those a unit keeps when it is fixed
  /// in the unit above.
  void addHorns(int unit) {
    JointOperation horns;
    horns.kind = Operation::Kind::Trim;
    horns.key = "horns-off:" + work.units[static_cast<size_t>(unit)].name;
    int cutIn = unit;
    for (size_t i = 0; i < work.members.size(); ++i) {
      if (hornsKey(work, work.members[i]) != horns.key || recipes[i].stateBefore(horns.key) < 0) continue;
      horns.changes.push_back({work.members[i].id, {horns.key, 30, ""}});
      cutIn = hornsUnit(work, work.members[i]);
    }
    if (horns.changes.empty()) return;
    horns.text = hornsSentence(work, horns.key);
    horns.caution = "Cramp the work and saw on the waste side, hands clear of the cut.";
    if (turns(horns.changes))  // a leaf's
      horns.caution += " Seal the bare end grain; read the finish's label." + std::string(kFireLeaf);
    for (const Operation& o : assembly().operations)
      if (o.unit == cutIn && (cutIn == unit ? !comesAfter(o, horns.key) : fixes(o, unit)))
        horns.afterOperations.push_back(o.key);
    addOperation(horns, cutIn);
    assembly().operations.back().position =
        cutIn == unit ? kHornsPlace : lastPlaceOf(assembly().operations.back());
  }

  /// The place in the file of the last piece an operation is about.
  int lastPlaceOf(const Operation& o) const {
    int place = 0;
    for (int b : o.bodies) place = std::max(place, out.pieces[static_cast<size_t>(b)].position);
    return place;
  }

  /// Those of the operations that the work has, groups told one by one.
  std::vector<std::string> existing(const std::vector<std::string>& keys) const {
    std::vector<std::string> found;
    for (const std::string& key : keys) {
      if (operationOf.count(key)) join(found, key);
      if (const auto of = group.find(key); of != group.end())
        for (const std::string& one : of->second) join(found, one);
    }
    return found;
  }

  /// The names of a rule mark: pieces apart from units, operations and groups of them.
  struct Named {
    std::vector<int> bodies;
    std::vector<std::string> others;
  };
  Named named(const std::vector<std::string>& names) const {
    Named all;
    for (const std::string& name : names) {
      if (const auto found = indexOf.find(name); found != indexOf.end()) join(all.bodies, found->second);
      if (findUnit(work, name)) join(all.others, name);
    }
    for (const std::string& key : existing(names)) join(all.others, key);
    return all;
  }

  /// Names in a file's own rule that nothing has.
  void checkNames(const RuleMark& rule) {
    if (rule.path.empty()) return;
    for (const auto* names : {&rule.first, &rule.then})
      for (const std::string& name : *names) {
        if (const Named found = named({name}); !found.bodies.empty() || !found.others.empty()) continue;
        std::vector<std::string> known;
        for (const Body& b : assembly().bodies) known.push_back(b.id);
        for (const UnitMark& u : work.units) known.push_back(u.name);
        const auto nearest = nearestName(name, known);
        faults.push_back(
            {Fault::BadInput, rule.path, "there is no piece or unit " + quoted(name),
             nearest ? "did you mean " + quoted(*nearest) + "?" : "dryfit pieces lists the pieces",
             rule.where});
      }
  }

  void ruleMarks() {
    for (const RuleMark& r : work.rules) {
      checkNames(r);
      Named first = named(r.first), then = named(r.then);
      assembly().rules.push_back({r.name, r.source, std::move(first.bodies), std::move(first.others),
                                  std::move(then.others), r.because, std::move(then.bodies), r.confidence});
    }
  }

  void rules() {
    for (size_t j = 0; j < made.size(); ++j) {
      for (const JointRule& r : made[j].rules) {
        auto same = std::find_if(assembly().rules.begin(), assembly().rules.end(), [&](const TradeRule& t) {
          return t.name == r.name && t.operationsFirst == existing(r.operationsFirst);
        });
        if (same == assembly().rules.end()) {
          TradeRule rule{r.name, r.source, {}, existing(r.operationsFirst), {}, r.because, {}, r.confidence};
          if (r.wholeUnitFirst) rule.bodiesFirst = membersWithin(units[j]);
          assembly().rules.push_back(std::move(rule));
          same = assembly().rules.end() - 1;
        }
        for (const std::string& key : r.operationsThen) join(same->operationsThen, key);
        join(same->bodiesThen, bodiesOf(r.piecesThen));
      }
    }
  }
};

}  // namespace

std::vector<Diagnostic> linkAssembly(const SettingOut& work, const std::vector<JointWork>& made,
                                     const std::vector<int>& units, const std::vector<StagedRecipe>& recipes,
                                     CutWork& out) {
  Linker linker{work, made, units, recipes, out};
  linker.unitsAndPivots();
  linker.bodies();
  linker.statements();
  linker.operations();
  linker.rules();
  linker.ruleMarks();
  addStages(work, out.assembly);
  return linker.faults;
}

}  // namespace dryfit
