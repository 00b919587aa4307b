#include "order/item_relations.h"

#include <algorithm>
#include <numeric>

namespace dryfit::order {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

/// A going along a way past B: one of the two is driven into the other, and would not come out as it went in.
/// Two that are driven say nothing about each other.
bool againstDriving(Engagement& engagement, int a, int b, int way) {
  const int drivenA = engagement.drivenWay(a), drivenB = engagement.drivenWay(b);
  if ((drivenA >= 0) == (drivenB >= 0)) return false;
  const int out = drivenA >= 0 ? drivenA : Engagement::opposite(drivenB);
  return out != way && engagement.parting(a, b, out).slidesMm > 0;
}

}  // namespace

ItemRelations::ItemRelations(Engagement& engagement, std::vector<SpreadItem> items,
                             std::vector<double> roomMm, bool asDriven)
    : engagement_(&engagement), items_(std::move(items)), roomMm_(std::move(roomMm)) {
  const size_t n = items_.size(), ways = engagement_->ways().size();
  engaged_.resize(n * n);
  slides_.assign(ways, std::vector<double>(n * n, 0));
  clear_ = slides_;
  leastGap_.assign(ways, std::vector<double>(n * n, kNever));
  std::vector<int> itemOf(engagement_->count(), -1);
  for (size_t i = 0; i < n; ++i) {
    double volume = 0;
    const auto& pieces = items_[i].pieces;
    stays_.push_back(std::any_of(pieces.begin(), pieces.end(), [&](int p) { return engagement_->stays(p); }));
    for (const int p : items_[i].pieces) {
      itemOf[p] = static_cast<int>(i);
      volume += engagement_->volumeMm3(p);
    }
    volumesMm3_.push_back(volume);
  }
  for (int a = 0; a < engagement_->count(); ++a)
    for (int b = 0; b < engagement_->count(); ++b)
      if (itemOf[a] >= 0 && itemOf[b] >= 0 && itemOf[a] != itemOf[b])
        relate(a, b, itemOf[a], itemOf[b], asDriven);
  Box3 all;
  for (const SpreadItem& item : items_)
    for (const int p : item.pieces) all.add(engagement_->box(p));
  centre_ = all.centre();
}

void ItemRelations::relate(int pieceA, int pieceB, int a, int b, bool asDriven) {
  const size_t cell = static_cast<size_t>(a) * items_.size() + b;
  const bool touching = engagement_->engaged(pieceA, pieceB);
  if (touching) engaged_[cell] = true;
  for (int way = 0; way < static_cast<int>(engagement_->ways().size()); ++way) {
    leastGap_[way][cell] = std::min(leastGap_[way][cell], engagement_->leastGapMm(pieceA, pieceB, way));
    if (!touching) continue;
    const Parting& p = engagement_->parting(pieceA, pieceB, way);
    const bool held = p.blocked() || (asDriven && againstDriving(*engagement_, pieceA, pieceB, way));
    slides_[way][cell] = std::max(slides_[way][cell], held ? kNever : p.slidesMm);
    clear_[way][cell] = std::max(clear_[way][cell], p.clearMm);
  }
}

Box3 ItemRelations::boxOf(const std::vector<int>& items) const {
  Box3 box;
  for (const int i : items)
    for (const int p : items_[i].pieces) box.add(engagement_->box(p));
  return box;
}

double ItemRelations::volumeMm3(const std::vector<int>& items) const {
  return std::accumulate(items.begin(), items.end(), 0.0,
                         [&](double sum, int i) { return sum + volumesMm3_[i]; });
}

bool ItemRelations::meetsWithin(int a, int b, int way, double mm) {
  if (at(leastGap_[way], a, b) >= mm) return false;
  auto [it, fresh] = gaps_.try_emplace({way, {a, b}}, kNever);
  if (fresh)
    for (const int p : items_[a].pieces)
      for (const int q : items_[b].pieces)
        if (engagement_->leastGapMm(p, q, way) < it->second)
          it->second = std::min(it->second, engagement_->parting(p, q, way).gapMm);
  return it->second < mm;
}

std::vector<std::vector<int>> ItemRelations::components(const std::vector<int>& among) const {
  std::vector<std::vector<int>> out;
  std::vector<int> left = among;
  while (!left.empty()) {
    std::vector<int> set{left.front()};
    left.erase(left.begin());
    for (size_t k = 0; k < set.size(); ++k)
      for (size_t m = 0; m < left.size();) {
        if (engaged(set[k], left[m])) {
          set.push_back(left[m]);
          left.erase(left.begin() + static_cast<long>(m));
        } else {
          ++m;
        }
      }
    std::sort(set.begin(), set.end());
    out.push_back(std::move(set));
  }
  return out;
}

}  // namespace dryfit::order
