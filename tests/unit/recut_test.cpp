// What one changed size costs: only the recipes it changes are cut anew. Which ones is worked out by hand.
#include <gtest/gtest.h>

#include <set>

#include "doorset/doorway_spec.h"
#include "doorset/read_door_set.h"
#include "joint/cut_work.h"

namespace dryfit {
namespace {

std::string leaf(int middleRail) {
  return "title = \"L\"\nwall.kind = \"none\"\n[leaf.moulding]\nfaces = \"front\"\n[[leaf.rail]]\nname = "
         "\"top\"\n"
         "[[leaf.rail]]\nname = \"middle\"\ntop_edge = 965\nwidth = " +
         std::to_string(middleRail) + "\n[[leaf.rail]]\nname = \"bottom\"\n";
}

CutWork cut(const std::string& text, CutCache& cache) {
  const auto spec = readDoorSet(text, "test.toml", keysOf(standardJoints()));
  const auto work = setOutDoorSet(spec.value());
  auto done = cutWork(work.value(), standardJoints(), cache);
  return std::move(done).value();
}

TEST(Recut, ANarrowerRailCutsOnlyWhatItChanges) {
  CutCache cache;
  const CutWork before = cut(leaf(195), cache);
  const int first = cache.cutCount();
  const CutWork after = cut(leaf(185), cache);
  std::set<std::string> changed;
  ASSERT_EQ(before.pieces.size(), after.pieces.size());
  for (size_t i = 0; i < before.pieces.size(); ++i)
    for (size_t s = 0; s < before.pieces[i].states.size(); ++s)
      if (before.pieces[i].states[s].cut != after.pieces[i].states[s].cut)
        changed.insert(before.pieces[i].id);
  // Its top edge stays, so the panel below grows, with the mouldings beside it; the stiles' mortises move.
  // Wedges, the other rails and all of the upper panel are as they were.
  EXPECT_EQ(changed, (std::set<std::string>{"leaf.rail.middle", "leaf.stile.hanging", "leaf.stile.closing",
                                            "leaf.panel.2.1", "leaf.moulding.2.1.front.hanging",
                                            "leaf.moulding.2.1.front.closing"}));
  // The rail has two states, tenons proud and flush; every other piece one.
  EXPECT_EQ(cache.cutCount() - first, 7);
}

TEST(Recut, TheSameLeafAgainCutsNothing) {
  CutCache cache;
  cut(leaf(195), cache);
  const int first = cache.cutCount();
  cut(leaf(195), cache);
  EXPECT_EQ(cache.cutCount(), first);
}

}  // namespace
}  // namespace dryfit
