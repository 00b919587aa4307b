#include "support/random_leaf.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "settingout/moulding_profiles.h"
#include "settingout/tenon_rules.h"

namespace dryfit::tests {

namespace {

class Writer {
 public:
  Writer(Chance& chance, Written written) : c(chance), written_(written) {}

  std::string body() {
    std::string text = "width = " + mm(c.whole(450, 1100)) + "\nheight = " + mm(c.whole(1200, 2600)) +
                       "\nthickness = " + mm(c.whole(30, 60)) +
                       "\nhorns = " + mm(c.oneIn(3) ? 0 : c.whole(20, 60)) + "\n";
    if (c.oneIn(2)) {
      const std::string hanging = mm(c.whole(60, 130)), closing = mm(c.whole(60, 130));
      text += "stile = { hanging = " + hanging + ", closing = " + closing + " }\n";
    }
    if (c.oneIn(2)) text += "closing_bevel = " + mm(c.whole(1, 10) / 2.0) + "\n";
    const char* fixings[] = {"wedged", "draw-bored", "glued", "dowelled"};
    const std::string fixing = fixings[c.whole(0, 3)];
    text += fmt::format("[leaf.tenon]\nfixing = \"{}\"\n", fixing);
    if (fixing != "dowelled") text += fmt::format("rule = \"{}\"\n", c.oneIn(2) ? "house" : author());
    text += "[leaf.groove]\ndepth = " + mm(c.whole(6, 16)) + "\n" + panel() + moulding();
    const int rails = c.whole(2, 5);
    for (int i = 0; i < rails; ++i) {
      text += fmt::format("[[leaf.rail]]\nname = \"r{}\"\n", i + 1) +
              "width = " + mm(c.whole(60, i + 1 == rails ? 240 : 150)) + "\n";
      if (fixing != "dowelled") text += tenon();
    }
    for (int i = 0; i + 1 < rails; ++i) {
      text += fmt::format("[[leaf.row]]\nmuntins = {}\n", c.whole(0, 2));
      text += "width = " + mm(c.whole(50, 100)) + "\n";
    }
    return text;
  }

 private:
  std::string mm(double size) const {
    return written_ == Written::Inches ? fmt::format("\"{:.17g} in\"", size / 25.4) : fmt::format("{}", size);
  }
  std::string author() {
    return tenonAuthors()[static_cast<size_t>(c.whole(0, static_cast<int>(tenonAuthors().size()) - 1))].word;
  }

  /// Now and then a rail's own tenons.
  std::string tenon() {
    if (c.oneIn(4)) return fmt::format("tenon = {{ rule = \"{}\" }}\n", author());
    if (c.oneIn(8)) return fmt::format("tenon = {{ count = {} }}\n", c.whole(1, 4));
    if (c.oneIn(8)) return "tenon = { proud = 0 }\n";
    if (c.oneIn(8)) return "tenon = { haunch = false }\n";
    return "";
  }

  std::string faces() {
    const char* words[] = {"front", "back", "both"};
    return fmt::format("faces = \"{}\"\n", words[c.whole(0, 2)]);
  }

  std::string panel() {
    const char* kinds[] = {"flat", "raised", "bead-and-butt"};
    const std::string kind = kinds[c.whole(0, 2)];
    std::string text =
        fmt::format("[leaf.panel]\nkind = \"{}\"\ngrain = \"{}\"\n", kind, c.oneIn(4) ? "across" : "upright");
    if (kind != "flat" && c.oneIn(2)) text += faces();
    if (kind == "bead-and-butt" && c.oneIn(3)) {
      text += "bead = " + mm(c.whole(4, 14)) + "\n";
      text += "quirk = " + mm(c.whole(2, 10) / 2.0) + "\n";
    }
    return text;
  }

  /// From the back edge outwards, up and down by steps, slopes, rounds and hollows.
  std::string listed(int width, int thickness) {
    std::string text = "[[0, " + mm(thickness) + "]";
    double x = 0, y = thickness;
    while (x < width - 3) {
      const double toX = std::min<double>(width, x + c.whole(2, 8)), toY = c.whole(2, thickness);
      const double reach = std::hypot(toX - x, toY - y) / 2;
      const std::string to = "[" + mm(toX) + ", " + mm(toY) + "]";
      if (c.oneIn(3) && toY < y) {
        const double radius = std::ceil(reach * 11) / 10;
        text += std::string(", { ") + (c.oneIn(2) ? "round" : "hollow") + " = " + mm(radius) +
                ", to = " + to + " }";
      } else {
        text += ", " + to;
      }
      x = toX;
      y = toY;
      if (c.oneIn(3) && y > 3) text += ", [" + mm(x) + ", " + mm(y -= 1.5) + "]";
    }
    return text + ", [" + mm(x) + ", 0]]";
  }

  std::string moulding() {
    if (c.oneIn(6)) return c.oneIn(2) ? "[leaf.moulding]\nkind = \"none\"\n" : "";
    std::string text = "[leaf.moulding]\n";
    const bool isListed = c.oneIn(4);
    const int width = c.whole(10, 30), thickness = c.whole(6, 12);
    const bool sized = isListed || c.oneIn(2);
    if (sized) text += "width = " + mm(width) + "\nthickness = " + mm(thickness) + "\n";
    const std::string name = profileNames()[static_cast<size_t>(c.whole(0, 5))];
    text += "profile = " + (isListed ? listed(width, thickness) : "\"" + name + "\"") + "\n";
    if (!isListed && name != "square" && c.oneIn(4)) text += "radius = " + mm(c.whole(2, 10) / 2.0) + "\n";
    if (c.oneIn(6)) text += faces();
    if (c.oneIn(4)) text += "pins = \"pieces\"\n";
    if (c.oneIn(4)) text += "pin_diameter = " + mm(c.whole(8, 24) / 8.0) + "\n";
    if (c.oneIn(6)) text += "pin_pitch = " + mm(c.whole(60, 250)) + "\n";
    if (c.oneIn(8)) text += "pin_margin = " + mm(c.whole(20, 60)) + "\n";
    return text;
  }

  Chance& c;
  Written written_;
};

}  // namespace

std::string randomLeaf(Chance& chance, Written written) {
  return Writer(chance, written).body();
}

std::string doorSetOf(const std::string& body, const std::string& hand) {
  return "title = \"Trial\"\n[leaf]\nhand = \"" + hand + "\"\n" + body;
}

int leavesAsked(int few) {
  const char* asked = std::getenv("DRYFIT_LEAVES");
  return asked ? std::atoi(asked) : few;
}

}  // namespace dryfit::tests
