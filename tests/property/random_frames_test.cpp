// Frames nobody has drawn: random stiles, rails, muntins, panels, fixings. Each is either refused in plain
// words before anything is cut, or it is right all through: valid solids, a clean fit, an order.
//
// DRYFIT_FRAMES=1000 in the environment tries more by hand.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "fit/fit.h"
#include "order/order.h"
#include "settingout/read_work.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

struct Chance {
  std::mt19937 random;
  int whole(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); }
  bool oneIn(int n) { return whole(1, n) == 1; }
  template <class T>
  T oneOf(std::initializer_list<T> all) {
    return *(all.begin() + whole(0, static_cast<int>(all.size()) - 1));
  }
};

struct Rail {
  double width, top;  ///< top edge
};

/// A frame as a work file: two stiles, 2 to 4 rails, a panel in each opening, here and there a muntin.
std::string randomFrame(Chance& c) {
  const double stile = c.whole(45, 140), thickness = c.whole(25, 60), between = c.whole(180, 800);
  const double sight = c.whole(150, 500), gap = between / 2 + stile / 2;
  std::vector<Rail> rails;
  double z = 0;
  const int count = c.whole(2, 4);
  for (int i = 0; i < count; ++i) {
    const double width = c.whole(45, 230);
    rails.push_back({width, z + width});
    z += width + sight;
  }
  const double tall = rails.back().top, horn = c.oneOf({0.0, 25.0, 40.0});
  const std::string fixing = c.oneOf({"wedged", "wedged", "draw-bored", "glued", "dowelled"});
  std::string text = "title = \"Chance\"\n[timber]\nsawn = \"plain\"\n";
  // Upright facing the front, lying flat, or standing in the side wall; signs of the axes as they come.
  const int lie = c.whole(0, 2);
  const std::string across = c.oneOf({"+", "-"}) + std::string(lie == 2 ? "Y" : "X");
  const std::string high = c.oneOf({"+", "-"}) + std::string(lie == 1 ? "Y" : "Z");
  auto member = [&](const std::string& id, double width, const std::string& size, Vec3 at, bool upright) {
    const Vec3 world = lie == 0 ? at : lie == 1 ? Vec3{at.x, at.z, at.y} : Vec3{at.y, at.x, at.z};
    text += fmt::format(
        "[[member]]\nid = \"{}\"\nsection = [{}, {}]\n{}\norigin = [{}, {}, {}]\nalong = \"{}\"\nwidth_along "
        "= \"{}\"\n",
        id, width, thickness, size, world.x, world.y, world.z, upright ? high : across,
        upright ? across : high);
  };
  const std::string stileSize =
      fmt::format("length = {}{}", tall + 2 * horn, horn > 0 ? fmt::format("\nhorns = {}", horn) : "");
  // Outer edges planed to a bevel here and there, narrower at the back or at the face.
  auto bevel = [&](const char* way) {
    if (!c.oneIn(3)) return;
    text += fmt::format("bevel = {{ edge = \"{}{}\", {} = {} }}\n", way, across.substr(1),
                        c.oneOf({"back", "face"}), c.whole(1, 12) / 2.0);
  };
  member("stile.left", stile, stileSize, {-gap, 0, tall / 2}, true);
  bevel("-");
  std::string joints;
  auto tenon = [&](const std::string& rail, const std::string& into) {
    if (fixing == "dowelled") {
      joints += fmt::format("[[joint]]\nkind = \"dowelled\"\nrail = \"{}\"\nto = \"{}\"\n", rail, into);
      return;
    }
    joints += fmt::format(
        "[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"{}\"\nmortise = \"{}\"\nfixing = \"{}\"\n", rail,
        into, fixing);
    if (c.oneIn(6)) joints += "haunch = false\n";
  };
  const double groove = c.whole(6, 18);
  std::vector<std::string> panels;
  auto panel = [&](const std::string& id, const std::string& frame) {
    panels.push_back(id);
    joints += fmt::format(
        "[[joint]]\nkind = \"grooved-panel\"\npanel = \"{}\"\nframe = [{}]\npanel_kind = "
        "\"{}\"\ngroove_depth = {}\n",
        id, frame, c.oneOf({"raised", "flat"}), groove);
  };
  for (int i = 0; i < count; ++i) {
    const std::string id = "rail." + std::to_string(i + 1);
    const Rail& r = rails[static_cast<size_t>(i)];
    member(id, r.width, "length = \"rule\"", {0, 0, r.top - r.width / 2}, false);
    tenon(id, "stile.left");
    tenon(id, "stile.right");
    if (i == 0) continue;
    const std::string below = "rail." + std::to_string(i);
    const std::string pair = fmt::format("\"{}\", \"{}\"", below, id);
    if (c.oneIn(3)) {
      const std::string muntin = "muntin." + std::to_string(i);
      const double low = rails[static_cast<size_t>(i - 1)].top;
      member(muntin, c.whole(45, 110), "length = \"rule\"", {0, 0, (low + r.top - r.width) / 2}, true);
      for (const std::string& into : {below, id})
        joints +=
            fmt::format("[[joint]]\nkind = \"stub-tenon\"\ntenon = \"{}\"\nmortise = \"{}\"\n", muntin, into);
      panel(fmt::format("panel.{}.1", i), pair + fmt::format(", \"stile.left\", \"{}\"", muntin));
      panel(fmt::format("panel.{}.2", i), pair + fmt::format(", \"stile.right\", \"{}\"", muntin));
    } else {
      panel(fmt::format("panel.{}", i), pair + ", \"stile.left\", \"stile.right\"");
    }
  }
  for (const std::string& id : panels)
    text += fmt::format(
        "[[member]]\nid = \"{}\"\nsection = [\"rule\", \"rule\"]\nlength = \"rule\"\nalong = "
        "\"{}\"\nwidth_along = \"{}\"\n",
        id, high, across);
  member("stile.right", stile, stileSize, {gap, 0, tall / 2}, true);
  bevel("+");
  return text + joints;
}

