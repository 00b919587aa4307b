#include "support/shells.h"

namespace dryfit::tests {

namespace {

/// Eight corners of a box; corner i has bit 0 for x, bit 1 for y, bit 2 for z.
int addCorners(Shell& shell, Vec3 half) {
  const int first = static_cast<int>(shell.vertices.size());
  for (int i = 0; i < 8; ++i)
    shell.vertices.push_back({i & 1 ? half.x : -half.x, i & 2 ? half.y : -half.y, i & 4 ? half.z : -half.z});
  return first;
}

std::vector<int> loop(int first, int a, int b, int c, int d) {
  return {first + a, first + b, first + c, first + d};
}

}  // namespace

Shell boxShell(Vec3 size) {
  Shell s;
  const Vec3 h = size * 0.5;
  const int k = addCorners(s, h);
  s.flats = {{"end.low", {-1, 0, 0}, h.x, {loop(k, 0, 4, 6, 2)}, {}},
             {"end.high", {1, 0, 0}, h.x, {loop(k, 1, 3, 7, 5)}, {}},
             {"edge.low", {0, -1, 0}, h.y, {loop(k, 0, 1, 5, 4)}, {}},
             {"edge.high", {0, 1, 0}, h.y, {loop(k, 2, 6, 7, 3)}, {}},
             {"back", {0, 0, -1}, h.z, {loop(k, 0, 2, 3, 1)}, {}},
             {"face", {0, 0, 1}, h.z, {loop(k, 4, 5, 7, 6)}, {}}};
  return s;
}

Shell pocketShell(Vec3 size, double pocketX, double pocketY) {
  Shell s = boxShell(size);
  const Vec3 h{pocketX / 2, pocketY / 2, size.z / 2};
  const int k = addCorners(s, h);
  s.flats[4].loops.push_back(loop(k, 0, 1, 3, 2));
  s.flats[5].loops.push_back(loop(k, 4, 6, 7, 5));
  s.flats.push_back({"pocket", {1, 0, 0}, -h.x, {loop(k, 0, 2, 6, 4)}, {}});
  s.flats.push_back({"pocket", {-1, 0, 0}, -h.x, {loop(k, 1, 5, 7, 3)}, {}});
  s.flats.push_back({"pocket", {0, 1, 0}, -h.y, {loop(k, 0, 4, 5, 1)}, {}});
  s.flats.push_back({"pocket", {0, -1, 0}, -h.y, {loop(k, 2, 3, 7, 6)}, {}});
  return s;
}

Shell boredShell(Vec3 size, double radius) {
  Shell s = boxShell(size);
  s.rounds.push_back({"bore", {0, 0, -size.z / 2}, {0, 0, size.z / 2}, radius, true});
  s.flats[4].rims.push_back({0, 0});
  s.flats[5].rims.push_back({0, size.z});
  return s;
}

Shell roundRodShell(double lengthMm, double radius) {
  Shell s;
  const double h = lengthMm / 2;
  s.rounds.push_back({"side", {-h, 0, 0}, {h, 0, 0}, radius, false});
  s.flats.push_back({"end.low", {-1, 0, 0}, h, {}, {{0, 0}}});
  s.flats.push_back({"end.high", {1, 0, 0}, h, {}, {{0, lengthMm}}});
  return s;
}

}  // namespace dryfit::tests
