// A cache that cuts shells only: the same shapes, sizes and faults as the whole cut, the program's own two
// ways held against each other.
#include <gtest/gtest.h>

#include "joint/cut_work.h"
#include "settingout/read_work.h"
#include "support/works.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

/// 1e-9 mm3: the same carving twice gives the same bits.
TEST(CutCache, ShellsOnlyLeavesOutMeshesAndTheAssemblyAndNothingElse) {
  for (const std::string& path : tests::shippedWorks()) {
    const auto work = readWork(contentOf(path), path, keysOf(standardJoints()));
    ASSERT_TRUE(work) << path;
    CutCache whole, shells(CutCache::Cuts::ShellsOnly);
    const auto a = cutWork(work.value(), standardJoints(), whole),
               b = cutWork(work.value(), standardJoints(), shells);
    ASSERT_TRUE(a && b) << path;
    EXPECT_EQ(whole.cutCount(), shells.cutCount());
    EXPECT_TRUE(b.value().assembly.bodies.empty());
    EXPECT_EQ(a.value().assembly.bodies.size(), a.value().pieces.size());
    ASSERT_EQ(a.value().pieces.size(), b.value().pieces.size());
    ASSERT_EQ(a.value().sizes.size(), b.value().sizes.size());
    for (size_t i = 0; i < a.value().pieces.size(); ++i) {
      const Piece &p = a.value().pieces[i], &q = b.value().pieces[i];
      EXPECT_EQ(p.last().recipe, q.last().recipe) << p.id;
      EXPECT_NEAR(volume(p.last().shell), volume(q.last().shell), 1e-9) << p.id;
      EXPECT_NE(p.last().mesh, nullptr) << p.id;
    }
  }
}

/// A hole of 4 whose middle lies 0.5 within a face breaks out of it.
TEST(CutCache, ShellsOnlyFailsWhereTheWholeCutDoes) {
  Recipe bar;
  bar.blank = BoxBlank{100, 20, 20};
  bar.features.push_back(Bore{"bore", 0, 9.5, 2});
  CutCache whole, shells(CutCache::Cuts::ShellsOnly);
  const auto a = whole.cut(bar, "bar"), b = shells.cut(bar, "bar");
  ASSERT_FALSE(a);
  ASSERT_FALSE(b);
  EXPECT_EQ(toText(a.faults().front()), toText(b.faults().front()));
  EXPECT_EQ(b.faults().front().subject.rfind("bar", 0), 0u);
}

}  // namespace
}  // namespace dryfit
