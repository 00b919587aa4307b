// Setting-out: the work drawn full size before timber is cut, as plain data. Members with their sections and
// places, the marks of the joints between them, units, stages. No kernel, no kind of joint known by name.
//
// World axes: X to the right seen from the front, Y into the wall, Z up. Millimetres, radians.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/assembly.h"
#include "base/placement.h"
#include "base/profile.h"
#include "base/result.h"
#include "base/units.h"

namespace dryfit {

/// What a key of a joint may hold.
enum class KeyType { Length, Number, Whole, Flag, Word, Slope, Member, Members, Species };

/// One key of a kind of joint, as the reader checks it and the manual prints it.
struct KeySpec {
  std::string name;
  KeyType type = KeyType::Length;
  bool needed = false;
  std::string standard;  ///< the default in words ("by rule: half the rail"), for messages and the manual
  std::string about;     ///< one line
  double least = 0, most = 1e5;  ///< allowed range of Length (mm), Number, Whole
  std::vector<std::string>
      words;           ///< allowed words; with "length" among them a Flag takes a length (haunch = 12) too
  std::string source;  ///< author and place of the default, or "common practice"
};

/// A kind of joint as the reader sees it: its name in the file and its keys.
struct KindSpec {
  std::string name;
  std::string about;
  std::vector<KeySpec> keys;
  std::vector<std::string> aliases;  ///< other names the file may use
};

/// A value given for a key. Lengths are in mm already, slopes are the tangent (1:6 is 1/6).
struct KeyValue {
  std::string key;
  std::variant<double, bool, std::string, std::vector<std::string>> value;
  SourcePlace where;
  std::string path{};  ///< what a template's file calls it: "leaf.tenon.thickness"; empty in a work file
};

/// The value given for a key; null when there is none.
const KeyValue* findKey(const std::vector<KeyValue>& given, const std::string& key);

/// One [[joint]] of the file: its kind and what was given for it, each key checked against its KeySpec.
struct JointMark {
  std::string kind;
  std::vector<KeyValue> given;
  SourcePlace where;
  int position = 0;    ///< 0, 1, 2 ... in file order
  std::string path{};  ///< of what a template's file says made it: "leaf.row[1]"; empty in a work file

  /// Marks of one group are fastened in one go, told by these words; empty: each by itself.
  std::string group{}, groupText{};

