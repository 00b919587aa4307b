#include "doorset/key_rows.h"

namespace dryfit::doorsetkeys {

DoorSetKey table(const std::string& path, Type type, const std::string& about, Put put) {
  DoorSetKey k;
  k.path = path;
  k.type = type;
  k.about = about;
  k.put = std::move(put.into);
  return k;
}

DoorSetKey row(Type type, const std::string& path, const std::string& what, const std::string& standard,
               const std::string& source, const std::string& about, Put put, Get get) {
  DoorSetKey k;
  k.path = path;
  k.type = type;
  k.what = what;
  k.standard = standard;
  k.source = source;
  k.about = about;
  k.put = std::move(put.into);
  k.get = std::move(get.from);
  return k;
}

DoorSetKey ranged(DoorSetKey k, double least, double most, const std::string& unit) {
  k.least = least;
  k.most = most;
  k.unit = unit;
  return k;
}
DoorSetKey worded(DoorSetKey k, std::vector<std::string> words) {
  k.words = std::move(words);
  return k;
}
DoorSetKey needed(DoorSetKey k, const std::string& example) {
  k.example = example;
  return k;
}

DoorSetKey length(const std::string& path, const std::string& what, const std::string& standard,
                  const std::string& source, const std::string& about, Put put, Get get) {
  return ranged(row(Type::Length, path, what, standard, source, about, std::move(put), std::move(get)),
                kLeast, kLongest);
}
DoorSetKey size(Size LeafSpec::*member, const std::string& path, const std::string& what,
                const std::string& standard, const std::string& source, const std::string& about) {
  return length(
      path, what, standard, source, about,
      [member](GivenLeaf& g, const GivenValue& v) { g.spec.*member = v.size(); },
      [member](const LeafSpec& s, const KeyPlace&) { return inForce(s.*member); });
}
DoorSetKey sawn(Sawn LeafSpec::*member, const std::string& path, const std::string& standard,
                const std::string& about) {
  return worded(row(
                    Type::Word, path, "way of sawing", standard, kCommon, about,
                    [member](GivenLeaf& g, const GivenValue& v) {
                      g.spec.*member = v.word() == "plain" ? Sawn::Plain : Sawn::Quarter;
                    },
                    [member](const LeafSpec& s, const KeyPlace&) {
                      return InForce{std::string(s.*member == Sawn::Plain ? "plain" : "quarter"), {}};
                    }),
                {"quarter", "plain"});
}
DoorSetKey species(std::optional<std::string> GivenTimber::*given, std::string LeafSpec::*member,
                   const std::string& path, const std::string& standard, const std::string& about) {
  return row(
      Type::Species, path, "species", standard, kCommon, about,
      [given](GivenLeaf& g, const GivenValue& v) { g.timber.*given = v.word(); },
      [member](const LeafSpec& s, const KeyPlace&) {
        return InForce{(s.*member).empty() ? s.timber : s.*member, {}};
      });
}
DoorSetKey percent(const std::string& path, const std::string& what, const std::string& standard,
                   const std::string& about, Put put, Get get) {
  return ranged(row(Type::Number, path, what, standard, kCommon, about, std::move(put), std::move(get)), 0,
                30, "%");
}

DoorSetKey passed(const std::string& path, const std::string& kind, const std::string& kindKey,
                  const std::string& what, const std::string& about, KeyList list, const std::string& kept) {
  DoorSetKey k;
  k.path = path;
  k.kind = kind;
  k.kindKey = kindKey;
  k.what = what;
  k.about = about;
  k.put = [name = kept.empty() ? kindKey : kept, list](GivenDoorSet& g, const GivenValue& v) {
    KeyValue given{name, false, v.where, v.path};
    if (const double* number = std::get_if<double>(&v.value)) given.value = *number;
    if (const bool* flag = std::get_if<bool>(&v.value)) given.value = *flag;
    if (const std::string* word = std::get_if<std::string>(&v.value)) given.value = *word;
    std::erase_if(list(g), [&](const KeyValue& old) { return old.key == name; });
    list(g).push_back(std::move(given));
  };
  return k;
}

bool hasPart(const DoorSetSpec& set, const std::string& path) {
  if (!set.doorway) return false;
  const DoorwaySpec& d = *set.doorway;
  const std::string part = path.substr(0, path.find('.'));
  if (part == "grounds") return d.grounds.has_value();
  if (part == "backing") return d.backings.has_value();
  if (part == "stop") return d.lining.stop.has_value();
  if (part == "lock") return d.lock.has_value();
  if (part == "architrave") return d.architraves.has_value();
  if (part == "skirting") return d.skirtings.has_value();
  return true;
}

Get ofDoorway(const std::string& path, std::function<std::optional<InForce>(const DoorwaySpec&)> get) {
  return [path, get = std::move(get)](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
    return hasPart(s, path) ? get(*s.doorway) : std::nullopt;
  };
}

DoorSetKey told(const std::string& path, const std::string& standard, const std::string& source,
                const std::string& about, std::function<std::optional<InForce>(const DoorSetSpec&)> get) {
  DoorSetKey k =
      length(path, "", standard, source, about, {},
             [path, get = std::move(get)](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
               return hasPart(s, path) ? get(s) : std::nullopt;
             });
  k.told = true;
  return k;
}

void addNailKeys(std::vector<DoorSetKey>& keys, const std::string& at, const std::string& of, KeyList list) {
  auto nail = [&](const char* name, const char* kindKey, const char* what, const char* about) {
    keys.push_back(passed(at + "." + name, "nailed-face", kindKey, what, about + of, list));
  };
  nail("nails", "nails", "nails", "listed in the order of work, or pieces of the work: nails of ");
  nail("nail_diameter", "diameter", "diameter of the nails", "of each nail of ");
  nail("nail_length", "length", "length of the nails", "of each nail, from its head, of ");
  nail("nail_pitch", "pitch", "distance of the nails", "at most this between nails of ");
}

}  // namespace dryfit::doorsetkeys