TEST(RandomFrames, AreRefusedInWordsOrRightAllThrough) {
  const char* asked = std::getenv("DRYFIT_FRAMES");
  const int frames = asked ? std::atoi(asked) : 40;
  Chance c{std::mt19937(20261125)};
  int refused = 0, pieces = 0;
  for (int n = 0; n < frames; ++n) {
    const std::string text = randomFrame(c);
    SCOPED_TRACE(fmt::format("frame {}\n{}", n, text));
    const auto read = readWork(text, "chance.toml", keysOf(standardJoints()));
    ASSERT_TRUE(read.ok()) << toText(read.faults()[0]);
    CutCache cache;
    const auto cut = cutWork(read.value(), standardJoints(), cache);
    if (!cut) {
      ++refused;
      for (const Diagnostic& d : cut.faults()) {
        EXPECT_EQ(d.fault, Fault::BadInput) << toText(d);
        EXPECT_GT(d.where.line, 0) << toText(d);
        EXPECT_FALSE(d.hint.empty()) << toText(d);
        if (asked) std::printf("refused: %s\n", toText(d).c_str());
      }
      continue;
    }
    for (const FitFault& f : fit(cut.value().assembly).faults) ADD_FAILURE() << f.text;
    const auto order = plan(cut.value().assembly);
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(order)) << std::get<Locked>(order).text;
    for (const Piece& p : cut.value().pieces)
      for (const PieceState& s : p.states) {
        const auto solid = solidFromShell(s.cut->shell);
        ASSERT_TRUE(solid.ok()) << p.id << " " << s.name;
        for (const std::string& fault : faultsOf(solid.value())) ADD_FAILURE() << p.id << ": " << fault;
        const Measures m = measure(solid.value());
        const double exact = volume(s.cut->shell);
        EXPECT_NEAR(m.volumeMm3, exact, 1e-9 * exact) << p.id;
        EXPECT_GE(shortestEdge(s.cut->shell), 0.01) << p.id;
        ++pieces;
      }
    if (HasFailure()) return;
  }
  EXPECT_LE(refused, frames / 2);  // most of them can be made
  EXPECT_GT(pieces, frames * 5);
}

}  // namespace
}  // namespace dryfit::tests
