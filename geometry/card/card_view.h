// One piece as a card sees it: what its ends and edges are called, where sizes are measured from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "card/card.h"

namespace dryfit::card {

class View {
 public:
  View(const CutWork& work, int piece);

  const CutWork& work() const { return work_; }
  const Piece& piece() const { return piece_; }
  int index() const { return index_; }
  const Recipe& made() const { return piece_.states.front().cut->recipe; }
  const Recipe& last() const { return piece_.last().recipe; }
  Vec3 blank() const { return blank_; }

  /// A size as the card tells it: "35.5", "1 3/8".
  std::string figure(double mm) const;
  /// "top", "left", "front"; the name of an end.
  const std::string& endName(Towards end) const { return ends_[end == Towards::High ? 1 : 0]; }
  /// "inner edge", "upper edge".
  const std::string& edgeName(Towards edge) const { return edges_[edge == Towards::High ? 1 : 0]; }
  Towards faceEdge() const { return faceEdge_; }
  /// Is an end or an edge called left or right?
  bool tellsLeft() const;
  /// The end that lengths are measured from.
  Towards fromEnd() const { return fromEnd_; }
  /// Finished ends, without horns.
  Span finished() const { return finished_; }

  /// From the end measured from, the face edge, the face.
  double along(double x) const;
  double across(double y) const;
  double deep(double z) const { return blank_.z / 2 - z; }
  Span along(Span x) const;
  Span across(Span y) const;
  Span deep(Span z) const { return {deep(z.to), deep(z.from)}; }

  /// "for the top rail": the member that stands where the point is, in the piece's frame; empty: none does.
  std::string partnerAt(Vec3 at) const;
  /// How a piece is called: "the top rail".
  std::string called(int piece) const;

 private:
  void nameEnds();
  void nameEdges();

  const CutWork& work_;
  int index_;
  const Piece& piece_;
  Vec3 blank_;
  std::string ends_[2], edges_[2];
  Towards faceEdge_ = Towards::Low, fromEnd_ = Towards::High;
  Span finished_;
};

}  // namespace dryfit::card
