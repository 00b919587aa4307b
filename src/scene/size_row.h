// A row of sizes along one dimension line: one alone, or a chain whose ends meet. Where its line, figures,
// arrows and extension lines go, by the custom of ISO 129-1 (from memory): extension lines leave a gap at the
// feature and overrun the line; figures stand above the line, read from the foot or from the right; where
// arrows find no room between they point in from outside, and between two short sizes a dot takes their
// place.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "scene/board.h"
#include "scene/lettering.h"
#include "scene/size_stand.h"

namespace dryfit::scene {

/// Of the design, pixels at a height of 1080.
namespace dimension {
inline constexpr double kArrowLong = 15, kArrowWide = 5.4, kArrowsInside = 38;
inline constexpr double kGap = 4, kOverrun = 7, kRow = 28, kFigures = 20, kLeastFigures = 15;
inline constexpr double kDot = 2.2;
}  // namespace dimension

/// A size that can be drawn, and where from.
struct DrawableSize {
  std::string figures;
  std::vector<SizeStand> stands;
};

/// Sizes in order along their way.
using SizeRow = std::vector<DrawableSize>;

struct Figures {
  Vec2 at;
  double angleRad = 0;
  std::string text;
  Quad box;
};

struct RowLayout {
  std::vector<Segment> extensions, lines;
  std::vector<std::array<Vec2, 3>> arrows;  ///< point first
  std::vector<Vec2> dots;
  std::vector<Figures> figures;
  Vec3 out;
  double levelMm = 0;  ///< of the dimension line along `out`
  double cost = 0;
};

/// Height of figures in this picture.
double figuresPx(double unit);

/// The ways out that all sizes of the row share, each with the stands for it, in order.
std::vector<std::vector<SizeStand>> sharedStands(const SizeRow& row, const Camera& camera);

/// The cheapest place for the row; `placed` rows draw it to their own levels. Empty: no room.
std::optional<RowLayout> placeRow(const SizeRow& row, const std::vector<RowLayout>& placed,
                                  const Sight& sight, const Board& board, const Lettering& lettering);

}  // namespace dryfit::scene
