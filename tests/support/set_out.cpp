#include "support/set_out.h"

#include <stdexcept>

namespace dryfit::tests {

namespace {

Vec3 axis(const std::string& name) {
  Vec3 v;
  v[name[1] - 'X'] = name[0] == '-' ? -1 : 1;
  return v;
}

Result<CutWork> tried(SettingOut& work, const std::vector<JointKind>& kinds) {
  for (size_t i = 0; i < work.members.size(); ++i) work.members[i].position = static_cast<int>(i);
  for (size_t i = 0; i < work.joints.size(); ++i) work.joints[i].position = static_cast<int>(i);
  CutCache cache;
  return cutWork(work, kinds, cache);
}

}  // namespace

Placement along(const std::string& grain, const std::string& width) {
  Placement p;
  p.xAxis = axis(grain);
  p.yAxis = axis(width);
  p.zAxis = cross(p.xAxis, p.yAxis);
  return p;
}

Member member(const std::string& id, Vec3 size, const Placement& axes, Vec3 origin) {
  Member m;
  m.id = m.name = id;
  m.lengthMm = size.x;
  m.widthMm = size.y;
  m.thicknessMm = size.z;
  m.orientation = axes;
  m.origin = origin;
  m.timber = "Douglas-fir, coast";
  return m;
}

SettingOut setOut(std::vector<Member> members) {
  SettingOut work;
  work.title = "Set out by hand";
  work.members = std::move(members);
  work.units = {{"work", -1, {}, false, {}}};
  return work;
}

JointMark mark(const std::string& kind, const Given& given) {
  JointMark m;
  m.kind = kind;
  for (const auto& [key, value] : given) m.given.push_back({key, value, {}, ""});
  return m;
}

CutWork cutOf(SettingOut work, const std::vector<JointKind>& kinds) {
  auto cut = tried(work, kinds);
  if (cut) return cut.value();
  std::string faults;
  for (const Diagnostic& d : cut.faults()) faults += toText(d) + "\n";
  throw std::runtime_error(faults);
}

std::vector<std::string> faultsOf(SettingOut work, const std::vector<JointKind>& kinds) {
  auto cut = tried(work, kinds);
  std::vector<std::string> out;
  if (cut) return out;
  for (const Diagnostic& d : cut.faults()) out.push_back(toText(d));
  return out;
}

}  // namespace dryfit::tests
