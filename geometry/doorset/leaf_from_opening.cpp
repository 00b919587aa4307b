// The leaf's size where the file gives one of the sizes called "opening" in its place.
#include <fmt/format.h>

#include <algorithm>

#include <cmath>

#include "base/text.h"
#include "doorset/complete_doorway.h"

namespace dryfit {

namespace {

constexpr double kLeastLeaf = 100;  // a leaf smaller than that is a slip in the opening

/// One way of giving a width or a height: the key, what it says, how much more it is than the leaf.
struct Way {
  std::string path;
  std::optional<double> mm;
  double beyondLeaf = 0;
};

void sizeOneWay(Size& size, const std::string& what, const std::vector<Way>& ways, DoorwayFaults& faults) {
  const Way* by = nullptr;
  const std::string own = "leaf." + what;
  const bool ownGiven = size.from == Size::From::Given;
  for (const Way& way : ways) {
    if (!way.mm) continue;
    if (by || ownGiven)
      return faults.add(way.path,
                        fmt::format("the {} of the doorway is given twice: by {} and by {}", what,
                                    by ? by->path : own, way.path),
                        "one of them; the other sizes follow from it");
    by = &way;
  }
  if (!by) return;
  const double mm = *by->mm - by->beyondLeaf;
  if (mm < kLeastLeaf)
    return faults.add(
        by->path, fmt::format("{} of {:.6g} leaves {:.6g} for the leaf", what, *by->mm, std::max(0.0, mm)),
        fmt::format("at least {:.6g}", by->beyondLeaf + kLeastLeaf));
  size = {mm, Size::From::Rule, "what " + by->path + " leaves"};
}

}  // namespace

void sizeLeafFromOpening(const GivenDoorSet& given, const DoorwaySpec& parts, LeafSpec& leaf,
                         DoorwayFaults& faults) {
  const GivenDoorway& g = given.doorway;
  DoorSetSpec none{leaf, parts};
  none.leaf.width.mm = none.leaf.height.mm = 0;
  const Openings beyond = openingsOf(none);  // of a leaf without width and height: what goes round it
  sizeOneWay(leaf.width, "width",
             {{"opening.between_rebates.width", g.betweenRebates.width, beyond.betweenRebates},
              {"opening.passage.width", g.passage.width, beyond.passage},
              {"opening.brick.width", g.opening.width, beyond.wall}},
             faults);
  sizeOneWay(leaf.height, "height",
             {{"opening.between_rebates.height", g.betweenRebates.height, beyond.headRebate},
              {"opening.passage.height", g.passage.height, beyond.passageHeight},
              {"opening.brick.height", g.opening.height, beyond.wallHeight}},
             faults);
}

}  // namespace dryfit
