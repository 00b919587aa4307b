#include "support/pictures.h"

#include <cstdlib>
#include <iostream>

#include "gl/renderer.h"
#include "scene/lettering.h"
#include "support/shells.h"

namespace dryfit::pictures {

using namespace scene;

namespace {

template <class T>
T must(Result<T> result) {
  if (result) return std::move(result).value();
  std::cerr << toText(result.faults().front()) << "\n";
  std::abort();
}

}  // namespace

Item boxItem(const std::string& id, Vec3 sizeMm, const Placement& worldFromPiece) {
  Item item;
  item.id = item.name = item.kind = id;
  item.shape = std::make_shared<Shape>(shapeOf(tests::boxShell(sizeMm)));
  item.sizeMm = sizeMm;
  item.worldFromPiece = worldFromPiece;
  item.surface.early = rgb(0xEBC998);
  item.surface.late = rgb(0xB9824C);
  item.surface.grain.pithZMm = -(sizeMm.z / 2 + 60);
  return item;
}

Scene boxScene(Vec3 sizeMm) {
  Scene scene;
  scene.items.push_back(boxItem("box", sizeMm));
  return scene;
}

Camera cameraFor(const Scene& scene, PictureSize size, const std::string& view) {
  View chosen = namedViews().front();
  for (const View& v : namedViews())
    if (v.name == view) chosen = v;
  std::vector<Vec3> points;
  for (const Item& item : scene.items)
    for (const Vec3& p : item.shape->points) points.push_back(item.worldFromPiece.point(p));
  const double free = size.height / 10.0;
  return framed(chosen, points, size, {free, free, free, free});
}

Image drawn(gl::Context&, const Scene& scene, const Look& look, const Camera& camera, PictureSize size,
            const Overlay& overlay) {
  auto renderer = must(gl::Renderer::create());
  return must(renderer.draw(scene, look, camera, size, overlay, must(Lettering::load())));
}

Image drawn(gl::Context& context, const Scene& scene, Ground ground, int passes, PictureSize size) {
  Look look;
  look.ground = ground;
  look.passes = passes;
  return drawn(context, scene, look, cameraFor(scene, size), size);
}

}  // namespace dryfit::pictures
