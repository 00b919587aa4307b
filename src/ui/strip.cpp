#include <algorithm>
#include <cmath>

#include "ui/parts.h"

namespace dryfit::ui {

namespace {

using scene::Colour;
using scene::Face;

/// How many widths of a tick's gap lie between two stages.
constexpr double kStageGap = 0.9;

class Strip {
 public:
  Strip(Controls& c, const Seen& seen, std::vector<Input>& out) : c_(c), seen_(seen), out_(out) {}

  void draw() {
    board();
    buttons();
    if (!seen_.model || seen_.model->steps() == 0) return;
    scale();
    pencil();
  }

 private:
  const Rect& r() const { return seen_.screen.strip; }
  const State& s() const { return seen_.state; }
  double high(double design) const { return design * r().height / (seen_.screen.narrow ? 100 : 130); }

  void board() {
    c_.fill(r(), c_.sheet().stripFace);
    const double edge = high(12);
    c_.fill({r().x, r().bottom() - edge, r().width, edge}, c_.sheet().stripEdge);
    c_.line({r().x, r().bottom() - edge}, {r().right(), r().bottom() - edge}, c_.colours().ink, 1.1 * c_.u());
    c_.line({r().x, r().y}, {r().right(), r().y}, c_.colours().ink, 1.6 * c_.u());
  }

  void buttons() {
    const double x = r().x + c_.t(28), tall = c_.t(40);
    const int steps = seen_.model ? seen_.model->steps() : 0, step = stepTold(s()) + 1;
    double top = r().y + high(46);
    if (!seen_.screen.narrow) {
      double at = x;
      at += c_.text({at, r().y + high(28)}, "Step ", Face::Text, 16, c_.colours().soft);
      at += c_.text({at, r().y + high(28)}, std::to_string(step), Face::Lettering, 26, c_.colours().ink) +
            c_.t(6);
      at += c_.text({at, r().y + high(28)}, "of ", Face::Text, 16, c_.colours().soft);
      c_.text({at, r().y + high(28)}, std::to_string(steps), Face::Lettering, 26, c_.colours().ink);
    } else {
      top = r().middle().y - tall / 2 - high(6);
    }
    double at = x;
    const std::string run = s().running ? "Stop" : "Run";
    for (const auto& [label, deed, wide] : {std::tuple<std::string, Deed, double>{"Back", Deed::Back, 76},
                                            {run, Deed::Run, 62},
                                            {"Forward", Deed::Forward, 96}}) {
      const Rect button{at, top, c_.t(wide), tall};
      if (c_.button(button, label, deed == Deed::Forward)) out_.push_back(Did{deed});
      at = button.right() + c_.t(8);
    }
    left_ = at + c_.t(56);
  }

  /// Where the moment `at` lies: the middle of the tick of a step done, between ticks while one moves.
  double xOf(double at) const {
    const auto& stages = seen_.model->stages;
    const double step = at - 1;  // tick of step k is where k + 1 are done
    double x = left_;
    for (size_t i = 0; i < stages.size(); ++i) {
      const StageSpan& span = stages[i];
      if (step <= span.end() - 1 || i + 1 == stages.size()) {
        const double within = step - span.first;
        if (within >= 0) return x + within * gap_;
        // On the way from the last stage's last tick to this one's first.
        const double from = i == 0 ? left_ - gap_ : x - (kStageGap + 1) * gap_;
        return from + (x - from) * (within + 1);
      }
      x += (span.count - 1 + kStageGap + 1) * gap_;
    }
    return x;
  }
  double momentAt(double x) const {
    double best = 0, least = 1e18;
    const int steps = seen_.model->steps();
    for (int k = 0; k < steps; ++k) {
      const double a = xOf(k), b = xOf(k + 1);
      const double within = std::clamp((x - a) / std::max(1e-9, b - a), 0.0, 1.0);
      const double away = std::abs(a + within * (b - a) - x);
      if (away < least) least = away, best = k + within;
    }
    return best;
  }

