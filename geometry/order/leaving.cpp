#include "order/leaving.h"

#include <algorithm>

#include "order/wall_sides.h"

namespace dryfit::order {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
/// Slides within this of the least count as equally short: then the lesser group goes.
constexpr double kAlikeShare = 1.25, kAlikeMm = 2;
/// Two pieces are of a kind when their volumes differ by no more than this share.
constexpr double kAlikeVolume = 1e-3;
/// ... and may slide so much longer than the last of them: one near a corner has more beside it.
constexpr double kOfAKindShare = 2;

/// Strongly connected sets of a graph over `count` nodes (Tarjan's way), each in order, and which of them
/// nothing leads out of.
class Knots {
 public:
  explicit Knots(const std::vector<std::vector<int>>& next)
      : next_(next), index_(next.size(), -1), low_(next.size()), knotOf_(next.size(), -1) {
    for (size_t i = 0; i < next.size(); ++i)
      if (index_[i] < 0) visit(static_cast<int>(i));
  }

  /// Empty when the whole graph is one knot.
  std::vector<std::vector<int>> ends() const {
    if (knots_.size() < 2) return {};
    std::vector<std::vector<int>> out;
    for (size_t k = 0; k < knots_.size(); ++k) {
      const bool leadsOut = std::any_of(knots_[k].begin(), knots_[k].end(), [&](int i) {
        return std::any_of(next_[i].begin(), next_[i].end(),
                           [&](int j) { return knotOf_[j] != static_cast<int>(k); });
      });
      if (leadsOut) continue;
      out.push_back(knots_[k]);
      std::sort(out.back().begin(), out.back().end());
    }
    std::sort(out.begin(), out.end());
    return out;
  }

 private:
  void visit(int i) {
    index_[i] = low_[i] = counter_++;
    stack_.push_back(i);
    for (const int j : next_[i]) {
      if (index_[j] < 0) visit(j);
      if (knotOf_[j] < 0) low_[i] = std::min(low_[i], low_[j]);
    }
    if (low_[i] != index_[i]) return;
    std::vector<int> knot;
    do {
      knot.push_back(stack_.back());
      knotOf_[stack_.back()] = static_cast<int>(knots_.size());
      stack_.pop_back();
    } while (knot.back() != i);
    knots_.push_back(std::move(knot));
  }

  const std::vector<std::vector<int>>& next_;
  std::vector<int> index_, low_, knotOf_, stack_;
  std::vector<std::vector<int>> knots_;
  int counter_ = 0;
};

/// One way off, with the outmost of its groups.
struct Choice {
  int way = 0;
  double slidesMm = kNever, outMm = -kNever, volumeMm3 = 0, clearMm = 0;
  bool own = false;  ///< the way is one of its joints'
};

class Chooser {
 public:
  Chooser(ItemRelations& relations, const std::vector<int>& standing, const Barred& barred,
          const Manner& manner)
      : r_(relations), standing_(standing), barred_(barred), manner_(manner) {
    if (!manner.anyWay && stays(standing)) wall_.emplace(relations.engagement());
    if (wall_ && !wall_->isWall()) wall_.reset();
  }

  std::optional<Leaving> run(const std::optional<LeftLast>& last) {
    if (last)
      if (auto more = moreOfAKind(*last)) return more;
    std::vector<Choice> choices;
    double least = kNever;
    for (int way = 0; way < static_cast<int>(r_.engagement().ways().size()); ++way) {
      if (!mayBeWay(way)) continue;
      const Choice found = least < kNever ? choiceAlong(way, alike(least)) : choiceAlong(way, kNever);
      if (found.slidesMm == kNever) continue;
      choices.push_back(found);
      least = std::min(least, found.slidesMm);
    }
    std::erase_if(choices, [&](const Choice& c) { return c.slidesMm > alike(least); });
    std::sort(choices.begin(), choices.end(), better);
    for (const Choice& choice : choices)
      if (Leaving found = leaving(choice); !found.groups.empty()) return found;
    return {};
  }

 private:
  static double alike(double mm) { return mm * kAlikeShare + kAlikeMm; }
  static bool better(const Choice& a, const Choice& b) {
    constexpr double sameMm = 1e-3, sameShare = 1e-6;
    if (std::abs(a.outMm - b.outMm) > sameMm) return a.outMm > b.outMm;
    if (std::abs(a.volumeMm3 - b.volumeMm3) > sameShare * a.volumeMm3) return a.volumeMm3 < b.volumeMm3;
    if (std::abs(a.clearMm - b.clearMm) > sameMm) return a.clearMm < b.clearMm;
    if (a.own != b.own) return a.own;
    return a.way < b.way;
  }

