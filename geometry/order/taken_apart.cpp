#include "order/taken_apart.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/tolerance.h"
#include "order/exit.h"
#include "order/rests_on.h"
#include "order/spread_items.h"
#include "order/wall_sides.h"

namespace dryfit::order {

namespace {

/// Of the mean (geometric) of the whole's and the group's greatest sizes. Chosen by looking at pictures.
constexpr double kStandOffShare = 0.05;
/// The same of what leaves a wall: it is to stand beside the next, not before it, seen from the corner.
constexpr double kLayerShare = 0.28;
/// A group needs at least this share of its stand-off before it meets anything; then it can turn aside.
constexpr double kRoomShare = 0.25;

template <class T>
bool contains(const std::vector<T>& all, const T& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

double greatestSizeMm(const Engagement& engagement, const std::vector<int>& pieces) {
  Box3 box;
  for (const int p : pieces) box.add(engagement.box(p));
  return std::max({box.size().x, box.size().y, box.size().z});
}

class Taker {
 public:
  Taker(Engagement& engagement, const Refused& refused) : engagement_(engagement), refused_(refused) {}

  TakenApart run() {
    const auto& units = engagement_.scene().assembly().units;
    const auto whole = std::find_if(units.begin(), units.end(), [](const Unit& u) { return u.parent < 0; });
    pending_.push_back(
        {itemsOf(engagement_, static_cast<int>(whole - units.begin()), refused_.together), -1, -1, true});
    while (!pending_.empty()) takeLevel(takeGreatest());
    std::sort(out_.held.begin(), out_.held.end());
    out_.departuresOf = departuresOf(out_, engagement_.count());
    return std::move(out_);
  }

 private:
  struct Pending {
    std::vector<SpreadItem> items;
    int owner, above;
    bool unit;
  };

  ItemRelations relationsOf(std::vector<SpreadItem> items, bool asDriven = true) {
    std::vector<double> room;
    for (const SpreadItem& item : items) room.push_back(kRoomShare * standOffMm(engagement_, item.pieces));
    return {engagement_, std::move(items), std::move(room), asDriven};
  }

  /// The greater part comes apart first: rows of a leaf before the mouldings about a panel.
  Pending takeGreatest() {
    const auto volume = [&](const Pending& p) {
      double mm3 = 0;
      for (const SpreadItem& item : p.items)
        for (const int piece : item.pieces) mm3 += engagement_.volumeMm3(piece);
      return mm3;
    };
    const auto greatest = std::max_element(
        pending_.begin(), pending_.end(),
        [&](const Pending& a, const Pending& b) { return volume(a) < volume(b) * (1 - 1e-6); });
    Pending out = std::move(*greatest);
    pending_.erase(greatest);
    return out;
  }

  void takeLevel(const Pending& from) {
    level_ = static_cast<int>(out_.levels.size());
    out_.levels.push_back({from.owner, from.above, from.unit, {}, {}, {}});
    const std::vector<SpreadItem>& items = from.items;
    for (const SpreadItem& item : items)
      current().pieces.insert(current().pieces.end(), item.pieces.begin(), item.pieces.end());
    std::sort(current().pieces.begin(), current().pieces.end());
    ItemRelations relations = relationsOf(items);
    last_.reset();
    manner_ = {};
    std::vector<int> standing(items.size());
    std::iota(standing.begin(), standing.end(), 0);
    while (standing.size() > 1) {
      if (partLoose(relations, standing) || leaveStraight(relations, standing)) continue;
      if (leaveFiner(relations, standing)) continue;
      if (leaveStraight(relations, standing, true)) continue;
      ItemRelations anyhow = relationsOf(relations.items(), false);
      if (leaveStraight(anyhow, standing, true) || leaveByTurns(relations, standing, false)) continue;
      const auto held = piecesOf(relations.items(), standing);
      out_.held.insert(out_.held.end(), held.begin(), held.end());
      break;
    }
    current().base = piecesOf(relations.items(), standing);
    if (standing.size() == 1) goOnWith(relations.items(), standing, current().owner);
    restEachOnWhatItStoodOver(engagement_, refused_.onPiece, out_, level_);
  }

  SpreadLevel& current() { return out_.levels[level_]; }

  Departure& depart(const std::vector<SpreadItem>& items, const std::vector<int>& group,
                    std::vector<int>& standing) {
    Departure d;
    d.level = level_;
    d.pieces = piecesOf(items, group);
    d.gapMm = standOffMm(engagement_, d.pieces);
    d.wave = wave_;
    current().departures.push_back(static_cast<int>(out_.departures.size()));
    out_.departures.push_back(std::move(d));
    goOnWith(items, group, current().departures.back());
    std::erase_if(standing, [&](int i) { return std::find(group.begin(), group.end(), i) != group.end(); });
    return out_.departures.back();
  }

  /// A group of several items, or a unit, comes apart in its turn.
  void goOnWith(const std::vector<SpreadItem>& items, const std::vector<int>& group, int owner) {
    if (group.size() > 1) {
      std::vector<SpreadItem> own;
      for (const int i : group) own.push_back(items[i]);
      pending_.push_back({std::move(own), owner, level_, false});
    } else if (const SpreadItem& one = items[group[0]]; one.unit >= 0 && one.pieces.size() > 1) {
      pending_.push_back({partsOf(engagement_, one, refused_.together), owner, level_, true});
    }
  }

  /// What nothing holds together any more moves out from the middle; what stands in the middle stays.
  bool partLoose(ItemRelations& relations, std::vector<int>& standing) {
    auto sets = relations.components(standing);
    if (sets.size() < 2) return false;
    const Vec3 middle = relations.boxOf(standing).centre();
    const auto inMiddle = [&](const auto& set) { return wayFrom(middle, relations.boxOf(set)) < 0; };
    const auto formed = [&](const auto& set) {
      return std::any_of(set.begin(), set.end(), [&](int i) { return relations.stays(i); });
    };
    auto stays = std::find_if(sets.begin(), sets.end(), formed);
    if (stays == sets.end()) stays = std::find_if(sets.begin(), sets.end(), inMiddle);
    if (stays != sets.end()) sets.erase(stays);
    for (const auto& set : sets) {
      const int way = wayFrom(middle, relations.boxOf(set));
      Departure& d = depart(relations.items(), set, standing);
      d.loose = true;
      if (way < 0 || contains(refused_.still, d.pieces)) continue;
      d.ways = {engagement_.ways()[way]};
      d.travelsMm = {0};
    }
    ++wave_;
    return true;
  }

  /// The world axis along which a box lies farthest off a place; -1 when the place is level with it on all.
  int wayFrom(Vec3 place, const Box3& box) const {
    double farthest = 0;
    int best = -1;
    for (int way = 0; way < kWorldWays; ++way) {
      const Vec3 d = engagement_.ways()[way];
      const double off = dot(d, box.centre() - place) - std::abs(dot(d, box.size())) / 2;
      if (off <= farthest + tolerance::kTouch) continue;
      farthest = off;
      best = way;
    }
    return best;
  }

  bool leaveStraight(ItemRelations& relations, std::vector<int>& standing, bool anyWay = false) {
    manner_.anyWay = anyWay;
    const auto leaving = nextLeaving(relations, standing, refused_.ways, last_, manner_);
    if (!leaving) return false;
    last_.reset();
    if (leaving->groups[0].size() == 1)
      last_ = LeftLast{relations.volumeMm3(leaving->groups[0]), leaving->slidesMm};
    double gapMm = 0;
    std::vector<int> made;
    for (const auto& group : leaving->groups) {
      Departure& d = depart(relations.items(), group, standing);
      made.push_back(current().departures.back());
      d.way = leaving->way;
      d.ways = {engagement_.ways()[leaving->way]};
      d.travelsMm = {0};
      d.slidesMm = slidesOf(relations, group, standing, leaving->way);
      layOffWall(d, relations, standing);
      if (d.layer) noteUnits(d.pieces, leaving->way);
      gapMm = std::max(gapMm, d.gapMm);
    }
    for (const int d : made) out_.departures[d].gapMm = gapMm;  // alike, so that they stand in line
    ++wave_;
    return true;
  }

  /// What leaves a wall square to it stands off in layers, which are seen one beside another.
  void layOffWall(Departure& d, const ItemRelations& relations, const std::vector<int>& standing) const {
    const int wall = engagement_.wayOffWall();
    const bool stays =
        std::any_of(standing.begin(), standing.end(), [&](int i) { return relations.stays(i); });
    if (wall < 0 || !stays ||
        std::abs(dot(engagement_.ways()[wall], d.ways.back())) < 1 - tolerance::kParallel)
      return;
    d.gapMm *= kLayerShare / kStandOffShare;
    d.layer = true;
  }

  /// Once units come apart in their wall, the pieces of one keep to its side.
  void noteUnits(const std::vector<int>& pieces, int way) {
    const auto& units = engagement_.scene().assembly().units;
    if (!manner_.eitherSide || WallSides(engagement_).wayOf(pieces) < 0) return;
    if (!WallSides(engagement_).isThrough(pieces)) return;
    for (const int p : pieces)
      if (units[engagement_.unitOf(p)].parent >= 0) manner_.unitWays.try_emplace(engagement_.unitOf(p), way);
  }

  /// Rigid units that let nothing go, finer by as little as helps: what turns on a pivot off what it turns
  /// on, one unit in its parts (what turns gets out whole if it can, though not straight), all of them. False
  /// when there is nothing to make finer.
  bool leaveFiner(ItemRelations& relations, std::vector<int>& standing) {
    const std::vector<SpreadItem>& items = relations.items();
    std::vector<int> units, pivots;
    for (const int i : standing) {
      if (items[i].unit < 0) continue;
      units.push_back(i);
      if (turningOff(engagement_, items[i]).size() > 1) pivots.push_back(i);
    }
    if (units.empty()) return false;
    const auto parts = [&](const SpreadItem& item) { return partsOf(engagement_, item, refused_.together); };
    const auto turnsOff = [&](const SpreadItem& item) { return turningOff(engagement_, item); };
    const auto take = [&](const std::vector<int>& which, const auto& how, bool onlyIfItHelps) {
      ItemRelations trial = relationsOf(finer(items, standing, which, how, refused_.together));
      std::vector<int> all(trial.items().size());
      std::iota(all.begin(), all.end(), 0);
      if (onlyIfItHelps && trial.components(all).size() < 2 && !leaveStraight(trial, all)) return false;
      relations = std::move(trial);
      standing = std::move(all);
      return true;
    };
    if (!pivots.empty()) {
      take(pivots, turnsOff, false);
      relations = relationsOf(turningAsOne(engagement_, relations.items()));
      standing.resize(relations.items().size());
      std::iota(standing.begin(), standing.end(), 0);
      return true;
    }
    const auto oneByOne = [&](bool turning) {
      return units.size() > 1 && std::any_of(units.begin(), units.end(), [&](int unit) {
               return this->turns(items[unit]) == turning && take({unit}, parts, true);
             });
    };
    if (leaveByTurns(relations, standing, true)) return true;
    if (const WallSides wall(engagement_); wall.isWall()) {
      manner_.eitherSide = true;
      if (leaveStraight(relations, standing)) return true;
      std::stable_sort(units.begin(), units.end(), [&](int a, int b) {
        return wall.shadowMm2(relations.boxOf({a})) < wall.shadowMm2(relations.boxOf({b})) - 1;
      });
    }
    return oneByOne(false) || oneByOne(true) || take(units, parts, false);
  }

  static double slidesOf(const ItemRelations& relations, const std::vector<int>& group,
                         const std::vector<int>& standing, int way) {
    double mm = 0;
    for (const int i : group)
      for (const int j : standing) mm = std::max(mm, relations.slidesMm(i, j, way));
    return mm;
  }

  std::vector<Placed> placedOf(const std::vector<int>& pieces) const {
    std::vector<Placed> out;
    for (const int p : pieces) out.push_back(engagement_.present()[p]);
    return out;
  }

  /// Those of `pieces` that have one of `others` beside them: what else there is they cannot meet first. Ways
  /// are swept with all of them later on.
  std::vector<int> nearPieces(const std::vector<int>& pieces, const std::vector<int>& others) const {
    std::vector<int> out;
    std::copy_if(pieces.begin(), pieces.end(), std::back_inserter(out), [&](int p) {
      return std::any_of(others.begin(), others.end(), [&](int q) {
        return near(engagement_.box(p), engagement_.box(q), tolerance::kBeside);
      });
    });
    return out;
  }

  /// The single item that gets out by several legs, fewest and shortest; of equals the lightest.
  bool leaveByTurns(ItemRelations& relations, std::vector<int>& standing, bool onlyTurning) {
    std::vector<Leg> best;
    int mover = -1;
    const auto total = [](const std::vector<Leg>& legs) {
      return std::accumulate(legs.begin(), legs.end(), 0.0,
                             [](double mm, const Leg& leg) { return mm + leg.travelMm; });
    };
    std::vector<int> lightFirst = standing;
    std::stable_sort(lightFirst.begin(), lightFirst.end(), [&](int a, int b) {
      return relations.volumeMm3({a}) < relations.volumeMm3({b}) * (1 - 1e-6);
    });
    for (const int i : lightFirst) {
      if (onlyTurning && !turns(relations.items()[i])) continue;
      std::vector<int> others = standing;
      std::erase(others, i);
      const auto movers =
          placedOf(nearPieces(relations.items()[i].pieces, piecesOf(relations.items(), others)));
      const auto standers =
          placedOf(nearPieces(piecesOf(relations.items(), others), relations.items()[i].pieces));
      if (relations.stays(i)) continue;
      const ExitSearch found = findExit(engagement_.scene(), movers, standers);
      if (!found.found || found.legs.size() < 2 || isBarred(relations.items()[i].pieces)) continue;
      if (mover >= 0 &&
          std::make_pair(found.legs.size(), total(found.legs)) >= std::make_pair(best.size(), total(best)))
        continue;
      best = found.legs;
      mover = i;
    }
    if (mover < 0) return false;
    Departure& d = depart(relations.items(), {mover}, standing);
    for (size_t k = best.size(); k-- > 0;) {
      d.ways.push_back(-best[k].direction);
      d.travelsMm.push_back(best[k].travelMm);
    }
    layOffWall(d, relations, standing);
    d.slidesMm = d.travelsMm.back();
    d.travelsMm.back() = 0;
    ++wave_;
    return true;
  }

  /// All that turns together on a pivot: a leaf without what is on its jamb.
  bool turns(const SpreadItem& item) const {
    const auto& pivots = engagement_.scene().assembly().pivots;
    return item.unit >= 0 && std::any_of(pivots.begin(), pivots.end(), [&](const Pivot& pivot) {
             return std::all_of(item.pieces.begin(), item.pieces.end(),
                                [&](int p) { return contains(pivot.bodies, engagement_.present()[p].body); });
           });
  }

  bool isBarred(const std::vector<int>& pieces) const {
    return std::find(refused_.ways.begin(), refused_.ways.end(), std::make_pair(pieces, -1)) !=
           refused_.ways.end();
  }

  Engagement& engagement_;
  const Refused& refused_;
  std::vector<Pending> pending_;
  TakenApart out_;
  std::optional<LeftLast> last_;
  Manner manner_;
  int level_ = 0, wave_ = 0;
};

}  // namespace

double standOffMm(const Engagement& engagement, const std::vector<int>& pieces) {
  std::vector<int> all;
  for (int p = 0; p < engagement.count(); ++p)
    if (!engagement.stays(p)) all.push_back(p);
  return kStandOffShare * std::sqrt(greatestSizeMm(engagement, pieces) * greatestSizeMm(engagement, all));
}

TakenApart takeApart(Engagement& engagement, const Refused& refused) {
  return Taker(engagement, refused).run();
}

}  // namespace dryfit::order
