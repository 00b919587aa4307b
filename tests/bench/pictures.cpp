// What pictures cost: turning frames and stills of a leaf of 45 pieces, each beside the plain frame (flat
// tones, no lines, no section) of the same size in the same run, and the whole command in a fresh process.
//
//   dryfit_bench_pictures [FRAMES]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <vector>

#include "bench/commands.h"
#include "gl/context.h"
#include "gl/renderer.h"
#include "scene/staging.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

using namespace scene;
using Clock = std::chrono::steady_clock;

double msSince(Clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

template <class T>
T must(Result<T> result) {
  if (result) return std::move(result).value();
  fmt::print("{}\n", toText(result.faults().front()));
  std::exit(1);
}

Scene plain(Scene scene) {
  for (Item& item : scene.items) item.surface.substance = Substance::Metal;
  return scene;
}

struct Subject {
  const char* name;
  Scene scene;
  Look look;
};

std::vector<Subject> subjects(const CutWork& work) {
  Staging staging(work, nullptr);
  const Scene timber = staging.scene({});
  StagingRequest through;
  through.seeThrough = {0, 1};
  Look none, lines, cut, still;
  none.widths = {0, 0, 0, 0, 0, 0, 0};
  none.passes = lines.passes = 1;
  cut = lines;
  cut.sections.push_back({{0, 0, 1}, 600, "plan at 600"});
  std::vector<Subject> out = {{"plain", plain(timber), none},
                              {"outlines", plain(timber), lines},
                              {"timber", timber, none},
                              {"timber, outlines", timber, lines},
                              {"timber, outlines, one section", timber, cut},
                              {"timber, outlines, two pieces see-through", staging.scene(through), lines}};
  for (const int passes : {2, 16, 48}) {
    still.passes = passes;
    out.push_back({passes == 2    ? "still, 2 passes"
                   : passes == 16 ? "still, 16 passes"
                                  : "still, 48 passes",
                   timber, still});
  }
  return out;
}

double medianFrame(gl::Renderer& renderer, const Subject& s, PictureSize size, const Lettering& lettering,
                   int frames) {
  std::vector<Vec3> points;
  for (const Item& item : s.scene.items)
    for (const Vec3& p : item.shape->points) points.push_back(item.worldFromPiece.point(p));
  std::vector<double> all;
  for (int i = -2; i < frames; ++i) {  // the first two warm up
    const Camera camera = framed({33.0 + 3 * i, 24, false, 20, ""}, points, size, {40, 40, 40, 40});
    const auto begin = Clock::now();
    if (auto fault = renderer.paint(s.scene, s.look, camera, size, {}, lettering)) {
      fmt::print("{}\n", toText(*fault));
      std::exit(1);
    }
    renderer.wait();
    if (i >= 0) all.push_back(msSince(begin));
  }
  std::nth_element(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2), all.end());
  return all[all.size() / 2];
}

void report(int frames) {
  const gl::Context context = must(gl::Context::withoutDisplay());
  gl::Renderer renderer = must(gl::Renderer::create());
  const Lettering lettering = must(Lettering::load());
  const CutWork work = cutDoorSet(leafOf45());
  fmt::print("{}; {} pieces, median of {} frames (stills a fifth), ms, and times the plain frame\n",
             context.machine(), work.pieces.size(), frames);
  const std::vector<PictureSize> sizes = {{1280, 720}, {1920, 1080}, {3840, 2160}};
  fmt::print("{:42}", "");
  for (const PictureSize size : sizes) fmt::print("{:>18}", fmt::format("{}x{}", size.width, size.height));
  fmt::print("\n");
  std::vector<double> baseline(sizes.size());
  for (const Subject& s : subjects(work)) {
    fmt::print("{:42}", s.name);
    for (size_t i = 0; i < sizes.size(); ++i) {
      const double ms = medianFrame(renderer, s, sizes[i], lettering,
                                    s.look.passes == 1 ? frames : std::max(1, frames / 5));
      if (baseline[i] == 0) baseline[i] = ms;
      fmt::print("{:>18}", fmt::format("{:.1f} x{:.1f}", ms, ms / baseline[i]));
    }
    fmt::print("\n");
  }
}

}  // namespace
}  // namespace dryfit::tests

int main(int argc, char** argv) {
  const int frames = argc > 1 ? std::max(1, std::atoi(argv[1])) : 25;
  dryfit::tests::report(frames);
  dryfit::tests::reportPictureCommand(DRYFIT_PROGRAM);
}
