// Board: the picture as layout fills it: where the work is, and what boxes and lines are already there.
#pragma once

#include <cstddef>
#include <vector>

#include "scene/camera.h"
#include "scene/flat.h"
#include "scene/id_map.h"

namespace dryfit::scene {

class Board {
 public:
  enum class Line { Leader, Dimension, Extension };
  /// Marks (arrows of what moves) keep texts off, lines only if they can.
  enum class Box { Text, Mark };

  /// `map` must outlive the board. `unit`: pixels to one of the design.
  Board(const IdMap& map, PictureSize size, double unit);

  /// Inside the picture, clear of every box, no line through it.
  bool isFree(const Quad& box) const;
  /// Inside the picture, through no text.
  bool isFree(const Segment& line) const;
  bool crossesMark(const Segment& line) const;
  /// How many of the lines of that kind it crosses.
  int crossings(const Segment& line, Line kind) const;
  /// A line of that kind runs along it for some way, nearer than `px`.
  bool runsAlong(const Segment& line, Line kind, double px) const;

  /// From the nearest of the work, pixels; 0 on it.
  double awayFromWork(Vec2 at) const;
  bool isClearOfWork(const Quad& box, double px) const;
  bool isClearOfWork(const Segment& line, double px) const;
  /// How much of it lies on the work, pixels.
  double overWork(const Segment& line) const;
  /// How much of the work lies under an upright box, square pixels.
  double workUnder(Vec2 low, Vec2 high) const;
  /// Of all the work; low over high when there is none.
  const Extent2& workExtent() const { return extent_; }

  void put(const Quad& box, Box kind = Box::Text) { boxes_.push_back({box, kind}); }
  void put(const Segment& line, Line kind) { lines_.push_back({line, kind}); }
  /// What was put since then is taken off again.
  struct Mark {
    std::size_t boxes = 0, lines = 0;
  };
  Mark mark() const { return {boxes_.size(), lines_.size()}; }
  void rewind(Mark mark) {
    boxes_.resize(mark.boxes);
    lines_.resize(mark.lines);
  }

 private:
  bool isInside(Vec2 at, double edge) const;
  struct Taken {
    Quad box;
    Box kind = Box::Text;
  };
  struct Drawn {
    Segment line;
    Line kind;
  };
  const IdMap& map_;
  PictureSize size_;
  double unit_;
  Extent2 extent_;
  std::vector<float> away_;  ///< cells
  std::vector<int> summed_;  ///< cells of the work above and left, one row and column more than the map
  std::vector<Taken> boxes_;
  std::vector<Drawn> lines_;
};

}  // namespace dryfit::scene
