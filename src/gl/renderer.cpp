#include "gl/renderer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "gl/flat_batch.h"
#include "gl/matrix.h"
#include "gl/program.h"
#include "gl/scene_buffers.h"
#include "gl/targets.h"
#include "scene/lights.h"

namespace dryfit::gl {

namespace {

using namespace scene;

constexpr int kItemUnit = 0, kShadowUnit = 1, kPictureUnit = 2, kLetterUnit = 3;
constexpr size_t kMostCuts = 6;  // as the shaders have them

/// What one pass is drawn by.
struct Pass {
  Matrix clip{};
  const Lamp* lamp = nullptr;  ///< null: nothing casts shade
  bool encode = false;
};

struct Ball {
  Vec3 middle;
  double radiusMm = 1;
};

Ball ballAround(const Box3& box) {
  return box.empty() ? Ball{} : Ball{box.centre(), std::max(1.0, length(box.size()) / 2 * 1.02)};
}

Diagnostic tooLarge(PictureSize size, const std::string& allowed) {
  return {Fault::BadInput,
          "",
          "a picture of " + std::to_string(size.width) + "x" + std::to_string(size.height) +
              " is more than this machine can draw",
          allowed,
          {}};
}

std::array<float, 4> planeTexel(const CutPlane& p) {
  return {static_cast<float>(p.normal.x), static_cast<float>(p.normal.y), static_cast<float>(p.normal.z),
          static_cast<float>(p.offset)};
}

}  // namespace

struct Renderer::Machine {
  /// In the order of programFiles().
  explicit Machine(std::vector<Program>& p)
      : face(std::move(p[0])),
        depth(std::move(p[1])),
        edge(std::move(p[2])),
        bench(std::move(p[3])),
        add(std::move(p[4])),
        mean(std::move(p[5])),
        flat(std::move(p[6])) {}

  Program face, depth, edge, bench, add, mean, flat;
  SceneBuffers buffers;
  FlatBatch overlay;
  ShadowMap shadow;
  Target pass{Target::Colour::Half16, true}, sum{Target::Colour::Float32, false},
      last{Target::Colour::Screen8, true};
  VertexArray nothing = VertexArray::make();  ///< for triangles made in the vertex shader

  // Of the picture being drawn.
  const Scene* scene = nullptr;
  const Look* look = nullptr;
  const Camera* camera = nullptr;
  PictureSize size;
  Ball ball;

