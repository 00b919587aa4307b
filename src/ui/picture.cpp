#include "ui/picture.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "gl/renderer.h"
#include "order/spoken.h"
#include "scene/framing.h"
#include "scene/id_map.h"
#include "scene/layout.h"
#include "scene/staged_picture.h"

namespace dryfit::ui {

namespace {

using scene::Camera;
using scene::PictureOptions;
using scene::StagedPicture;
using Clock = std::chrono::steady_clock;

/// A picture that has not changed for so long is at rest.
constexpr double kRestAfterS = 0.15;
constexpr int kPasses = 24, kLeastShown = 6;
/// A frame at rest adds passes for so long, so that a touch is answered at once.
constexpr double kSettleS = 0.03;
constexpr double kPickCellPx = 3;

double secondsSince(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

/// Room for names beside the work, in the design's pixels.
constexpr double kNamesBeside = 150, kNamesAbove = 34;

scene::Quad quadOf(const Rect& r) {
  return {Vec2{r.x, r.y}, Vec2{r.right(), r.y}, Vec2{r.right(), r.bottom()}, Vec2{r.x, r.bottom()}};
}

/// What of the window lies over the picture.
std::vector<scene::Quad> coveredBy(const Screen& s) {
  std::vector<scene::Quad> all{quadOf({0, 0, s.width, s.topLine.bottom()}),
                               quadOf({0, s.pictureOnly ? s.strip.y : s.looks.y, s.width, s.height})};
  if (!s.narrow || s.cardBelow) all.push_back(quadOf({0, s.views.y, s.views.right(), s.views.height}));
  if (s.card.width > 0)
    all.push_back(quadOf({s.card.x - 8 * s.u, s.card.y, s.card.width + 8 * s.u,
                          s.cardBelow ? s.card.height : s.looks.y - s.card.y}));
  return all;
}

/// What of the state a picture is of.
State seenOf(State state) {
  state.goingTo.reset();
  state.running = false;
  state.restS = 0;
  state.hover.reset();
  state.help = false;
  state.message.clear();
  state.textScale = 1;
  return state;
}

}  // namespace

struct Picture::Parts {
  Parts(gl::Renderer r, scene::Lettering l) : renderer(std::move(r)), lettering(std::move(l)) {}

  gl::Renderer renderer;
  scene::Lettering lettering;
  std::shared_ptr<const Model> model;
  std::unique_ptr<scene::Staging> staging;
  Box3 made;

  State of;
  scene::PictureSize pixels{0, 0};
  Screen screen;
  bool stale = true, resting = false;
  double changedS = 0;
  int done = 0;
  StagedPicture staged;
  scene::Overlay overlay;
  std::optional<scene::IdMap> map;

