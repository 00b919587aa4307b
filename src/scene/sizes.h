// Sizes over a picture: which are worth drawing in this view, in what rows, and their marks.
#pragma once

#include <string>
#include <vector>

#include "base/units.h"
#include "scene/board.h"
#include "scene/lettering.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/size_row.h"

namespace dryfit::scene {

struct SizeAsk {
  LengthUnit unit = LengthUnit::Millimetre;
  SizeSearch search;
};

/// Sizes that make one dimension line, with what they are called in a list.
struct ChosenRow {
  FoundSize::Rank rank = FoundSize::Rank::Member;
  SizeRow sizes;
  std::vector<std::string> names;  ///< "tenon width 60, top rail"
};

/// Those that can be drawn truly, each equal size of alike pieces once; of a whole work the most telling few,
/// of one joint its whole list. Those whose ends meet along one line are a row. Shortest on the picture
/// first.
std::vector<ChosenRow> chooseSizes(const std::vector<FoundSize>& found, const SizeAsk& ask,
                                   const Sight& sight);

struct PlacedSizes {
  std::vector<RowLayout> rows;
  std::vector<std::string> leftOut;
};

/// Shortest nearest to the work. A row that finds no room so is tried again before all others, a chain then
/// in parts; of a few such orders the one that loses least is kept. What is placed is put on the board.
PlacedSizes placeSizes(const std::vector<ChosenRow>& chosen, const Sight& sight, Board& board,
                       const Lettering& lettering);

void drawSizes(const std::vector<RowLayout>& rows, const Look& look, double unit, Overlay& overlay);

}  // namespace dryfit::scene
