#include "base/text.h"
#include "ui/parts.h"

namespace dryfit::ui {

namespace {

constexpr double kSize = 18, kViewSize = 16;

struct Word {
  const char* label;
  bool on;
  Deed deed;
};

/// From the right edge to the left.
void fromRight(Controls& c, double right, double baseline, double size, const std::vector<Word>& words,
               bool pencil, std::vector<Input>& out) {
  for (size_t i = words.size(); i-- > 0;) {
    right -= c.wordWidth(words[i].label, size, words[i].on);
    if (c.word({right, baseline}, words[i].label, size, words[i].on, pencil))
      out.push_back(Did{words[i].deed});
    right -= c.t(26);
  }
}

}  // namespace

void drawTopLine(Controls& c, const Seen& seen, std::vector<Input>& out) {
  const Rect& r = seen.screen.topLine;
  const double baseline = r.y + r.height / 2 + c.t(6.5);
  if (seen.model)
    c.text({r.x, baseline}, seen.model->work.title, scene::Face::TextStrong, kSize, c.colours().ink);
  const double middle = r.middle().x, width = c.wordWidth("Follow", kSize, true);
  c.word({middle - width / 2, baseline}, "Follow", kSize, true, true);
  const bool paper = seen.state.ground == scene::Ground::Paper;
  fromRight(c, r.right(), baseline, kSize,
            {{"Paper", paper, Deed::Ground},
             {"Slate", !paper, Deed::Ground},
             {"Help", seen.state.help, Deed::Help}},
            false, out);
}

void drawViews(Controls& c, const Seen& seen, std::vector<Input>& out) {
  if (seen.screen.pictureOnly) return;
  const Rect& r = seen.screen.views;
  const double baseline = r.y + r.height / 2 + c.t(5.5);
  const std::string& view = seen.state.eye.view;
  const std::vector<Word> words = {{"front", view == "front", Deed::Front},
                                   {"back", view == "back", Deed::BackView},
                                   {"side", view == "side", Deed::Side},
                                   {"plan", view == "plan", Deed::Plan},
                                   {"corner", view == "corner", Deed::Corner}};
  if (seen.screen.narrow && !seen.screen.cardBelow) {
    fromRight(c, r.right(), baseline, kViewSize, words, true, out);
    return;
  }
  double x =
      r.x + c.text({r.x, baseline}, "Look from:", scene::Face::Text, kViewSize, c.colours().soft) + c.t(22);
  for (const Word& w : words) {
    if (c.word({x, baseline}, w.label, kViewSize, w.on, true)) out.push_back(Did{w.deed});
    x += c.wordWidth(w.label, kViewSize, w.on) + c.t(22);
  }
}

}  // namespace dryfit::ui
