// A few kinds of joint that hold one key of every type, for tests of the reader alone.
#pragma once

#include <vector>

#include "settingout/setting_out.h"

namespace dryfit::testing {

/// "mortise-and-tenon" (also "tenon") and "panel-in-frame".
inline std::vector<KindSpec> smallKinds() {
  KindSpec tenon;
  tenon.name = "mortise-and-tenon";
  tenon.aliases = {"tenon"};
  tenon.keys = {
      {"tenon", KeyType::Member, true, "", "the member with the tenon", 0, 0, {}, ""},
      {"mortise", KeyType::Member, true, "", "the member with the mortise", 0, 0, {}, ""},
      {"thickness", KeyType::Length, false, "a third", "", 3, 100, {}, ""},
      {"depth", KeyType::Length, false, "through", "", 5, 1e5, {"through"}, ""},
      {"haunch", KeyType::Flag, false, "none", "", 5, 60, {"sloping", "length"}, ""},
      {"proud", KeyType::Flag, false, "true", "", 0, 0, {}, ""},
      {"fixing", KeyType::Word, false, "glued", "", 0, 0, {"wedged", "draw-bored", "glued"}, ""},
      {"wedge_slope", KeyType::Slope, false, "1:8", "", 0, 0, {}, ""},
      {"pins", KeyType::Whole, false, "1", "", 1, 4, {}, ""},
      {"part", KeyType::Number, false, "0.5", "", 0, 1, {}, ""},
      {"note", KeyType::Word, false, "", "", 0, 0, {}, ""},
  };
  KindSpec panel;
  panel.name = "panel-in-frame";
  panel.keys = {
      {"panel", KeyType::Member, true, "", "", 0, 0, {}, ""},
      {"frame", KeyType::Members, true, "", "the members round it", 0, 0, {}, ""},
  };
  return {tenon, panel};
}

}  // namespace dryfit::testing
