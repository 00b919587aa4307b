// The making card of one piece: what is done to it, in the order in which it is made, with the sizes to mark
// and from where they are measured. Made from the piece's own recipe and its states; no text of it is stored.
//
// Lengths run from the top of what stands, from the left of what lies (seen from the front), from the front
// of what goes into the wall, of the finished piece: horns are not counted. Across, from the face edge;
// through the thickness, from the face. Millimetres; texts are in the work's unit.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "card/making_rules.h"
#include "joint/cut_work.h"
#include "piece/alike.h"

namespace dryfit {

/// A size of a card, for other programs and for tests that measure the solids.
struct CardSize {
  std::string name;  ///< "from", "to", "width", "depth" ...
  double mm = 0;
};

/// One thing to do.
struct CardLine {
  Making making = Making::Saw;
  std::string text;
  std::vector<CardSize> sizes;
  std::vector<std::string> roles;  ///< of the features it is about
};

struct MakingCard {
  std::string name;             ///< "hanging stile"
  std::string measured;         ///< where lengths, widths and gauges are taken from, a sentence or more
  std::string alike;            ///< how many are made, which pair they are; a sentence
  std::vector<CardLine> lines;  ///< in order
  std::vector<std::string> cautions;
};

/// Fails: BadInput about the piece's id: formed in place, or bought.
Result<MakingCard> makingCard(const CutWork& work, int piece);
/// The same where alikes() of the work's pieces are at hand.
Result<MakingCard> makingCard(const CutWork& work, int piece, const std::vector<Alike>& alikes);

}  // namespace dryfit
