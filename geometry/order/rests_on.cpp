#include "order/rests_on.h"

#include <algorithm>
#include <set>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

/// Seen along its way, a thing lies behind another when it covers this share of it, and covers it from that
/// on.
constexpr double kBehindShare = 0.05, kCoversShare = 0.9;
/// ... or this share and more than anything else: a jamb behind a hinge's plate, whose knuckles stand out.
constexpr double kMostlyShare = 0.7;

Box3 boxOf(const Engagement& engagement, const std::vector<int>& pieces) {
  Box3 box;
  for (const int p : pieces) box.add(engagement.box(p));
  return box;
}

/// The share of `front`'s shadow along the way that `behind`'s covers; of a slanted way, along its nearest
/// axis.
double coveredShare(const Box3& front, const Box3& behind, Vec3 way) {
  int along = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(way[i]) > std::abs(way[along])) along = i;
  double share = 1;
  for (int i = 0; i < 3; ++i) {
    if (i == along) continue;
    const double common = std::min(front.high[i], behind.high[i]) - std::max(front.low[i], behind.low[i]);
    if (common < tolerance::kTouch) return 0;
    share *= common / front.size()[i];
  }
  return share;
}

bool engaged(const Engagement& engagement, const std::vector<int>& a, const std::vector<int>& b) {
  return std::any_of(a.begin(), a.end(), [&](int p) {
    return std::any_of(b.begin(), b.end(), [&](int q) { return engagement.engaged(p, q); });
  });
}

class Rests {
 public:
  Rests(const Engagement& engagement, const std::vector<std::vector<int>>& notOnPiece, TakenApart& apart,
        const SpreadLevel& level)
      : engagement_(engagement), notOnPiece_(notOnPiece), apart_(apart), level_(level) {}

  void run() {
    for (size_t i = 0; i < level_.departures.size(); ++i)
      if (!apart_.departures[level_.departures[i]].loose) rest(i);
  }

 private:
  struct Behind {
    int departure = -1;  ///< -1: the base
    double share = 0;
  };

  /// What leaves the other way carries nothing along.
  static bool goesAgainst(const Departure& d, const Departure& other) {
    return std::any_of(other.ways.begin(), other.ways.end(),
                       [&](Vec3 way) { return dot(d.ways.back(), way) < -kBehindShare; });
  }

  void rest(size_t place) {
    Departure& d = apart_.departures[level_.departures[place]];
    std::vector<Behind> behind;
    const auto add = [&](const std::vector<int>& pieces, int departure) {
      if (departure >= 0 && goesAgainst(d, apart_.departures[departure])) return;
      if (!engaged(engagement_, d.pieces, pieces)) return;
      const double share =
          coveredShare(boxOf(engagement_, d.pieces), boxOf(engagement_, pieces), d.ways.back());
      if (share > kBehindShare) behind.push_back({departure, share});
    };
    for (size_t later = place + 1; later < level_.departures.size(); ++later)
      add(apart_.departures[level_.departures[later]].pieces, level_.departures[later]);
    if (!stays(level_.base)) add(level_.base, -1);
    auto on =
        std::find_if(behind.begin(), behind.end(), [](const Behind& b) { return b.share >= kCoversShare; });
    if (on == behind.end() && behind.size() == 1) on = behind.begin();
    if (on == behind.end()) {
      on = std::max_element(behind.begin(), behind.end(),
                            [](const Behind& a, const Behind& b) { return a.share < b.share; });
      if (on != behind.end() && on->share < kMostlyShare) on = behind.end();
    }
    if (on == behind.end()) return;
    const std::vector<int>& pieces =
        on->departure < 0 ? level_.base : apart_.departures[on->departure].pieces;
    d.restsOnDeparture = on->departure;
    const bool onAll = std::find(notOnPiece_.begin(), notOnPiece_.end(), d.pieces) != notOnPiece_.end();
    if (pieces.size() > 1 && !onAll) d.restsOnPiece = onlyPieceBehind(d, pieces);
    if (d.restsOnPiece >= 0) d.restsOnDeparture = -1;
  }

  /// A wall carries nothing anywhere.
  bool stays(const std::vector<int>& pieces) const {
    return std::any_of(pieces.begin(), pieces.end(), [&](int p) { return engagement_.stays(p); });
  }

  /// -1 when several lie behind it: then it rests on all of them together.
  int onlyPieceBehind(const Departure& d, const std::vector<int>& pieces) const {
    int only = -1;
    for (const int p : pieces) {
      if (!engaged(engagement_, d.pieces, {p})) continue;
      if (coveredShare(boxOf(engagement_, d.pieces), engagement_.box(p), d.ways.back()) <= kBehindShare)
        continue;
      if (only >= 0) return -1;
      only = p;
    }
    return only;
  }

  const Engagement& engagement_;
  const std::vector<std::vector<int>>& notOnPiece_;
  TakenApart& apart_;
  const SpreadLevel& level_;
};

class Chains {
 public:
  explicit Chains(const TakenApart& apart) : apart_(apart) {}

  /// What `piece` goes along with at `level` and below it.
  void addPiece(int piece, int level, std::set<int>& out) const {
    for (const int d : apart_.levels[level].departures)
      if (holds(apart_.departures[d].pieces, piece)) addDeparture(d, out);
    for (int below = level + 1; below < static_cast<int>(apart_.levels.size()); ++below)
      if (apart_.levels[below].above == level && holds(apart_.levels[below].pieces, piece))
        addPiece(piece, below, out);
  }

 private:
  static bool holds(const std::vector<int>& pieces, int piece) {
    return std::binary_search(pieces.begin(), pieces.end(), piece);
  }

  void addDeparture(int departure, std::set<int>& out) const {
    if (!out.insert(departure).second) return;
    const Departure& d = apart_.departures[departure];
    if (d.restsOnDeparture >= 0) addDeparture(d.restsOnDeparture, out);
    if (d.restsOnPiece >= 0) addPiece(d.restsOnPiece, d.level, out);
  }

  const TakenApart& apart_;
};

}  // namespace

void restEachOnWhatItStoodOver(const Engagement& engagement, const std::vector<std::vector<int>>& notOnPiece,
                               TakenApart& apart, int level) {
  Rests(engagement, notOnPiece, apart, apart.levels[level]).run();
}

std::vector<std::vector<int>> departuresOf(const TakenApart& apart, int pieces) {
  std::vector<std::vector<int>> out;
  for (int p = 0; p < pieces; ++p) {
    std::set<int> all;
    Chains(apart).addPiece(p, 0, all);
    out.emplace_back(all.begin(), all.end());
  }
  return out;
}

}  // namespace dryfit::order
