// Planted mouldings: four round a panel on each face that has them, back edge to the framing, mitred at the
// corners, nailed into the framing only (V2 and Joyce: never into the panel).
#include <fmt/format.h>

#include <array>

#include "doorset/leaf_drawing.h"
#include "doorset/leaf_mouldings.h"

namespace dryfit {

namespace {

struct Moulding {
  const char* side;           ///< "top" ...
  bool upright;               ///< its grain
  std::string to;             ///< the framing it is planted on
  Vec3 back;                  ///< world, the way its back edge looks
  double lengthMm, xMm, zMm;  ///< of its middle, world
};

struct Planter {
  LeafDrawing& d;
  const PanelOpening& o;
  bool front;

  const LeafMoulding& m() const { return d.leaf.moulding; }
  std::string face() const { return front ? "front" : "back"; }
  std::string idOf(const Moulding& one) const {
    return fmt::format("leaf.moulding.{}.{}.{}", o.at, face(), one.side);
  }

  std::array<Moulding, 4> four() const {
    const double half = m().width.mm / 2, low = o.up.first, high = o.up.second;
    const double across = o.across.second - o.across.first, up = high - low;
    const double middleX = d.x((o.across.first + o.across.second) / 2), middleZ = d.z((low + high) / 2);
    const double toHanging = d.x(0) < d.x(1) ? -1 : 1;
    return {{{"top", false, o.top, {0, 0, 1}, across, middleX, d.z(high - half)},
             {"hanging", true, o.hanging, {toHanging, 0, 0}, up, d.x(o.across.first + half), middleZ},
             {"closing", true, o.closing, {-toHanging, 0, 0}, up, d.x(o.across.second - half), middleZ},
             {"bottom", false, o.bottom, {0, 0, -1}, across, middleX, d.z(low + half)}}};
  }

  /// z out of the face that shows: of a moulding on the back that is the back.
  Placement orientation(bool upright) const {
    Placement p = upright ? LeafDrawing::upright() : LeafDrawing::level();
    if (!front) {
      p.yAxis = -p.yAxis;
      p.zAxis = -p.zAxis;
    }
    return p;
  }

  void plant(const Moulding& one) {
    Member& member =
        d.member(idOf(one), fmt::format("{} {} moulding of panel {}", face(), one.side, o.at), one.upright);
    member.orientation = orientation(one.upright);
    member.timber = d.leaf.mouldingTimber;
    member.where = m().where;
    member.widthMm = m().width.mm;
    member.thicknessMm = m().thickness.mm;
    member.lengthMm = one.lengthMm;
    member.profile = RunProfile{m().profile, m().path, dot(one.back, member.orientation.yAxis) > 0};
    const double middle = d.leaf.thickness.mm / 2;
    const double off = grooveThickness(d.leaf) / 2 + kOffPanelMm + m().thickness.mm / 2;
    member.origin = Vec3{one.xMm, middle + (front ? -off : off), one.zMm};
  }

  void nail(const Moulding& one) {
    std::vector<KeyValue> keys = m().nails;
    keys.push_back(LeafDrawing::key("piece", idOf(one)));
    keys.push_back(LeafDrawing::key("to", one.to));
    d.mark("nailed-face", std::move(keys), m().where, "leaf.moulding");
    JointMark& mark = d.work.joints.back();
    mark.group = fmt::format("mouldings:{}.{}", o.at, face());
    mark.groupText = fmt::format(
        "Pin the mouldings round panel {} on the {} to the framing, never to the panel.", o.at, face());
  }

  void run() {
    const auto all = four();
    for (const Moulding& one : all) plant(one);
    for (const auto& [a, b] : {std::pair{0, 1}, {0, 2}, {3, 1}, {3, 2}})
      d.mark("mitre",
             {LeafDrawing::key("one", idOf(all[static_cast<size_t>(a)])),
              LeafDrawing::key("other", idOf(all[static_cast<size_t>(b)]))},
             m().where, "leaf.moulding");
    for (const Moulding& one : all) nail(one);
  }
};

}  // namespace

void setOutMouldings(LeafDrawing& drawing, const PanelOpening& opening) {
  if (drawing.leaf.moulding.front) Planter{drawing, opening, true}.run();
  if (drawing.leaf.moulding.back) Planter{drawing, opening, false}.run();
}

}  // namespace dryfit
