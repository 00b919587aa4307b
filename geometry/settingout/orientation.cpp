#include "settingout/orientation.h"

#include "base/require.h"

namespace dryfit {

std::optional<WorldWay> worldWay(const std::string& text) {
  const bool hasSign = text.size() == 2 && (text[0] == '+' || text[0] == '-');
  if (text.size() != 1 && !hasSign) return std::nullopt;
  const char letter = text.back();
  if (letter < 'X' || letter > 'Z') return std::nullopt;
  return WorldWay{letter - 'X', text[0] == '-' ? -1 : 1};
}

Placement pieceAxes(WorldWay along, WorldWay widthAlong, std::optional<WorldWay> face) {
  REQUIRE(along.axis != widthAlong.axis);
  const int thicknessAxis = 3 - along.axis - widthAlong.axis;
  REQUIRE(!face || face->axis == thicknessAxis);
  Placement p;
  p.xAxis = WorldWay{along.axis, 1}.vector();
  if (face)
    p.zAxis = face->vector();
  else if (thicknessAxis == 1)
    p.zAxis = {0, -1, 0};
  else
    p.zAxis = cross(along.vector(), widthAlong.vector());
  p.yAxis = cross(p.zAxis, p.xAxis);
  return p;
}

}  // namespace dryfit
