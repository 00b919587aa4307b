#include "scene/staged_picture.h"

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "order/spread.h"
#include "scene/broken.h"
#include "scene/framing.h"
#include "scene/standing.h"
#include "scene/surroundings.h"

namespace dryfit::scene {

namespace {

/// A step's way in begins further out by this part of the work's diagonal: a tenon just out of its mortise, a
/// moulding that goes on by its own thickness would else seem to be in place.
constexpr double kFurther = 0.05;
/// A spread is wide: seen from further away it keeps its shape. Design: 9 degrees.
constexpr double kSpreadFieldDeg = 9;
/// A closer look shows so much of its diagonal round what it is at, and at least so many millimetres.
constexpr double kRound = 0.15;
constexpr double kLeastRoundMm = 30;
/// Where a spread that comes out of a wall in layers is seen from at 100 %, unless asked otherwise: so far
/// round that one layer stands beside the next, and lower, so that the row keeps level. Less when less apart.
constexpr double kLayersAzimuthDeg = 60, kLayersElevationDeg = 16;

Diagnostic bad(const std::string& option, const std::string& message, const std::string& hint) {
  return {Fault::BadInput, option, message, hint, {}};
}

class Stager {
 public:
  Stager(const CutWork& work, const OrderOfWork* order, Staging& staging, const PictureOptions& options)
      : work_(work), order_(order), staging_(staging), options_(options) {}

  Result<StagedPicture> picture() {
    if (auto fault = setRequest()) return *fault;
    StagedPicture out;
    out.scene = staging_.scene(request_);
    if (auto fault = nothingLeft(out.scene)) return *fault;
    const Result<std::vector<CutPlane>> planes = sections(out.scene);
    if (!planes) return planes.faults();
    out.look.ground = options_.ground;
    out.look.passes = options_.passes;
    quietWall(out.scene);
    const View view = viewFor(planes.value(), out.scene);
    for (const CutPlane& plane : planes.value())
      out.look.sections.push_back(turnedTo(plane, towardsLookerOf(view)));
    out.ask = {options_.labels, options_.sizes, options_.unit,
               options_.joint ? work_.assembly.joints.at(static_cast<size_t>(*options_.joint)).id : "",
               options_.spread > 0 || !out.scene.arrows.empty()};
    drawn_ = drawnSection(view, out.look.sections);
    std::vector<Vec3> points = pointsToFrame(out);
    if (points.empty()) return bad("--section", "together the sections take everything away", "");
    const bool close = !options_.near.empty() || !options_.nearJoints.empty();
    if (close) points = cornersOf(closeBox(out.scene));
    if (points.empty()) return bad("--near", "it is not in this picture", "it is hidden or not there yet");
    out.camera = reaching(
        framed(view, points, options_.size, options_.margins.value_or(marginsFor(out.ask, options_.size))),
        close ? boundsOf(out.scene) : boundsOfFormed(out.scene));
    return out;
  }

 private:
  std::optional<Diagnostic> setRequest() {
    const bool late = options_.step && *options_.step >= static_cast<int>(order_->steps.size());
    if (late)
      return bad("--step", "there is no step " + std::to_string(*options_.step + 1),
                 "1 to " + std::to_string(order_->steps.size()));
    request_.step = options_.step;
    request_.seeThrough = options_.seeThrough;
    request_.hidden = options_.hidden;
    request_.joint = options_.joint;
    request_.moving = options_.moving.value_or(options_.spread > 0 ? 1 : 0);
    if (options_.step) request_.furtherMm = kFurther * length(workSize());
    if (options_.spread > 0) {
      auto states = statesStanding(staging_.standing(request_), true);
      if (options_.joint) leaveOnlyJoint(states);
      request_.offsets = spreadOf(work_.assembly, states).offsetsAt(options_.spread);
    }
    return {};
  }

  /// A joint alone is spread as if nothing else were there.
  void leaveOnlyJoint(std::vector<int>& states) const {
    const auto& joint = work_.assembly.joints.at(static_cast<size_t>(*options_.joint)).bodies;
    for (size_t i = 0; i < states.size(); ++i)
      if (std::find(joint.begin(), joint.end(), static_cast<int>(i)) == joint.end()) states[i] = -1;
  }

