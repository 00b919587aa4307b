#include "doorset/leaf_key_rows.h"

namespace dryfit::leafkeys {

LeafKey table(const std::string& path, Type type, const std::string& about, Put put) {
  LeafKey k;
  k.path = path;
  k.type = type;
  k.about = about;
  k.put = std::move(put);
  return k;
}

LeafKey row(Type type, const std::string& path, const std::string& what, const std::string& standard,
            const std::string& source, const std::string& about, Put put, Get get) {
  LeafKey k;
  k.path = path;
  k.type = type;
  k.what = what;
  k.standard = standard;
  k.source = source;
  k.about = about;
  k.put = std::move(put);
  k.get = std::move(get);
  return k;
}

LeafKey ranged(LeafKey k, double least, double most, const std::string& unit) {
  k.least = least;
  k.most = most;
  k.unit = unit;
  return k;
}
LeafKey worded(LeafKey k, std::vector<std::string> words) {
  k.words = std::move(words);
  return k;
}
LeafKey needed(LeafKey k, const std::string& example) {
  k.example = example;
  return k;
}

LeafKey length(const std::string& path, const std::string& what, const std::string& standard,
               const std::string& source, const std::string& about, Put put, Get get) {
  return ranged(row(Type::Length, path, what, standard, source, about, std::move(put), std::move(get)),
                kLeast, kLongest);
}
LeafKey size(Size LeafSpec::*member, const std::string& path, const std::string& what,
             const std::string& standard, const std::string& source, const std::string& about) {
  return length(
      path, what, standard, source, about,
      [member](GivenLeaf& g, const GivenValue& v) { g.spec.*member = v.size(); },
      [member](const LeafSpec& s, const LeafPlace&) { return inForce(s.*member); });
}
LeafKey sawn(Sawn LeafSpec::*member, const std::string& path, const std::string& standard,
             const std::string& about) {
  return worded(row(
                    Type::Word, path, "way of sawing", standard, kCommon, about,
                    [member](GivenLeaf& g, const GivenValue& v) {
                      g.spec.*member = v.word() == "plain" ? Sawn::Plain : Sawn::Quarter;
                    },
                    [member](const LeafSpec& s, const LeafPlace&) {
                      return LeafInForce{std::string(s.*member == Sawn::Plain ? "plain" : "quarter"), {}};
                    }),
                {"quarter", "plain"});
}
LeafKey species(std::optional<std::string> GivenTimber::*given, std::string LeafSpec::*member,
                const std::string& path, const std::string& standard, const std::string& about) {
  return row(
      Type::Species, path, "species", standard, kCommon, about,
      [given](GivenLeaf& g, const GivenValue& v) { g.timber.*given = v.word(); },
      [member](const LeafSpec& s, const LeafPlace&) {
        return LeafInForce{(s.*member).empty() ? s.timber : s.*member, {}};
      });
}
LeafKey percent(const std::string& path, const std::string& what, const std::string& standard,
                const std::string& about, Put put, Get get) {
  return ranged(row(Type::Number, path, what, standard, kCommon, about, std::move(put), std::move(get)), 0,
                30, "%");
}

LeafKey passed(const std::string& path, const std::string& kind, const std::string& kindKey,
               const std::string& what, const std::string& about, KeyList list, const std::string& kept) {
  LeafKey k;
  k.path = path;
  k.kind = kind;
  k.kindKey = kindKey;
  k.what = what;
  k.about = about;
  k.put = [name = kept.empty() ? kindKey : kept, list](GivenLeaf& g, const GivenValue& v) {
    KeyValue given{name, false, v.where, v.path};
    if (const double* number = std::get_if<double>(&v.value)) given.value = *number;
    if (const bool* flag = std::get_if<bool>(&v.value)) given.value = *flag;
    if (const std::string* word = std::get_if<std::string>(&v.value)) given.value = *word;
    std::erase_if(list(g), [&](const KeyValue& old) { return old.key == name; });
    list(g).push_back(std::move(given));
  };
  return k;
}

}  // namespace dryfit::leafkeys
