// The parts of the window. Each draws itself and adds what was done to it.
#pragma once

#include <vector>

#include "ui/card_text.h"
#include "ui/controls.h"
#include "ui/screen.h"
#include "ui/state.h"

namespace dryfit::ui {

struct Seen {  ///< what the parts are drawn from
  const Screen& screen;
  const State& state;
  const Model* model;  ///< null before the first has come
};

void drawTopLine(Controls& controls, const Seen& seen, std::vector<Input>& out);
void drawViews(Controls& controls, const Seen& seen, std::vector<Input>& out);
void drawLooks(Controls& controls, const Seen& seen, std::vector<Input>& out);
void drawCard(Controls& controls, const Seen& seen, std::vector<Input>& out);
void drawStrip(Controls& controls, const Seen& seen, std::vector<Input>& out);
void drawHelp(Controls& controls, const Seen& seen, std::vector<Input>& out);

}  // namespace dryfit::ui
