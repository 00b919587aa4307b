// The window's own controls, drawn from the design's figures: words, buttons, sliders, lettering. They ask
// the toolkit for where the pointer is and for its drawing list, and for nothing else of it.
//
// Each frame the same calls in the same order: what is drawn first lies beneath. Pixels of the framebuffer.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "scene/look.h"
#include "scene/overlay.h"
#include "ui/rect.h"
#include "ui/screen.h"

namespace dryfit::ui {

/// A control as a test finds it.
struct Recorded {
  std::string label;
  Rect rect;
  bool on = false;
};

/// Colours beyond those of a picture.
struct Sheet {
  scene::Colour pencil, hair, sheet, stripFace, stripEdge, chosen, going;
};
const Sheet& sheetOf(scene::Ground ground);

enum class Align { Left, Middle, Right };

class Controls {
 public:
  Controls();
  ~Controls();
  Controls(const Controls&) = delete;
  Controls& operator=(const Controls&) = delete;

  /// Before the first frame and whenever text changes its size: bakes the letters.
  void setText(double text);
  void begin(const Screen& screen, scene::Ground ground);
  /// What was drawn can be pressed no more; the keyboard's focus is kept.
  const std::vector<Recorded>& recorded() const { return recorded_; }

  const scene::GroundColours& colours() const { return scene::coloursOf(ground_); }
  const Sheet& sheet() const { return sheetOf(ground_); }
  double u() const { return screen_.u; }
  /// A size of text of the design, in pixels here.
  double t(double design) const { return design * screen_.text; }

  // Drawing.
  void fill(const Rect& r, scene::Colour c, double round = 0);
  void frame(const Rect& r, scene::Colour c, double width, double round = 0);
  void line(Vec2 a, Vec2 b, scene::Colour c, double width);
  void shape(const std::vector<Vec2>& points, scene::Colour c);
  /// Baseline begins, is centred or ends at `at`. Comes back with its width.
  double text(Vec2 at, const std::string& words, scene::Face face, double design, scene::Colour c,
              Align align = Align::Left);
  double widthOf(const std::string& words, scene::Face face, double design) const;
  /// Lines no wider than that.
  std::vector<std::string> lines(const std::string& words, scene::Face face, double design,
                                 double width) const;
  /// On one line, cut off with dots where it is wider.
  std::string cutOff(const std::string& words, scene::Face face, double design, double width) const;
  /// The pencil's two strokes under a word.
  void pencilUnder(Vec2 from, double width, const std::string& seed);

  // Controls; true when pressed.
  bool word(Vec2 at, const std::string& label, double design, bool on, bool pencil);
  bool lozenge(Vec2 at, const std::string& label, bool on);
  bool button(const Rect& r, const std::string& label, bool main);
  /// 0 to 1; a value while it is dragged.
  std::optional<double> slider(const Rect& r, const std::string& label, double share, bool off);
  /// A place that can be pressed and dragged, drawn by the caller: where it is held, while it is.
  std::optional<Vec2> held(const Rect& r, const std::string& label, bool* released = nullptr);

  /// The pointer is over one of this frame's controls, or holds one.
  bool pointerTaken() const { return taken_ || !holding_.empty(); }
  Vec2 pointer() const;
  double wordWidth(const std::string& label, double design, bool on) const;

  // The keyboard's way round the controls.
  void focusNext(int by);
  void press() { pressFocused_ = true; }
  void forgetFocus() { focus_.clear(); }
  bool focused() const { return !focus_.empty(); }

 private:
  struct Fonts;
  bool pressed(const Rect& r, const std::string& label, bool on);
  bool hot(const Rect& r) const;
  void record(const std::string& label, const Rect& r, bool on);
  scene::Colour wordColour(const Rect& r, bool on) const;

  std::unique_ptr<Fonts> fonts_;
  Screen screen_;
  scene::Ground ground_ = scene::Ground::Paper;
  std::vector<Recorded> recorded_, before_;
  std::string holding_, focus_;
  bool taken_ = false, pressFocused_ = false;
};

}  // namespace dryfit::ui
