// One try to draw a row of sizes with its line at one level. See size_row.h for the custom it follows.
#pragma once

#include <vector>

#include "scene/size_row.h"

namespace dryfit::scene {

class RowDraft {
 public:
  /// `stands`: one a size, of one way out; all must outlive the draft.
  RowDraft(const SizeRow& row, const std::vector<SizeStand>& stands, double levelMm, const Sight& sight,
           const Lettering& lettering);

  /// The dimension lines with arrows alone: enough to see whether the level is free.
  void drawLines();
  void drawExtensions();
  /// False when one finds no place that is free and `clearPx` from the work. Figures beside their size make
  /// its line longer. After the extensions.
  bool placeFigures(const Board& board, double clearPx);

  void addToCost(double cost) { made_.cost += cost; }
  const RowLayout& made() const { return made_; }

 private:
  double sizePx(std::size_t i) const { return length(to_[i] - from_[i]); }
  bool isShort(std::size_t i) const { return sizePx(i) < dimension::kArrowsInside * u_; }
  void arrow(Vec2 point, Vec2 way);
  void endShort(std::size_t i, bool atTo);
  Figures figuresAt(const std::string& text, Vec2 foot, double raisedPx) const;
  bool take(const Figures& figures, const Board& board, double clearPx);
  bool placeBeside(std::size_t i, bool atTo, const Board& board, double clearPx);
  bool placeFigures(std::size_t i, const Board& board, double clearPx);
  void extension(Vec3 feature, Vec2 end);

  const SizeRow& row_;
  const std::vector<SizeStand>& stands_;
  const Sight& sight_;
  const Lettering& lettering_;
  double u_;
  std::vector<Vec2> from_, to_;  ///< ends of the dimension lines
  Vec2 along_, reading_, up_;    ///< unit: the row's way, the figures' way, from their foot to their head
  double angle_ = 0;
  RowLayout made_;
};

}  // namespace dryfit::scene
