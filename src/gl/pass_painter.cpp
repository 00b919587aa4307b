#include "gl/pass_painter.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/require.h"

namespace dryfit::gl {

using namespace scene;

namespace {

constexpr double kSeeThroughOpacity = 0.22;
constexpr double kFullLinesFromPx = 18;  // thickness of a piece on the picture
/// Of the ball round the scene: how far shade is seen on a wall or floor; in a drawing it is contact only.
constexpr double kShadeReach = 0.06, kShadeReachDrawn = 0.015;
constexpr double kOverrunMm = 46;  // of setting-out lines beyond their corners, as they are ruled by hand

std::array<float, 4> planeTexel(const CutPlane& p) {
  return {static_cast<float>(p.normal.x), static_cast<float>(p.normal.y), static_cast<float>(p.normal.z),
          static_cast<float>(p.offset)};
}

}  // namespace

PassPainter::PassPainter(Program face, Program depth, Program edge, Program bench)
    : face_(std::move(face)), depth_(std::move(depth)), edge_(std::move(edge)), bench_(std::move(bench)) {}

PassPainter::Ball PassPainter::ballAround(const Box3& box) {
  return box.empty() ? Ball{} : Ball{box.centre(), std::max(1.0, length(box.size()) / 2 * 1.02)};
}

void PassPainter::load(const Scene& scene, const Look& look, const Camera& camera, PictureSize size) {
  REQUIRE(look.sections.size() <= kMostSections);
  scene_ = &scene;
  look_ = &look;
  camera_ = &camera;
  size_ = size;
  ball_ = ballAround(boundsOf(scene, true));
  buffers_.load(scene, look.ground);
  buffers_.loadCaps(scene, look.sections);
  buffers_.bindTable(kItemUnit);
}

double PassPainter::edgeWidthPx() const {
  constexpr size_t kMany = 40;  // pieces: thinner lines, or small ones turn black
  return (scene_->items.size() > kMany ? 1.0 : look_->widths.edge) * unitOf(size_.height);
}

void PassPainter::noCuts() {
  for (size_t i = 0; i < kMostSections; ++i) glDisable(GL_CLIP_DISTANCE0 + static_cast<GLenum>(i));
}

void PassPainter::setCuts(Program& program, int without) {
  std::vector<std::array<float, 4>> cuts(kMostSections, {0, 0, 0, 1});
  for (size_t i = 0; i < look_->sections.size(); ++i) {
    const bool on = static_cast<int>(i) != without;
    if (on) cuts[i] = planeTexel(look_->sections[i]);
    (on ? glEnable : glDisable)(GL_CLIP_DISTANCE0 + static_cast<GLenum>(i));
  }
  program.setArray("cuts", cuts);
}

Matrix PassPainter::drawShadow(const Lamp& lamp) {
  const Matrix shadowFromWorld = gl::clipFromWorld(lamp.towards, ball_.middle, ball_.radiusMm);
  shadow_.bind();
  glClear(GL_DEPTH_BUFFER_BIT);
  depth_.use();
  depth_.set("items", kItemUnit);
  depth_.set("clipFromWorld", shadowFromWorld);
  setCuts(depth_, -1);
  buffers_.pieces().drawFaces(buffers_.solidFaces());
  for (const auto& cap : buffers_.capStretches()) {
    setCuts(depth_, cap.plane);
    buffers_.caps().drawFaces(cap.faces);
  }
  return shadowFromWorld;
}

void PassPainter::setFaceLight(const Pass& p, const Matrix& shadowFromWorld) {
  for (Program* program : {&face_, &bench_}) {
    program->use();
    program->set("clipFromWorld", p.clip);
    program->set("encode", p.encode ? 1 : 0);
    program->set("casts", p.lamp ? 1 : 0);
    program->set("shadowMap", kShadowUnit);
    program->set("shadowDepth", kShadowDepthUnit);
    program->set("shadowDepthMm", 2 * ball_.radiusMm);
    program->set("shadowFromWorld", shadowFromWorld);
    program->set("shadowStepMm", 2 * ball_.radiusMm / ShadowMap::kSide);
    program->set("toLight", p.lamp ? p.lamp->towards : Vec3{0, 0, 1});
    program->set("light", Vec3{kAmbient, p.lamp ? p.lamp->base : 0, p.lamp ? p.lamp->slope : 0}, kCutLight);
    program->set("plainLight", keyDirection(*camera_), kKey);
    program->set("plainSky", kSky);
    program->set("sky", skyDirection(*camera_));
  }
  face_.use();
  face_.set("items", kItemUnit);
  face_.set("hatchInk", coloursOf(look_->ground).pieceEdge);
  face_.set("opacity", 1.0);
  face_.set("formedReachMm", (camera_->parallel ? kShadeReachDrawn : kShadeReach) * ball_.radiusMm);
}

void PassPainter::drawBench(const Pass& p) {
  const bool fromAbove = camera_->towardsLooker(ball_.middle).z > 0.05;
  const bool drawing = camera_->parallel || !look_->sections.empty();  // a drawing stands on no bench
  if (!scene_->benchMm || !p.lamp || !fromAbove || drawing) return;
  bench_.use();
  bench_.set("square", Vec3{ball_.middle.x, ball_.middle.y, 6 * ball_.radiusMm}, *scene_->benchMm - 0.05);
  bench_.set("ground", coloursOf(look_->ground).ground);
  bench_.set("shade", coloursOf(look_->ground).shade);
  bench_.set("part", p.lamp->part);
  bench_.set("reachMm", 0.3 * ball_.radiusMm);
  glDepthMask(GL_FALSE);
  glBindVertexArray(nothing_.name());
  glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  glDepthMask(GL_TRUE);
}

void PassPainter::drawSolid(const Pass& p) {
  glEnable(GL_POLYGON_OFFSET_FILL);
  glPolygonOffset(1.2f, 2.0f);
  face_.use();
  face_.set("cut", 0);
  setCuts(face_, -1);
  buffers_.pieces().drawFaces(buffers_.solidFaces());
  face_.set("cut", 1);
  for (const auto& cap : buffers_.capStretches()) {
    setCuts(face_, cap.plane);
    buffers_.caps().drawFaces(cap.faces);
  }
  glDisable(GL_POLYGON_OFFSET_FILL);
  beginEdges(p);
  buffers_.pieces().drawEdges(buffers_.solidEdges());
  drawCapEdges();
  drawOutlines();
}

void PassPainter::drawOutlines() {
  const Colour faint = coloursOf(look_->ground).settingOut;
  setCuts(edge_, -1);
  edge_.set("inkAll", Vec3{faint.red, faint.green, faint.blue}, faint.alpha);
  edge_.set("widths", Vec3{0, 0, look_->widths.settingOut * unitOf(size_.height)});
  edge_.set("overrunMm", kOverrunMm);
  buffers_.pieces().drawEdges(buffers_.outlineEdges());
}

void PassPainter::beginEdges(const Pass& p) {
  edge_.use();
  edge_.set("items", kItemUnit);
  edge_.set("clipFromWorld", p.clip);
  edge_.set("encode", p.encode ? 1 : 0);
  edge_.set("pictureSize", Vec2{static_cast<double>(size_.width), static_cast<double>(size_.height)});
  const Placement worldFromView = inverse(camera_->viewFromWorld);
  if (camera_->parallel)
    edge_.set("eye", worldFromView.zAxis, 0);
  else
    edge_.set("eye", worldFromView.origin, 1);
  edge_.set("widths", Vec3{look_->widths.outline * unitOf(size_.height), edgeWidthPx(), 0});
  edge_.set("pixelsPerMm", camera_->pixelsPerMm);
  edge_.set("fullFrom", kFullLinesFromPx * unitOf(size_.height));
  edge_.set("nearer", 1e-5);
  edge_.set("hiddenToo", 0);
  edge_.set("overrunMm", 0.0);
  edge_.set("dash", Vec2{0, 0});
  edge_.set("inkAll", Vec3{}, -1);
  setCuts(edge_, -1);
  glDepthMask(GL_FALSE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
}

void PassPainter::drawCapEdges() {
  edge_.set("widths", Vec3{0, 0, look_->widths.sectionEdge * unitOf(size_.height)});
  for (const auto& cap : buffers_.capStretches()) {
    setCuts(edge_, cap.plane);
    buffers_.caps().drawEdges(cap.edges);
  }
}

void PassPainter::drawSeeThrough(const Pass& p) {
  auto order = buffers_.seeThrough();
  std::vector<double> depthOf(scene_->items.size());
  for (const auto& s : order) {
    drawNearestLayer(s.faces);
    drawEdgesSeenThrough(p, s);
  }
}

void PassPainter::drawNearestLayer(Stretch faces) {
  face_.use();
  face_.set("cut", 0);
  setCuts(face_, -1);
  glEnable(GL_POLYGON_OFFSET_FILL);
  // First the depth, then the colour where it lies.
  glDepthMask(GL_TRUE);
  glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
  buffers_.pieces().drawFaces(faces);
  glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  glDepthFunc(GL_EQUAL);
  face_.set("opacity", kSeeThroughOpacity);
  glEnable(GL_BLEND);
  buffers_.pieces().drawFaces(faces);
  face_.set("opacity", 1.0);
  glDisable(GL_POLYGON_OFFSET_FILL);
  glDepthFunc(GL_LEQUAL);
}

void PassPainter::drawEdgesSeenThrough(const Pass& p, const SceneBuffers::SeeThrough& s) {
  const Colour ink = coloursOf(look_->ground).ink;  // the ground shows through, so its own ink
  beginEdges(p);
  if (scene_->items[static_cast<size_t>(s.item)].mark == Mark::None)
    edge_.set("inkAll", Vec3{ink.red, ink.green, ink.blue}, 1);
  buffers_.pieces().drawEdges(s.edges);
  glDepthFunc(GL_GREATER);
  edge_.set("inkAll", Vec3{ink.red, ink.green, ink.blue}, 0.5);
  edge_.set("widths", Vec3{0, 0, look_->widths.hidden * unitOf(size_.height)});
  edge_.set("hiddenToo", 1);
  edge_.set("nearer", 0.0);
  edge_.set("dash", Vec2{7, 4} * unitOf(size_.height));
  buffers_.pieces().drawEdges(s.edges);
  glDepthFunc(GL_LEQUAL);
  glDisable(GL_BLEND);
}

void PassPainter::draw(const Pass& p, const Target& target) {
  glDisable(GL_BLEND);
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glDepthMask(GL_TRUE);
  glEnable(GL_CULL_FACE);
  glEnable(GL_DEPTH_CLAMP);
  const Matrix shadowFromWorld = p.lamp ? drawShadow(*p.lamp) : Matrix{};
  shadow_.bindTexture(kShadowUnit, kShadowDepthUnit);
  target.bind();
  const Colour ground = coloursOf(look_->ground).ground;
  const auto part = [&](double v) { return static_cast<float>(p.encode ? v : linearOf(v)); };
  glClearColor(part(ground.red), part(ground.green), part(ground.blue), 1);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  setFaceLight(p, shadowFromWorld);
  glDisable(GL_CULL_FACE);
  noCuts();
  drawBench(p);
  glEnable(GL_CULL_FACE);
  drawSolid(p);
  glDisable(GL_BLEND);
  drawSeeThrough(p);
  noCuts();
}

}  // namespace dryfit::gl
