// Battens planted on posts by chance: any side on any side, any way round. Each is refused in plain words or
// fits, goes together, leaves no shift unseen, and has the volumes of closed formulas.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "fit/fit.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Chance {
  std::mt19937 random;
  int whole(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); }
};

struct Bar {
  Vec3 size;  ///< world
  Vec3 origin;
  std::string text;
};

/// A bar with its grain along one world axis and its width along another.
Bar bar(Chance& c, const std::string& id, Vec3 size) {
  const int grain = c.whole(0, 2), across = (grain + c.whole(1, 2)) % 3, through = 3 - grain - across;
  auto way = [&](int axis) { return (c.whole(0, 1) == 0 ? "+" : "-") + std::string(1, "XYZ"[axis]); };
  Bar b;
  b.size[grain] = size.x;
  b.size[across] = size.y;
  b.size[through] = size.z;
  b.text = fmt::format(
      "[[member]]\nid = \"{}\"\nsection = [{}, {}]\nlength = {}\nalong = \"{}\"\nwidth_along = \"{}\"\n", id,
      size.y, size.z, size.x, way(grain), way(across));
  return b;
}

std::string at(Vec3 p) {
  return fmt::format("origin = [{}, {}, {}]\n", p.x, p.y, p.z);
}

TEST(RandomNails, AreRefusedInWordsOrHoldAllThrough) {
  Chance c{std::mt19937(25)};
  int made = 0, refused = 0;
  for (int n = 0; n < 60; ++n) {
    Bar post = bar(c, "post", {1.0 * c.whole(200, 400), 1.0 * c.whole(40, 90), 1.0 * c.whole(30, 60)});
    Bar batten = bar(c, "batten", {1.0 * c.whole(80, 300), 1.0 * c.whole(15, 50), 1.0 * c.whole(6, 25)});
    const int normal = c.whole(0, 2), out = c.whole(0, 1) == 0 ? 1 : -1;
    for (int i = 0; i < 3; ++i)
      batten.origin[i] = i == normal ? out * (post.size[i] + batten.size[i]) / 2
                                     : c.whole(-1, 1) * std::floor((post.size[i] + batten.size[i]) / 5);
    const bool pieces = c.whole(0, 1) == 1;
    const double diameter = c.whole(2, 6) / 2.0, punch = c.whole(0, 4) / 2.0;
    std::string text = "title = \"Chance\"\n" + post.text + at(post.origin) + batten.text + at(batten.origin);
    text += fmt::format(
        "[[joint]]\nkind = \"nailed-face\"\npiece = \"batten\"\nto = \"post\"\nnails = \"{}\"\ndiameter = "
        "{}\npunch = {}\npitch = {}\n",
        pieces ? "pieces" : "listed", diameter, punch, c.whole(20, 150));
    SCOPED_TRACE(fmt::format("{}\n{}", n, text));
    const auto faults = faultsOfText(text);
    if (!faults.empty()) {
      ++refused;
      for (const std::string& f : faults) EXPECT_EQ(f.rfind("test.toml:", 0), 0u) << f;
      continue;
    }
    const CutWork work = cutText(text);
    for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.text;
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work.assembly)));
    for (int body : {0, 1})
      for (int axis = 0; axis < 3; ++axis)
        for (double by : {0.05, -0.05}) {
          Assembly moved = work.assembly;
          moved.bodies[static_cast<size_t>(body)].worldFromPiece.origin[axis] += by;
          EXPECT_FALSE(fit(moved).clean()) << body << " along " << axis << " by " << by;
        }
    const double round = std::numbers::pi * diameter * diameter / 4, thick = batten.size[normal];
    const auto nails = static_cast<double>(work.pieces.size() - 2);
    const double length = pieces ? sizeOf(work.pieces[2].last().shell).x : 0;
    const auto expect = [&](int piece, const Bar& b, double bored) {
      const double mm3 = b.size.x * b.size.y * b.size.z - nails * round * bored;
      EXPECT_NEAR(volume(work.pieces[static_cast<size_t>(piece)].last().shell), mm3, 1e-9 * mm3);
    };
    expect(0, post, length - (thick - punch));
    expect(1, batten, thick);
    ++made;
    if (HasFailure()) return;
  }
  EXPECT_GE(made, 20);
  EXPECT_GE(refused, 5);  // ends, edges without wood: the words are asked too
}

}  // namespace
}  // namespace dryfit::tests
