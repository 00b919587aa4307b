// The leaf of a door set as its file asks for it, every size resolved: what was given, what a rule or a
// default of the trade puts in its place, each with its source. Plain data; leaf heights are above the leaf's
// bottom, horns off.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "settingout/setting_out.h"

namespace dryfit {

/// A size in force and where it comes from.
struct Size {
  enum class From { Default, Rule, Given };
  double mm = 0;
  From from = From::Default;
  std::string source;  ///< of a default or rule: author and place, or "common practice"
};

enum class Hand { Left, Right };  ///< hanging side seen from the front

struct LeafRail {
  std::string name;  ///< "top", "middle" ...; ids are leaf.rail.NAME
  Size width, topEdge;
  std::vector<KeyValue> joint;                  ///< keys for its joints, over the leaf's own
  std::array<std::vector<KeyValue>, 2> ends{};  ///< and over those: at the hanging, the closing stile
  SourcePlace where;
};

struct LeafMuntin {
  Size width, centre;  ///< centre from the leaf's hanging edge
};

/// What stands between two rails, counted from the top.
struct LeafRow {
  Size height{};                    ///< between the rails' edges
  std::vector<LeafMuntin> muntins;  ///< from the hanging side
  std::vector<KeyValue> stub;       ///< keys of its muntins' stub tenons
  SourcePlace where;
};

/// Planted mouldings round the panels.
struct LeafMoulding {
  bool planted = true;
  std::string profile;  ///< by name; "moulding" when it is listed point by point
  Profile path;         ///< drawn to width and thickness, as moulding_profiles.h has it
  Size width, thickness;
  std::optional<Size> radius;  ///< where the section has one
  bool front = true, back = true;
  std::vector<KeyValue> nails;  ///< keys for the nails that hold them
  SourcePlace where;
};

struct LeafSpec {
  std::string title, file;
  SourcePlace where;
  Hand hand = Hand::Left;
  LengthUnit lengths = LengthUnit::Millimetre;  ///< of the file's bare numbers
  Size width, height, thickness, hangingStile, closingStile, horns, underLeaf;
  Size closingBevel;  ///< the closing edge's back (the stop side) narrower by this; 0: square
  SourcePlace closingBevelAt;
  Size gap;                     ///< between leaf and lining, at the sides and above
  std::string opens;            ///< "inside" or "outside": the side of the wall that is the front
  double openingAngleDeg = 90;  ///< fully open
  std::vector<LeafRail> rails;  ///< from the top
  std::vector<LeafRow> rows;    ///< one fewer than rails
  std::vector<KeyValue> tenon;  ///< keys for every mortise-and-tenon joint
  std::vector<KeyValue> panel;  ///< keys for every panel: kind, faces, groove, clearances
  bool panelGrainUpright = true;
  LeafMoulding moulding;
  std::string timber;                                    ///< of stiles, rails and muntins
  std::string panelTimber, wedgeTimber, mouldingTimber;  ///< wedgeTimber empty: as the joint has it by itself
  Sawn framing = Sawn::Quarter, panels = Sawn::Plain;
  Moisture moisture;
};

/// Sight width or height of a panel: under it there is nothing to look at.
inline constexpr double kLeastPanelMm = 30;

/// Width of the grooves, through the thickness.
double grooveThickness(const LeafSpec& leaf);
/// Is this face of the panels flush with the framing?
bool isFlush(const LeafSpec& leaf, bool front);

/// The setting-out of the leaf on its bench: stiles, rails, muntins, panels, mouldings and the joints between
/// them.
/// Fails: BadInput in the trade's words, each with its place in the file, when the sizes cannot be made
/// together.
Result<SettingOut> setOutLeaf(const LeafSpec& leaf);

}  // namespace dryfit