  /// The groups nothing else has to travel with, when those that slide no longer than `mm` come apart.
  std::vector<std::vector<int>> groupsAlong(int way, double mm) {
    std::vector<std::vector<int>> next(standing_.size());
    for (size_t a = 0; a < standing_.size(); ++a)
      for (size_t b = 0; b < standing_.size(); ++b) {
        const int i = standing_[a], j = standing_[b];
        if (a != b && (r_.slidesMm(i, j, way) > mm || waitsFor(i, j, way) ||
                       r_.meetsWithin(i, j, way, mm + r_.roomMm(i))))
          next[a].push_back(static_cast<int>(b));
      }
    std::vector<std::vector<int>> groups = Knots(next).ends();
    for (std::vector<int>& group : groups)
      for (int& item : group) item = standing_[item];
    std::erase_if(groups, [&](const std::vector<int>& g) {
      return isBarred(g, way) || stays(g) || !leavesWall(g, way);
    });
    return groups;
  }

  /// Whatever stands in the doorway within it goes first: a leaf before its lining, that before the grounds.
  bool waitsFor(int item, int other, int way) const {
    return wall_ && wall_->isOffWall(way) && !r_.stays(item) && !r_.stays(other) &&
           wall_->standsIn(wall_->unitBox(r_.items()[other].pieces), r_.boxOf({item}));
  }
  bool offWall(int way) const { return !wall_ || wall_->isOffWall(way); }
  bool leavesWall(const std::vector<int>& group, int way) const {
    if (!wall_) return true;
    const std::vector<int> pieces = piecesOf(group);
    const int unitWay = wayOfUnit(pieces);
    if (unitWay >= 0) return way == unitWay;
    if (!wall_->isOffWall(way)) return leavesJoints(group, way);
    if (manner_.eitherSide && wall_->isThrough(pieces)) return true;
    const int side = wall_->wayOf(pieces);
    return (side < 0 || side == way) &&
           (manner_.eitherSide || group.size() == 1 || !wall_->mixesLeaf(pieces));
  }
  /// The way other pieces of their unit went; -1: none did.
  int wayOfUnit(const std::vector<int>& pieces) const {
    if (manner_.unitWays.empty()) return -1;
    for (const int p : pieces)
      if (const auto found = manner_.unitWays.find(r_.engagement().unitOf(p));
          found != manner_.unitWays.end())
        return found->second;
    return -1;
  }
  bool isOwn(const std::vector<int>& group, int way) const {
    const std::vector<int> pieces = piecesOf(group);
    return std::all_of(pieces.begin(), pieces.end(), [&](int p) { return r_.engagement().isOwn(p, way); });
  }
  bool leavesJoints(const std::vector<int>& group, int way) const {
    const std::vector<int> pieces = piecesOf(group), others = piecesOf(rest(group));
    return std::all_of(pieces.begin(), pieces.end(),
                       [&](int p) { return r_.engagement().isOwn(p, way, others); });
  }
  bool mayBeWay(int way) const {
    return offWall(way) ||
           std::any_of(standing_.begin(), standing_.end(), [&](int i) { return isOwn({i}, way); });
  }

  bool stays(const std::vector<int>& group) const {
    return std::any_of(group.begin(), group.end(), [&](int i) { return r_.stays(i); });
  }

  std::vector<int> piecesOf(const std::vector<int>& group) const {
    std::vector<int> pieces;
    for (const int i : group)
      pieces.insert(pieces.end(), r_.items()[i].pieces.begin(), r_.items()[i].pieces.end());
    std::sort(pieces.begin(), pieces.end());
    return pieces;
  }
  bool isBarred(const std::vector<int>& group, int way) const {
    return !barred_.empty() &&
           std::find(barred_.begin(), barred_.end(), std::make_pair(piecesOf(group), way)) != barred_.end();
  }

  Choice choiceAlong(int way, double mostMm) {
    std::vector<double> slides{0};
    for (const int i : standing_)
      for (const int j : standing_)
        if (i != j && r_.slidesMm(i, j, way) <= mostMm) slides.push_back(r_.slidesMm(i, j, way));
    std::sort(slides.begin(), slides.end());
    double done = -1;
    for (const double mm : slides) {
      if (mm < done + 0.01 || mm == kNever) continue;
      done = mm;
      const auto groups = groupsAlong(way, mm);
      if (!groups.empty()) return choiceOf(outmost(groups, way), way, mm);
    }
    return {};
  }

