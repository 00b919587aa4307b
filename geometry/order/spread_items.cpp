#include "order/spread_items.h"

#include <algorithm>

namespace dryfit::order {

namespace {

std::vector<int> piecesOfUnit(const Engagement& engagement, int unit) {
  const Assembly& assembly = engagement.scene().assembly();
  std::vector<int> pieces;
  for (int p = 0; p < engagement.count(); ++p) {
    int u = assembly.bodies[engagement.present()[p].body].unit;
    while (u >= 0 && u != unit) u = assembly.units[u].parent;
    if (u == unit) pieces.push_back(p);
  }
  return pieces;
}

/// Makes one item of all that have a piece of `set`, unless it is all in one already.
void join(std::vector<SpreadItem>& items, const std::vector<int>& set) {
  const auto has = [&](const SpreadItem& item) {
    return std::any_of(set.begin(), set.end(),
                       [&](int p) { return std::binary_search(item.pieces.begin(), item.pieces.end(), p); });
  };
  if (std::count_if(items.begin(), items.end(), has) < 2) return;
  SpreadItem all;
  for (const SpreadItem& item : items)
    if (has(item)) all.pieces.insert(all.pieces.end(), item.pieces.begin(), item.pieces.end());
  std::sort(all.pieces.begin(), all.pieces.end());
  std::erase_if(items, has);
  items.push_back(std::move(all));
}

bool contains(const std::vector<int>& all, int one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

void joinAndSort(std::vector<SpreadItem>& items, const std::vector<std::vector<int>>& together) {
  for (const std::vector<int>& set : together) join(items, set);
  std::sort(items.begin(), items.end(),
            [](const SpreadItem& a, const SpreadItem& b) { return a.pieces < b.pieces; });
}

}  // namespace

std::vector<SpreadItem> itemsOf(const Engagement& engagement, int unit,
                                const std::vector<std::vector<int>>& together) {
  const Assembly& assembly = engagement.scene().assembly();
  std::vector<SpreadItem> items;
  for (int p = 0; p < engagement.count(); ++p)
    if (assembly.bodies[engagement.present()[p].body].unit == unit) items.push_back({{p}, -1});
  for (int u = 0; u < static_cast<int>(assembly.units.size()); ++u) {
    if (assembly.units[u].parent != unit) continue;
    std::vector<int> pieces = piecesOfUnit(engagement, u);
    if (!pieces.empty()) items.push_back({std::move(pieces), u});
  }
  joinAndSort(items, together);
  return items;
}

std::vector<SpreadItem> partsOf(const Engagement& engagement, const SpreadItem& item,
                                const std::vector<std::vector<int>>& together) {
  std::vector<SpreadItem> parts = itemsOf(engagement, item.unit, together);
  for (SpreadItem& part : parts) std::erase_if(part.pieces, [&](int p) { return !contains(item.pieces, p); });
  std::erase_if(parts, [](const SpreadItem& part) { return part.pieces.empty(); });
  for (const int p : item.pieces)
    if (std::none_of(parts.begin(), parts.end(), [&](const auto& part) { return contains(part.pieces, p); }))
      parts.push_back({{p}, -1});
  joinAndSort(parts, together);
  return parts;
}

std::vector<SpreadItem> turningOff(const Engagement& engagement, const SpreadItem& item) {
  std::vector<SpreadItem> best{item};
  size_t most = 0;
  for (const Pivot& pivot : engagement.scene().assembly().pivots) {
    SpreadItem turns{{}, item.unit};
    std::vector<SpreadItem> parts;
    for (const int p : item.pieces)
      if (contains(pivot.bodies, engagement.present()[p].body))
        turns.pieces.push_back(p);
      else
        parts.push_back({{p}, -1});
    if (turns.pieces.size() <= most || parts.empty()) continue;
    most = turns.pieces.size();
    best = std::move(parts);
    best.push_back(std::move(turns));
  }
  return best;
}

std::vector<SpreadItem> turningAsOne(const Engagement& engagement, const std::vector<SpreadItem>& items) {
  const auto& pivots = engagement.scene().assembly().pivots;
  const auto most = std::max_element(pivots.begin(), pivots.end(), [](const Pivot& a, const Pivot& b) {
    return a.bodies.size() < b.bodies.size();
  });
  if (most == pivots.end()) return items;
  std::vector<SpreadItem> out;
  SpreadItem turning;
  for (const SpreadItem& item : items)
    if (std::all_of(item.pieces.begin(), item.pieces.end(),
                    [&](int p) { return contains(most->bodies, engagement.present()[p].body); })) {
      turning.pieces.insert(turning.pieces.end(), item.pieces.begin(), item.pieces.end());
      turning.unit = std::max(turning.unit, item.unit);
    } else {
      out.push_back(item);
    }
  std::sort(turning.pieces.begin(), turning.pieces.end());
  if (!turning.pieces.empty()) out.push_back(std::move(turning));
  joinAndSort(out, {});
  return out;
}

std::vector<SpreadItem> finer(const std::vector<SpreadItem>& items, const std::vector<int>& standing,
                              const std::vector<int>& which,
                              const std::function<std::vector<SpreadItem>(const SpreadItem&)>& partsOfItem,
                              const std::vector<std::vector<int>>& together) {
  std::vector<SpreadItem> out;
  for (const int i : standing)
    if (contains(which, i))
      for (SpreadItem& part : partsOfItem(items[i])) out.push_back(std::move(part));
    else
      out.push_back(items[i]);
  joinAndSort(out, together);
  return out;
}

std::vector<int> piecesOf(const std::vector<SpreadItem>& items, const std::vector<int>& which) {
  std::vector<int> pieces;
  for (const int i : which) pieces.insert(pieces.end(), items[i].pieces.begin(), items[i].pieces.end());
  std::sort(pieces.begin(), pieces.end());
  return pieces;
}

}  // namespace dryfit::order
