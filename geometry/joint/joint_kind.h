// The one small interface behind which every kind of joint stands. A kind is one file: what it announces
// before the blanks are known, and what it makes once they are: features on its members, its own pieces,
// contacts, gaps, legs, bonds, operations, rules, dimensions. Nothing outside knows a kind by name.
//
// World axes and millimetres, unless a type says it is in a piece's frame.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"
#include "piece/recipe.h"
#include "settingout/setting_out.h"

namespace dryfit {

/// A groove along a member's edge, in the member's frame; z as in feature Groove.
struct GrooveWork {
  int member = 0;
  Towards edge = Towards::High;
  double depthMm = 0;
  Span z;
  friend bool operator==(const GrooveWork&, const GrooveWork&) = default;
};

/// The groove along one edge of a member, if there will be one.
struct GrooveRef {
  int member = 0;
  Towards edge = Towards::High;
};

/// What a joint adds beyond a member's shoulder.
struct EndWork {
  int member = 0;
  Towards end = Towards::High;
  double shoulderMm = 0;  ///< world coordinate of the shoulder along the member's own x axis (dot with xAxis)
  double beyondMm = 0;    ///< blank needed beyond the shoulder, proud part included
  double proudMm = 0;
  std::optional<GrooveRef>
      fills{};  ///< the end fills this groove: its depth is needed beyond, besides beyondMm
  /// The end is cut on a slant over the whole width, nothing of its own face is left: the edge that becomes
  /// shorter, by the width.
  std::optional<Towards> slantTo{};
};

/// Sizes a joint gives to a member that leaves them to the rule. Empty ones are not ruled by this joint.
struct SizeWork {
  int member = 0;
  std::optional<double> lengthMm, widthMm, thicknessMm;
  std::optional<Vec3> centre;  ///< world
};

struct Announcement {
  std::vector<GrooveWork> grooves;
  std::vector<EndWork> ends;
  std::vector<SizeWork> sizes;
};

/// A member once its blank is known.
struct LaidMember {
  Vec3 blankMm;  ///< length, width, thickness
  Placement worldFromPiece;
  std::vector<GrooveWork> grooves;                    ///< each edge's groove once
  Span finishedX;                                     ///< along x without the horns, piece frame
  std::array<std::optional<Towards>, 2> endSlants{};  ///< low, high end: as EndWork::slantTo
};

/// A change of state that joints share by its key; pieces touched by it take the state it names.
struct StateKey {
  std::string key;  ///< unique in the work, e.g. "clean-off:frame"
  int order = 0;    ///< time order of a piece's changes in a unit: drawn 10, cleaned off 20, horns off 30
  std::string stateName;  ///< what the piece is called after it: "tenons flush"
};

/// A feature with a life: present from one change on, until another. Empty: from the start, to the end.
struct StagedFeature {
  Feature feature;
  std::optional<StateKey> from, until;
};

/// A piece a joint brings: wedge, pin.
struct OwnPiece {
  std::string id, name, material;
  bool fastening = false;
  std::optional<double> densityKgM3{};  ///< of what is not timber; empty: the timber table's
  Placement worldFromPiece;
  Recipe recipe;  ///< without staged features
  std::vector<StagedFeature> staged;
  std::string unit{};  ///< whose own piece it is, by name; empty: the joint's unit
};

/// Contact, gap or flushness between pieces named by id; holds in the last states unless said otherwise.
struct FaceRef {
  std::string id, role;
};
struct JointContact {
  std::string joint;
  FaceRef a, b;
  double areaMm2 = 0;
  std::string bUntil{};  ///< key of the change of b's state that ends it; empty: it holds in every state
  std::string bFrom{};   ///< key of the change of b's state that brings it
  /// The area is worked out from what all joints' features leave of the two members' flat sides, state by
  /// state (laid_contacts.h); both roles are blankFace(). `areaMm2` is not read.
  bool bySides = false;
};
/// A piece laid against another, wherever their flat faces meet; the areas are worked out as for bySides.
struct JointLaid {
  std::string joint, piece, on;
};
struct JointGap {
  std::string joint, what;
  FaceRef a, b;
  double statedMm = 0;
};
struct JointFlush {
  std::string joint, what;
  FaceRef a, b;
  double statedMm = 0;
  std::string bUntil{}, bFrom{};  ///< as JointContact
};

/// An operation by ids. Operations of several joints with one key are one: their lists are joined.
struct JointOperation {
  Operation::Kind kind = Operation::Kind::Drive;
  std::string key;
  std::vector<std::string> pieces;  ///< of a Check: what it is about; none: all members of the unit, in place
  std::optional<Vec3> way;
  double pitchMm = 0;  ///< as Operation::pitchMm
  struct Change {
    std::string piece;
    StateKey state;
  };
  std::vector<Change> changes;
  struct BondOf {
    std::string kind;
    std::vector<std::string> between;
  };
  std::vector<BondOf> bonds;
  std::vector<std::string> after;            ///< piece ids
  std::vector<std::string> afterOperations;  ///< keys
  std::string text, caution;
  std::string joint;       ///< the joint it belongs to
  std::string group{};     ///< a name by which rules speak of several operations; empty: none
  bool assembles = false;  ///< as Operation::assembles
  std::string unit{};      ///< on whose bench, by name; empty: the joint's unit
  /// Of a Turn: the pivot by name, angles as TurnBy.
  struct Turn {
    std::string pivot;
    double fromRad = 0, toRad = 0;
  };
  std::optional<Turn> turn{};
};

/// A pivot by ids; those of one name are one, their lists are joined. What turns: `pieces`, and all within
/// `unit` but `stays`.
struct JointPivot {
  std::string name;
  Vec3 through, axis{0, 0, 1};
  double openRad = 0;
  std::vector<std::string> pieces;
  std::string unit{};  ///< by name, sub-units and their pieces too
  std::vector<std::string> stays{};
};

struct JointRule {
  std::string name, source, because;                   ///< source: empty for common practice
  Confidence confidence = Confidence::CommonPractice;  ///< of the source
  bool wholeUnitFirst = false;  ///< all members of the joint's unit are to be home first
  std::vector<std::string> operationsFirst, operationsThen;  ///< keys; first also groups
  std::vector<std::string> piecesThen{};  ///< pieces that go in only after, besides operationsThen
};

struct JointPath {
  std::string joint, mover, stays;
  std::vector<Leg> legs;
};

/// A size worth drawing, between two parallel faces; a test measures it on the solids.
struct Dimension {
  std::string joint, what;  ///< "tenon width"
  FaceRef from, to;
  double statedMm = 0;
};

/// A size in force, as it was given or as the joint's rule has it: what `dryfit explain` prints.
struct JointSize {
  enum class Unit { Length, Count, Slope };
  std::string of;     ///< the member it belongs to: the tenoned one, the panel
  std::string joint;  ///< joint id; empty: it holds for every joint of this mark
  std::string name;   ///< "tenon_width", "tenon_width.2": unique in the joint
  std::string key;    ///< the key that sets it, whose default and source it follows; empty: nothing sets it
  double value = 0;   ///< mm; a slope as its tangent
  Unit unit = Unit::Length;
  std::string rule{}, source{};  ///< in place of the key's
  std::string word{};            ///< a word in force where the key's default is no plain word; no value then
  int mark = 0;                  ///< index in SettingOut::joints; filled by cutWork()
};

struct JointWork {
  struct Name {
    std::string id;
    std::vector<std::string> pieces;  ///< members first, then its own pieces
  };
  std::vector<Name> joints;  ///< one mark may be several joints (a panel and each member of its frame)
  /// Features for members, by member index.
  std::vector<std::pair<int, StagedFeature>> features;
  /// Better names of a member's own faces: member, blank face index (0..5, Recipe::blankRoles), name.
  struct FaceName {
    int member = 0, face = 0;
    std::string name;
  };
  std::vector<FaceName> faceNames;
  /// Members, by id, whose bevelled edges the joint has allowed for.
  std::vector<std::string> followsBevels;
  /// Members, by index, that are planted on the finished work: squaring up does not wait for them.
  std::vector<int> planted;
  std::vector<OwnPiece> pieces;
  std::vector<JointContact> contacts;
  std::vector<JointLaid> laid;
  std::vector<JointGap> gaps;
  std::vector<JointFlush> flushes;
  std::vector<JointPath> paths;
  std::vector<JointPivot> pivots;
  std::vector<JointOperation> operations;
  std::vector<JointRule> rules;
  std::vector<Dimension> dimensions;
  std::vector<JointSize> sizes;
};

/// What a kind is told. `laid` is empty while announcing.
struct JointContext {
  const SettingOut& work;
  const JointMark& mark;
  const std::vector<LaidMember>& laid;
  std::string unit;  ///< name of the smallest unit that holds all its members
  /// Ids of joints already named, for the "#2" of a second joint between one pair.
  std::function<std::string(const std::string& memberA, const std::string& memberB)> nameJoint;
};

struct JointKind {
  KindSpec spec;
  /// Fails: BadInput in the trade's words when the members cannot be joined so.
  Result<Announcement> (*announce)(const JointContext&);
  Result<JointWork> (*make)(const JointContext&);
};

/// The kinds that ship, in the manual's order.
const std::vector<JointKind>& standardJoints();
/// Their keys, for the reader.
std::vector<KindSpec> keysOf(const std::vector<JointKind>& kinds);

}  // namespace dryfit