  bool makeTargets(bool several);
  void drawPass(const Pass& p);
  void drawShadow(const Lamp& lamp, Matrix& shadowFromWorld);
  void drawBench(const Pass& p);
  void setCuts(Program& program, int without);
  void setFaceLight(const Pass& p, const Matrix& shadowFromWorld);
  void drawSolid(const Pass& p);
  void drawSeeThrough(const Pass& p);
  void beginEdges(const Pass& p);
  void drawCapEdges();
  void accumulate(const std::vector<Lamp>& lamps);
  void drawOverlay(const Overlay& marks, const Lettering& lettering);
  double unit() const { return unitOf(size.height); }
  double edgeWidth() const { return (scene->items.size() > 40 ? 1.0 : look->widths.edge) * unit(); }
};

bool Renderer::Machine::makeTargets(bool several) {
  return last.resize(size) && (!several || (pass.resize(size) && sum.resize(size)));
}

void Renderer::Machine::setCuts(Program& program, int without) {
  std::vector<std::array<float, 4>> cuts(kMostCuts, {0, 0, 0, 1});
  for (size_t i = 0; i < look->sections.size(); ++i) {
    const bool on = static_cast<int>(i) != without;
    if (on) cuts[i] = planeTexel(look->sections[i]);
    (on ? glEnable : glDisable)(GL_CLIP_DISTANCE0 + static_cast<GLenum>(i));
  }
  program.setArray("cuts", cuts);
}

void Renderer::Machine::drawShadow(const Lamp& lamp, Matrix& shadowFromWorld) {
  shadowFromWorld = gl::clipFromWorld(lamp.towards, ball.middle, ball.radiusMm);
  shadow.bind();
  glClear(GL_DEPTH_BUFFER_BIT);
  depth.use();
  depth.set("items", kItemUnit);
  depth.set("clipFromWorld", shadowFromWorld);
  setCuts(depth, -1);
  buffers.pieces().drawFaces(buffers.solidFaces());
  for (const auto& cap : buffers.capStretches()) {
    setCuts(depth, cap.plane);
    buffers.caps().drawFaces(cap.faces);
  }
}

void Renderer::Machine::setFaceLight(const Pass& p, const Matrix& shadowFromWorld) {
  for (Program* program : {&face, &bench}) {
    program->use();
    program->set("clipFromWorld", p.clip);
    program->set("encode", p.encode ? 1 : 0);
    program->set("casts", p.lamp ? 1 : 0);
    program->set("shadowMap", kShadowUnit);
    program->set("shadowFromWorld", shadowFromWorld);
    program->set("shadowStepMm", 2 * ball.radiusMm / ShadowMap::kSide);
    program->set("toLight", p.lamp ? p.lamp->towards : Vec3{0, 0, 1});
    program->set("light", Vec3{kAmbient, p.lamp ? p.lamp->base : 0, p.lamp ? p.lamp->slope : 0}, kCutLight);
    program->set("plainLight", keyDirection(*camera), kKey);
    program->set("plainSky", kSky);
    program->set("sky", skyDirection(*camera));
  }
  face.use();
  face.set("items", kItemUnit);
  face.set("hatchInk", coloursOf(look->ground).pieceEdge);
  face.set("opacity", 1.0);
}

void Renderer::Machine::drawBench(const Pass& p) {
  const bool fromAbove = camera->towardsLooker(ball.middle).z > 0.05;
  if (!scene->benchMm || !p.lamp || !fromAbove) return;
  bench.use();
  bench.set("square", Vec3{ball.middle.x, ball.middle.y, 6 * ball.radiusMm}, *scene->benchMm - 0.05);
  bench.set("ground", coloursOf(look->ground).ground);
  bench.set("shade", coloursOf(look->ground).shade);
  bench.set("part", p.lamp->part);
  glDepthMask(GL_FALSE);
  glBindVertexArray(nothing.name());
  glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  glDepthMask(GL_TRUE);
}

void Renderer::Machine::drawSolid(const Pass& p) {
  glEnable(GL_POLYGON_OFFSET_FILL);
  glPolygonOffset(1.2f, 2.0f);
  face.use();
  face.set("cut", 0);
  setCuts(face, -1);
  buffers.pieces().drawFaces(buffers.solidFaces());
  face.set("cut", 1);
  for (const auto& cap : buffers.capStretches()) {
    setCuts(face, cap.plane);
    buffers.caps().drawFaces(cap.faces);
  }
  glDisable(GL_POLYGON_OFFSET_FILL);
  beginEdges(p);
  buffers.pieces().drawEdges(buffers.solidEdges());
  drawCapEdges();
  const Colour faint = coloursOf(look->ground).settingOut;
  setCuts(edge, -1);
  edge.set("inkAll", Vec3{faint.red, faint.green, faint.blue}, faint.alpha);
  edge.set("widths", Vec3{0, 0, look->widths.settingOut * unit()});
  buffers.pieces().drawEdges(buffers.outlineEdges());
}

void Renderer::Machine::beginEdges(const Pass& p) {
  edge.use();
  edge.set("items", kItemUnit);
  edge.set("clipFromWorld", p.clip);
  edge.set("encode", p.encode ? 1 : 0);
  edge.set("pictureSize", Vec2{static_cast<double>(size.width), static_cast<double>(size.height)});
  const Placement worldFromView = inverse(camera->viewFromWorld);
  if (camera->parallel)
    edge.set("eye", worldFromView.zAxis, 0);
  else
    edge.set("eye", worldFromView.origin, 1);
  edge.set("widths", Vec3{look->widths.outline * unit(), edgeWidth(), 0});
  edge.set("nearer", 1e-5);
  edge.set("hiddenToo", 0);
  edge.set("overrunMm", 0.0);
  edge.set("dash", Vec2{0, 0});
  edge.set("inkAll", Vec3{}, -1);
  setCuts(edge, -1);
  glDepthMask(GL_FALSE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
}

void Renderer::Machine::drawCapEdges() {
  edge.set("widths", Vec3{0, 0, look->widths.sectionEdge * unit()});
  for (const auto& cap : buffers.capStretches()) {
    setCuts(edge, cap.plane);
    buffers.caps().drawEdges(cap.edges);
  }
}

void Renderer::Machine::drawSeeThrough(const Pass& p) {
  auto order = buffers.seeThrough();
  std::vector<double> depthOf(scene->items.size());
  for (const auto& s : order) {
    const Item& item = scene->items[static_cast<size_t>(s.item)];
    depthOf[static_cast<size_t>(s.item)] =
        camera->project(item.worldFromPiece.point(item.shape->box.centre())).depth;
  }
  std::stable_sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
    return depthOf[static_cast<size_t>(a.item)] > depthOf[static_cast<size_t>(b.item)];
  });
  for (const auto& s : order) {
    // Its nearest layer alone: first the depth, then the colour where it lies.
    face.use();
    face.set("cut", 0);
    setCuts(face, -1);
    glEnable(GL_POLYGON_OFFSET_FILL);
    glDepthMask(GL_TRUE);
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    buffers.pieces().drawFaces(s.faces);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glDepthFunc(GL_EQUAL);
    face.set("opacity", 0.22);
    glEnable(GL_BLEND);
    buffers.pieces().drawFaces(s.faces);
    face.set("opacity", 1.0);
    glDisable(GL_POLYGON_OFFSET_FILL);
    glDepthFunc(GL_LEQUAL);
    beginEdges(p);
    buffers.pieces().drawEdges(s.edges);
    glDepthFunc(GL_GREATER);
    const Colour ink = coloursOf(look->ground).pieceEdge;
    edge.set("inkAll", Vec3{ink.red, ink.green, ink.blue}, 0.5);
    edge.set("widths", Vec3{0, 0, look->widths.hidden * unit()});
    edge.set("hiddenToo", 1);
    edge.set("nearer", 0.0);
    edge.set("dash", Vec2{7 * unit(), 4 * unit()});
    buffers.pieces().drawEdges(s.edges);
    glDepthFunc(GL_LEQUAL);
    glDisable(GL_BLEND);
  }
}