  const KeyValue* find(const std::string& key) const;
  std::optional<double> number(const std::string& key) const;
  std::optional<bool> flag(const std::string& key) const;
  std::optional<std::string> word(const std::string& key) const;
  std::vector<std::string> words(const std::string& key) const;
  /// Where a key stands in the file, or the joint itself when it was not given.
  SourcePlace placeOf(const std::string& key) const;
};

/// How a member's timber was sawn: which way its width moves most.
enum class Sawn { Plain, Quarter };

/// A section run along a member, its path as moulding_profiles.h has it.
struct RunProfile {
  std::string name;  ///< of its faces: "ovolo"
  Profile path;
  bool backAtHighEdge = false;  ///< the back edge is the one at +y of the piece, else at -y
};

/// An edge to be planed to a bevel over the whole thickness: at one face it stays where it is, at the other
/// it lies `lossMm` further in.
struct BevelMark {
  Vec3 towards;  ///< which edge: the way it looks, world
  double lossMm = 0;
  bool backNarrower = true;  ///< else the face that shows is the narrower
  SourcePlace where;
  std::string path;    ///< what the file calls it: "member[2].bevel", "leaf.closing_bevel"
  bool first = false;  ///< worked before the unit goes together; else when it is cleaned off
};

/// A rebate along the whole of the face that shows, at one of its edges, there before any joint is cut.
struct RebateMark {
  Vec3 towards;        ///< which edge: the way it looks, world
  double depthMm = 0;  ///< through the thickness, from the face
  double widthMm = 0;  ///< across, from the edge
  SourcePlace where;
  std::string path;  ///< what the file calls it: "member[2].rebate", "lining.rebate"
};

/// A horn cut to a slope over the thickness: at one face the cut lies where a square one would, at the other
/// `lossMm` further in.
struct HornSlope {
  double lossMm = 0;
  bool backNarrower = true;  ///< else the face that shows is the shorter
  SourcePlace where;
  std::string path;  ///< what the file calls it: "member[2].horn_slope"
};

/// A part left out of a formed body: all points with dot(normal, p) <= offset for every side. World.
struct FormedOpening {
  struct Side {
    Vec3 normal;  ///< unit, out of the opening
    double offset = 0;
    std::string name{};  ///< of the face it leaves: ROLE.NAME
  };
  std::string role;  ///< "opening"
  std::vector<Side> sides;
};

struct Member {
  std::string id;
  std::string name;                            ///< for people; the id when not given
  std::optional<double> widthMm, thicknessMm;  ///< empty: by rule, from its joints
  /// Exactly one of these, or neither: by rule from the joints at the ends.
  std::optional<double> lengthMm, shoulderMm;
  /// Piece axes in the world: x along the grain (up, to the right, or into the wall), z out of the face that
  /// shows.
  Placement orientation;
  /// The blank's centre in the world. For a member given by its shoulder length, or by rule, the joints
  /// settle the coordinate along the grain: it may be the middle between the shoulders or of the blank.
  /// Empty: by rule.
  std::optional<Vec3> origin;
  double hornLowMm = 0, hornHighMm = 0;  ///< part of the length given, cut off in the last state
  std::optional<HornSlope> hornSlopeLow, hornSlopeHigh;  ///< empty: cut square
  std::optional<RunProfile> profile;                     ///< empty: square
  std::vector<BevelMark> bevels;                         ///< at most one an edge
  std::vector<RebateMark> rebates;                       ///< at most one an edge; roles in joint/rebates.h
  std::string timber;                                    ///< species of the timber table
  Sawn sawn = Sawn::Quarter;
  int unit = 0;
  int position = 0;  ///< file order
  SourcePlace where;
  /// Formed in place (wall, plaster, floor): a box of its width, thickness and length at its origin less its
  /// openings. It never moves, is of no species (`timber` is its material) and on no cutting list.
  bool formed = false;
  std::vector<FormedOpening> openings{};
};

struct UnitMark {
  std::string name;
  int parent = -1;  ///< -1 for the whole work, exactly one
  Placement benchFromWorld;
  bool keepHorns = false;  ///< horns stay on in this unit and are cut in the next one up
  SourcePlace where;
  std::string heldBy{};  ///< as Unit::heldBy
};

struct StageMark {
  std::string name;
  int unit = 0;
  std::vector<std::string> events;
  std::vector<std::string> about{};  ///< as Stage::about
};

/// Something to be done that no joint brings: a check, a wait, something put up for a while and taken down
/// again.
struct TaskMark {
  Operation::Kind kind = Operation::Kind::Check;  ///< Fasten, Check, Trim or Wait; brings no piece
  std::string key;                                ///< unique in the work
  int unit = 0;
  std::vector<std::string> members;  ///< ids of what it is about; they are in place before
  std::string text, caution;
};

/// A rule of the trade on top of those the joints bring. Names are ids of pieces, names of units, keys of
/// tasks and of joints' operations; those that are not there ask for nothing, or are a fault of the file that
/// named them.
struct RuleMark {
  std::string name, source, because;  ///< source: empty for common practice
  std::vector<std::string> first, then;
  Confidence confidence = Confidence::CommonPractice;  ///< of the source
  SourcePlace where{};                                 ///< of a file that gives the rule itself, else none
  std::string path{};                                  ///< what that calls it: "rule[1]"
};

/// Moisture of the timber, per cent: when fitted, and the range it will live in.
struct Moisture {
  double fitted = 12, least = 8, most = 14;
};

struct SettingOut {
  std::string title;
  std::string file;
  LengthUnit lengths = LengthUnit::Millimetre;  ///< of the file's bare numbers; everything here is in mm
  std::vector<Member> members;
  std::vector<JointMark> joints;
  std::vector<UnitMark> units;    ///< parents before children; the first is the whole work
  std::vector<StageMark> stages;  ///< empty: by rule
  std::vector<TaskMark> tasks;
  std::vector<RuleMark> rules;
  Moisture moisture;
};

/// Index of the member with this id.
std::optional<int> findMember(const SettingOut& work, const std::string& id);
/// Index of the unit with this name.
std::optional<int> findUnit(const SettingOut& work, const std::string& name);

}  // namespace dryfit
