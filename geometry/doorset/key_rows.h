// Private to doorset: makers of the rows of leaf_keys.h, each naming only what its type needs, and the parts
// of the table.
#pragma once

#include <string>
#include <type_traits>
#include <vector>

#include "doorset/door_set_keys.h"

namespace dryfit::doorsetkeys {

using Type = DoorSetKeyType;
/// Writes a value: a function of the leaf, the doorway or the whole that the file gives; or none.
struct Put {
  std::function<void(GivenDoorSet&, const GivenValue&)> into{};

  Put() = default;
  template <class F>
  Put(F f) {
    if constexpr (std::is_invocable_v<F, GivenLeaf&, const GivenValue&>)
      into = [f](GivenDoorSet& g, const GivenValue& v) { f(g.leaf, v); };
    else if constexpr (std::is_invocable_v<F, GivenDoorway&, const GivenValue&>)
      into = [f](GivenDoorSet& g, const GivenValue& v) { f(g.doorway, v); };
    else
      into = f;
  }
};
/// Reads what is in force: a function of the leaf, or of the whole; or none.
struct Get {
  std::function<std::optional<InForce>(const DoorSetSpec&, const KeyPlace&)> from{};

  Get() = default;
  template <class F>
  Get(F f) {
    if constexpr (std::is_invocable_v<F, const LeafSpec&, const KeyPlace&>)
      from = [f](const DoorSetSpec& s, const KeyPlace& at) { return f(s.leaf, at); };
    else
      from = f;
  }
};
/// Where a key handed on to a kind of joint is kept, in the leaf or in the doorway.
struct KeyList {
  KeyList(std::vector<KeyValue>& (*of)(GivenLeaf&)) : leaf(of) {}
  KeyList(std::vector<KeyValue>& (*of)(GivenDoorway&)) : doorway(of) {}
  std::vector<KeyValue>& operator()(GivenDoorSet& g) const {
    return leaf ? leaf(g.leaf) : doorway(g.doorway);
  }

 private:
  std::vector<KeyValue>& (*leaf)(GivenLeaf&) = nullptr;
  std::vector<KeyValue>& (*doorway)(GivenDoorway&) = nullptr;
};

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
inline InForce inForce(const Size& size) {
  return {size.mm, size};
}

DoorSetKey row(Type type, const std::string& path, const std::string& what, const std::string& standard,
               const std::string& source, const std::string& about, Put put, Get get);
DoorSetKey table(const std::string& path, Type type, const std::string& about, Put put = {});
DoorSetKey ranged(DoorSetKey k, double least, double most, const std::string& unit = "");
DoorSetKey worded(DoorSetKey k, std::vector<std::string> words);
DoorSetKey needed(DoorSetKey k, const std::string& example);
DoorSetKey length(const std::string& path, const std::string& what, const std::string& standard,
                  const std::string& source, const std::string& about, Put put, Get get);
/// A length that is a size of the whole leaf.
DoorSetKey size(Size LeafSpec::*member, const std::string& path, const std::string& what,
                const std::string& standard, const std::string& source, const std::string& about);
DoorSetKey sawn(Sawn LeafSpec::*member, const std::string& path, const std::string& standard,
                const std::string& about);
DoorSetKey species(std::optional<std::string> GivenTimber::*given, std::string LeafSpec::*member,
                   const std::string& path, const std::string& standard, const std::string& about);
DoorSetKey percent(const std::string& path, const std::string& what, const std::string& standard,
                   const std::string& about, Put put, Get get);
/// A key of a kind of joint under the door set's name for it; `kept`: its name in the list, the kind's own
/// when empty.
DoorSetKey passed(const std::string& path, const std::string& kind, const std::string& kindKey,
                  const std::string& what, const std::string& about, KeyList list,
                  const std::string& kept = "");

/// [leaf.tenon], and [leaf.rail.tenon] for the joints of one rail.
void addTenonKeys(std::vector<DoorSetKey>& keys, const std::string& at, KeyList list);

/// Is this part of the doorway there? `path`: of any of its keys.
bool hasPart(const DoorSetSpec& set, const std::string& path);
/// Of the doorway, where the part that the path begins with is there.
Get ofDoorway(const std::string& path, std::function<std::optional<InForce>(const DoorwaySpec&)> get);
/// A length that is a size of the doorway. `of`: takes any DoorwaySpec, gives the size in it.
template <class Of>
DoorSetKey doorwaySize(Of of, const std::string& path, const std::string& what, const std::string& standard,
                       const std::string& source, const std::string& about) {
  return length(
      path, what, standard, source, about,
      [of](GivenDoorway& g, const GivenValue& v) { of(g.spec) = v.size(); },
      ofDoorway(path, [of](const DoorwaySpec& d) { return inForce(of(d)); }));
}
/// A size that only follows.
DoorSetKey told(const std::string& path, const std::string& standard, const std::string& source,
                const std::string& about, std::function<std::optional<InForce>(const DoorSetSpec&)> get);
/// Keys of the nails that hold a part.
void addNailKeys(std::vector<DoorSetKey>& keys, const std::string& at, const std::string& of, KeyList list);

void addTopKeys(std::vector<DoorSetKey>& keys);
void addLeafKeys(std::vector<DoorSetKey>& keys);
void addRailKeys(std::vector<DoorSetKey>& keys);
void addRowKeys(std::vector<DoorSetKey>& keys);
void addJointKeys(std::vector<DoorSetKey>& keys);
void addMouldingKeys(std::vector<DoorSetKey>& keys);
void addTimberKeys(std::vector<DoorSetKey>& keys);
void addWallKeys(std::vector<DoorSetKey>& keys);
void addGroundKeys(std::vector<DoorSetKey>& keys);
void addLiningKeys(std::vector<DoorSetKey>& keys);
void addHingeKeys(std::vector<DoorSetKey>& keys);
void addLockKeys(std::vector<DoorSetKey>& keys);
void addTrimKeys(std::vector<DoorSetKey>& keys);
void addDoorwayTimberKeys(std::vector<DoorSetKey>& keys);

}  // namespace dryfit::doorsetkeys
