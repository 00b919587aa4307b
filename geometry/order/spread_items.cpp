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

std::optional<std::vector<SpreadItem>> unitsDissolved(const Engagement& engagement,
                                                      const std::vector<SpreadItem>& items,
                                                      const std::vector<int>& standing,
                                                      const std::vector<std::vector<int>>& together) {
  std::vector<SpreadItem> finer;
  bool any = false;
  for (const int i : standing) {
    if (items[i].unit < 0) {
      finer.push_back(items[i]);
      continue;
    }
    any = true;
    for (SpreadItem& part : itemsOf(engagement, items[i].unit, together)) finer.push_back(std::move(part));
  }
  joinAndSort(finer, together);
  if (!any) return {};
  return finer;
}

std::vector<int> piecesOf(const std::vector<SpreadItem>& items, const std::vector<int>& which) {
  std::vector<int> pieces;
  for (const int i : which) pieces.insert(pieces.end(), items[i].pieces.begin(), items[i].pieces.end());
  std::sort(pieces.begin(), pieces.end());
  return pieces;
}

}  // namespace dryfit::order
