// Private to doorset: makers of the rows of leaf_keys.h, each naming only what its type needs, and the parts
// of the table.
#pragma once

#include <string>
#include <vector>

#include "doorset/leaf_keys.h"

namespace dryfit::leafkeys {

using Type = LeafKeyType;
using Put = std::function<void(GivenLeaf&, const GivenValue&)>;
using Get = std::function<std::optional<LeafInForce>(const LeafSpec&, const LeafPlace&)>;
/// Where a key handed on to a kind of joint is kept.
using KeyList = std::vector<KeyValue>& (*)(GivenLeaf&);

inline constexpr double kLeast = 0.1, kLongest = 20000;  // as members of a work file
inline constexpr const char* kCommon = "common practice";
inline constexpr const char* kWidths = "old BS 459-1, from memory: 95 ex 100, 195 ex 200";

inline GivenRail& railOf(GivenLeaf& g) {
  return g.rails[g.rail];
}
inline GivenRow& rowOf(GivenLeaf& g) {
  return g.rows[g.row];
}
inline GivenMuntin& muntinOf(GivenLeaf& g) {
  return rowOf(g).muntins[g.muntin];
}
inline LeafInForce inForce(const Size& size) {
  return {size.mm, size};
}

LeafKey row(Type type, const std::string& path, const std::string& what, const std::string& standard,
            const std::string& source, const std::string& about, Put put, Get get);
LeafKey table(const std::string& path, Type type, const std::string& about, Put put = {});
LeafKey ranged(LeafKey k, double least, double most, const std::string& unit = "");
LeafKey worded(LeafKey k, std::vector<std::string> words);
LeafKey needed(LeafKey k, const std::string& example);
LeafKey length(const std::string& path, const std::string& what, const std::string& standard,
               const std::string& source, const std::string& about, Put put, Get get);
/// A length that is a size of the whole leaf.
LeafKey size(Size LeafSpec::*member, const std::string& path, const std::string& what,
             const std::string& standard, const std::string& source, const std::string& about);
LeafKey sawn(Sawn LeafSpec::*member, const std::string& path, const std::string& standard,
             const std::string& about);
LeafKey species(std::optional<std::string> GivenTimber::*given, std::string LeafSpec::*member,
                const std::string& path, const std::string& standard, const std::string& about);
LeafKey percent(const std::string& path, const std::string& what, const std::string& standard,
                const std::string& about, Put put, Get get);
/// A key of a kind of joint under the door set's name for it; `kept`: its name in the list, the kind's own
/// when empty.
LeafKey passed(const std::string& path, const std::string& kind, const std::string& kindKey,
               const std::string& what, const std::string& about, KeyList list, const std::string& kept = "");

/// [leaf.tenon], and [leaf.rail.tenon] for the joints of one rail.
void addTenonKeys(std::vector<LeafKey>& keys, const std::string& at, KeyList list);

void addTopKeys(std::vector<LeafKey>& keys);
void addLeafKeys(std::vector<LeafKey>& keys);
void addRailKeys(std::vector<LeafKey>& keys);
void addRowKeys(std::vector<LeafKey>& keys);
void addJointKeys(std::vector<LeafKey>& keys);
void addMouldingKeys(std::vector<LeafKey>& keys);
void addTimberKeys(std::vector<LeafKey>& keys);

}  // namespace dryfit::leafkeys
