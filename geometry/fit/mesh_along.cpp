#include "fit/mesh_along.h"

#include <algorithm>
#include <numeric>

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit {

WayFrame frameAcross(Vec3 way) {
  REQUIRE(std::abs(length(way) - 1) < 1e-9);
  int least = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(way[i]) < std::abs(way[least])) least = i;
  Vec3 axis;
  axis[least] = 1;
  const Vec3 u = normalized(cross(axis, way));
  return {u, cross(way, u), way};
}

bool WayFrame::isSquare() const {
  const auto isAxis = [](Vec3 d) { return (d.x == 0) + (d.y == 0) + (d.z == 0) == 2; };
  return isAxis(u) && isAxis(v) && isAxis(way);
}

Polygon2 outlineAcross(const Facet& facet, const WayFrame& frame) {
  Polygon2 outline;
  outline.reserve(facet.points.size());
  for (const Vec3 p : facet.points) outline.push_back(frame.across(p));
  if (dot(facet.normal, frame.way) < 0) std::reverse(outline.begin(), outline.end());
  return outline;
}

Linear2 depthOver(Vec3 normal, Vec3 p, const WayFrame& frame) {
  const double slant = dot(normal, frame.way);
  const Vec2 slope{-dot(normal, frame.u) / slant, -dot(normal, frame.v) / slant};
  return {frame.depth(p) - dot(slope, frame.across(p)), slope};
}

MeshAlong::MeshAlong(const PlanningMesh& mesh, Vec3 way, Vec3 offset)
    : mesh_(&mesh), frame_(frameAcross(way)), offset_(offset) {
  addShadows();
}

MeshAlong::MeshAlong(const MeshAlong& home, Vec3 offset)
    : mesh_(home.mesh_), frame_(home.frame_), offset_(home.offset_ + offset) {
  if (!frame_.isSquare() || home.offset_ != Vec3{}) {
    addShadows();
    return;
  }
  shadows_ = home.shadows_;
  points_ = home.points_;
  ahead_ = home.ahead_;
  against_ = home.against_;
  byLow_ = home.byLow();  // rounding keeps what is in order in order
  byHigh_ = home.byHigh();
  Vec2* outline = points_.data();
  for (Shadow& s : shadows_) {
    move(s, {outline, s.outline.size()});
    outline += s.outline.size();
  }
  const Vec2 across = frame_.across(offset_);
  const double depth = frame_.depth(offset_);
  bounds_ = {home.bounds_.low + offset_, home.bounds_.high + offset_};
  box_ = {home.box_.low + across, home.box_.high + across};
  lowMm_ = home.lowMm_ + depth;
  highMm_ = home.highMm_ + depth;
}

void MeshAlong::move(Shadow& s, std::span<Vec2> outline) const {
  const Vec2 across = frame_.across(offset_);
  const double depth = frame_.depth(offset_);
  s.box = {s.box.low + across, s.box.high + across};
  s.lowMm += depth;
  s.highMm += depth;
  s.outline = outline;
  if (outline.empty()) return;
  for (Vec2& p : outline) p = p + across;
  const Facet& f = mesh_->facets[s.facet];
  s.depth = depthOver(f.normal, f.points.front() + offset_, frame_);
}

void MeshAlong::addShadows() {
  size_t corners = 0;
  for (const Facet& f : mesh_->facets) corners += f.points.size();
  points_.reserve(corners);  // outlines point into it
  shadows_.reserve(mesh_->facets.size());
  for (size_t i = 0; i < mesh_->facets.size(); ++i)
    if (mesh_->facets[i].points.size() >= 3) addShadow(static_cast<int>(i));
}

void MeshAlong::addShadow(int facet) {
  const Facet& f = mesh_->facets[facet];
  Shadow& s = shadows_.emplace_back();
  s.facet = facet;
  s.lowMm = 1e300;
  s.highMm = -1e300;
  const size_t first = points_.size();
  for (const Vec3 home : f.points) {
    const Vec3 p = home + offset_;
    const double depth = frame_.depth(p);
    bounds_.add(p);
    points_.push_back(frame_.across(p));
    s.box.add(points_.back());
    s.lowMm = std::min(s.lowMm, depth);
    s.highMm = std::max(s.highMm, depth);
  }
  box_.add(s.box.low);
  box_.add(s.box.high);
  lowMm_ = std::min(lowMm_, s.lowMm);
  highMm_ = std::max(highMm_, s.highMm);
  const double slant = dot(f.normal, frame_.way);
  if (std::abs(slant) <= tolerance::kAlongTheWay) {
    points_.resize(first);
    return;
  }
  s.depth = depthOver(f.normal, f.points.front() + offset_, frame_);
  const auto outline = points_.begin() + static_cast<std::ptrdiff_t>(first);
  if (slant < 0) std::reverse(outline, points_.end());
  s.outline = {outline, points_.end()};
  (slant > 0 ? ahead_ : against_).push_back(static_cast<int>(shadows_.size()) - 1);
}

namespace {

template <class Before>
const std::vector<int>& sortedOnce(std::vector<int>& order, size_t count, const Before& before) {
  if (order.size() == count) return order;
  order.resize(count);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), before);
  return order;
}

}  // namespace

const std::vector<int>& MeshAlong::byLow() const {
  return sortedOnce(byLow_, shadows_.size(),
                    [&](int i, int j) { return shadows_[i].lowMm < shadows_[j].lowMm; });
}

const std::vector<int>& MeshAlong::byHigh() const {
  return sortedOnce(byHigh_, shadows_.size(),
                    [&](int i, int j) { return shadows_[i].highMm > shadows_[j].highMm; });
}

}  // namespace dryfit