void Renderer::Machine::drawPass(const Pass& p) {
  Matrix shadowFromWorld{};
  glDisable(GL_BLEND);
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glDepthMask(GL_TRUE);
  glEnable(GL_CULL_FACE);
  glEnable(GL_DEPTH_CLAMP);
  const Target& target = p.encode ? last : pass;
  if (p.lamp) drawShadow(*p.lamp, shadowFromWorld);
  glActiveTexture(GL_TEXTURE0 + kShadowUnit);
  glBindTexture(GL_TEXTURE_2D, shadow.texture());
  target.bind();
  const Colour ground = coloursOf(look->ground).ground;
  const auto part = [&](double v) { return static_cast<float>(p.encode ? v : linearOf(v)); };
  glClearColor(part(ground.red), part(ground.green), part(ground.blue), 1);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  setFaceLight(p, shadowFromWorld);
  glDisable(GL_CULL_FACE);
  for (size_t i = 0; i < kMostCuts; ++i) glDisable(GL_CLIP_DISTANCE0 + static_cast<GLenum>(i));
  drawBench(p);
  glEnable(GL_CULL_FACE);
  drawSolid(p);
  glDisable(GL_BLEND);
  drawSeeThrough(p);
  for (size_t i = 0; i < kMostCuts; ++i) glDisable(GL_CLIP_DISTANCE0 + static_cast<GLenum>(i));
}

void Renderer::Machine::accumulate(const std::vector<Lamp>& lamps) {
  sum.bind();
  glClearColor(0, 0, 0, 0);
  glClear(GL_COLOR_BUFFER_BIT);
  const auto whole = [&](Program& program, const char* texture, GLuint from) {
    glActiveTexture(GL_TEXTURE0 + kPictureUnit);
    glBindTexture(GL_TEXTURE_2D, from);
    program.use();
    program.set(texture, kPictureUnit);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glBindVertexArray(nothing.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
  };
  for (const Lamp& lamp : lamps) {
    drawPass({gl::clipFromWorld(*camera, size, lamp.shift), &lamp, false});
    sum.bind();
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    whole(add, "pass", pass.texture());
    glDisable(GL_BLEND);
  }
  last.bind();
  mean.use();
  mean.set("scale", 1.0 / static_cast<double>(lamps.size()));
  mean.set("encode", 1);
  whole(mean, "sum", sum.texture());
}

void Renderer::Machine::drawOverlay(const Overlay& marks, const Lettering& lettering) {
  last.bind();
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  flat.use();
  flat.set("pictureSize", Vec2{static_cast<double>(size.width), static_cast<double>(size.height)});
  flat.set("letters", kLetterUnit);
  overlay.draw(marks, lettering, kLetterUnit);
  glDisable(GL_BLEND);
}

Result<Renderer> Renderer::create() {
  std::vector<Program> programs;
  for (const ProgramFiles& files : programFiles()) {
    Result<Program> program = Program::create(files);
    if (!program) return program.faults();
    programs.push_back(std::move(program).value());
  }
  return Renderer(std::make_unique<Machine>(programs));
}

Renderer::Renderer(std::unique_ptr<Machine> machine) : machine_(std::move(machine)) {}
Renderer::Renderer(Renderer&&) noexcept = default;
Renderer& Renderer::operator=(Renderer&&) noexcept = default;
Renderer::~Renderer() = default;

int Renderer::longestSide() const {
  GLint texture = 0, view[2] = {0, 0};
  glGetIntegerv(GL_MAX_TEXTURE_SIZE, &texture);
  glGetIntegerv(GL_MAX_VIEWPORT_DIMS, view);
  return std::min({texture, view[0], view[1]});
}

Result<Image> Renderer::draw(const Scene& scene, const Look& look, const Camera& camera, PictureSize size,
                             const Overlay& overlay, const Lettering& lettering) {
  REQUIRE(size.width > 0 && size.height > 0 && look.passes >= 1);
  REQUIRE(look.sections.size() <= kMostCuts);
  const int longest = longestSide();
  if (size.width > longest || size.height > longest)
    return tooLarge(size, "at most " + std::to_string(longest) + " a side");
  Machine& m = *machine_;
  m.scene = &scene;
  m.look = &look;
  m.camera = &camera;
  m.size = size;
  m.ball = ballAround(boundsOf(scene, true));
  if (!m.makeTargets(look.passes > 1)) return tooLarge(size, "it has not the memory; ask for a smaller one");
  m.buffers.load(scene, look.ground);
  m.buffers.loadCaps(scene, look.sections);
  m.buffers.bindTable(kItemUnit);
  if (look.passes > 1)
    m.accumulate(lampsFor(camera, look.passes));
  else
    m.drawPass({gl::clipFromWorld(camera, size), nullptr, true});
  m.drawOverlay(overlay, lettering);
  return m.last.read();
}

}  // namespace dryfit::gl
