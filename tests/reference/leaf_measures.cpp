#include "reference/leaf_measures.h"

#include <algorithm>
#include <stdexcept>

namespace dryfit::tests {

const Piece& pieceNamed(const CutWork& work, const std::string& id) {
  return work.pieces[static_cast<size_t>(pieceOf(work, id))];
}

Box3 worldBox(const CutWork& work, const std::string& id) {
  const Piece& piece = pieceNamed(work, id);
  Box3 box;
  for (const Vec3& v : piece.last().shell.vertices) box.add(piece.worldFromPiece.point(v));
  return box;
}

std::vector<double> facesOf(const CutWork& work, const std::string& id, const std::string& role, int axis,
                            int sense) {
  const Piece& piece = pieceNamed(work, id);
  std::vector<double> at;
  for (const FlatFace& f : piece.last().shell.flats) {
    const Vec3 normal = piece.worldFromPiece.direction(f.normal);
    if (f.role != role || normal[axis] * sense < 1 - 1e-12) continue;
    at.push_back(piece.worldFromPiece.point(f.normal * f.offset)[axis]);
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < kExact; }), at.end());
  return at;
}

double faceAt(const CutWork& work, const std::string& id, const std::string& role, int axis, int sense) {
  const std::vector<double> at = facesOf(work, id, role, axis, sense);
  if (at.size() != 1)
    throw std::runtime_error(id + " has " + std::to_string(at.size()) + " places of " + role);
  return at[0];
}

std::vector<Tongue> tonguesOf(const CutWork& work, const std::string& rail, double beyond) {
  const Piece& p = pieceNamed(work, "leaf.rail." + rail);
  const Shell& shell = p.last().shell;
  double shoulder = 0;
  for (const FlatFace& f : shell.flats)
    if (f.role == "shoulder.front" && f.normal.x > 0.5) shoulder = f.offset;
  const double x = shoulder + beyond, half = sizeOf(shell).y / 2;
  std::vector<Tongue> found;
  for (const FlatFace& f : shell.flats) {
    if (f.role.find(".cheek.front") == std::string::npos || f.role.find("groove") == 0) continue;
    double low = 1e9, high = -1e9, far = -1e9;
    for (int v : f.loops[0]) {
      const Vec3& at = shell.vertices[static_cast<size_t>(v)];
      low = std::min(low, at.y), high = std::max(high, at.y), far = std::max(far, at.x);
    }
    if (far > x + kExact && low < high) found.push_back({low + half, high + half});
  }
  std::sort(found.begin(), found.end(), [](const Tongue& a, const Tongue& b) { return a.from < b.from; });
  return found;
}

std::vector<double> widths(const std::vector<Tongue>& tongues) {
  std::vector<double> all;
  for (const Tongue& t : tongues) all.push_back(t.width());
  return all;
}

double haunchProjection(const CutWork& work, const std::string& rail) {
  double projection = 0, shoulder = 0;
  for (const FlatFace& f : pieceNamed(work, "leaf.rail." + rail).last().shell.flats) {
    if (f.normal.x < 0.5) continue;
    if (f.role == "shoulder.front") shoulder = f.offset;
    if (f.role.find("haunch") == 0) projection = f.offset;
  }
  return projection - shoulder;
}

double tenonThickness(const CutWork& work) {
  double front = 0, back = 0;
  for (const FlatFace& f : pieceNamed(work, "leaf.rail.top").last().shell.flats) {
    if (f.role == "tenon.cheek.front") front = f.offset;
    if (f.role == "tenon.cheek.back") back = f.offset;
  }
  return front + back;
}

}  // namespace dryfit::tests
