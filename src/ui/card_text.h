// What the card says: of the step that is under way or just done, of a piece that is chosen, of what went
// wrong. Words and figures only; where they stand is the card's own business.
#pragma once

#include <string>
#include <vector>

#include "ui/model.h"
#include "ui/state.h"

namespace dryfit::ui {

struct CardRow {
  std::string name, size;
  int piece = -1;  ///< whose timber its swatch shows; -1: no swatch
  friend bool operator==(const CardRow&, const CardRow&) = default;
};

struct CardText {
  std::string number, ofStage;  ///< "20", "of 48 · Leaf: put together"
  std::string title;
  std::vector<std::string> text;  ///< what to do, paragraphs
  std::string rowsTitle;
  std::vector<CardRow> rows;
  std::string care, whyTitle, why, next;
};

CardText cardOf(const Model& model, const State& state);

/// What a step is called in a line: "Middle rail into the hanging stile".
std::string titleOf(const Model& model, int step);

/// "95 × 44 × 1981" of a piece as it is when all is done, in the unit.
std::string sizesOf(const Model& model, int piece, LengthUnit unit);

}  // namespace dryfit::ui
