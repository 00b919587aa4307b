// A short hash of a text, the same in every process and on every machine, which std::hash does not promise.
#pragma once

#include <cstdint>
#include <string_view>

namespace dryfit {

/// FNV-1a, 64 bits. Source: Fowler, Noll, Vo (draft-eastlake-fnv).
inline std::uint64_t stableHash(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const unsigned char byte : text) hash = (hash ^ byte) * 0x100000001b3u;
  return hash;
}

}  // namespace dryfit
