#include "card/card_view.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/units.h"

namespace dryfit::card {

namespace {

/// Which world axis a way lies along; a slanting one counts by its greatest part.
int axisOf(Vec3 way) {
  int axis = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(way[i]) > std::abs(way[axis])) axis = i;
  return axis;
}

constexpr const char* kSides[3][2] = {{"left", "right"}, {"front", "back"}, {"bottom", "top"}};

/// The side of a world axis that a way of the piece looks to.
const char* sideOf(Vec3 way, Towards towards) {
  const int axis = axisOf(way);
  return kSides[axis][(way[axis] > 0) == (towards == Towards::High) ? 1 : 0];
}

}  // namespace

View::View(const CutWork& work, int piece)
    : work_(work), index_(piece), piece_(work.pieces.at(static_cast<size_t>(piece))) {
  blank_ = blankSize(made().blank);
  finished_ = {-blank_.x / 2, blank_.x / 2};
  for (const Feature& f : last().features)
    if (const auto* cut = std::get_if<CutOff>(&f))
      (cut->end == Towards::High ? finished_.to : finished_.from) = cut->at;
  nameEnds();
  nameEdges();
}

void View::nameEnds() {
  const Vec3 along = piece_.worldFromPiece.direction({1, 0, 0});
  for (const Towards end : {Towards::Low, Towards::High})
    ends_[end == Towards::High ? 1 : 0] = sideOf(along, end);
  const int axis = axisOf(along);
  const bool grows = along[axis] > 0;
  // From the top of what stands, from the left or the front of what lies.
  fromEnd_ = (axis == 2) == grows ? Towards::High : Towards::Low;
}

void View::nameEdges() {
  const Vec3 across = piece_.worldFromPiece.direction({0, 1, 0});
  const auto& roles = made().blankRoles;
  const bool named = roles[2] != roles[3] && (roles[2] == "edge.inner" || roles[3] == "edge.inner");
  std::optional<Towards> grooved;
  for (const Feature& f : made().features)
    if (const auto* groove = std::get_if<Groove>(&f); groove && !grooved) grooved = groove->edge;
  for (const Towards edge : {Towards::Low, Towards::High}) {
    const bool high = edge == Towards::High;
    std::string side = sideOf(across, edge);
    if (side == "top" || side == "bottom") side = side == "top" ? "upper" : "lower";
    edges_[high ? 1 : 0] =
        (named ? (roles[high ? 3 : 2] == "edge.inner" ? "inner" : "outer") : side) + std::string(" edge");
  }
  if (named)
    faceEdge_ = roles[3] == "edge.inner" ? Towards::High : Towards::Low;
  else
    faceEdge_ = grooved.value_or(Towards::Low);
}

/// Rules of the trade give metric sizes: in a work in inches to the nearest 64th, which a rule can be read
/// to.
std::string View::figure(double mm) const {
  const double finestMm = millimetres(1, LengthUnit::Inch) / 64;
  const double read = std::round(mm / finestMm) * finestMm;
  const std::string text =
      lengthText(work_.lengths == LengthUnit::Inch && read > 0 ? read : mm, work_.lengths);
  return text.substr(0, text.rfind(' '));
}

bool View::tellsLeft() const {
  const auto told = [](const std::string& name) {
    return name.rfind("left", 0) == 0 || name.rfind("right", 0) == 0;
  };
  return told(ends_[0]) || told(ends_[1]) || told(edges_[0]) || told(edges_[1]);
}

double View::along(double x) const {
  return fromEnd_ == Towards::High ? finished_.to - x : x - finished_.from;
}
double View::across(double y) const {
  return faceEdge_ == Towards::High ? blank_.y / 2 - y : y + blank_.y / 2;
}
Span View::along(Span x) const {
  const double a = along(x.from), b = along(x.to);
  return {std::min(a, b), std::max(a, b)};
}
Span View::across(Span y) const {
  const double a = across(y.from), b = across(y.to);
  return {std::min(a, b), std::max(a, b)};
}

std::string View::called(int piece) const {
  const Piece& p = work_.pieces[static_cast<size_t>(piece)];
  const bool alone = std::count_if(work_.pieces.begin(), work_.pieces.end(),
                                   [&](const Piece& other) { return other.name == p.name; }) == 1;
  return spokenName(p.name, p.id, alone);
}

std::string View::partnerAt(Vec3 at) const {
  const Vec3 world = piece_.worldFromPiece.point(at);
  int found = -1;
  double least = 0;
  for (int i = 0; i < static_cast<int>(work_.pieces.size()); ++i) {
    const Piece& other = work_.pieces[static_cast<size_t>(i)];
    if (i == index_ || other.formed || other.fastening || !other.joint.empty()) continue;
    const Vec3 there = inverse(other.worldFromPiece).point(world);
    const Box3 box = blankBox(other.states.front().cut->recipe.blank);
    bool in = true;
    for (int axis = 0; axis < 3; ++axis)
      in = in && there[axis] > box.low[axis] && there[axis] < box.high[axis];
    const Vec3 size = box.size();
    const double volume = size.x * size.y * size.z;
    if (in && (found < 0 || volume < least)) {
      found = i;
      least = volume;
    }
  }
  return found < 0 ? "" : " for " + called(found);
}

}  // namespace dryfit::card
