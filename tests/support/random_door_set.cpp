#include "support/random_door_set.h"

#include <fmt/format.h>

#include <cmath>

#include "doorset/doorway_rules.h"
#include "settingout/moulding_profiles.h"

namespace dryfit::tests {

namespace {

class Writer {
 public:
  explicit Writer(unsigned seed) : c_{std::mt19937(seed)} {}

  std::string text(const std::string& hand) {
    std::string text = "title = \"Trial\"\n";
    text += wall();  // one by one: each looks at what those before it chose
    text += lining();
    text += leaf(hand);
    text += hinge();
    text += lock();
    return text += trim();
  }

 private:
  template <class... A>
  static std::string oneOf(Chance& c, A... words) {
    const std::string all[] = {words...};
    return all[c.whole(0, sizeof...(A) - 1)];
  }
  static std::string key(const std::string& name, const std::string& word) {
    return name + " = \"" + word + "\"\n";
  }
  static std::string key(const std::string& name, double size) {
    return fmt::format("{} = {}\n", name, size);
  }

  std::string wall() {
    kind_ = oneOf(c_, "brick", "brick", "block", "stud");
    const int least = kind_ == "stud" ? 95 : 100, most = kind_ == "stud" ? 150 : kind_ == "block" ? 215 : 450;
    thickness_ = c_.whole(least, most);
    std::string text = "[wall]\n" + key("kind", kind_);
    if (c_.oneIn(4)) {  // measured at three places
      const int second = thickness_ - c_.whole(0, 40), third = thickness_ - c_.whole(0, 20);
      text += fmt::format("thickness = [{}, {}, {}]\n", thickness_, second, third);
    } else {
      text += key("thickness", thickness_);
    }
    const int inside = c_.whole(12, 25), outside = c_.whole(12, 25);
    text += fmt::format("finish = {{ inside = {}, outside = {} }}\n", inside, c_.oneIn(3) ? inside : outside);
    if (c_.oneIn(2)) text += "[floor]\n" + key("fall", c_.whole(-8, 12));
    framed_ = kind_ == "stud" ? c_.oneIn(4) : !c_.oneIn(4);
    if (kind_ != "stud" && !framed_) return text + "[grounds]\nkind = \"none\"\n";
    if (framed_) text += grounds();
    return text;
  }

  std::string grounds() {
    std::string text = "[grounds]\nkind = \"framed\"\n" + key("width", c_.whole(70, 110));
    if (c_.oneIn(2)) text += key("splay", c_.oneIn(2) ? 0 : 5);
    if (c_.oneIn(4)) text += key("corner", "butted");
    text += "[backing]\n";
    if (c_.oneIn(4)) return text + key("kind", "none");
    if (c_.oneIn(2)) text += key("pitch", c_.whole(350, 700));
    if (c_.oneIn(2)) text += key("thickness", c_.whole(18, 28));
    if (c_.oneIn(3)) text += key("slope", "1:8");
    return text;
  }

  std::string lining() {
    std::string rebate = oneOf(c_, "double", "single", "none");
    if (rebate == "double" && thickness_ < 130) rebate = "single";  // no land left between two
    std::string text = "[lining]\n" + key("rebate", rebate) + key("thickness", c_.whole(30, 40)) +
                       key("head_joint", oneOf(c_, "trenched", "housed", "rebated"));
    if (c_.oneIn(4)) text += key("horns", c_.oneIn(2) ? 0 : 25);
    if (c_.oneIn(6)) text += "stretcher = false\n";
    if (c_.oneIn(3)) text += key("packing", c_.whole(8, 14));
    if (rebate == "none" && c_.oneIn(2)) text += "[stop]\n" + key("width", c_.whole(25, 45));
    return text;
  }

  std::string leaf(const std::string& hand) {
    const int height = c_.whole(1850, 2250);
    const int rows = c_.whole(1, 2);
    const int width = c_.whole(600, 950), thickness = c_.whole(38, 50);
    std::string text = "[leaf]\n" + key("hand", hand) + key("opens", oneOf(c_, "inside", "outside")) +
                       key("width", width) + key("height", height) + key("thickness", thickness) +
                       key("stile", c_.whole(90, 120));
    // A square edge passes the jamb's arris only where the leaf is wide for its thickness: pin 5 proud, at
    // mid-gap.
    const bool strikes = std::hypot(width + 1, thickness + 5) > std::hypot(width + 3, 5) - 0.1;
    if (c_.oneIn(3) || strikes) text += key("closing_bevel", 2.5);
    if (c_.oneIn(3)) text += key("horns", c_.oneIn(2) ? 0 : 25);
    if (c_.oneIn(3)) text += key("gap", 3);
    for (int i = 0; i <= rows; ++i) {
      const bool lowest = i == rows;
      text += "[[leaf.rail]]\n" + key("name", fmt::format("r{}", i + 1)) +
              key("width", c_.whole(90, lowest ? 200 : 130));
      if (i == 1 && !lowest) text += key("top_edge", c_.whole(850, 930));
    }
    for (int i = 0; i < rows; ++i) text += "[[leaf.row]]\n" + key("muntins", c_.oneIn(4) ? 1 : 0);
    text += "[leaf.tenon]\n" + key("fixing", oneOf(c_, "wedged", "draw-bored", "glued"));
    text += "[leaf.panel]\n" + key("kind", oneOf(c_, "flat", "raised"));
    if (!c_.oneIn(3)) text += "[leaf.moulding]\nkind = \"none\"\n";
    return text;
  }

  std::string hinge() {
    const auto words = hingeRuleWords();
    std::string text =
        "[hinge]\n" +
        key("rule", words[static_cast<size_t>(c_.whole(0, static_cast<int>(words.size()) - 1))]);
    if (c_.oneIn(2)) text += key("pin", "loose");
    if (c_.oneIn(2)) text += key("let_in", "stile");
    if (c_.oneIn(4)) text += "staggered = false\n";
    if (c_.oneIn(3)) text += key("knuckles", c_.oneIn(2) ? 3 : 7);
    if (c_.oneIn(3)) text += key("screws", c_.whole(3, 4));
    return text;
  }

  std::string lock() { return c_.oneIn(2) ? "[lock]\n" + key("height", c_.whole(990, 1100)) : ""; }

  std::string named() {
    return key("profile", oneOf(c_, "square", "ovolo", "ogee", "chamfer", "bead", "scotia"));
  }

  std::string trim() {
    std::string text = "[architrave]\n";
    const bool none = c_.oneIn(4);
    text += none ? key("kind", "none") : named() + key("margin", c_.whole(4, 8));
    if (!none && c_.oneIn(3)) text += key("faces", oneOf(c_, "front", "back"));
    text += "[skirting]\n";
    if (c_.oneIn(4)) return text + key("kind", "none");
    text += named() + key("height", c_.whole(95, 170));
    if (c_.oneIn(3)) text += key("faces", oneOf(c_, "front", "back"));
    return text;
  }

  Chance c_;
  std::string kind_;
  int thickness_ = 0;
  bool framed_ = false;
};

}  // namespace

std::string randomDoorSet(unsigned seed, const std::string& hand) {
  return Writer(seed).text(hand);
}

}  // namespace dryfit::tests
