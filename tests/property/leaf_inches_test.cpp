// The same leaf written in inches, every length as a decimal text to its last digit, is the same solid: each
// corner, strip, arc and hole within 1e-9 mm, each piece in the same place.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <iostream>

#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kSame = 1e-9;

struct Compare {
  std::string piece;

  void near(double a, double b, const char* what) const { EXPECT_NEAR(a, b, kSame) << piece << ": " << what; }
  void near(Vec3 a, Vec3 b, const char* what) const {
    EXPECT_LE(length(a - b), kSame) << piece << ": " << what;
  }
  template <class T, class Each>
  void all(const std::vector<T>& a, const std::vector<T>& b, const char* what, Each each) const {
    ASSERT_EQ(a.size(), b.size()) << piece << ": " << what;
    for (size_t i = 0; i < a.size(); ++i) each(a[i], b[i]);
  }

  void shells(const Shell& a, const Shell& b) const {
    all(a.vertices, b.vertices, "corners", [&](Vec3 p, Vec3 q) { near(p, q, "a corner"); });
    all(a.flats, b.flats, "flat faces", [&](const FlatFace& p, const FlatFace& q) {
      EXPECT_EQ(p.role, q.role) << piece;
      EXPECT_EQ(p.loops, q.loops) << piece << " " << p.role;
      EXPECT_EQ(p.arcs, q.arcs) << piece << " " << p.role;
      near(p.normal, q.normal, "a normal");
      near(p.offset, q.offset, "a plane");
    });
    all(a.strips, b.strips, "strips", [&](const StripFace& p, const StripFace& q) {
      EXPECT_EQ(p.role, q.role) << piece;
      EXPECT_EQ(p.hollow, q.hollow) << piece << " " << p.role;
      EXPECT_EQ(p.loop, q.loop) << piece << " " << p.role;
      near(p.centre - p.axis * dot(p.centre, p.axis), q.centre - q.axis * dot(q.centre, q.axis), "an axis");
      near(p.axis, q.axis, "an axis' way");
      near(p.start, q.start, "a strip's start");
      near(p.radius, q.radius, "a radius");
      near(p.turn, q.turn, "a turn");
    });
    all(a.arcs, b.arcs, "arcs", [&](const ArcEdge& p, const ArcEdge& q) {
      EXPECT_EQ(p.from, q.from) << piece;
      EXPECT_EQ(p.to, q.to) << piece;
      EXPECT_EQ(p.strip, q.strip) << piece;
      near(p.normal, q.normal, "an arc's plane");
      near(p.offset, q.offset, "an arc's plane");
    });
    all(a.rounds, b.rounds, "round faces", [&](const RoundFace& p, const RoundFace& q) {
      near(p.from, q.from, "a hole's end");
      near(p.to, q.to, "a hole's end");
      near(p.radius, q.radius, "a hole's radius");
      near(p.radiusTo, q.radiusTo, "a hole's radius");
    });
    all(a.openBores, b.openBores, "holes of a section", [&](const OpenBore& p, const OpenBore& q) {
      near(p.from, q.from, "a hole's end");
      near(p.to, q.to, "a hole's end");
      near(p.radius, q.radius, "a hole's radius");
      near(p.volumeMm3, q.volumeMm3, "a hole's volume");
    });
  }
};

TEST(LeafInInches, IsTheSameToTheLastCorner) {
  const int leaves = leavesAsked(12);
  Chance c{std::mt19937(254)};
  int refused = 0, pieces = 0;
  for (int n = 0; n < leaves; ++n) {
    Chance again = c;
    const std::string metric = doorSetOf(randomLeaf(c)),
                      inches = doorSetOf(randomLeaf(again, Written::Inches));
    SCOPED_TRACE(fmt::format("leaf {}\n{}\n{}", n, metric, inches));
    const auto one = faultsOfLeafAlone(metric), other = faultsOfLeafAlone(inches);
    EXPECT_EQ(one.size(), other.size()) << (one.empty() ? other[0] : one[0]);
    if (!one.empty() || !other.empty()) {
      ++refused;
      continue;
    }
    const CutWork a = cutLeafAlone(metric), b = cutLeafAlone(inches);
    ASSERT_EQ(a.pieces.size(), b.pieces.size());
    for (size_t i = 0; i < a.pieces.size(); ++i) {
      ASSERT_EQ(a.pieces[i].id, b.pieces[i].id);
      ASSERT_EQ(a.pieces[i].states.size(), b.pieces[i].states.size());
      const Compare compare{a.pieces[i].id};
      compare.near(a.pieces[i].worldFromPiece.origin, b.pieces[i].worldFromPiece.origin, "its place");
      for (size_t s = 0; s < a.pieces[i].states.size(); ++s)
        compare.shells(a.pieces[i].states[s].cut->shell, b.pieces[i].states[s].cut->shell);
      ++pieces;
      if (HasFailure()) return;
    }
  }
  EXPECT_LE(refused, leaves / 2);
  std::cout << leaves - refused << " leaves of " << pieces << " pieces alike, " << refused << " refused\n";
}

}  // namespace
}  // namespace dryfit::tests
