#include "settingout/setting_out.h"

namespace dryfit {

const KeyValue* findKey(const std::vector<KeyValue>& given, const std::string& key) {
  for (const KeyValue& v : given)
    if (v.key == key) return &v;
  return nullptr;
}

const KeyValue* JointMark::find(const std::string& key) const {
  return findKey(given, key);
}

namespace {

template <class T>
std::optional<T> valueAs(const KeyValue* v) {
  if (v)
    if (const T* held = std::get_if<T>(&v->value)) return *held;
  return std::nullopt;
}

}  // namespace

std::optional<double> JointMark::number(const std::string& key) const {
  return valueAs<double>(find(key));
}
std::optional<bool> JointMark::flag(const std::string& key) const {
  return valueAs<bool>(find(key));
}
std::optional<std::string> JointMark::word(const std::string& key) const {
  return valueAs<std::string>(find(key));
}
std::vector<std::string> JointMark::words(const std::string& key) const {
  return valueAs<std::vector<std::string>>(find(key)).value_or(std::vector<std::string>{});
}
SourcePlace JointMark::placeOf(const std::string& key) const {
  const KeyValue* value = find(key);
  return value && value->where.line > 0 ? value->where : where;  // a template's own values have no place
}

std::optional<int> findMember(const SettingOut& work, const std::string& id) {
  for (size_t i = 0; i < work.members.size(); ++i)
    if (work.members[i].id == id) return static_cast<int>(i);
  return std::nullopt;
}

std::optional<int> findUnit(const SettingOut& work, const std::string& name) {
  for (size_t i = 0; i < work.units.size(); ++i)
    if (work.units[i].name == name) return static_cast<int>(i);
  return std::nullopt;
}

}  // namespace dryfit
