#include "scene/staging.h"

#include <algorithm>
#include <utility>

#include "base/require.h"
#include "piece/alike.h"
#include "scene/broken.h"
#include "scene/names.h"
#include "scene/surface.h"
#include "scene/travel.h"

namespace dryfit::scene {

namespace {

bool contains(const std::vector<int>& list, int value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

Item* itemOf(Scene& scene, int piece) {
  for (Item& item : scene.items)
    if (item.piece == piece) return &item;
  return nullptr;
}

std::vector<const Item*> solidOf(const Scene& scene) {
  std::vector<const Item*> out;
  for (const Item& item : scene.items)
    if (item.shown != Shown::Outline) out.push_back(&item);
  return out;
}

/// What is said of pieces on their way.
std::string wordsFor(const Assembly& assembly, const Step& step, const Move& move) {
  if (step.event == "turn") return "swinging";
  if (step.event == "drive" || step.event == "fasten") return "driving";
  const bool planted = std::any_of(move.bodies.begin(), move.bodies.end(),
                                   [&](int b) { return assembly.bodies.at(static_cast<size_t>(b)).planted; });
  return planted ? "going on" : "going in";
}

void seeThrough(Scene& scene, const std::vector<int>& pieces) {
  for (Item& item : scene.items)
    if (item.shown == Shown::Solid && contains(pieces, item.piece)) item.shown = Shown::SeeThrough;
}

void place(Scene& scene, const Placement& worldFromHome) {
  for (Item& item : scene.items) item.worldFromPiece = worldFromHome * item.worldFromPiece;
  for (Arrow& arrow : scene.arrows) {
    arrow.from = worldFromHome.point(arrow.from);
    arrow.to = worldFromHome.point(arrow.to);
    for (Vec3& p : arrow.between) p = worldFromHome.point(p);
  }
}

}  // namespace

Staging::Staging(const CutWork& work, const OrderOfWork* order) : work_(work), order_(order) {
  for (const Alike& alike : alikes(work.pieces)) groups_.push_back(alike.key);
  for (const Piece& piece : work.pieces) kinds_.push_back(kindOf(piece.name));
}

Standing Staging::standing(const StagingRequest& request) const {
  if (!request.step) return standingFinished(work_.assembly);
  REQUIRE(order_ != nullptr);
  return standingAt(work_.assembly, *order_, *request.step);
}

std::shared_ptr<const Shape> Staging::shapeOfState(int piece, int state) {
  const CutRecipe& cut =
      *work_.pieces.at(static_cast<size_t>(piece)).states.at(static_cast<size_t>(state)).cut;
  std::shared_ptr<const Shape>& shape = shapes_[&cut];
  if (!shape) shape = std::make_shared<const Shape>(shapeOf(cut.shell, *cut.mesh));
  return shape;
}

Item Staging::item(int piece, int state) {
  const auto i = static_cast<size_t>(piece);
  const Piece& p = work_.pieces.at(i);
  Item out;
  out.id = p.id;
  out.name = p.name;
  out.kind = kinds_[i];
  out.joint = p.joint;
  out.piece = piece;
  out.state = state;
  out.shape = shapeOfState(piece, out.state);
  out.sizeMm = out.shape->box.size();
  out.worldFromPiece = p.worldFromPiece;
  out.surface = surfaceOf(p, out.kind);
  out.fastening = p.fastening;
  out.formed = p.formed;
  out.group = groups_[i];
  return out;
}

/// Setting-out lines are of members; those of what is planted on would hide the frame's until planting
/// begins. What is formed is not set out.
bool Staging::outlined(int piece, const Standing& standing) const {
  const auto& bodies = work_.assembly.bodies;
  if (!work_.pieces.at(static_cast<size_t>(piece)).joint.empty()) return false;
  if (bodies.at(static_cast<size_t>(piece)).formed) return false;
  if (!bodies.at(static_cast<size_t>(piece)).planted) return true;
  for (size_t b = 0; b < bodies.size(); ++b)
    if (bodies[b].planted && (standing.roles[b] == Role::Comes || standing.roles[b] == Role::Stands))
      return true;
  return false;
}

bool Staging::wanted(int piece, const Standing& standing, const StagingRequest& request) const {
  const Role role = standing.roles.at(static_cast<size_t>(piece));
  if (role == Role::Absent || contains(request.hidden, piece)) return false;
  if (role == Role::ToCome && !outlined(piece, standing)) return false;
  return !request.joint ||
         contains(work_.assembly.joints.at(static_cast<size_t>(*request.joint)).bodies, piece);
}

Placement Staging::posed(int piece, const Pose& pose) const {
  return worldFromHome(work_.assembly, pose, piece) *
         work_.pieces.at(static_cast<size_t>(piece)).worldFromPiece;
}

Vec3 Staging::middleThen(const std::vector<int>& bodies, const Standing& now) {
  Box3 box;
  for (const int b : bodies)
    box.add(boundsOf(*shapeOfState(b, now.states.at(static_cast<size_t>(b))), posed(b, now.pose)));
  return box.centre();
}

/// Takes the step's movers back on their way. Pieces that go together get an arrow each, a unit or what turns
/// gets one.
void Staging::move(Scene& scene, const Step& step, const StagingRequest& request, const Standing& now) {
  const std::vector<double> parts = partsOfMoves(step.moves, request.moving);
  for (size_t m = 0; m < step.moves.size(); ++m) {
    if (parts[m] >= 1) continue;
    const Move& move = step.moves[m];
    const std::vector<Leg> legs = lengthened(move.legs, request.furtherMm);
    std::string words = wordsFor(work_.assembly, step, move);
    std::vector<std::vector<int>> groups;
    for (const int b : bodiesOf(work_.assembly, move)) {
      Item* item = itemOf(scene, b);
      if (!item) continue;
      item->worldFromPiece = awayFromHome(legs, parts[m]) * item->worldFromPiece;
      item->mark = Mark::Moving;
      const bool asOne = move.unit >= 0 || step.event == "turn";
      if (!asOne || groups.empty()) groups.emplace_back();
      groups.back().push_back(b);
    }
    for (const auto& group : groups)
      for (Arrow& arrow : arrowsHome(legs, parts[m], middleThen(group, now))) {
        arrow.words = std::exchange(words, "");
        scene.arrows.push_back(arrow);
      }
  }
}

/// What is still to come is told as if at home.
void Staging::turn(Scene& scene, const Pose& pose) const {
  for (Item& item : scene.items)
    if (item.shown != Shown::Outline)
      item.worldFromPiece = worldFromHome(work_.assembly, pose, item.piece) * item.worldFromPiece;
}

void Staging::toBench(Scene& scene, const StagingRequest& request, int unit) const {
  if (request.step) place(scene, work_.assembly.units.at(static_cast<size_t>(unit)).benchFromWorld);
}

Scene Staging::scene(const StagingRequest& request) {
  const Standing now = standing(request);
  REQUIRE(request.offsets.empty() || request.offsets.size() == work_.pieces.size());
  Scene out;
  out.title = work_.title;
  for (int b = 0; b < static_cast<int>(work_.pieces.size()); ++b) {
    if (!wanted(b, now, request)) continue;
    out.items.push_back(item(b, now.states[static_cast<size_t>(b)]));
    if (now.roles[static_cast<size_t>(b)] == Role::ToCome) out.items.back().shown = Shown::Outline;
  }
  // At home, where the joint is closed, however far apart its pieces stand in the picture.
  if (request.joint) breakOffAround(out, meetingOf(solidOf(out)));
  if (!request.offsets.empty())
    for (Item& item : out.items)
      item.worldFromPiece =
          translation(request.offsets[static_cast<size_t>(item.piece)]) * item.worldFromPiece;
  else
    turn(out, now.pose);
  if (request.step) move(out, order_->steps[static_cast<size_t>(*request.step)], request, now);
  toBench(out, request, now.unit);
  if (request.offsets.empty() && !out.items.empty()) out.benchMm = boundsOf(out).low.z;
  seeThrough(out, request.seeThrough);
  return out;
}

Scene Staging::wholeUnit(const StagingRequest& request) {
  const int unit = standing(request).unit;
  Scene out;
  const auto add = [&](int body, const Pose& pose, const Placement& away) {
    if (contains(request.hidden, body)) return;
    const Piece& piece = work_.pieces.at(static_cast<size_t>(body));
    for (int s = 0; s < static_cast<int>(piece.states.size()); ++s) {
      out.items.push_back(item(body, s));
      out.items.back().worldFromPiece = away * posed(body, pose);
    }
  };
  for (const Step& step : order_->steps) {
    if (step.unit != unit) continue;
    for (const int body : step.bodies) add(body, step.pose, {});
    for (const Move& move : step.moves)
      for (const int body : bodiesOf(work_.assembly, move))
        add(body, step.pose, awayFromHome(lengthened(move.legs, request.furtherMm), 0));
  }
  toBench(out, request, unit);
  return out;
}

}  // namespace dryfit::scene