  void scale() {
    const auto& stages = seen_.model->stages;
    const int steps = seen_.model->steps();
    const double right = r().right() - c_.t(48);
    gap_ = (right - left_) / (steps - 1 + kStageGap * static_cast<double>(stages.size() - 1));
    const double base = r().y + high(seen_.screen.narrow ? 62 : 84),
                 bracket = r().y + high(seen_.screen.narrow ? 20 : 27);
    const int now = std::max(0, stepTold(s()));
    const double done = s().at;
    double written = -1e9;
    const auto isPresent = [&](const StageSpan& span) { return now >= span.first && now < span.end(); };
    for (const StageSpan& span : stages) {
      const double x0 = xOf(span.first + 1) - gap_ * 0.3, x1 = xOf(span.end()) + gap_ * 0.3;
      if (!isPresent(span)) stage(span, false, x0, x1, bracket);
      Colour soft = c_.colours().ink;
      soft.alpha = 0.42;
      c_.line({x0, base}, {x1, base}, soft, c_.u());
      for (int k = span.first; k < span.end(); ++k) {
        const double x = xOf(k + 1);
        const bool isDone = k + 1 <= done + 1e-9;
        const double tall = high(k + 1 == span.end() ? 30 : (k + 1) % 5 == 0 ? 26 : 20);
        Colour colour = c_.colours().ink;
        colour.alpha = isDone ? 0.92 : 0.42;
        c_.line({x, base - tall}, {x, base}, colour,
                (isDone ? std::min(3.4 * c_.u(), 0.55 * gap_) : 1.2 * c_.u()));
        const int every = seen_.screen.narrow || gap_ < c_.t(9) ? 10 : 5;
        const bool nearPencil = std::abs(x - xOf(done)) < c_.t(26);
        if ((k + 1) % every == 0 && x - written > c_.t(34) && !nearPencil) {
          c_.text({x, base + high(17)}, std::to_string(k + 1), Face::Lettering, 16, c_.colours().soft,
                  Align::Middle);
          written = x;
        }
      }
    }
    for (const StageSpan& span : stages)  // over its neighbours'
      if (isPresent(span))
        stage(span, true, xOf(span.first + 1) - gap_ * 0.3, xOf(span.end()) + gap_ * 0.3, bracket);
    base_ = base;
  }

  void stage(const StageSpan& span, bool present, double x0, double x1, double y) {
    Colour colour = c_.colours().ink;
    colour.alpha = present ? 1 : 0.55;
    const double width = (present ? 2 : 1.1) * c_.u(), drop = high(9);
    const Face face = present ? Face::TextStrong : Face::Text;
    const double room = x1 - x0 - c_.t(18), words = c_.widthOf(span.name, face, 15);
    c_.line({x0, y}, {x0, y + drop}, colour, width);
    c_.line({x1, y}, {x1, y + drop}, colour, width);
    const bool named = words < room || present;
    if (!named) return c_.line({x0, y}, {x1, y}, colour, width);
    double middle = std::clamp((x0 + x1) / 2, left_ + words / 2, r().right() - c_.t(20) - words / 2);
    c_.line({x0, y}, {std::max(x0, middle - words / 2 - c_.t(8)), y}, colour, width);
    c_.line({std::min(x1, middle + words / 2 + c_.t(8)), y}, {x1, y}, colour, width);
    if (present && words >= room) {
      c_.fill({middle - words / 2 - c_.t(6), y - c_.t(10), words + c_.t(12), c_.t(20)}, c_.sheet().stripFace);
    }
    c_.text({middle, y + c_.t(5)}, span.name, face, 15, present ? c_.colours().ink : c_.colours().soft,
            Align::Middle);
  }

  void pencil() {
    const double x = xOf(s().at), y = base_, w = high(9), body = r().bottom() - y;
    const Colour wood = scene::rgb(0xF0D4A8), paint = scene::rgb(0xD55E00), dark = scene::rgb(0x9A4300);
    c_.shape({{x, y + high(2)}, {x + w, y + high(20)}, {x - w, y + high(20)}}, wood);
    c_.shape({{x, y + high(2)}, {x + w / 3, y + high(8)}, {x - w / 3, y + high(8)}}, c_.colours().ink);
    c_.fill({x - w, y + high(20), 2 * w, body - high(20)}, paint);
    c_.fill({x - w / 3, y + high(20), 2 * w / 3, body - high(20)}, dark);
    const double before = std::min(gap_, c_.t(30));
    const Rect reach{left_ - before, r().y + high(36), r().right() - left_ + before, r().height - high(36)};
    if (const auto at = c_.held(reach, "order strip")) out_.push_back(DraggedTo{snapped(at->x), false});
  }
  /// Within six pixels of a tick the pencil is at it.
  double snapped(double x) const {
    const double at = momentAt(x), tick = std::round(at);
    return std::abs(xOf(tick) - x) < 6 * c_.u() ? tick : at;
  }

  Controls& c_;
  const Seen& seen_;
  std::vector<Input>& out_;
  double left_ = 0, gap_ = 1, base_ = 0;
};

}  // namespace

void drawStrip(Controls& controls, const Seen& seen, std::vector<Input>& out) {
  Strip(controls, seen, out).draw();
}

}  // namespace dryfit::ui
