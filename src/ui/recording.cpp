#include "ui/recording.h"

#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>

namespace dryfit::ui {

void record(const std::string& path, const State& state, const Model* model,
            const std::vector<Recorded>& controls, bool still, const std::vector<double>& frameMs) {
  using Json = nlohmann::ordered_json;
  Json all = Json::array();
  for (const Recorded& c : controls)
    all.push_back({{"label", c.label},
                   {"x", c.rect.x},
                   {"y", c.rect.y},
                   {"width", c.rect.width},
                   {"height", c.rect.height},
                   {"on", c.on}});
  Json out = {
      {"title", model ? model->work.title : ""},
      {"steps", model ? model->steps() : 0},
      {"at", state.at},
      {"running", state.running},
      {"view", state.eye.view},
      {"azimuth_deg", state.eye.azimuthDeg},
      {"elevation_deg", state.eye.elevationDeg},
      {"nearer", state.eye.nearer},
      {"spread", state.spread},
      {"section", state.section.way ? Json(static_cast<int>(*state.section.way)) : Json()},
      {"section_at", state.section.at},
      {"see_through", state.seeThrough},
      {"joint_only", state.jointOnly},
      {"sizes", state.sizes},
      {"chosen",
       state.chosen && model ? Json(model->work.pieces[static_cast<size_t>(*state.chosen)].id) : Json()},
      {"hidden", state.hidden},
      {"slate", state.ground == scene::Ground::Slate},
      {"inch", state.unit == LengthUnit::Inch},
      {"text_scale", state.textScale},
      {"help", state.help},
      {"message", state.message},
      {"still", still},
      {"frame_ms", frameMs},
      {"controls", std::move(all)}};
  const std::string beside = path + ".tmp";
  {
    std::ofstream file(beside, std::ios::binary);
    file << out.dump();
  }
  std::rename(beside.c_str(), path.c_str());
}

}  // namespace dryfit::ui
