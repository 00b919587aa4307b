#include <fmt/format.h>

#include "base/units.h"
#include "scene/size_text.h"
#include "ui/parts.h"

namespace dryfit::ui {

namespace {

constexpr double kSize = 16, kFigures = 19;

class Row {
 public:
  Row(Controls& c, const Seen& seen, std::vector<Input>& out)
      : c_(c),
        seen_(seen),
        out_(out),
        x_(seen.screen.looks.x),
        baseline_(seen.screen.looks.middle().y + c.t(5.5)) {}

  void draw() {
    spread();
    section();
    lozenge("See through", seen_.state.seeThrough, Deed::SeeThrough);
    lozenge("Joint only", seen_.state.jointOnly, Deed::JointOnly);
    lozenge("Sizes", seen_.state.sizes, Deed::Sizes);
    putAway();
  }

 private:
  const State& s() const { return seen_.state; }
  double sliderWidth() const { return c_.t(seen_.screen.narrow ? 90 : 150); }

  void word(const std::string& text) {
    x_ += c_.text({x_, baseline_}, text, scene::Face::Text, kSize, c_.colours().ink) + c_.t(16);
  }
  void figures(const std::string& text, bool off) {
    c_.text({x_, baseline_}, text, scene::Face::Lettering, kFigures,
            off ? c_.colours().soft : c_.colours().ink);
    x_ += c_.t(seen_.screen.narrow ? 62 : 80);
  }

  bool sliders() const { return !seen_.screen.cardBelow; }

  void spread() {
    if (!sliders()) {
      if (c_.word({x_, baseline_}, "Spread", kSize, s().spread > 0, false))
        out_.push_back(Did{Deed::SpreadKey});
      x_ += c_.wordWidth("Spread", kSize, s().spread > 0) + c_.t(12);
      return figures(fmt::format("{:.0f} %", 100 * s().spread), s().spread == 0);
    }
    word("Spread");
    const Rect r{x_, seen_.screen.looks.y, sliderWidth(), seen_.screen.looks.height};
    if (const auto share = c_.slider(r, "Spread", s().spread, false)) out_.push_back(SetSpread{*share});
    x_ = r.right() + c_.t(18);
    figures(fmt::format("{:.0f} %", 100 * s().spread), s().spread == 0);
  }

  void section() {
    word("Section");
    for (const auto& [name, way] : scene::sectionWays()) {
      const bool on = s().section.way == way;
      if (c_.word({x_, baseline_}, name, kSize, on, false)) out_.push_back(SetSection{way, {}});
      x_ += c_.wordWidth(name, kSize, on) + c_.t(14);
    }
    const bool off = !s().section.way;
    if (!sliders()) return figures(off ? "off" : fmt::format("{:.0f} %", 100 * s().section.at), off);
    const Rect r{x_ + c_.t(6), seen_.screen.looks.y, sliderWidth(), seen_.screen.looks.height};
    if (const auto share = c_.slider(r, "Section", s().section.at, off))
      out_.push_back(SetSection{s().section.way.value_or(scene::SectionWay::Plan), share});
    x_ = r.right() + c_.t(18);
    figures(off ? "off" : fmt::format("{:.0f} %", 100 * s().section.at), off);
  }

  void lozenge(const std::string& label, bool on, Deed deed) {
    if (c_.lozenge({x_, baseline_}, label, on)) out_.push_back(Did{deed});
    x_ += c_.t(21) + c_.wordWidth(label, kSize, on) + c_.t(24);
  }

  /// What is put away is always said.
  void putAway() {
    if (s().hidden.empty()) return;
    const std::string label = fmt::format("{} put away: show all", s().hidden.size());
    if (c_.word({x_, baseline_}, label, kSize, false, false)) out_.push_back(Did{Deed::ShowAll});
  }

  Controls& c_;
  const Seen& seen_;
  std::vector<Input>& out_;
  double x_, baseline_;
};

}  // namespace

void drawLooks(Controls& controls, const Seen& seen, std::vector<Input>& out) {
  if (seen.screen.pictureOnly) return;
  Row(controls, seen, out).draw();
}

}  // namespace dryfit::ui
