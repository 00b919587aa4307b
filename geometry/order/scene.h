// The placed pieces as the planner sees them: world meshes by piece and state, and what a piece that travels
// along a straight way meets. Every answer is kept, since the same question comes back each time another
// piece has gone.
//
// World axes, millimetres.
#pragma once

#include <functional>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/assembly.h"
#include "base/tolerance.h"
#include "fit/mesh_along.h"
#include "order/striking.h"

namespace dryfit::order {

/// A piece in one of its states, at home or turned.
struct Placed {
  int body = 0;
  int state = 0;
  int pose = 0;  ///< Scene::poseOf(); 0: at home
  friend auto operator<=>(const Placed&, const Placed&) = default;
};

/// What one travelling piece meets on a standing one.
struct Meeting {
  Placed mover, stander;
  double gapMm = std::numeric_limits<double>::infinity();
  double freeAfterMm = 0;
  std::string roleMover, roleStander;
  bool meets() const { return gapMm < std::numeric_limits<double>::infinity(); }
};

/// Travel of a rigid group along one way past all that stands.
struct Sweep {
  double gapMm = std::numeric_limits<double>::infinity();  ///< least of the pairs
  double freeAfterMm = 0;                                  ///< greatest of the pairs
  std::vector<Meeting> meetings;                           ///< pairs that meet or are engaged
  bool unbounded() const { return gapMm == std::numeric_limits<double>::infinity(); }
  const Meeting* first() const;  ///< the one met first; null when unbounded
};

/// A piece that meets something within this does not set out.
inline constexpr double kLeastTravelMm = tolerance::kTouch;

/// What of a Sweep is needed to tell where it may stop.
struct Reach {
  double gapMm = std::numeric_limits<double>::infinity();  ///< Sweep::gapMm
  std::vector<double> freeAfterMm;                         ///< of each of Sweep::meetings
};

class Scene {
 public:
  explicit Scene(const Assembly& assembly);
  const Assembly& assembly() const { return assembly_; }
  /// The number of a motion from home, for Placed::pose; the same for the same motion.
  int poseOf(const Placement& worldFromHome);
  const Placement& worldFromHome(int pose) const { return poses_.at(static_cast<size_t>(pose)); }
  const PlanningMesh& mesh(Placed p);
  const Box3& box(Placed p);
  Box3 box(const std::vector<Placed>& group);
  /// `movers`, displaced by `offset` from where they are placed, travel along the unit vector `way` past
  /// `standers`.
  Sweep sweep(const std::vector<Placed>& movers, const std::vector<Placed>& standers, Vec3 offset, Vec3 way);
  /// How far such a travel leads; nothing when it cannot set out, as soon as that is known.
  std::optional<Reach> reach(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                             Vec3 offset, Vec3 way);
  /// Sweep::freeAfterMm of such a travel when it meets nothing; else nothing, as soon as that is known.
  std::optional<double> freeWay(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                                Vec3 offset, Vec3 way);
  /// True when Sweep::meetings of such a travel of A alone past B would tell of it.
  bool hasSay(Placed a, Placed b, Vec3 offset, Vec3 way);
  /// The angle at which A, turning on a pivot of the assembly by `mostRad`, strikes B: asked of `find` once.
  std::optional<double> struck(const Pivot& pivot, Placed a, Placed b, double mostRad,
                               const std::function<std::optional<double>()>& find);
  /// What of a body can strike about a pivot of the assembly: asked of `find` once.
  const Striking& striking(const Pivot& pivot, Placed p, const std::function<Striking()>& find);
  /// True when the two share wood: never so in a plan, but a trim undone too soon would make it so.
  bool overlap(Placed a, Placed b);
  /// Standing sets among which a group found no way out. Among more pieces it finds none either: those
  /// searches need not be made again.
  std::vector<std::vector<Placed>>& shutIn(const std::vector<Placed>& group) { return shutIn_[group]; }
  /// True when some search for a way out ended at its limit (kMostSweeps): that it found none proves nothing.
  bool cutShort() const { return cutShort_; }
  void noteCutShort() { cutShort_ = true; }
  /// True when a search that found nothing left out stops on its way (exit.h): that too proves nothing.
  bool stopsLeftOut() const { return stopsLeftOut_; }
  void noteStopsLeftOut() { stopsLeftOut_ = true; }

 private:
  struct Solid {
    PlanningMesh mesh;
    Box3 box;
  };
  /// A travel of one past another that stands still.
  struct Travel {
    Placed mover, stander;
    Vec3 offset, way;
    friend bool operator==(const Travel&, const Travel&) = default;
  };
  struct TravelHash {
    size_t operator()(const Travel& t) const;
  };
  /// What is known of a travel, each asked for only when it is needed.
  struct Known {
    std::optional<bool> meets;
    std::optional<double> freeAfterMm;
    std::optional<double> gapMm;  ///< or, where it is less, kLeastTravelMm
    std::unique_ptr<Blocking> all;
  };
  const Solid& solid(Placed p);
  const Blocking& pair(const Travel& t);
  bool meets(const Travel& t);
  double gapMm(const Travel& t);
  double freeAfterMm(const Travel& t);
  std::vector<Travel> reached(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                              Vec3 offset, Vec3 way);
  const MeshAlong& along(Placed p, Vec3 offset, Vec3 way);

  const Assembly& assembly_;
  std::vector<Placement> poses_;                             ///< the first is home
  std::vector<std::vector<std::unique_ptr<Solid>>> solids_;  ///< by body and state, at home
  std::map<Placed, std::unique_ptr<Solid>> turned_;
  std::unordered_map<Travel, Known, TravelHash> known_;
  std::map<std::pair<Placed, Placed>, bool> overlaps_;
  std::map<std::pair<std::pair<Placed, Placed>, std::pair<const Pivot*, double>>, std::optional<double>>
      struck_;
  std::map<std::pair<const Pivot*, Placed>, Striking> striking_;
  std::map<std::vector<Placed>, std::vector<std::vector<Placed>>> shutIn_;
  /// By piece, its offset and the way; of the displaced ones only those asked for of late.
  std::unordered_map<Travel, std::unique_ptr<MeshAlong>, TravelHash> alongs_, displaced_;
  bool cutShort_ = false, stopsLeftOut_ = false;
};

/// "-X", "+Z", or "(0.707, 0.000, 0.707)".
std::string nameOfWay(Vec3 way);
/// A length with one decimal, whatever the locale: "12.0 mm".
std::string nameOfLength(double mm);

}  // namespace dryfit::order
