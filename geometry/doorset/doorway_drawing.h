// Private to doorset: what the files that set a doorway out share.
//
// World: X = 0 the doorway's middle, Y = 0 the front finished face, Z = 0 the finished floor at its
// highest under the doorway.
#pragma once

#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "doorset/doorway_spec.h"

namespace dryfit {

/// One upright side of the doorway.
struct DoorSide {
  const char* name;  ///< "hanging", "closing"
  double sign;       ///< of its X
};
/// One face of the wall.
struct WallFace {
  const char* name;  ///< "front", "back"
  bool front;
  double out() const { return front ? -1 : 1; }  ///< sign of the way it looks along Y
};

/// Where a rule of the site comes from.
struct RuleSource {
  const char* name;  ///< empty for common practice
  Confidence confidence;
};

struct DoorwayDrawing {
  const DoorSetSpec& set;
  const LeafSpec& leaf;
  const DoorwaySpec& door;
  Openings open;
  SettingOut work{};
  std::vector<Diagnostic> faults{};

  explicit DoorwayDrawing(const DoorSetSpec& spec)
      : set(spec), leaf(spec.leaf), door(*spec.doorway), open(openingsOf(spec)) {}

  std::array<DoorSide, 2> sides() const {
    const double hanging = leaf.hand == Hand::Left ? -1 : 1;
    return {{{"hanging", hanging}, {"closing", -hanging}}};
  }
  static std::array<WallFace, 2> faces() { return {{{"front", true}, {"back", false}}}; }
  const Size& finish(const WallFace& f) const {
    return f.front ? door.wall.finishFront : door.wall.finishBack;
  }

  /// The wall's own faces, and the finished ones.
  double wallY(const WallFace& f) const {
    return door.wall.finishFront.mm + (f.front ? 0 : door.wall.thickness.mm);
  }
  double faceY(const WallFace& f) const { return f.front ? 0 : finishedDepth(); }
  double finishedDepth() const {
    return door.wall.finishFront.mm + door.wall.thickness.mm + door.wall.finishBack.mm;
  }
  /// The lining's outside, the inner edges of the grounds and the faces of the backings: distance from the
  /// middle, and height.
  double liningOuter() const { return liningInner() + door.lining.thickness.mm; }
  double liningTop() const { return liningSoffit() + door.lining.thickness.mm; }
  /// The lining's own faces towards the doorway, on the land.
  double liningInner() const { return (isPlain() ? open.betweenRebates : open.passage) / 2; }
  double liningSoffit() const { return isPlain() ? open.headRebate : open.passageHeight; }
  bool isPlain() const { return door.lining.form == LiningForm::Plain; }
  double innerOfGrounds() const { return liningOuter() + door.lining.packing.mm; }
  double topOfGroundsInner() const { return liningTop() + door.lining.packing.mm; }
  double wallEnd() const { return open.wall / 2 + door.wall.beyond.mm; }
  double wallTop() const { return open.wallHeight + door.wall.above.mm; }

  /// Ids that begin so, in file order.
  std::vector<std::string> idsOf(const std::string& head) const;
  bool hasMember(const std::string& id) const { return findMember(work, id).has_value(); }
  /// Backing of a side ("hanging") in whose length a height lies; empty when there is none.
  std::string backingAt(const std::string& side, double heightMm) const;
  /// What bounds the opening in the wall at a side or at the "head".
  std::vector<std::string> wallBeside(const std::string& part) const;

  /// Height of the floor at a distance from the middle: level but between the lining's jambs.
  double floorAt(double x) const;
  double floorDrop() const { return std::abs(door.wall.floorFall.mm); }
  bool floorFalls() const { return floorDrop() > 0; }
  double lowSide() const { return sides()[door.wall.floorFall.mm < 0 ? 0 : 1].sign; }  ///< sign of its X

  int unit(const std::string& name, const std::string& parent, bool keepHorns = false);
  Member& member(const std::string& id, const std::string& name, const Placement& orientation,
                 const std::string& unit, const SourcePlace& where);
  /// Sizes and place of a member from its box in the world: length, width and thickness as its axes lie.
  static void place(Member& member, const Box3& box);
  Member& formed(const std::string& id, const std::string& name, const std::string& material,
                 const Box3& box);
  void mark(const std::string& kind, std::vector<KeyValue> given, const SourcePlace& where,
            const std::string& path);
  /// `piece` planted or laid on `to` and nailed, nails listed; all marks of one group in one go.
  void nailed(const std::string& piece, const std::string& to, bool planted, const std::string& group,
              const std::string& groupText, const SourcePlace& where, const std::string& path);
  /// `piece` lies against faces of these, unfixed.
  void laidOn(const std::string& piece, std::vector<std::string> on, const SourcePlace& where,
              const std::string& path);
  /// The same, nailed down; all of one group in one go.
  void nailedOn(const std::string& piece, std::vector<std::string> on, const std::string& group,
                const std::string& groupText, const SourcePlace& where, const std::string& path);
  void rule(const std::string& name, const RuleSource& source, const std::string& because,
            std::vector<std::string> first, std::vector<std::string> then);
  void task(Operation::Kind kind, const std::string& key, const std::string& unit,
            std::vector<std::string> members, const std::string& text, const std::string& caution = "");
  void stage(const std::string& name, const std::string& unit, std::vector<std::string> about,
             std::vector<std::string> events = {});

  static KeyValue key(const std::string& name, const std::string& value) { return {name, value, {}, {}}; }
  static KeyValue key(const std::string& name, const char* value) {
    return {name, std::string(value), {}, {}};
  }
  static KeyValue key(const std::string& name, double value) { return {name, value, {}, {}}; }
  static KeyValue key(const std::string& name, bool value) { return {name, value, {}, {}}; }
};

/// Piece axes of what stands upright or lies level in a face of the wall, its face looking out of it.
Placement uprightIn(const WallFace& face);
Placement levelIn(const WallFace& face);
/// Of what lines the opening, its face towards the doorway: grain up, along X, or into the wall.
Placement jambAxes(double sideSign);
Placement headAxes();
Placement backingAxes(double sideSign);
Placement headBackingAxes();

void setOutWall(DoorwayDrawing& d);
void setOutGrounds(DoorwayDrawing& d);
void setOutBackings(DoorwayDrawing& d);
void setOutFinish(DoorwayDrawing& d);
void setOutLining(DoorwayDrawing& d);
void setOutPacking(DoorwayDrawing& d);
/// What the lining is nailed to and lies against.
void fixLining(DoorwayDrawing& d);
void setOutStops(DoorwayDrawing& d);
void setOutHanging(DoorwayDrawing& d);
void setOutTrim(DoorwayDrawing& d);
/// Stages, checks, waits and rules of the trade of the site.
void setOutSite(DoorwayDrawing& d);

}  // namespace dryfit
