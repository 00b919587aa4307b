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

  bool makeTargets(PictureSize size, bool several) {
    return last.resize(size) && (!several || (pass.resize(size) && sum.resize(size)));
  }
  void drawWhole(Program& program, const char* texture, GLuint from);
  void accumulate(const Camera& camera, PictureSize size, int passes);
  void drawOverlay(const Overlay& overlay, const Lettering& lettering, PictureSize size);
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

void Renderer::Machine::accumulate(const Camera& camera, PictureSize size, int passes) {
  sum.bind();
  glClearColor(0, 0, 0, 0);
  glClear(GL_COLOR_BUFFER_BIT);
  for (const Lamp& lamp : lampsFor(camera, passes)) {
    painter.draw({clipFromWorld(camera, size, lamp.shift), &lamp, false}, pass);
    sum.bind();
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    drawWhole(add, "pass", pass.texture());
    glDisable(GL_BLEND);
  }
  last.bind();
  mean.use();
  mean.set("scale", 1.0 / passes);
  mean.set("encode", 1);
  drawWhole(mean, "sum", sum.texture());
}

void Renderer::Machine::drawOverlay(const Overlay& overlay, const Lettering& lettering, PictureSize size) {
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

std::optional<Diagnostic> Renderer::paint(const Scene& scene, const Look& look, const Camera& camera,
                                          PictureSize size, const Overlay& overlay,
                                          const Lettering& lettering) {
  REQUIRE(size.width > 0 && size.height > 0 && look.passes >= 1);
  const int longest = longestSide();
  if (size.width > longest || size.height > longest)
    return tooLarge(size, "at most " + std::to_string(longest) + " a side");
  Machine& m = *machine_;
  if (drawsInMainMemory() && bytesFor(size, look.passes > 1) > memoryLeft().value_or(~0ull))
    return noMemory(size);
  if (!m.makeTargets(size, look.passes > 1)) return noMemory(size);
  m.painter.load(scene, look, camera, size);
  if (look.passes > 1)
    m.accumulate(camera, size, look.passes);
  else
    m.painter.draw({clipFromWorld(camera, size), nullptr, true}, m.last);
  m.drawOverlay(overlay, lettering, size);
  return {};
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
