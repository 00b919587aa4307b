#include "scene/layout.h"

#include <cmath>
#include <iterator>

#include "scene/arrows.h"
#include "scene/id_map.h"
#include "scene/labels.h"
#include "scene/sizes.h"

namespace dryfit::scene {

namespace {

/// Cells of the map: fine enough that a wedge's end in a whole door is found.
constexpr double kCellPx = 2;

}  // namespace

PictureLayout layOut(const Scene& scene, const Look& look, const Camera& camera, PictureSize size,
                     const std::vector<Dimension>& dimensions, const LayoutAsk& ask,
                     const Lettering& lettering) {
  PictureLayout out;
  if (!ask.labels && !ask.sizes && scene.arrows.empty()) return out;
  const double unit = unitOf(size.height);
  const IdMap map =
      idMapOf(scene, look.sections, camera, size, std::max(kCellPx, std::round(kCellPx * unit)));
  const Sight sight{scene, look.sections, map, camera, size, unit};
  Board board(map, size, unit);
  for (const Quad& quad : ask.covered) board.put(quad);
  auto list = [&](const char* what, const std::vector<std::string>& names) {
    for (const std::string& name : names) out.leftOut.push_back(std::string(what) + ": " + name);
  };

  Overlay arrows;
  const PlacedArrows words = placeArrows(look, sight, board, lettering, arrows);
  for (const PlacedWords& w : words.words) out.placed.push_back({PlacedText::Kind::Words, w.text, w.box});
  list("words", words.leftOut);
  if (ask.sizes) {
    const SizeAsk sizes{ask.unit, {ask.joint, ask.apart}};
    const auto found = foundSizes(scene, look.sections, dimensions, sizes.search);
    const PlacedSizes placed = placeSizes(chooseSizes(found, sizes, sight), sight, board, lettering);
    drawSizes(placed.rows, look, unit, out.overlay);
    for (const RowLayout& row : placed.rows)
      for (const Figures& f : row.figures) out.placed.push_back({PlacedText::Kind::Size, f.text, f.box});
    list("size", placed.leftOut);
  }
  if (ask.labels) {
    const PlacedLabels placed = placeLabels(namedParts(scene, ask.unit), sight, board, lettering);
    drawLabels(placed, look, unit, out.overlay);
    for (const PlacedLabel& l : placed.labels)
      out.placed.push_back({PlacedText::Kind::Label, l.parts.name, l.box});
    list("label", placed.leftOut);
  }
  std::move(arrows.marks.begin(), arrows.marks.end(), std::back_inserter(out.overlay.marks));
  return out;
}

Margins marginsFor(const LayoutAsk& ask, PictureSize size) {
  const double w = size.width, h = size.height;
  if (ask.labels && ask.sizes) return {0.16 * w, 0.16 * w, 0.08 * h, 0.09 * h};
  if (ask.labels) return {0.13 * w, 0.13 * w, 0.06 * h, 0.06 * h};
  if (ask.sizes) return {0.08 * w, 0.08 * w, 0.08 * h, 0.09 * h};
  return {0.05 * w, 0.05 * w, 0.05 * h, 0.05 * h};
}

}  // namespace dryfit::scene