  PictureOptions options() const;
  void aim(Camera& camera) const;
  bool stage(bool atRest);
  void quick();
  void settle();
};

PictureOptions Picture::Parts::options() const {
  PictureOptions o;
  o.size = pixels;
  o.margins = screen.picture;
  if (!screen.pictureOnly) {
    const double beside = kNamesBeside * screen.u * (screen.narrow ? 0.6 : 1), above = kNamesAbove * screen.u;
    *o.margins = {o.margins->left + beside, o.margins->right + beside, o.margins->top + above,
                  o.margins->bottom + above};
  }
  o.ground = of.ground;
  o.unit = of.unit;
  o.spread = of.spread;
  o.hidden = of.hidden;
  const int steps = model->steps();
  const double at = std::clamp(of.at, 0.0, static_cast<double>(steps));
  if (steps > 0) {
    const int under = static_cast<int>(std::ceil(at - 1e-9)) - 1;
    o.step = std::max(0, under);
    o.moving = under < 0 ? 0 : at - under;
  }
  if (of.spread > 0) o.moving = 1;
  if (of.section.way) {
    const Vec3 low = made.low, high = made.high;
    const int axis = *of.section.way == scene::SectionWay::Plan     ? 2
                     : *of.section.way == scene::SectionWay::Height ? 0
                                                                    : 1;
    const double inset = 0.002 * (high[axis] - low[axis]);
    scene::SectionPlace place;
    place.way = of.section.way;
    place.atMm = low[axis] + inset + of.section.at * (high[axis] - low[axis] - 2 * inset);
    place.name = "section";
    o.sections = {place};
  }
  const Step* step = o.step ? &model->order.steps[static_cast<size_t>(*o.step)] : nullptr;
  if (of.jointOnly) {
    const auto& joints = model->work.assembly.joints;
    for (size_t j = 0; j < joints.size() && !o.joint; ++j) {
      const auto& bodies = joints[j].bodies;
      const bool its = of.chosen ? order::contains(bodies, *of.chosen)
                                 : step && std::find(step->joints.begin(), step->joints.end(),
                                                     joints[j].id) != step->joints.end();
      if (its) o.joint = static_cast<int>(j);
    }
    if (o.joint && !of.chosen) o.moving = 1;
    if (o.joint && of.chosen) o.step.reset(), o.moving.reset();
  }
  if (of.seeThrough) {
    if (of.chosen) {
      o.seeThrough = {*of.chosen};
    } else if (step) {
      for (int b = 0; b < static_cast<int>(model->work.pieces.size()); ++b)
        if (model->work.pieces[static_cast<size_t>(b)].joint.empty() && !order::contains(step->bodies, b))
          o.seeThrough.push_back(b);
    }
  }
  scene::View view;
  view.azimuthDeg = of.eye.azimuthDeg;
  view.elevationDeg = of.eye.elevationDeg;
  view.parallel = false;
  for (const scene::View& named : scene::namedViews())
    if (named.name == of.eye.view) view = named;
  if (of.eye.view != "corner" || of.section.way) o.view = view;
  if (of.eye.view == "corner" && of.section.way) o.view.reset();
  return o;
}

void Picture::Parts::aim(Camera& camera) const {
  const Vec2 middle{pixels.width / 2.0, pixels.height / 2.0};
  const double high = pixels.height;
  camera.pixelsPerMm *= of.eye.nearer;
  camera.centre = middle + (camera.centre - middle) * of.eye.nearer + of.eye.slide * high;
}

bool Picture::Parts::stage(bool atRest) {
  PictureOptions o = options();
  o.passes = atRest ? kPasses : 1;
  o.labels = atRest && !screen.pictureOnly;
  o.sizes = atRest && of.sizes;
  auto found = scene::stagePicture(model->work, &model->order, *staging, o);
  if (!found) return false;  // a section that misses: the picture stays as it was
  staged = std::move(found).value();
  aim(staged.camera);
  staged.ask.covered = coveredBy(screen);
  if (of.chosen)
    for (scene::Item& item : staged.scene.items)
      if (item.piece == *of.chosen) item.mark = scene::Mark::Chosen;
  const auto layout = scene::layOut(staged.scene, staged.look, staged.camera, pixels, model->work.dimensions,
                                    staged.ask, lettering);
  overlay = layout.overlay;
  return !renderer.begin(staged.scene, staged.look, staged.camera, pixels);
}

void Picture::Parts::quick() {
  if (!stage(false)) return;
  renderer.settle(1);
  renderer.finish(overlay, lettering);
}

void Picture::Parts::settle() {
  const auto begin = Clock::now();
  while (done < kPasses && secondsSince(begin) < kSettleS) {
    done = renderer.settle(1);
    renderer.wait();
  }
  if (done >= kLeastShown) renderer.finish(overlay, lettering);
}

Picture::Picture(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Picture::Picture(Picture&&) noexcept = default;
Picture::~Picture() = default;

Result<Picture> Picture::create() {
  auto renderer = gl::Renderer::create();
  if (!renderer) return renderer.faults();
  auto lettering = scene::Lettering::load();
  if (!lettering) return lettering.faults();
  return Picture(std::make_unique<Parts>(std::move(renderer).value(), std::move(lettering).value()));
}

void Picture::take(std::shared_ptr<const Model> model) {
  Parts& p = *parts_;
  p.staging.reset();
  p.model = std::move(model);
  p.staging = std::make_unique<scene::Staging>(p.model->work, &p.model->order);
  const scene::Scene all = p.staging->scene({});
  p.made = scene::boundsOfMade(all);
  if (p.made.empty()) p.made = scene::boundsOf(all);
  p.stale = true;
}

void Picture::update(const State& state, const Screen& screen, scene::PictureSize pixels, double nowS) {
  Parts& p = *parts_;
  if (!p.model) return;
  State seen = seenOf(state);
  const bool other = p.stale || !(seen == p.of) || !(pixels == p.pixels) ||
                     !(screen.picture.right == p.screen.picture.right);
  if (other) {
    p.of = std::move(seen);
    p.pixels = pixels;
    p.screen = screen;
    p.stale = p.resting = false;
    p.changedS = nowS;
    p.map.reset();
    p.quick();
    return;
  }
  if (!p.resting && nowS - p.changedS >= kRestAfterS) {
    p.resting = true;
    p.done = 0;
    if (!p.stage(true)) p.done = kPasses;
  }
  if (p.resting && p.done < kPasses) p.settle();
}

double Picture::wants(double nowS) const {
  const Parts& p = *parts_;
  if (!p.model) return -1;
  if (!p.resting) return std::max(0.0, kRestAfterS - (nowS - p.changedS));
  return p.done < kPasses ? 0 : -1;
}

void Picture::show() const {
  if (parts_->model) parts_->renderer.show();
}

std::optional<int> Picture::pieceAt(Vec2 px) {
  Parts& p = *parts_;
  if (!p.model || p.staged.scene.items.empty()) return {};
  if (!p.map)
    p.map = scene::idMapOf(p.staged.scene, p.staged.look.sections, p.staged.camera, p.pixels, kPickCellPx);
  const int cell = p.map->cellAt(px);
  if (cell < 0) return {};
  const auto& seen = p.map->veil[static_cast<size_t>(cell)].item >= 0 ? p.map->veil : p.map->solid;
  const int item = seen[static_cast<size_t>(cell)].item;
  if (item < 0) return {};
  return p.staged.scene.items[static_cast<size_t>(item)].piece;
}

}  // namespace dryfit::ui
