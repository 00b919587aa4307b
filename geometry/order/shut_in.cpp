#include "order/shut_in.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

class Places {
 public:
  Places(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
         std::vector<Way> ways)
      : scene_(scene), movers_(movers), standers_(standers), ways_(std::move(ways)) {}

  std::string limit() {
    std::vector<Vec3> level{Vec3{}};
    for (int legs = 1; !level.empty(); ++legs) {
      next_.clear();
      for (const Vec3 place : level)
        for (const Way& way : ways_) {
          if (++sweeps_ > kMostSweeps)
            return "ways in of one piece: " + std::to_string(kMostSweeps) + " looks were taken";
          if (goOn(place, way))
            return legs > kMostLegs
                       ? "ways in: there is one of more than " + std::to_string(kMostLegs) + " legs"
                       : "ways in: there is one with stops that were not looked at";
        }
      level = next_;
    }
    return "";
  }

 private:
  /// True when the way leads out; else its stops are places to go on from.
  bool goOn(Vec3 place, const Way& way) {
    const Sweep sweep = scene_.sweep(movers_, standers_, place, way.way);
    if (sweep.unbounded()) return true;
    if (sweep.gapMm <= tolerance::kTouch) return false;
    std::vector<double> stops = way.stopsMm;
    stops.push_back(sweep.gapMm);
    for (const Meeting& m : sweep.meetings) stops.push_back(m.freeAfterMm);
    addLevels(stops, place, way.way, sweep.gapMm);
    for (double mm : stops)
      if (mm > tolerance::kTouch && mm <= sweep.gapMm + tolerance::kPoint) add(place + way.way * mm);
    return false;
  }

  /// Travels that bring a face of a mover level with one of a stander.
  void addLevels(std::vector<double>& stops, Vec3 place, Vec3 way, double gapMm) {
    Box3 near = scene_.box(movers_);
    near.low = near.low + place;
    near.high = near.high + place;
    near.add(near.low + way * gapMm);
    near.add(near.high + way * gapMm);
    for (const Placed b : standers_) {
      if (!dryfit::near(near, scene_.box(b), tolerance::kTouch)) continue;
      for (const Placed a : movers_)
        for (double from : levelsOf(a, way))
          for (double to : levelsOf(b, way)) {
            const double mm = to - from - dot(place, way);
            if (mm > tolerance::kTouch && mm < gapMm) stops.push_back(mm);
          }
    }
  }

  std::set<double> levelsOf(Placed p, Vec3 way) {
    std::set<double> all;
    for (const Facet& f : scene_.mesh(p).facets)
      if (std::abs(std::abs(dot(f.normal, way)) - 1) < tolerance::kDirection)
        all.insert(dot(f.points[0], way));
    return all;
  }

  void add(Vec3 place) {
    const auto grid = [](double mm) { return std::llround(mm / tolerance::kTouch); };
    if (seen_.insert({grid(place.x), grid(place.y), grid(place.z)}).second) next_.push_back(place);
  }

  Scene& scene_;
  const std::vector<Placed>&movers_, &standers_;
  std::vector<Way> ways_;
  std::vector<Vec3> next_;
  std::set<std::array<long long, 3>> seen_{{0, 0, 0}};
  int sweeps_ = 0;
};

}  // namespace

std::string limitOfSearch(Scene& scene, const std::vector<Placed>& movers,
                          const std::vector<Placed>& standers, const std::optional<Vec3>& wayHome) {
  return Places(scene, movers, standers, waysOut(scene, movers, standers, wayHome)).limit();
}

}  // namespace dryfit::order