  std::optional<Diagnostic> nothingLeft(const Scene& scene) const {
    const bool any = std::any_of(scene.items.begin(), scene.items.end(),
                                 [](const Item& i) { return i.shown != Shown::Outline; });
    if (any) return {};
    if (options_.joint && options_.step)
      return bad("--joint", "none of its pieces is there at that step", "ask for a later step");
    return bad("--hide", "nothing is left to see", "hide less");
  }

  Result<std::vector<CutPlane>> sections(const Scene& scene) const {
    std::vector<CutPlane> out;
    std::vector<Diagnostic> faults;
    for (const SectionPlace& place : options_.sections) {
      const auto plane = planeOf(place, work_, scene);
      if (!plane) {
        faults.push_back(bad("--section", dryfit::quoted(place.name) + " is not in this picture",
                             "what it goes through is hidden, put away or not there yet"));
        continue;
      }
      if (const auto fault = missed(*plane, scene))
        faults.push_back(*fault);
      else
        out.push_back(*plane);
    }
    if (!faults.empty()) return faults;
    return out;
  }

  /// Refuses a plane that cuts nothing; the range is told as people give it, along the axis.
  std::optional<Diagnostic> missed(const CutPlane& plane, const Scene& scene) const {
    auto [low, high] = extentAlong(scene, plane.normal);
    if (plane.offset > low && plane.offset < high) return {};
    const Vec3 n = plane.normal;
    if (n.x + n.y + n.z < 0) {  // "across" counts along +Y and opens towards -Y
      std::swap(low, high);
      low = -low;
      high = -high;
    }
    return bad(
        "--section", dryfit::quoted(plane.name) + " cuts nothing",
        "the work stands from " + lengthText(low, work_.lengths) + " to " + lengthText(high, work_.lengths));
  }

  /// What is planted on the back is seen from there, as if the work were turned over, and what comes to
  /// the back of the whole where it stands; and so are steps after it that move nothing (nailing it).
  bool fromBehind() const {
    if (!options_.step) return false;
    const auto& steps = order_->steps;
    for (size_t i = static_cast<size_t>(*options_.step) + 1; i-- > 0;) {
      if (steps[i].unit != steps[static_cast<size_t>(*options_.step)].unit) return false;
      if (isOnSite(steps[i]) && (!steps[i].moves.empty() || steps[i].event == "form"))
        return standsBehind(steps[i]);
      if (!steps[i].moves.empty()) return plantedOnTheBack(steps[i]);
    }
    return false;
  }
  bool plantedOnTheBack(const Step& step) const {
    const Move& move = step.moves.front();
    const bool planted = std::any_of(step.bodies.begin(), step.bodies.end(), [&](int b) {
      return work_.assembly.bodies.at(static_cast<size_t>(b)).planted;
    });
    return planted && !move.legs.empty() && move.legs.front().direction.y < -0.7;
  }
  /// Where the whole stands between walls: what it brings lies wholly in the back half.
  bool standsBehind(const Step& step) const {
    const Scene all = staging_.scene({});
    const double middle = boundsOfMade(all).centre().y;
    std::vector<int> brought = step.bodies;
    for (const Move& move : step.moves)
      for (const int body : bodiesOf(work_.assembly, move)) brought.push_back(body);
    return std::all_of(all.items.begin(), all.items.end(), [&](const Item& item) {
      return std::find(brought.begin(), brought.end(), item.piece) == brought.end() ||
             boundsOf(*item.shape, item.worldFromPiece).low.y >= middle;
    });
  }
  bool isOnSite(const Step& step) const {
    return work_.assembly.units.at(static_cast<size_t>(step.unit)).parent < 0 &&
           std::any_of(work_.assembly.bodies.begin(), work_.assembly.bodies.end(),
                       [](const Body& b) { return b.formed; });
  }

  static bool isWall(const Item& item) {
    const Vec3 size = boundsOf(*item.shape, item.worldFromPiece).size();
    return item.formed && size.z > std::min(size.x, size.y);
  }
  bool standsApart() const { return options_.spread > 0 && !options_.joint; }

  /// What stands apart behind a wall shows through it; a section cuts the wall instead.
  void quietWall(Scene& scene) const {
    if (!standsApart() || !options_.sections.empty()) return;
    for (Item& item : scene.items)
      if (item.shown == Shown::Solid && isWall(item)) item.shown = Shown::SeeThrough;
  }

