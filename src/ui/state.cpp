#include "ui/state.h"

#include <algorithm>
#include <cmath>

#include "scene/camera.h"

namespace dryfit::ui {

namespace {

/// A step's travel, and the rest after it when the order runs by itself.
constexpr double kTravelS = 0.9, kRestS = 1.6;
constexpr double kMostNearer = 40, kLeastNearer = 0.4;
constexpr double kSteepestDeg = 90;
constexpr double kLargestText = 2, kTextStep = 0.25;

template <class... Fs>
struct Overloaded : Fs... {
  using Fs::operator()...;
};
template <class... Fs>
Overloaded(Fs...) -> Overloaded<Fs...>;

class Turning {
 public:
  Turning(State state, const Model* model) : s_(std::move(state)), model_(model) {}

  State by(const Input& input) {
    std::visit(
        Overloaded{[&](const Did& i) { did(i.deed); }, [&](const DraggedTo& i) { dragged(i); },
                   [&](const SetSpread& i) { s_.spread = std::clamp(i.share, 0.0, 1.0); },
                   [&](const SetSection& i) { section(i); }, [&](const Turned& i) { turn(i); },
                   [&](const Slid& i) { s_.eye.slide = s_.eye.slide + i.by; },
                   [&](const CameNearer& i) { nearer(i); }, [&](const Pointed& i) { s_.hover = i.piece; },
                   [&](const Clicked& i) { click(i); }, [&](const Passed& i) { passed(i.seconds); },
                   [&](const Loaded& i) { loaded(*i.model); },
                   [&](const NotLoaded& i) { s_.message = i.lines; }},
        input);
    return std::move(s_);
  }

 private:
  double steps() const { return model_ ? model_->steps() : 0; }

  void did(Deed deed) {
    switch (deed) {
      case Deed::Forward:
        return go(std::floor(from() + 1e-9) + 1);
      case Deed::Back:
        return goBack();
      case Deed::First:
        return jump(0);
      case Deed::Last:
        return jump(steps());
      case Deed::Run:
        return run();
      case Deed::SpreadKey:
        s_.spread = s_.spread > 0 ? 0 : 1;
        return;
      case Deed::SectionKey:
        return section({s_.section.way ? std::nullopt : std::optional(scene::SectionWay::Across), {}});
      case Deed::SeeThrough:
        s_.seeThrough = !s_.seeThrough;
        return;
      case Deed::JointOnly:
        s_.jointOnly = !s_.jointOnly;
        return;
      case Deed::Sizes:
        s_.sizes = !s_.sizes;
        return;
      case Deed::Front:
        return lookFrom("front");
      case Deed::BackView:
        return lookFrom("back");
      case Deed::Side:
        return lookFrom("side");
      case Deed::Plan:
        return lookFrom("plan");
      case Deed::Corner:
        return lookFrom("corner");
      case Deed::Ground:
        s_.ground = s_.ground == scene::Ground::Paper ? scene::Ground::Slate : scene::Ground::Paper;
        return;
      case Deed::Unit:
        s_.unit = s_.unit == LengthUnit::Inch ? LengthUnit::Millimetre : LengthUnit::Inch;
        return;
      case Deed::Help:
        s_.help = !s_.help;
        return;
      case Deed::Escape:
        return putAway();
      case Deed::Hide:
        return hide();
      case Deed::ShowAll:
        s_.hidden.clear();
        return;
      case Deed::TextLarger:
        s_.textScale = std::min(kLargestText, s_.textScale + kTextStep);
        return;
      case Deed::TextSmaller:
        s_.textScale = std::max(1.0, s_.textScale - kTextStep);
        return;
    }
  }

  /// Where it is going, else where it is: two presses in haste are two steps.
  double from() const { return s_.goingTo.value_or(s_.at); }

  void go(double to) {
    to = std::clamp(to, 0.0, steps());
    if (s_.goingTo) s_.at = *s_.goingTo;  // what was under way is home at once
    s_.goingTo = to;
    if (s_.at >= to) s_.goingTo.reset();
    s_.restS = 0;
  }
  void goBack() {
    s_.running = false;
    jump(std::ceil(s_.at - 1e-9) - 1);
  }
  void jump(double to) {
    s_.running = false;
    s_.goingTo.reset();
    s_.at = std::clamp(to, 0.0, steps());
  }
  void run() {
    s_.running = !s_.running && s_.at < steps();
    if (s_.running) go(std::floor(s_.at + 1e-9) + 1);
  }

