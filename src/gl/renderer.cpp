#include "gl/renderer.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "base/require.h"
#include "gl/flat_batch.h"
#include "gl/memory.h"
#include "gl/pass_painter.h"

namespace dryfit::gl {

using namespace scene;

namespace {

Diagnostic tooLarge(PictureSize size, const std::string& allowed) {
  return {Fault::BadInput,
          "",
          "a picture of " + std::to_string(size.width) + "x" + std::to_string(size.height) +
              " is more than this machine can draw",
          allowed,
          {}};
}

Diagnostic noMemory(PictureSize size) {
  return tooLarge(size, "it has not the memory; ask for a smaller one");
}

/// Mesa's software drivers; a graphics card says itself when its memory is full.
bool drawsInMainMemory() {
  const std::string name = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
  return name.find("llvmpipe") != std::string::npos || name.find("softpipe") != std::string::npos;
}

Vec2 pixelsOf(PictureSize size) {
  return {static_cast<double>(size.width), static_cast<double>(size.height)};
}

}  // namespace

struct Renderer::Machine {
  /// In the order of programFiles().
  explicit Machine(std::vector<Program>& p)
      : painter(std::move(p[0]), std::move(p[1]), std::move(p[2]), std::move(p[3])),
        add(std::move(p[4])),
        mean(std::move(p[5])),
        flat(std::move(p[6])) {}

  PassPainter painter;
  Program add, mean, flat;
  FlatBatch batch;
  Target pass{Target::Colour::Half16, true}, sum{Target::Colour::Float32, false},
      last{Target::Colour::Screen8, true};
  VertexArray nothing = VertexArray::make();

  // The picture that is being made.
  PictureSize size{0, 0};
  Camera camera;
  std::vector<Lamp> lamps;  ///< of all its passes; none: one pass without shade
  int done = 0;             ///< passes
  bool makeTargets(PictureSize size, bool several) {
    return last.resize(size) && (!several || (pass.resize(size) && sum.resize(size)));
  }
  void drawWhole(Program& program, const char* texture, GLuint from);
  void addPass(const Lamp& lamp);
  void drawMean();
  void drawOverlay(const Overlay& overlay, const Lettering& lettering);
};

/// One texture over the whole target that is bound.
void Renderer::Machine::drawWhole(Program& program, const char* texture, GLuint from) {
  glActiveTexture(GL_TEXTURE0 + kPictureUnit);
  glBindTexture(GL_TEXTURE_2D, from);
  program.use();
  program.set(texture, kPictureUnit);
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
  glBindVertexArray(nothing.name());
  glDrawArrays(GL_TRIANGLES, 0, 3);
}

void Renderer::Machine::addPass(const Lamp& lamp) {
  painter.draw({clipFromWorld(camera, size, lamp.shift), &lamp, false}, pass);
  sum.bind();
  if (done == 0) {
    glClearColor(0, 0, 0, 0);
    glClear(GL_COLOR_BUFFER_BIT);
  }
  glEnable(GL_BLEND);
  glBlendFunc(GL_ONE, GL_ONE);
  drawWhole(add, "pass", pass.texture());
  glDisable(GL_BLEND);
  ++done;
}

void Renderer::Machine::drawMean() {
  last.bind();
  mean.use();
  mean.set("scale", 1.0 / done);
  mean.set("encode", 1);
  drawWhole(mean, "sum", sum.texture());
}

void Renderer::Machine::drawOverlay(const Overlay& overlay, const Lettering& lettering) {
  last.bind();
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  flat.use();
  flat.set("pictureSize", pixelsOf(size));
  flat.set("letters", kLetterUnit);
  batch.draw(overlay, lettering, kLetterUnit);
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

std::optional<Diagnostic> Renderer::begin(const Scene& scene, const Look& look, const Camera& camera,
                                          PictureSize size) {
  REQUIRE(size.width > 0 && size.height > 0 && look.passes >= 1);
  const int longest = longestSide();
  if (size.width > longest || size.height > longest)
    return tooLarge(size, "at most " + std::to_string(longest) + " a side");
  Machine& m = *machine_;
  const bool several = look.passes > 1;
  if (!(size == m.size) && drawsInMainMemory() && bytesFor(size, several) > memoryLeft().value_or(~0ull))
    return noMemory(size);
  if (!m.makeTargets(size, several)) return noMemory(size);
  m.size = size;
  m.camera = camera;
  m.lamps = several ? lampsFor(camera, look.passes) : std::vector<Lamp>{};
  m.done = 0;
  m.painter.load(scene, look, m.camera, size);
  return {};
}

int Renderer::settle(int morePasses) {
  Machine& m = *machine_;
  if (m.lamps.empty() && m.done == 0) {
    m.painter.draw({clipFromWorld(m.camera, m.size), nullptr, true}, m.last);
    m.done = 1;
  }
  for (int i = 0; i < morePasses && m.done < static_cast<int>(m.lamps.size()); ++i)
    m.addPass(m.lamps[static_cast<size_t>(m.done)]);
  return m.done;
}

void Renderer::finish(const Overlay& overlay, const Lettering& lettering) {
  Machine& m = *machine_;
  REQUIRE(m.done > 0);
  if (!m.lamps.empty()) m.drawMean();
  m.drawOverlay(overlay, lettering);
}

std::optional<Diagnostic> Renderer::paint(const Scene& scene, const Look& look, const Camera& camera,
                                          PictureSize size, const Overlay& overlay,
                                          const Lettering& lettering) {
  if (auto fault = begin(scene, look, camera, size)) return fault;
  settle(look.passes);
  finish(overlay, lettering);
  return {};
}

void Renderer::show() const {
  machine_->last.show();
}

Image Renderer::read() const {
  return machine_->last.read();
}

Result<Image> Renderer::draw(const Scene& scene, const Look& look, const Camera& camera, PictureSize size,
                             const Overlay& overlay, const Lettering& lettering) {
  if (auto fault = paint(scene, look, camera, size, overlay, lettering)) return *fault;
  return read();
}

void Renderer::wait() const {
  glFinish();
}

}  // namespace dryfit::gl
