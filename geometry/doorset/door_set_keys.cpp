#include "doorset/door_set_keys.h"

#include "doorset/key_rows.h"

namespace dryfit {

namespace {

using namespace doorsetkeys;

Type typeFor(KeyType type) {
  switch (type) {
    case KeyType::Length:
      return Type::Length;
    case KeyType::Number:
      return Type::Number;
    case KeyType::Whole:
      return Type::Whole;
    case KeyType::Flag:
      return Type::Flag;
    case KeyType::Species:
      return Type::Species;
    default:
      return Type::Word;
  }
}

/// What the kind of joint says of a key handed on to it.
void complete(DoorSetKey& key, const std::vector<KindSpec>& kinds) {
  for (const KindSpec& kind : kinds)
    if (kind.name == key.kind)
      for (const KeySpec& spec : kind.keys)
        if (spec.name == key.kindKey) {
          key.type = typeFor(spec.type);
          key.least = spec.least;
          key.most = spec.most;
          key.words = spec.words;
          key.standard = spec.standard;
          key.source = spec.source;
          return;
        }
  REQUIRE(!"a key of the door set that no kind of joint has");
}

}  // namespace

std::vector<DoorSetKey> doorSetKeys(const std::vector<KindSpec>& kinds) {
  std::vector<DoorSetKey> keys;
  addTopKeys(keys);
  addWallKeys(keys);
  addLeafKeys(keys);
  addRailKeys(keys);
  addRowKeys(keys);
  addJointKeys(keys);
  addMouldingKeys(keys);
  addGroundKeys(keys);
  addLiningKeys(keys);
  addHingeKeys(keys);
  addLockKeys(keys);
  addTrimKeys(keys);
  addTimberKeys(keys);
  addDoorwayTimberKeys(keys);
  for (DoorSetKey& key : keys) {
    if (key.kind.empty()) continue;
    complete(key, kinds);
    if (key.kindKey == "fixing") key.words.push_back("dowelled");  // another kind of joint in its place
    if (key.path.rfind("leaf.rail[]", 0) == 0) {
      const bool ofEnd = key.path.find(".tenon_") != std::string::npos;
      key.standard = (ofEnd ? "as the rail's tenon" : "as leaf.tenon") + key.path.substr(key.path.rfind('.'));
      key.source.clear();
    }
  }
  return keys;
}

}  // namespace dryfit
