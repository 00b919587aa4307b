// The doorway of a door set round its leaf, every size resolved: what was given, what a rule or a default of
// the trade puts in its place, each with its source. Plain data.
//
// World: X = 0 the middle of the doorway, Y = 0 the front finished face, Z = 0 the finished floor at its
// highest under the doorway. Heights of hinges and lock are above the leaf's bottom, horns off, as all leaf
// heights.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "doorset/leaf_spec.h"

namespace dryfit {

enum class WallKind { Brick, Block, Stud };
/// Which faces of the lining's jambs and head are rebated; Plain: planted stops.
enum class LiningForm { Double, Single, Plain };

struct WallSpec {
  WallKind kind = WallKind::Brick;
  std::vector<Size> measured;        ///< its thickness as given, one to three places
  Size thickness;                    ///< bare: the greatest of them
  Size finishFront, finishBack;      ///< plaster; boarding on a stud wall
  Size beyond, above;                ///< shown beyond the opening in the wall at each side, and above it
  Size stud, studPitch;              ///< width of studs along the wall, and between their centres
  Size floorThickness, floorBeyond;  ///< shown beyond each face of the wall
  Size floorFall;                    ///< over the opening in the wall, from the hanging to the closing side
  SourcePlace where;

  double unevenMm() const;  ///< between the greatest and the least measured
};
/// More than this between the places measured is made up before the wall is finished, not in its plaster:
/// common practice.
inline constexpr double kUnevenWallMm = 25;

struct GroundsSpec {
  Size width;                   ///< at the room face
  Size splay;                   ///< the back's outer arris is nearer the opening by this
  std::string corner;           ///< "haunched": head tenoned into the jambs; "butted": between them, nailed
  Size tenon;                   ///< thickness of the tenon, central
  Size haunch;                  ///< its projection
  Size horns;                   ///< of the jambs, cut off when the frame is fixed
  Size proud;                   ///< tenons and wedges left long until cleaned off
  std::vector<KeyValue> nails;  ///< keys for the nails that hold them
  SourcePlace where;
};

/// One backing of a jamb: its middle above the finished floor, and its size along Z.
struct BackingPlace {
  double centreMm = 0, lengthMm = 0;
  std::string why;  ///< "hinge 1", "the lock", "the pitch"
};

struct BackingSpec {
  Size width, thickness;
  double slope = 1.0 / 6;             ///< tangent
  Size slopeFrom;                     ///< where `slope` comes from; mm is the slope
  Size pitch;                         ///< at most this between centres
  std::optional<int> count;           ///< given: so many at each jamb, evenly
  std::vector<BackingPlace> places;   ///< of each jamb, from the floor
  std::vector<double> headCentresMm;  ///< X of those over the head, from -X
  SourcePlace where;
};

struct StopSpec {
  Size width, thickness;        ///< on the lining, off it
  std::vector<KeyValue> nails;  ///< keys for the nails that hold them
  SourcePlace where;
};

struct LiningSpec {
  LiningForm form = LiningForm::Double;
  Size thickness, rebateDepth;
  Size rebateWidth;              ///< along Y: the leaf's thickness and a little
  Size width;                    ///< through the wall: ground face to ground face
  std::string headJoint;         ///< "trenched", "housed", "rebated"
  Size headDepth;                ///< of the trench (= rebate depth) or the housing
  Size tongue;                   ///< thickness of the barefaced tongue
  Size horns;                    ///< of the head, cut flush before the lining goes in
  Size packing;                  ///< behind it at each backing, folding; 0: none
  bool stretcher = true;         ///< tacked across the feet until it is fixed
  std::optional<StopSpec> stop;  ///< of a plain lining
  std::vector<KeyValue> nails;   ///< keys for the nails that hold it
  SourcePlace where;

  double landMm() const {
    return width.mm - (form == LiningForm::Plain ? 0 : form == LiningForm::Single ? 1 : 2) * rebateWidth.mm;
  }
};

struct HingeSpec {
  std::string rule;           ///< "british" ...; "given" where the file gives the places
  std::vector<Size> centres;  ///< above the leaf's bottom, from the top hinge down
  Size height, width;         ///< of a plate; from the pin's axis to its edge
  Size plate;                 ///< thickness of a plate
  Size pin;                   ///< its diameter
  Size barrel;                ///< diameter of the knuckles: closed, both plates and what is between
  Size proud;                 ///< the pin's centre in front of the leaf's face
  Size letIn;                 ///< of the leaf's plate in the stile's edge; the rest is let into the jamb
  Size jambLetIn;
  int knuckles = 5;  ///< odd; the jamb has the outer ones
  int screws = 5;    ///< in each plate
  bool staggered = true, countersunk = true, loosePin = false;
  Size screwDiameter, screwLength, screwHead;
  SourcePlace where;
};

struct LockSpec {
  Size height;  ///< middle of the case
  Size caseHeight, caseDepth, caseThickness;
  Size backset;  ///< from the closing edge to the spindle
  Size spindle;  ///< diameter of its hole
  Size forendHeight, forendWidth, forendThickness;
  Size keepHeight, keepWidth, keepThickness;
  SourcePlace where;
};

struct TrimSpec {
  bool front = true, back = true;
  std::string profile;  ///< by name; "architrave" / "skirting" when listed point by point
  Profile path;         ///< drawn to width and thickness; as moulding_profiles.h has it
  Size width, thickness;
  std::optional<Size> radius;
  std::vector<KeyValue> nails;  ///< keys for the nails that hold them
  SourcePlace where;
};
struct ArchitraveSpec : TrimSpec {  ///< width: at the front
  Size margin, lap;
  Size widthBack;
  Profile pathBack;
};
using SkirtingSpec = TrimSpec;  ///< width: its height

struct DoorwaySpec {
  WallSpec wall;
  std::optional<GroundsSpec> grounds;
  std::optional<BackingSpec> backings;
  LiningSpec lining;
  HingeSpec hinges;
  std::optional<LockSpec> lock;
  std::optional<ArchitraveSpec> architraves;
  std::optional<SkirtingSpec> skirtings;
  std::string groundTimber, liningTimber, trimTimber;
};

/// A door set: its leaf and, where the file does not ask for the leaf alone, the doorway.
struct DoorSetSpec {
  LeafSpec leaf;
  std::optional<DoorwaySpec> doorway;
};

/// The chain of sizes from the leaf outwards, each "opening" of the trade by its own name.
struct Openings {
  double betweenRebates = 0, passage = 0, wall = 0;          ///< widths
  double headRebate = 0, passageHeight = 0, wallHeight = 0;  ///< above the finished floor
  double visibleFront = 0, visibleBack = 0;                  ///< between the lining's arrises at each face
  double visibleFrontHeight = 0, visibleBackHeight = 0;
};
Openings openingsOf(const DoorSetSpec& set);

/// The setting-out of the whole: wall and grounds, backings, lining, leaf, hinges, lock, trim; of the leaf
/// alone where there is no doorway. Fails: BadInput in the trade's words, each with its place in the file,
/// when the sizes cannot be made together.
Result<SettingOut> setOutDoorSet(const DoorSetSpec& set);

}  // namespace dryfit
