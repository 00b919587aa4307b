// Private to doorset: the doorway's rules, from what the file gives to a DoorwaySpec.
#pragma once

#include <vector>

#include "doorset/doorway_spec.h"
#include "doorset/given_door_set.h"

namespace dryfit {

/// Faults of a completer, each at its place in the file.
struct DoorwayFaults {
  const GivenDoorSet& given;
  std::vector<Diagnostic> all{};

  void add(const std::string& path, std::string message, std::string hint) {
    all.push_back({Fault::BadInput, path, std::move(message), std::move(hint), given.placeOf(path)});
  }
  bool has(const std::string& path) const { return given.given.count(path) > 0; }
  /// Every value given under a table, for parts that are not there.
  void unused(const std::string& table, const std::string& but, const std::string& message,
              const std::string& hint);
};

/// The parts that the doorway has, and every size that follows from no leaf.
DoorwaySpec doorwayParts(const GivenDoorSet& given, DoorwayFaults& faults);

/// The leaf's width and height where an opening is given in their place.
void sizeLeafFromOpening(const GivenDoorSet& given, const DoorwaySpec& parts, LeafSpec& leaf,
                         DoorwayFaults& faults);

/// All that follows from the leaf: hinges, backings, lining, sections. `set`: its leaf complete, its doorway
/// as doorwayParts() made it.
void completeDoorway(const GivenDoorSet& given, DoorSetSpec& set, DoorwayFaults& faults);

/// Sections and widths of architraves and skirtings, a part of completeDoorway().
void completeTrim(const GivenDoorSet& given, DoorSetSpec& set, DoorwayFaults& faults);

/// What cannot be made together, in the trade's words.
void checkDoorway(const DoorSetSpec& set, DoorwayFaults& faults);
/// The part of it that is about the hinges; false when their places are at fault.
bool checkHinges(const DoorSetSpec& set, DoorwayFaults& faults);
/// The part of it that is about the lock.
void checkLock(const DoorSetSpec& set, DoorwayFaults& faults);

/// How much of a hinge's screw the wood takes, beyond its plate, mm: the stile's and the jamb's with what
/// stands behind it.
double screwRoomInStile(const DoorSetSpec& set);
double screwRoomInJamb(const DoorSetSpec& set);
/// Do the hinges' screws find one backing behind each hinge, or the stud? Else they hold in the jamb alone.
bool screwsReachBehindJamb(const DoorSetSpec& set);

enum class StileSide { Hanging, Closing };

/// Heights above the leaf's bottom.
struct HeightSpan {
  double fromMm = 0, toMm = 0;
};
/// A mortise of a stile at its widest.
struct TenonSpan : HeightSpan {
  std::string rail;
};
/// By the rails' rules, as their joints set them out; dowelled ends have none.
std::vector<TenonSpan> tenonsIn(const LeafSpec& leaf, StileSide side);
/// Middles next above and next below one height, whole mm, at which what reaches `halfMm` each way along a
/// stile stays within it and meets none of these; those there are.
std::vector<double> clearMiddles(const std::vector<HeightSpan>& taken, HeightSpan within, double halfMm,
                                 double heightMm);
/// As a hint tells them; `otherwise` where there are none.
std::string toldMiddles(const std::vector<double>& middles, const std::string& otherwise);
/// Of the stiles' and rails' grooves.
double grooveDepth(const LeafSpec& leaf);

}  // namespace dryfit
