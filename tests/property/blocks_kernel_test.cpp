// What blocks what, and what pieces share, against the kernel's general boolean on the exact solids, for
// every near pair of the works that ship. The judge (support/brute_kernel.h) shares no code with the
// projection of facets or with the closed formula of shared volume.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numbers>

#include "cli/load_work.h"
#include "fit/blocks.h"
#include "fit/fit.h"
#include "support/brute_kernel.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Loaded {
  CutWork work;
  KernelScene scene;
  std::vector<PlanningMesh> meshes;  ///< at home, last states
  std::vector<PieceAt> last;

  explicit Loaded(CutWork w) : work(std::move(w)), scene(work) {
    for (size_t b = 0; b < work.assembly.bodies.size(); ++b) {
      const Body& body = work.assembly.bodies[b];
      meshes.push_back(placed(*body.states.back().mesh, body.worldFromPiece));
      last.push_back({static_cast<int>(b), static_cast<int>(body.states.size()) - 1});
    }
  }
  int count() const { return static_cast<int>(meshes.size()); }
  bool nearEachOther(int a, int b) const { return near(scene.box(last[a]), scene.box(last[b]), 1); }
  const std::string& id(int b) const { return work.assembly.bodies[b].id; }
  /// Wood by which the planning prisms of the piece's round faces differ from the cylinders, mm3: a polygon
  /// of 64 sides in a circle has sin(2 pi / 64) / (2 pi / 64) of its area. Of a strip: the segments between
  /// its chords and its arc, over the piece's whole length.
  double roundness(int b) const {
    const Shell& shell = work.pieces[b].last().shell;
    const double turn = 2 * std::numbers::pi / 64, lost = 1 - std::sin(turn) / turn;
    double mm3 = 0;
    for (const RoundFace& r : shell.rounds)
      mm3 += std::numbers::pi * length(r.to - r.from) * lost *
             (r.radius * r.radius + r.radius * r.radiusTo + r.radiusTo * r.radiusTo) / 3;
    for (const StripFace& s : shell.strips) mm3 += s.radius * s.radius * s.turn / 2 * lost * sizeOf(shell).x;
    for (const OpenBore& o : shell.openBores) mm3 += o.volumeMm3 * lost;
    return mm3;
  }
  /// How far the roundest strip of the piece stands off its chords, mm.
  double rise(int b) const {
    double most = 0;
    for (const StripFace& s : work.pieces[b].last().shell.strips)
      most = std::max(most, s.radius * (1 - std::cos(std::numbers::pi / 64)));
    return most;
  }
};

/// A work that ships and how many pairs of it come near each other; a work may grow, but a judge that is
/// shown fewer pairs than there were has lost its cases.
struct Case {
  const char* name;
  int nearPairs;
  int every = 1;  ///< of near pairs one in so many is asked about: a whole door set has too many
};
void PrintTo(const Case& c, std::ostream* out) {
  *out << c.name;
}

/// One panel's worth of a leaf: an ogee on the front, a bead-and-butt back.
std::string mouldedPanel() {
  return "title = \"Moulded\"\n[leaf]\nwidth = 420\nheight = 480\nhorns = 0\n[[leaf.rail]]\nname = "
         "\"top\"\n[[leaf.rail]]\nname = \"bottom\"\nwidth = 95\n[leaf.tenon]\nfixing = "
         "\"glued\"\nproud = 0\n[leaf.panel]\nkind = \"bead-and-butt\"\nfaces = \"back\"\n"
         "[leaf.moulding]\nprofile = \"ogee\"\n";
}

class KernelJudge : public testing::TestWithParam<Case> {
 protected:
  Loaded load() const {
    if (std::string(GetParam().name) == "bevelled-leaf") return Loaded(cutLeafAlone(bevelledLeaf()));
    if (std::string(GetParam().name) == "moulded-panel") return Loaded(cutLeafAlone(mouldedPanel()));
    if (GetParam().every > 1)
      return Loaded(cutWholeSet(std::string(DRYFIT_ROOT "/assets/doorsets/") + GetParam().name + ".toml"));
    auto work = cli::loadWork(std::string(DRYFIT_ROOT "/assets/works/") + GetParam().name + ".toml");
    if (!work) throw std::runtime_error(toText(work.faults()[0]));
    return Loaded(std::move(work).value());
  }
  /// Pairs within 1 mm of each other, a before b; of a whole door set a sample.
  static std::vector<std::pair<int, int>> pairsAsked(const Loaded& w) {
    std::vector<std::pair<int, int>> all;
    int met = 0;
    for (int a = 0; a < w.count(); ++a)
      for (int b = a + 1; b < w.count(); ++b)
        if (w.nearEachOther(a, b) && met++ % GetParam().every == 0) all.emplace_back(a, b);
    return all;
  }
};

struct Tally {
  int asked = 0, met = 0, missed = 0, falsely = 0, oneSided = 0;
};

