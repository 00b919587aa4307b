// What a door set file says of the doorway round the leaf, before its rules are worked out.
// complete_doorway.h makes a DoorwaySpec of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "doorset/doorway_spec.h"

namespace dryfit {

/// One of the sizes called "opening", as far as the file gives it.
struct GivenOpening {
  std::optional<double> width, height;
};

/// What [architrave] or [skirting] says beside its sizes.
struct GivenTrim {
  bool none = false;
  std::string profile = "ovolo", faces = "both";
  std::optional<Profile> listed;
  std::optional<double> radius;
};

struct GivenDoorway {
  GivenDoorway();  ///< every part of the spec there, as yet without sizes

  /// Every part there, whether asked for or not. Sizes with a rule are From::Rule until it is worked out; its
  /// places of hinges and backings are empty.
  DoorwaySpec spec;
  std::string wall = "brick";  ///< or "block", "stud", "none"
  Size finishInside{0, Size::From::Rule, ""}, finishOutside{0, Size::From::Rule, ""};
  GivenOpening betweenRebates, passage, opening;
  std::optional<std::string> grounds, backings;  ///< their kinds
  std::optional<int> headBackings;
  std::string rebate = "double";
  std::vector<double> hingePlaces;  ///< centres above the leaf's bottom
  std::optional<int> hingeCount;
  std::string letIn = "shared";  ///< "given": spec.hinges.letIn
  bool lock = false;
  GivenTrim architrave, skirting;
  std::optional<std::string> groundTimber, liningTimber, trimTimber;
};

}  // namespace dryfit
