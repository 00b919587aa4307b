#include "doorset/doorway_drawing.h"

#include <algorithm>

#include "base/require.h"

namespace dryfit {

double DoorwayDrawing::floorAt(double x) const {
  const double half = liningInner();
  const double part = std::clamp((half + x * lowSide()) / (2 * half), 0.0, 1.0);
  return -floorDrop() * part;
}

std::string DoorwayDrawing::backingAt(const std::string& side, double heightMm) const {
  for (const Member& m : work.members)
    if (m.id.rfind("backing." + side + ".", 0) == 0 && std::abs(m.origin->z - heightMm) < *m.widthMm / 2)
      return m.id;
  return {};
}

std::vector<std::string> DoorwayDrawing::idsOf(const std::string& head) const {
  std::vector<std::string> ids;
  for (const Member& m : work.members)
    if (m.id.rfind(head, 0) == 0) ids.push_back(m.id);
  return ids;
}

std::vector<std::string> DoorwayDrawing::wallBeside(const std::string& part) const {
  if (door.wall.kind != WallKind::Stud) return {"wall"};
  return {part == "head" ? "wall.head" : "wall.stud." + part + ".1"};
}

int DoorwayDrawing::unit(const std::string& name, const std::string& parent, bool keepHorns) {
  UnitMark mark;
  mark.name = name;
  mark.keepHorns = keepHorns;
  for (size_t u = 0; u < work.units.size(); ++u)
    if (work.units[u].name == parent) mark.parent = static_cast<int>(u);
  if (mark.parent >= 0) mark.benchFromWorld = {{1, 0, 0}, {0, 0, -1}, {0, 1, 0}, {}};  // laid on its back
  work.units.push_back(mark);
  return static_cast<int>(work.units.size()) - 1;
}

Member& DoorwayDrawing::member(const std::string& id, const std::string& name, const Placement& orientation,
                               const std::string& unitName, const SourcePlace& where) {
  Member& m = work.members.emplace_back();
  m.id = id;
  m.name = name;
  m.orientation = orientation;
  m.where = where;
  m.position = static_cast<int>(work.members.size()) - 1;
  const auto of = std::find_if(work.units.begin(), work.units.end(),
                               [&](const UnitMark& u) { return u.name == unitName; });
  REQUIRE(of != work.units.end());
  m.unit = static_cast<int>(of - work.units.begin());
  m.sawn = Sawn::Plain;
  return m;
}

void DoorwayDrawing::place(Member& m, const Box3& box) {
  const auto along = [&](Vec3 axis) { return std::abs(dot(axis, box.size())); };
  m.lengthMm = along(m.orientation.xAxis);
  m.widthMm = along(m.orientation.yAxis);
  m.thicknessMm = along(m.orientation.zAxis);
  m.origin = box.centre();
}

Member& DoorwayDrawing::formed(const std::string& id, const std::string& name, const std::string& material,
                               const Box3& box) {
  Member& m = member(id, name, uprightIn(faces()[0]), work.units.front().name, door.wall.where);
  m.formed = true;
  m.timber = material;
  place(m, box);
  return m;
}

void DoorwayDrawing::mark(const std::string& kind, std::vector<KeyValue> given, const SourcePlace& where,
                          const std::string& path) {
  JointMark& j = work.joints.emplace_back();
  j.kind = kind;
  j.given = std::move(given);
  j.where = where.file.empty() ? leaf.where : where;  // a part that the file says nothing of
  j.path = path;
  j.position = static_cast<int>(work.joints.size()) - 1;
}

void DoorwayDrawing::nailed(const std::string& piece, const std::string& to, bool planted,
                            const std::string& group, const std::string& groupText, const SourcePlace& where,
                            const std::string& path) {
  mark("nailed-face", {key("piece", piece), key("to", to), key("planted", planted)}, where, path);
  work.joints.back().group = group;
  work.joints.back().groupText = groupText;
}

void DoorwayDrawing::laidOn(const std::string& piece, std::vector<std::string> on, const SourcePlace& where,
                            const std::string& path) {
  mark("laid-on", {key("piece", piece), {"on", std::move(on), {}, {}}}, where, path);
}

void DoorwayDrawing::nailedOn(const std::string& piece, std::vector<std::string> on, const std::string& group,
                              const std::string& groupText, const SourcePlace& where,
                              const std::string& path) {
  mark("laid-on", {key("piece", piece), {"on", std::move(on), {}, {}}, key("nailed", true)}, where, path);
  work.joints.back().group = group;
  work.joints.back().groupText = groupText;
}

void DoorwayDrawing::rule(const std::string& name, const RuleSource& source, const std::string& because,
                          std::vector<std::string> first, std::vector<std::string> then) {
  work.rules.push_back({name, source.name, because, std::move(first), std::move(then), source.confidence});
}

void DoorwayDrawing::task(Operation::Kind kind, const std::string& taskKey, const std::string& unitName,
                          std::vector<std::string> members, const std::string& text,
                          const std::string& caution) {
  int of = 0;
  for (size_t u = 0; u < work.units.size(); ++u)
    if (work.units[u].name == unitName) of = static_cast<int>(u);
  work.tasks.push_back({kind, taskKey, of, std::move(members), text, caution});
}

void DoorwayDrawing::stage(const std::string& name, const std::string& unitName,
                           std::vector<std::string> about, std::vector<std::string> events) {
  StageMark s;
  s.name = name;
  for (size_t u = 0; u < work.units.size(); ++u)
    if (work.units[u].name == unitName) s.unit = static_cast<int>(u);
  s.events = std::move(events);
  s.about = std::move(about);
  work.stages.push_back(std::move(s));
}

Placement uprightIn(const WallFace& face) {
  return face.front ? Placement{{0, 0, 1}, {-1, 0, 0}, {0, -1, 0}, {}}
                    : Placement{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}, {}};
}
Placement levelIn(const WallFace& face) {
  return face.front ? Placement{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {}}
                    : Placement{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}, {}};
}
Placement jambAxes(double sideSign) {
  return {{0, 0, 1}, {0, sideSign, 0}, {-sideSign, 0, 0}, {}};
}
Placement headAxes() {
  return {{1, 0, 0}, {0, -1, 0}, {0, 0, -1}, {}};
}
Placement backingAxes(double sideSign) {
  return {{0, 1, 0}, {0, 0, -sideSign}, {-sideSign, 0, 0}, {}};
}
Placement headBackingAxes() {
  return {{0, 1, 0}, {1, 0, 0}, {0, 0, -1}, {}};
}

}  // namespace dryfit
