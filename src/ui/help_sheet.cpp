#include "ui/parts.h"

namespace dryfit::ui {

namespace {

using scene::Face;

struct KeyLine {
  const char* keys;
  const char* what;
};
constexpr KeyLine kKeys[] = {{"Right, Space, Page Down", "forward a step"},
                             {"Left, Backspace, Page Up", "back a step"},
                             {"Home, End", "first, last step"},
                             {"R", "run or stop"},
                             {"S", "spread, or home again"},
                             {"C", "section, or none"},
                             {"G", "see through"},
                             {"A", "joint only"},
                             {"Z", "sizes"},
                             {"F  K  D  P  B", "look from front, corner, side, plan, back"},
                             {"H, J", "hide what is chosen, show all"},
                             {"Arrow keys with Shift", "turn"},
                             {"+ and -", "nearer, further"},
                             {"T", "paper or slate"},
                             {"I", "millimetres or inches"},
                             {"[ and ]", "smaller, larger text"},
                             {"Tab, Enter", "go round the words and press them"},
                             {"Esc", "put the last thing away"},
                             {"F1", "this sheet"}};

}  // namespace

void drawHelp(Controls& c, const Seen& seen, std::vector<Input>& out) {
  if (!seen.state.help) return;
  const double line = c.t(29), pad = c.t(28), wide = c.t(680);
  const double tall = 2 * pad + c.t(48) + line * static_cast<double>(std::size(kKeys));
  const Rect r{(seen.screen.width - wide) / 2, std::max(c.t(8), (seen.screen.height - tall) / 2), wide, tall};
  c.fill({r.x + 4 * c.u(), r.y + 6 * c.u(), r.width, r.height}, scene::rgb(0x3C321E, 0.1), 3 * c.u());
  c.fill(r, c.sheet().sheet, 3 * c.u());
  c.frame(r, c.sheet().hair, c.u(), 3 * c.u());
  c.text({r.x + pad, r.y + pad + c.t(22)}, "Keys", Face::TextStrong, 26, c.colours().ink);
  if (c.word({r.right() - pad - c.wordWidth("Close", 16, false), r.y + pad + c.t(18)}, "Close", 16, false,
             false))
    out.push_back(Did{Deed::Help});
  double y = r.y + pad + c.t(68);
  for (const KeyLine& key : kKeys) {
    c.text({r.x + pad, y}, key.keys, Face::TextStrong, 16, c.colours().ink);
    c.text({r.x + pad + c.t(260), y}, key.what, Face::Text, 16, c.colours().ink);
    y += line;
  }
}

}  // namespace dryfit::ui
