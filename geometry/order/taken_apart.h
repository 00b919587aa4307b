// A work taken apart for the spread: level by level, the units first as rigid bodies, then what each group
// that left together is made of. Every departure says what rests on what: a piece that stood over another
// when it left goes along with it later.
//
// World axes, millimetres. Pieces go by their place in Engagement::present().
#pragma once

#include <vector>

#include "order/leaving.h"

namespace dryfit::order {

/// One group's way off what still stands at its level.
struct Departure {
  int level = 0;
  std::vector<int> pieces;        ///< ascending
  std::vector<Vec3> ways;         ///< unit, away; more than one when it cannot go straight
  std::vector<double> travelsMm;  ///< of each way; the last one's is for the layout to say
  double slidesMm = 0;            ///< it is out after so much of the last way
  double gapMm = 0;               ///< how far it should stand off when it is out
  bool layer = false;             ///< stands clear of the next by all of that: it left a wall
  bool loose = false;             ///< engaged with nothing to begin with; may have no way yet
  bool stays = false;             ///< loose, and moves only as far as it must
  int wave = 0;                   ///< departures that leave alike, one after another
  int restsOnDeparture = -1;      ///< goes along with this later group of its level ...
  int restsOnPiece = -1;          ///< ... or with this piece, wherever it goes within its level
  int way = -1;                   ///< in Engagement::ways(); -1: several, or loose
};

/// What comes apart in one frame: the whole work, a unit, a group that left as one.
struct SpreadLevel {
  int owner = -1;  ///< the departure whose group it is; -1: stays with the level above it
  int above = -1;
  bool unit = false;
  std::vector<int> pieces, base;  ///< base: those that stay
  std::vector<int> departures;    ///< in order
};

struct TakenApart {
  std::vector<Departure> departures;  ///< each level's after those of the level above, the greater's first
  std::vector<SpreadLevel> levels;    ///< the whole first
  std::vector<int> held;              ///< pieces that found no way off each other
  /// By piece: the departures it goes along with, ascending.
  std::vector<std::vector<int>> departuresOf;
};

/// Two pieces that meet on their ways, and the departure during which they do.
struct Clash {
  int a = 0, b = 0, departure = 0;
};

/// How far a group should stand off: by its own size and the whole's without what is formed in place, so that
/// wedges stay near and stiles are seen to be off.
double standOffMm(const Engagement& engagement, const std::vector<int>& pieces);

/// What a plan must do without: found to be in the way of a plan before it.
struct Refused {
  std::vector<std::vector<int>> together;  ///< sets of pieces that are not to be parted
  Barred ways;                             ///< groups that must not leave so
  std::vector<std::vector<int>> onPiece;  ///< groups that must not rest on one piece of what lies behind them
  std::vector<std::vector<int>> still;    ///< loose groups that must not move further apart
};

TakenApart takeApart(Engagement& engagement, const Refused& refused);

}  // namespace dryfit::order