/// `a` moves along `way`: nothing is met before the gap told, something soon after it.
void judge(Loaded& w, int a, int b, Vec3 way, Tally& tally) {
  const double gap = blocking(w.meshes[a], w.meshes[b], way).gapMm;
  const double back = blocking(w.meshes[b], w.meshes[a], -way).gapMm;
  tally.asked += 2;  // both who moves: relative to each other it is the same motion
  if (std::isfinite(gap) != std::isfinite(back) || (std::isfinite(gap) && std::abs(gap - back) > 1e-6)) {
    ++tally.oneSided;
    ADD_FAILURE() << w.id(a) << " and " << w.id(b) << ": " << gap << " but " << back;
  }
  // A face tells a gap up to 0.006 too long where it meets a round pin of the planning mesh (10 across).
  // So do a strip's chords, by what its arc stands off them.
  const double before = gap - 0.01 - w.rise(a) - w.rise(b);
  const Places places{{0.05, 0.5, 2, 10}, 30};
  if (before > 0)
    if (const auto hit = firstHit(w.scene, {w.last[a]}, {w.last[b]}, {}, way, before, places)) {
      tally.missed += 2;
      ADD_FAILURE() << w.id(a) << " meets " << w.id(b) << " at " << *hit << ", told " << gap;
    }
  if (!std::isfinite(gap)) return;
  tally.met += 2;
  // 1 mm in, at least half a square millimetre (what counts as blocked) along a slope of 1:24 or steeper.
  if (w.scene.shared(w.last[a], way * (gap + 1), w.last[b]) < 0.01) {
    tally.falsely += 2;
    ADD_FAILURE() << w.id(a) << " does not meet " << w.id(b) << " at " << gap;
  }
}

TEST_P(KernelJudge, BlockingMissesNothingAndTellsNothingFalse) {
  Loaded w = load();
  const Vec3 axes[] = {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};
  int pairs = 0;
  Tally tally;
  for (const auto& [a, b] : pairsAsked(w)) {
    ++pairs;
    for (const Vec3 way : axes) judge(w, a, b, way, tally);
  }
  EXPECT_GE(pairs, GetParam().nearPairs);
  EXPECT_EQ(tally.asked, 12 * pairs);
  EXPECT_EQ(tally.missed, 0);
  EXPECT_EQ(tally.falsely, 0);
  EXPECT_EQ(tally.oneSided, 0);
  std::cout << GetParam().name << ": " << w.count() << " pieces, " << pairs << " near pairs, " << tally.asked
            << " pair-directions, " << tally.met << " meet; the kernel asked " << w.scene.asked()
            << " times\n";
}

TEST_P(KernelJudge, AtHomeNothingIsShared) {
  Loaded w = load();
  const bool sample = GetParam().every > 1;
  for (int a = 0; a < w.count(); ++a)
    for (int b = a + 1; b < w.count(); ++b) {
      if (sample && (!w.nearEachOther(a, b) || (a + b) % GetParam().every)) continue;
      // Rounding over faces of 0.1 m2 at most, at the kernel's 1e-7 mm.
      EXPECT_LT(std::abs(w.scene.shared(w.last[a], {}, w.last[b])), 1e-2) << w.id(a) << ", " << w.id(b);
      EXPECT_LT(std::abs(sharedVolume(w.meshes[a], w.meshes[b]).volumeMm3), 1e-3)
          << w.id(a) << ", " << w.id(b);
    }
}

/// Ten pairs each of pieces with flat faces only, and of others, as far as the work has them.
TEST_P(KernelJudge, ShiftedTheyShareWhatTheKernelSays) {
  Loaded w = load();
  int planar = 0, round = 0;
  for (const Vec3 shift : {Vec3{0.7, -1.3, 2.1}, Vec3{-2.1, 0.9, 1.7}, Vec3{1.1, 1.9, -0.6}})
    for (const auto& [a, b] : pairsAsked(w)) {
      const double roundness = w.roundness(a) + w.roundness(b);
      int& done = roundness > 0 ? round : planar;
      if (done >= 10) continue;
      const double exact = w.scene.shared(w.last[a], shift, w.last[b]);
      if (exact < 1) continue;
      ++done;
      const double found = sharedVolume(placed(w.meshes[a], translation(shift)), w.meshes[b]).volumeMm3;
      EXPECT_NEAR(found, exact, exact * 1e-6 + roundness) << w.id(a) << ", " << w.id(b);
    }
  EXPECT_GE(planar + round, 10);
  std::cout << GetParam().name << ": " << planar << " planar pairs, " << round << " with round faces\n";
}

INSTANTIATE_TEST_SUITE_P(Works, KernelJudge,
                         testing::Values(Case{"practice-corner", 5}, Case{"draw-bored-frame", 20},
                                         Case{"hatch-grounds", 30}, Case{"panel-frame", 32},
                                         Case{"muntin-frame", 30}, Case{"boat-chock", 10},
                                         Case{"chart-cupboard-frame", 22}, Case{"bevelled-leaf", 32},
                                         Case{"notice-frame", 30}, Case{"moulded-panel", 20},
                                         Case{"oar-store", 20, 29}, Case{"boat-hall", 20, 41},
                                         Case{"rigging-loft", 20, 17}),
                         [](const auto& info) {
                           std::string name = info.param.name;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace dryfit::tests
