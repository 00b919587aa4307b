// The assembly: what fit, planner and checks see of a work. Plain values only: bodies as planning meshes with
// their states and places, what each joint states (contacts, gaps, flush faces), bonds, units, operations. It
// knows no kind of joint, no door and no kernel; ids are names, never meaning.
//
// World axes, millimetres, radians, everything at home.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/confidence.h"
#include "base/placement.h"
#include "base/planning_mesh.h"

namespace dryfit {

/// One leg of a path, outside to home.
struct Leg {
  enum class Kind { Straight, Turn, Screw };
  Kind kind = Kind::Straight;
  Vec3 direction{0, 0, 1};  ///< unit: the way of travel, or the axis of a turn or screw
  double travelMm = 0;      ///< straight and screw
  Vec3 through;             ///< a point of the axis: turn and screw
  double angleRad = 0;      ///< turn and screw, right-hand rule
};

/// A piece between two trims: its shape then. States stand in time order; the last one stands when all is
/// done.
struct BodyState {
  std::string name;
  std::shared_ptr<const PlanningMesh> mesh;  ///< in the piece's frame
  std::optional<double> massKg{};            ///< empty: what it is made of has no known density
};

struct Body {
  std::string id;
  std::string name;  ///< for people: "top rail"
  int unit = 0;      ///< index into Assembly::units: the unit whose own piece it is
  int position = 0;  ///< place in the file; breaks ties, a joint's own pieces stand right after its members
  bool formed = false;
  bool planted = false;  ///< goes on the finished work: told in a stage of its own, "plant"
  Placement worldFromPiece;
  std::vector<BodyState> states;  ///< at least one
};

/// Unit tree. Exactly one has no parent (-1): the whole work. Its place on the bench is a proper motion.
struct Unit {
  std::string name;
  int parent = -1;
  Placement benchFromWorld;
  /// What carries it for a while, set in its place in its parent, until it is bonded there or turned: "wedges
  /// under its bottom edge". Empty: what it touches there.
  std::string heldBy{};
  /// How sentences call a unit that no file lists, made up by the planner: "the made-up top and left". Else
  /// empty: by its name.
  std::string spoken{};
};

/// A range of states of one piece in which a statement holds; default: in every state.
struct StateRange {
  int first = 0, last = 1 << 20;
  bool holds(int state) const { return state >= first && state <= last; }
};

/// Faces of two pieces that must touch over a stated area. Equal (a, b, roles) of several joints add up.
struct ExpectedContact {
  std::string joint;
  int a = 0, b = 0;  ///< indices into Assembly::bodies
  std::string roleA, roleB;
  double areaMm2 = 0;
  StateRange statesA, statesB;
};

/// Two parallel faces, looking at each other, that must stand apart by a stated distance.
struct ExpectedGap {
  std::string joint, what;  ///< what: in the trade's words, "clear of the groove's bottom"
  int a = 0, b = 0;
  std::string roleA, roleB;
  double statedMm = 0;
  StateRange statesA, statesB;
};

/// Two faces, looking the same way, that must lie in one plane, or b's `statedMm` beyond a's along the
/// normal.
struct ExpectedFlush {
  std::string joint, what;
  int a = 0, b = 0;
  std::string roleA, roleB;
  double statedMm = 0;
  StateRange statesA, statesB;
};

/// Joins pieces rigidly from its operation on.
struct Bond {
  std::string kind;          ///< "glue", "nail", "screw", "pin" ...
  std::vector<int> between;  ///< body indices
};

/// A piece takes its next state: from `state` to `state + 1`.
struct StateChange {
  int body = 0;
  int from = 0;
};

/// A line about which some bodies turn as one: a leaf on its hinges, a hinge's plate about its pin. At home
/// it stands at 0; open is a turn about `axis` by the right-hand rule. Poses are told as NAME.opening_deg.
struct Pivot {
  std::string name;  ///< "leaf", "hinge.1"
  Vec3 through, axis{0, 0, 1};
  double openRad = 0;       ///< full opening, signed
  std::vector<int> bodies;  ///< those that turn
};

/// A pivot turned from one angle to another, signed as Pivot::openRad.
struct TurnBy {
  int pivot = 0;
  double fromRad = 0, toRad = 0;
};

/// Something done besides putting a member in its place. The planner turns operations and pieces into steps.
struct Operation {
  enum class Kind { Drive, Fasten, Glue, Trim, Form, Turn, Check, Wait };
  Kind kind = Kind::Drive;
  std::string key;  ///< unique name, for precedence and messages; never printed as meaning
  int unit = 0;
  int position = 0;  ///< file position for ties, as Body::position
  std::vector<int>
      bodies;  ///< drive, fasten: the pieces that go in, with the same legs; else the pieces it is about
  std::optional<Vec3> way;  ///< drive: the direction of travel towards home, unit, tried first; told as if
                            ///< all were at home, it turns with what it drives
  /// Drive, fasten: over 0, each piece is screwed home, a turn every so many mm, about its own X axis.
  double pitchMm = 0;
  std::vector<StateChange> changes;
  std::vector<Bond> bonds;
  std::vector<std::string> joints;
  std::vector<int> after;  ///< bodies that must be in place before, by the nature of the thing (a driven
                           ///< wedge needs its tenon and its mortise): holds even when rules are left out
  std::vector<std::string> afterOperations;  ///< keys of operations that must be done before, likewise
  bool assembles = false;  ///< part of putting the members together (dowels): told in that stage, like a fit
  std::string text;        ///< what to do, a sentence
  std::string caution;     ///< may be empty
  /// Of a Turn. From it on, on the same bench, its pivot stands at `toRad`; before the first turn of a pivot
  /// on a bench it stands at that one's `fromRad`; on a bench without one at home. When a bench is done every
  /// pivot is at home.
  std::optional<TurnBy> turn{};
};

/// A rule of the trade: operation or piece `before` goes before `after`. Left out with --by-shape. Operations
/// go by their keys; a piece's id or a unit's name stands for its going in, with the sub-unit it is within.
/// Names that are not there ask for nothing.
struct TradeRule {
  std::string name;                          ///< "wedge after cramping and squaring"
  std::string source;                        ///< author and place; empty for common practice
  std::vector<int> bodiesFirst;              ///< bodies that must be home first ...
  std::vector<std::string> operationsFirst;  ///< ... and operations that must be done first ...
  std::vector<std::string> operationsThen;   ///< ... before any of these operations
  std::string because;                       ///< the reason, a sentence for a learner
  std::vector<int> bodiesThen{};             ///< bodies that come in only after, besides operationsThen
  Confidence confidence = Confidence::CommonPractice;  ///< of the source
};

/// How a member goes into its place in a joint, told as the way `mover` travels towards home relative to
/// `stays`.
struct FittingPath {
  std::string joint;
  int mover = 0, stays = 0;
  std::vector<Leg> legs;
};

/// Stands in a stage's events for all that is done to planted pieces, fit and fasten alike.
inline constexpr const char* kPlantStage = "plant";

struct Stage {
  std::string name;
  int unit = 0;
  std::vector<std::string> events;  ///< event names that fall in it; empty as `about` too: all of the unit's
  /// Ids of pieces, names of units and keys of operations that fall in it; goes before `events`.
  std::vector<std::string> about{};
};

struct Assembly {
  std::string title;
  std::vector<Body> bodies;
  std::vector<Unit> units;
  std::vector<Stage> stages;
  std::vector<ExpectedContact> contacts;
  std::vector<ExpectedGap> gaps;
  std::vector<ExpectedFlush> flushes;
  std::vector<FittingPath> paths;
  std::vector<Pivot> pivots;
  std::vector<Operation> operations;
  std::vector<TradeRule> rules;
  /// Joint id and the bodies it is about (members and its own pieces), in file order.
  struct JointBodies {
    std::string id;
    std::vector<int> bodies;
  };
  std::vector<JointBodies> joints;
};

}  // namespace dryfit
