// What the window shows, as plain data, and the one function that changes it. Knows no window, no toolkit and
// no graphics library: a test turns inputs into states without any of them.
//
// Times in seconds, lengths in mm, angles in degrees (this is what people see), pixels of the window.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "scene/look.h"
#include "scene/section_places.h"
#include "ui/model.h"

namespace dryfit::ui {

/// From where the work is seen. A named view until it is turned by hand.
struct Eye {
  std::string view = "corner";  ///< empty: turned by hand
  double azimuthDeg = 33, elevationDeg = 24;
  double nearer = 1;  ///< times the size at which all fits
  Vec2 slide;         ///< of the picture, in shares of its height
  friend bool operator==(const Eye&, const Eye&) = default;
};

/// A section as it is set in the window.
struct SectionSet {
  std::optional<scene::SectionWay> way;  ///< empty: off
  double at = 0.5;                       ///< share of the work's extent that way
  friend bool operator==(const SectionSet&, const SectionSet&) = default;
};

struct State {
  /// Where in the order of work: k + f is step k (from 0) with the part f of its motion done; 0 nothing is
  /// done, steps() all.
  double at = 0;
  std::optional<double> goingTo;  ///< moves there by itself
  bool running = false;           ///< on to the next step after a rest
  double restS = 0;               ///< of which so much is over

  Eye eye;
  double spread = 0;  ///< 0 to 1
  SectionSet section;
  bool seeThrough = false, jointOnly = false, sizes = false;
  std::optional<int> chosen;  ///< piece
  std::optional<int> hover;   ///< piece under the pointer
  std::vector<int> hidden;    ///< pieces, ascending

  scene::Ground ground = scene::Ground::Paper;
  LengthUnit unit = LengthUnit::Millimetre;
  double textScale = 1;  ///< 1 to 2, for the back row
  bool help = false;
  std::vector<std::string> message;  ///< what went wrong, lines; empty: nothing
  friend bool operator==(const State&, const State&) = default;
};

/// What a person does, or what comes of it.
enum class Deed {
  Forward,
  Back,
  First,
  Last,
  Run,
  SpreadKey,
  SectionKey,
  SeeThrough,
  JointOnly,
  Sizes,
  Front,
  BackView,
  Side,
  Plan,
  Corner,
  Ground,
  Unit,
  Help,
  Escape,
  Hide,
  ShowAll,
  TextLarger,
  TextSmaller
};

struct Did {
  Deed deed;
};
struct DraggedTo {
  double at = 0;
  bool released = false;
};  ///< on the order strip
struct SetSpread {
  double share = 0;
};
struct SetSection {
  std::optional<scene::SectionWay> way;
  std::optional<double> at;
};
struct Turned {
  double azimuthDeg = 0, elevationDeg = 0;
};
struct Slid {
  Vec2 by;
};  ///< shares of the picture's height
struct CameNearer {
  double times = 1;
  Vec2 about;
};  ///< about: from the middle of the picture, shares of its height
struct Pointed {
  std::optional<int> piece;
};
struct Clicked {
  std::optional<int> piece;
  bool twice = false;
};
struct Passed {
  double seconds = 0;
};
struct Loaded {
  std::shared_ptr<const Model> model;
};
struct NotLoaded {
  std::vector<std::string> lines;
};
using Input = std::variant<Did, DraggedTo, SetSpread, SetSection, Turned, Slid, CameNearer, Pointed, Clicked,
                           Passed, Loaded, NotLoaded>;

/// `model` is the one that is shown; null before the first has come.
State turned(State state, const Input& input, const Model* model);

/// Something moves by itself: there will be another Passed.
bool moves(const State& state);

/// The step that the card tells of, from 0; -1: none is begun.
int stepTold(const State& state);

}  // namespace dryfit::ui