  Choice choiceOf(const std::vector<int>& group, int way, double slidesMm) const {
    const double outMm = dot(r_.boxOf(group).centre() - r_.centre(), r_.engagement().ways()[way]);
    return {way, slidesMm, outMm, r_.volumeMm3(group), clearOf(group, way), isOwn(group, way)};
  }

  std::vector<int> outmost(const std::vector<std::vector<int>>& groups, int way) const {
    return *std::min_element(groups.begin(), groups.end(), [&](const auto& a, const auto& b) {
      return better(choiceOf(a, way, 0), choiceOf(b, way, 0));
    });
  }

  double clearOf(const std::vector<int>& group, int way) const {
    double mm = 0;
    for (const int i : group)
      for (const int j : standing_)
        if (std::find(group.begin(), group.end(), j) == group.end()) mm = std::max(mm, r_.clearMm(i, j, way));
    return mm;
  }

  std::vector<int> rest(const std::vector<int>& group) const {
    std::vector<int> out;
    for (const int i : standing_)
      if (std::find(group.begin(), group.end(), i) == group.end()) out.push_back(i);
    return out;
  }

  /// Those that stand yet of the kind that left last, by the outmost's way.
  std::optional<Leaving> moreOfAKind(const LeftLast& last) {
    std::optional<Choice> best;
    std::vector<int> items;
    const double mostMm = last.slidesMm * kOfAKindShare + kAlikeMm;
    for (int way = 0; way < static_cast<int>(r_.engagement().ways().size()); ++way) {
      if (!mayBeWay(way)) continue;
      auto groups = groupsAlong(way, mostMm);
      std::erase_if(groups, [&](const auto& g) {
        return g.size() > 1 || std::abs(r_.volumeMm3(g) - last.volumeMm3) > kAlikeVolume * last.volumeMm3;
      });
      if (groups.empty() || groups.size() == standing_.size()) continue;
      const Choice one = choiceOf(outmost(groups, way), way, mostMm);
      if (best && !better(one, *best)) continue;
      best = one;
      items.clear();
      for (const auto& g : groups) items.push_back(g[0]);
    }
    if (!best) return {};
    return Leaving{best->way, best->slidesMm, r_.components(items)};
  }

  /// The outmost group of the choice, or what of it leaves alike without the rest, and whatever else does;
  /// those of them that touch each other as one group. Where the outmost is the greater part, the others
  /// leave it. No groups when those are barred.
  Leaving leaving(const Choice& choice) {
    const std::vector<int> first = outmost(groupsAlong(choice.way, choice.slidesMm), choice.way);
    const std::vector<int> others = rest(first);
    if (r_.volumeMm3(first) > r_.volumeMm3(others) && !stays(others))
      return unbarred({Engagement::opposite(choice.way), choice.slidesMm, r_.components(others)});
    std::vector<int> items;
    for (const auto& g : groupsAlong(choice.way, alike(choice.slidesMm)))
      items.insert(items.end(), g.begin(), g.end());
    std::sort(items.begin(), items.end());
    const bool leavesSome = items.size() < standing_.size() &&
                            r_.volumeMm3(items) <= r_.volumeMm3(standing_) / 2 &&
                            (std::includes(items.begin(), items.end(), first.begin(), first.end()) ||
                             std::includes(first.begin(), first.end(), items.begin(), items.end()));
    if (leavesSome)
      if (Leaving all = unbarred({choice.way, choice.slidesMm, r_.components(items)}); !all.groups.empty())
        return all;
    return {choice.way, choice.slidesMm, {first}};
  }

  Leaving unbarred(Leaving leaving) const {
    std::erase_if(leaving.groups, [&](const std::vector<int>& g) { return isBarred(g, leaving.way); });
    return leaving;
  }

  ItemRelations& r_;
  const std::vector<int>& standing_;
  const Barred& barred_;
  const Manner& manner_;
  std::optional<WallSides> wall_;  ///< the wall all stands in
};

}  // namespace

std::optional<Leaving> nextLeaving(ItemRelations& relations, const std::vector<int>& standing,
                                   const Barred& barred, const std::optional<LeftLast>& last,
                                   const Manner& manner) {
  return Chooser(relations, standing, barred, manner).run(last);
}

}  // namespace dryfit::order
