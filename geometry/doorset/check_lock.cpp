// A mortise lock in the closing stile: what it may not cut into.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "doorset/doorway_check.h"
#include "doorset/doorway_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kShortOfGroove = 6;  // joinery's figure: at least 6 short of the groove
constexpr double kRoundCase = 1;      // a mortise is larger than its case by this: as the lock's own joint
constexpr double kBesideCase = 7;     // of wood at each face: 5 beside the forend, which covers 2 more
// As the lock's own joint has them: its screws are 3.5 with heads of 7.
constexpr double kForendBeyond = 24;  // of a case, for the screws
constexpr double kForendBeside = 4;   // of a case, over its mortise
constexpr double kBesideForend = 5;   // of wood
constexpr double kBesideKeep = 2;
constexpr double kCountersunk = 1.85;
constexpr double kRoundSpindle = 2;  // of the case
constexpr double kLeftOfJamb = 6;

struct LockChecker : DoorwayCheck {
  const LockSpec& lock() const { return *d().lock; }
  /// A forend is let in square: flush with a bevelled edge at its lower side.
  double forendSinks() const {
    return set.leaf.closingBevel.mm * (0.5 + lock().forendWidth.mm / (2 * leafThickness()));
  }

  void inStile() {
    const double stile = set.leaf.closingStile.mm, groove = grooveDepth(set.leaf);
    const double taken = forendSinks() + kRoundCase, most = stile - groove - taken - kShortOfGroove;
    if (lock().caseDepth.mm > stile)
      return fault("lock.case.depth", fmt::format("at most {:.6g}", most),
                   "a case {:.6g} deep goes beyond a stile of {:.6g}", lock().caseDepth.mm, stile);
    if (lock().caseDepth.mm > most + kTiny)
      fault("lock.case.depth", fmt::format("at most {:.6g}", most),
            "the mortise of a case {:.6g} deep comes within {:.6g} of the groove", lock().caseDepth.mm,
            std::max(0.0, stile - groove - taken - lock().caseDepth.mm));
    const double thickest = leafThickness() - 2 * kBesideCase;
    if (lock().caseThickness.mm > thickest + kTiny)
      fault("lock.case.thickness", fmt::format("at most {:.6g}", thickest),
            "a case {:.6g} thick leaves {:.6g} at each face of a leaf {:.6g} thick", lock().caseThickness.mm,
            (leafThickness() - lock().caseThickness.mm) / 2, leafThickness());
    const double round = lock().spindle.mm / 2 + kRoundSpindle;
    const double least = lock().forendThickness.mm + round, furthest = lock().caseDepth.mm - round;
    if (lock().backset.mm < least - kTiny || lock().backset.mm > furthest + kTiny)
      fault("lock.backset",
            furthest < least ? "a deeper case, or a smaller spindle"
                             : fmt::format("from {:.6g} to {:.6g}", least, furthest),
            "a backset of {:.6g} puts the spindle's hole, {:.6g} wide, outside a case {:.6g} deep",
            lock().backset.mm, lock().spindle.mm, lock().caseDepth.mm);
  }

  void plates() {
    const LockSpec& l = lock();
    const double high = l.caseHeight.mm + kForendBeyond, wide = l.caseThickness.mm + kForendBeside;
    if (l.forendHeight.mm < high - kTiny)
      fault("lock.forend.height", atLeast(high),
            "a forend {:.6g} high has no room for its screws beyond a case of {:.6g}", l.forendHeight.mm,
            l.caseHeight.mm);
    const bool thin = l.caseThickness.mm <= leafThickness() - 2 * kBesideCase + kTiny;
    if (thin && l.forendWidth.mm < wide - kTiny)
      fault("lock.forend.width", atLeast(wide),
            "a forend {:.6g} wide does not cover the mortise of a case {:.6g} thick", l.forendWidth.mm,
            l.caseThickness.mm);
    for (const auto& [path, what, thickness] :
         {std::tuple{"lock.forend.thickness", "forend", l.forendThickness.mm},
          {"lock.keep.thickness", "keep", l.keepThickness.mm}})
      if (thickness < kCountersunk - kTiny)
        fault(path, atLeast(kCountersunk), "a {} {:.6g} thick is thinner than its screws' heads are deep",
              what, thickness);
    if (const double edge = leafThickness() - 2 * kBesideForend; thin && l.forendWidth.mm > edge + kTiny)
      fault("lock.forend.width", atMost(edge),
            "a forend {:.6g} wide leaves {:.6g} beside it in the edge of a leaf {:.6g} thick",
            l.forendWidth.mm, std::max(0.0, (leafThickness() - l.forendWidth.mm) / 2), leafThickness());
    if (const double edge = leafThickness() - 2 * kBesideKeep; l.keepWidth.mm > edge + kTiny)
      fault("lock.keep.width", atMost(edge),
            "a keep {:.6g} wide, opposite the middle of a leaf {:.6g} thick, stands too near the jamb's face",
            l.keepWidth.mm, leafThickness());
    const double jamb = liningAtFace(d().lining, true);
    if (l.keepThickness.mm > jamb - kLeftOfJamb + kTiny)
      fault("lock.keep.thickness", fmt::format("at most {:.6g}", jamb - kLeftOfJamb),
            "a keep {:.6g} thick leaves {:.6g} of the jamb", l.keepThickness.mm, jamb - l.keepThickness.mm);
  }

  void height() {
    const LockSpec& l = lock();
    const double half = std::max(l.caseHeight.mm + 2 * kRoundCase, l.forendHeight.mm) / 2,
                 high = set.leaf.height.mm;
    if (l.height.mm - half < 0 || l.height.mm + half > high)
      return fault("lock.height", fmt::format("from {:.6g} to {:.6g}", half, high - half),
                   "a lock at {:.6g} stands beyond a leaf {:.6g} high", l.height.mm, high);
    const std::vector<TenonSpan> tenons = tenonsIn(set.leaf, StileSide::Closing);
    for (const TenonSpan& tenon : tenons)
      if (l.height.mm - half < tenon.toMm - kTiny && l.height.mm + half > tenon.fromMm + kTiny)
        return fault("lock.height",
                     toldMiddles(clearMiddles({tenons.begin(), tenons.end()}, {0, high}, half, l.height.mm),
                                 "a rail elsewhere"),
                     "the lock, let in from {:.6g} to {:.6g}, would cut a tenon of the {} rail, from {:.6g} "
                     "to {:.6g}",
                     l.height.mm - half, l.height.mm + half, tenon.rail, tenon.fromMm, tenon.toMm);
  }
};

}  // namespace

void checkLock(const DoorSetSpec& set, DoorwayFaults& faults) {
  LockChecker check{{set, faults}};
  check.inStile();
  check.plates();
  check.height();
}

}  // namespace dryfit
