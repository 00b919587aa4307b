// A judge of the order and of what blocks what: tries moves by putting kernel solids at places along the way
// and asking the kernel what they share. Brute force, for small works only. Of the library it uses the solids
// (solid.h) and plain data; nothing of the fit's projection or of the planner's search.
//
// World axes, millimetres, everything at home unless shifted or turned.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "joint/cut_work.h"
#include "order/order.h"
#include "solid/solid.h"

namespace dryfit::tests {

/// Two solids that share more (mm3) are in each other's way. A wedge of 1:24 set 0.05 across its slope shares
/// some 2; the kernel's rounding on touching faces is under 0.001.
inline constexpr double kSharedMm3 = 0.5;

/// A piece in one of its states.
using PieceAt = std::pair<int, int>;

/// Solids placed at home, and what pairs of them share when one is shifted; every answer is kept.
class KernelScene {
 public:
  KernelScene() = default;
  explicit KernelScene(const CutWork& work);
  /// Index of the piece; `shells`: one a state, each alive as long as the scene, for alike pieces the same.
  int add(const Placement& worldFromPiece, const std::vector<const Shell*>& shells);
  /// From now on the piece stands so far from its home: turned open.
  void stand(int piece, const Placement& worldFromHome);
  int count() const { return static_cast<int>(pieces_.size()); }
  const Box3& box(PieceAt p) const { return pieces_.at(p.first).now().boxes.at(p.second); }
  /// mm3 that `a`, shifted from where it stands, shares with `b` where it stands. Throws when the kernel
  /// fails.
  double shared(PieceAt a, Vec3 shift, PieceAt b);
  /// How often the kernel was asked.
  int asked() const { return static_cast<int>(known_.size()); }

 private:
  struct Place {
    Placement worldFromPiece;
    std::vector<Box3> boxes;  ///< by state
  };
  struct Piece {
    std::vector<const Shell*> shells;
    std::vector<Solid> states;
    std::vector<Place> places;  ///< the first is home
    size_t at = 0;
    const Place& now() const { return places[at]; }
  };
  using Key = std::tuple<PieceAt, PieceAt, size_t, size_t, long long, long long, long long>;
  const Solid& solidOf(const Shell* shell);
  static size_t placeOf(Piece& piece, const Placement& worldFromPiece);

  std::vector<Piece> pieces_;
  std::map<const Shell*, Solid> solids_;  ///< alike pieces share one
  std::map<Key, double> known_;
};

/// Places at which a way is tried: `nearMm` from its beginning, from the last of them on every `everyMm`,
/// until all boxes are clear of each other.
struct Places {
  std::vector<double> nearMm{0.05, 0.5, 2, 5, 10, 20};
  double everyMm = 10;
};

/// First place tried, at most `travelMm` from `shift` along the unit vector `way`, where one of `movers` is
/// in the way of one of `standers`; empty when there is none.
std::optional<double> firstHit(KernelScene& scene, const std::vector<PieceAt>& movers,
                               const std::vector<PieceAt>& standers, Vec3 shift, Vec3 way, double travelMm,
                               const Places& places);

struct Search {
  std::vector<Vec3> ways{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};
  Places places;
  int mostLegs = 2;
  /// A leg before the last may end at each multiple of this; 0: only where the mover's box has come clear of
  /// another box.
  double stopEveryMm = 0;
};

/// Whether `movers` as one body can leave `standers` from `shift`.
bool leaves(KernelScene& scene, const std::vector<PieceAt>& movers, const std::vector<PieceAt>& standers,
            Vec3 shift, const Search& search, int legs);

/// Units, states, operations and bonds of a work respected: an operation is undone after all that by nature
/// comes after it, a bonded piece leaves only when its operation is undone, and a trim is undone only when
/// nothing else can be (a piece gets larger by it), every choice among trims tried. Trade rules are left out.
/// Complete for moves of single pieces and of what the work says goes as one: what leaves never blocks
/// another.
struct BruteOrder {
  bool solvable = true;
  int unit = -1;          ///< where it is stuck
  std::vector<int> left;  ///< bodies that stay
};
/// The six axes and the straight legs of the joints' paths, both ways.
std::vector<Vec3> waysOf(const Assembly& assembly);
/// Of `search` all but the ways counts: they are waysOf(assembly) and an operation's own.
BruteOrder bruteOrder(KernelScene& scene, const Assembly& assembly, Search search);

/// Plays a plan on the kernel's solids: what it finds wrong, in words; empty when every step is legal. Where
/// a step moves pieces and changes others (a pin that draws a tenon up), the move is judged in the states
/// after the change.
std::vector<std::string> faultsOfPlan(KernelScene& scene, const Assembly& assembly, const OrderOfWork& work,
                                      const Places& places);

}  // namespace dryfit::tests