  void dragged(const DraggedTo& to) { jump(to.released ? std::round(to.at) : to.at); }

  void section(const SetSection& set) {
    if (set.at)
      s_.section.at = std::clamp(*set.at, 0.0, 1.0);
    else
      s_.section.way = s_.section.way == set.way ? std::nullopt : set.way;
    if (set.at && set.way) s_.section.way = set.way;
  }

  void lookFrom(const std::string& name) {
    for (const scene::View& view : scene::namedViews())
      if (view.name == name) s_.eye = {name, view.azimuthDeg, view.elevationDeg, 1, {}};
  }
  void turn(const Turned& by) {
    s_.eye.view.clear();
    s_.eye.azimuthDeg = std::remainder(s_.eye.azimuthDeg + by.azimuthDeg, 360);
    s_.eye.elevationDeg = std::clamp(s_.eye.elevationDeg + by.elevationDeg, -kSteepestDeg, kSteepestDeg);
  }
  /// What lies under the pointer stays there.
  void nearer(const CameNearer& by) {
    const double before = s_.eye.nearer;
    s_.eye.nearer = std::clamp(before * by.times, kLeastNearer, kMostNearer);
    const double times = s_.eye.nearer / before;
    s_.eye.slide = by.about + (s_.eye.slide - by.about) * times;
  }

  void click(const Clicked& on) {
    s_.chosen = on.piece;
    if (on.twice) s_.jointOnly = on.piece.has_value();
  }

  /// One thing at a time, the last put on first.
  void putAway() {
    if (s_.help) {
      s_.help = false;
    } else if (!s_.message.empty()) {
      s_.message.clear();
    } else if (s_.jointOnly) {
      s_.jointOnly = false;
    } else if (s_.section.way) {
      s_.section.way.reset();
    } else if (s_.spread > 0) {
      s_.spread = 0;
    } else if (s_.seeThrough || s_.sizes) {
      s_.seeThrough = s_.sizes = false;
    } else {
      s_.chosen.reset();
    }
  }
  void hide() {
    if (!s_.chosen) return;
    s_.hidden.insert(std::upper_bound(s_.hidden.begin(), s_.hidden.end(), *s_.chosen), *s_.chosen);
    s_.chosen.reset();
  }

  void passed(double seconds) {
    if (s_.goingTo) {
      const bool motion = model_ && !model_->order.steps.empty() && s_.at < steps() &&
                          !model_->order.steps[static_cast<size_t>(s_.at)].moves.empty();
      s_.at = motion ? std::min(*s_.goingTo, s_.at + seconds / kTravelS) : *s_.goingTo;
      if (s_.at >= *s_.goingTo) s_.goingTo.reset();
      return;
    }
    if (!s_.running) return;
    s_.restS += seconds;
    if (s_.restS < kRestS) return;
    if (s_.at >= steps())
      s_.running = false;
    else
      go(std::floor(s_.at + 1e-9) + 1);
  }

  /// The place is kept where the new work has one.
  void loaded(const Model& model) {
    if (!model_) s_.unit = model.work.lengths;  // the first file's own, until another is chosen
    s_.message.clear();
    s_.hover.reset();
    s_.goingTo.reset();
    s_.at = std::min(s_.at, static_cast<double>(model.steps()));
    const int pieces = static_cast<int>(model.work.pieces.size());
    if (s_.chosen && *s_.chosen >= pieces) s_.chosen.reset();
    std::erase_if(s_.hidden, [&](int piece) { return piece >= pieces; });
  }

  State s_;
  const Model* model_;
};

}  // namespace

State turned(State state, const Input& input, const Model* model) {
  return Turning(std::move(state), model).by(input);
}

bool moves(const State& state) {
  return state.goingTo.has_value() || state.running;
}

int stepTold(const State& state) {
  const double at = state.goingTo.value_or(state.at);
  return static_cast<int>(std::ceil(at - 1e-9)) - 1;
}

}  // namespace dryfit::ui
