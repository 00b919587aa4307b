#include "piece/alike.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/hash.h"

namespace dryfit {

namespace {

std::vector<const Shell*> shellsOf(const Piece& piece) {
  std::vector<const Shell*> out;
  for (const PieceState& state : piece.states) out.push_back(&state.cut->shell);
  return out;
}

}  // namespace

std::vector<Alike> alikes(const std::vector<Piece>& pieces) {
  std::vector<Alike> out;
  std::vector<std::string> keys;
  std::map<std::string, std::vector<int>> groups;
  for (const Piece& piece : pieces) {
    keys.push_back(shapeKey(shellsOf(piece)));
    groups[keys.back()].push_back(static_cast<int>(out.size()));
    out.push_back({fmt::format("{:016x}", stableHash(keys.back())), 1, {}});
  }
  for (const auto& [key, members] : groups) {
    const auto mirrors =
        groups.find(mirroredShapeKey(shellsOf(pieces[static_cast<size_t>(members.front())])));
    for (size_t i = 0; i < members.size(); ++i) {
      Alike& one = out[static_cast<size_t>(members[i])];
      one.count = static_cast<int>(members.size());
      if (mirrors == groups.end() || mirrors->first == key) continue;
      one.handedWith = mirrors->second[std::min(i, mirrors->second.size() - 1)];
    }
  }
  return out;
}

}  // namespace dryfit
