// One line to add an unbroken line to an overlay.
#pragma once

#include <utility>
#include <vector>

#include "scene/overlay.h"

namespace dryfit::scene {

inline void addLine(Overlay& overlay, std::vector<Vec2> points, double widthPx, Colour colour) {
  Stroke stroke;
  stroke.points = std::move(points);
  stroke.widthPx = widthPx;
  stroke.colour = colour;
  overlay.marks.emplace_back(std::move(stroke));
}

}  // namespace dryfit::scene
