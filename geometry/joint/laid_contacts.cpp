#include "joint/laid_contacts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "base/tolerance.h"
#include "piece/face_regions.h"

namespace dryfit {

namespace {

/// A face of a piece where it stands.
struct StandingFace {
  Vec3 normal;
  double offset = 0;
  std::string role;
  std::vector<FlatPolygon> parts;
  std::vector<Box3> boxes;  ///< of the parts
  Box3 box;
};

bool faceEachOther(const StandingFace& a, const StandingFace& b) {
  return length(a.normal + b.normal) < tolerance::kParallel &&
         std::abs(a.offset + b.offset) < tolerance::kTouch && near(a.box, b.box, tolerance::kTouch);
}

double shared(const StandingFace& a, const StandingFace& b) {
  double sum = 0;
  for (size_t i = 0; i < a.parts.size(); ++i) {
    if (!near(a.boxes[i], b.box, tolerance::kTouch)) continue;
    for (size_t j = 0; j < b.parts.size(); ++j)
      if (near(a.boxes[i], b.boxes[j], tolerance::kTouch)) sum += sharedArea(a.parts[i], b.parts[j]);
  }
  return sum;
}

struct LaidContacts {
  const std::vector<StagedRecipe>& recipes;
  CutWork& out;
  std::map<std::string, int> indexOf{};
  std::map<std::pair<int, size_t>, std::vector<StandingFace>> known{};
  /// Pairs of faces in a pair of states that are worked out: several marks may lay the same two together.
  std::set<std::tuple<int, int, size_t, size_t, std::string, std::string, double>> told{};

  const std::vector<StandingFace>& faces(int body, size_t state) {
    const auto [at, fresh] = known.try_emplace({body, state});
    if (!fresh) return at->second;
    const Placement& place = out.pieces[static_cast<size_t>(body)].worldFromPiece;
    for (const FaceRegion& r : faceRegions(recipes[static_cast<size_t>(body)].at(state))) {
      StandingFace f{place.direction(r.normal), 0, r.role, {}, {}, {}};
      f.offset = r.offset + dot(f.normal, place.origin);
      for (const FlatPolygon& part : r.parts) {
        FlatPolygon moved;
        Box3 box;
        for (Vec3 p : part) {
          moved.push_back(place.point(p));
          box.add(moved.back());
        }
        f.parts.push_back(std::move(moved));
        f.boxes.push_back(box);
        f.box.add(box);
      }
      at->second.push_back(std::move(f));
    }
    return at->second;
  }
  size_t states(int body) const { return out.assembly.bodies[static_cast<size_t>(body)].states.size(); }

  /// Roles empty: whatever faces lie on each other.
  void add(const std::string& joint, int a, int b, const std::string& roleA, const std::string& roleB) {
    if (b < a) return add(joint, b, a, roleB, roleA);
    for (size_t i = 0; i < states(a); ++i)
      for (size_t j = 0; j < states(b); ++j)
        for (const StandingFace& f : faces(a, i))
          for (const StandingFace& g : faces(b, j)) {
            if ((!roleA.empty() && f.role != roleA) || (!roleB.empty() && g.role != roleB)) continue;
            if (!faceEachOther(f, g)) continue;
            if (!told.insert({a, b, i, j, f.role, g.role, f.offset}).second) continue;
            const double area = shared(f, g);
            if (area <= tolerance::kTouchArea) continue;
            const StateRange inA{static_cast<int>(i), static_cast<int>(i)},
                inB{static_cast<int>(j), static_cast<int>(j)};
            out.assembly.contacts.push_back({joint, a, b, f.role, g.role, area, inA, inB});
          }
  }

  /// What the joints of a piece put into it and may come to its face: wedges, not what is round.
  std::vector<int> ownPiecesOf(const std::string& id) const {
    std::vector<int> own;
    for (size_t i = 0; i < out.pieces.size(); ++i) {
      const Piece& p = out.pieces[i];
      if (p.joint.empty() || !std::holds_alternative<BoxBlank>(recipes[i].base.blank)) continue;
      for (const auto& joint : out.assembly.joints)
        if (joint.id == p.joint &&
            std::find(joint.bodies.begin(), joint.bodies.end(), indexOf.at(id)) != joint.bodies.end())
          own.push_back(static_cast<int>(i));
    }
    return own;
  }

  std::string roleOf(const FaceRef& face) const {
    return recipes[static_cast<size_t>(indexOf.at(face.id))].roleOf(face.role);
  }
};

}  // namespace

void addLaidContacts(const std::vector<JointWork>& made, const std::vector<StagedRecipe>& recipes,
                     CutWork& out) {
  LaidContacts laid{recipes, out};
  for (size_t i = 0; i < out.pieces.size(); ++i) laid.indexOf[out.pieces[i].id] = static_cast<int>(i);
  for (const JointWork& joint : made) {
    for (const JointContact& c : joint.contacts)
      if (c.bySides)
        laid.add(c.joint, laid.indexOf.at(c.a.id), laid.indexOf.at(c.b.id), laid.roleOf(c.a),
                 laid.roleOf(c.b));
    for (const JointLaid& l : joint.laid) {
      const int piece = laid.indexOf.at(l.piece);
      laid.add(l.joint, piece, laid.indexOf.at(l.on), "", "");
      for (const int own : laid.ownPiecesOf(l.on)) laid.add(l.joint, piece, own, "", "");
    }
  }
}

}  // namespace dryfit