  View viewFor(const std::vector<CutPlane>& planes, const Scene& scene) const {
    View view = namedViews().back();
    if (standsApart() && std::any_of(scene.items.begin(), scene.items.end(), isWall)) {
      view.azimuthDeg += options_.spread * (kLayersAzimuthDeg - view.azimuthDeg);
      view.elevationDeg += options_.spread * (kLayersElevationDeg - view.elevationDeg);
    }
    if (options_.view)
      view = *options_.view;
    else if (planes.size() == 1)
      view = squareOn(planes.front());
    else if (fromBehind())
      view.azimuthDeg += 180;
    if (options_.spread > 0) view.fieldOfViewDeg = kSpreadFieldDeg;
    return view;
  }

  /// Ends the surroundings where the picture has enough of them.
  void endSurroundings(Scene& scene, const Scene& whole) const {
    if (options_.joint || options_.spread > 0) return;
    const Box3 focus = focusOf(whole), made = boundsOfMade(whole);
    if (made.empty() || boundsOfFormed(scene).empty()) return;
    if (drawn_)
      breakOffRound(scene, focus, *drawn_);
    else
      cutOffRound(scene, made);
  }

  /// Of a step: everything that any step of its unit shows, so that pictures of a unit do not jump.
  std::vector<Vec3> pointsToFrame(StagedPicture& picture) {
    const std::vector<CutPlane>& sections = picture.look.sections;
    if (!options_.step || options_.joint || options_.spread > 0) {
      endSurroundings(picture.scene, Scene(picture.scene));
      return pointsLeft(picture.scene, sections, {});
    }
    // A drawing on site keeps to the work as it stands at last: a leaf swung open would make all small.
    const bool asItStands = drawn_ && isOnSite(order_->steps[static_cast<size_t>(*options_.step)]);
    const Scene all = asItStands ? staging_.scene({}) : staging_.wholeUnit(request_);
    Scene whole = all;
    endSurroundings(whole, all);
    endSurroundings(picture.scene, all);
    std::vector<Vec3> points = pointsLeft(picture.scene, sections, {});
    const auto more = pointsLeft(whole, sections, {});
    points.insert(points.end(), more.begin(), more.end());
    return points;
  }

  /// What a closer look frames, and a little round it. Empty when nothing of it is shown.
  Box3 closeBox(const Scene& scene) const {
    Box3 box;
    const auto shownOf = [&](const std::vector<int>& bodies) {
      std::vector<const Item*> items;
      for (const Item& item : scene.items)
        if (std::find(bodies.begin(), bodies.end(), item.piece) != bodies.end()) items.push_back(&item);
      return items;
    };
    for (const Item* item : shownOf(options_.near)) box.add(boundsOf(*item->shape, item->worldFromPiece));
    for (const int joint : options_.nearJoints)
      box.add(meetingOf(shownOf(work_.assembly.joints.at(static_cast<size_t>(joint)).bodies)));
    if (box.empty()) return box;
    // How deep it lies behind a section is not to be seen.
    for (int i = 0; drawn_ && i < 3; ++i)
      if (const double n = drawn_->normal[i]; std::abs(n) > 1 - 1e-9)
        box.low[i] = box.high[i] = drawn_->offset * n;
    const double round = std::max(kLeastRoundMm, kRound * length(box.size()));
    return {box.low - Vec3{round, round, round}, box.high + Vec3{round, round, round}};
  }

  /// Of all that is made, else of all.
  Vec3 workSize() {
    const Scene all = staging_.scene({});
    const Box3 made = boundsOfMade(all);
    return (made.empty() ? boundsOf(all) : made).size();
  }

  const CutWork& work_;
  const OrderOfWork* order_;
  Staging& staging_;
  const PictureOptions& options_;
  StagingRequest request_;
  std::optional<CutPlane> drawn_;  ///< the picture is a drawing of this section
};

}  // namespace

Result<StagedPicture> stagePicture(const CutWork& work, const OrderOfWork* order, Staging& staging,
                                   const PictureOptions& options) {
  REQUIRE(order != nullptr || !options.step);
  return Stager(work, order, staging, options).picture();
}

}  // namespace dryfit::scene
