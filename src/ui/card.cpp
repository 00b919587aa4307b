#include <algorithm>

#include "scene/names.h"
#include "scene/surface.h"
#include "ui/parts.h"

namespace dryfit::ui {

namespace {

using scene::Face;

constexpr double kBody = 17, kLine = 27, kTitle = 26, kTitleLine = 33, kHeading = 15;
constexpr size_t kMostTextLines = 6;

/// Measures first, then draws with the same calls.
class Card {
 public:
  Card(Controls& c, const Seen& seen, const CardText& text) : c_(c), seen_(seen), text_(text) {
    const double pad = c.t(28);
    left_ = seen.screen.card.x + pad;
    right_ = seen.screen.card.right() - pad;
  }

  void draw() {
    foldWhy_ = foldCare_ = false;
    double height = run(false);
    const double room = seen_.screen.looks.y - seen_.screen.card.y - c_.t(8);
    if (height > room) foldWhy_ = true, height = run(false);
    if (height > room) foldCare_ = true, height = run(false);
    Rect sheet = seen_.screen.card;
    sheet.height = std::min(height, room);
    const scene::Colour shade = scene::rgb(0x3C321E, 0.07), lighter = scene::rgb(0x3C321E, 0.035);
    const double u = c_.u();
    c_.fill({sheet.x + 4 * u, sheet.y + 6 * u, sheet.width, sheet.height}, lighter, 3 * u);
    c_.fill({sheet.x + 2 * u, sheet.y + 3 * u, sheet.width, sheet.height}, shade, 3 * u);
    c_.fill(sheet, c_.sheet().sheet, 3 * u);
    c_.frame(sheet, c_.sheet().hair, u, 3 * u);
    bottom_ = sheet.bottom() - c_.t(8);
    run(true);
  }

 private:
  double run(bool drawing) {
    drawing_ = drawing;
    y_ = seen_.screen.card.y + c_.t(24);
    number();
    title();
    for (const std::string& p : text_.text) paragraph(p, kMostTextLines);
    rows();
    care();
    why();
    next();
    return y_ + c_.t(14) - seen_.screen.card.y;
  }
  bool shown(double height) const { return drawing_ && y_ + height <= bottom_ + c_.t(6); }

  void line(const std::string& words, Face face, double size, scene::Colour colour, double high) {
    if (shown(c_.t(high))) c_.text({left_, y_ + c_.t(high) * 0.72}, words, face, size, colour);
    y_ += c_.t(high);
  }
  void lines(const std::string& words, Face face, double size, scene::Colour colour, double high,
             size_t most) {
    auto all = c_.lines(words, face, size, right_ - left_);
    if (all.size() > most) {
      all.resize(most);
      all.back() += " \u2026";
    }
    for (const std::string& one : all) line(one, face, size, colour, high);
  }
  void rule() {
    if (shown(1)) c_.line({left_, y_}, {right_, y_}, c_.sheet().hair, c_.u());
  }

  void number() {
    if (drawing_) {
      double x = left_;
      if (!text_.number.empty())
        x += c_.text({x, y_ + c_.t(38)}, text_.number, Face::Lettering, 56, c_.colours().ink) + c_.t(12);
      c_.text({x, y_ + c_.t(38)}, c_.cutOff(text_.ofStage, Face::Text, 16, right_ - x), Face::Text, 16,
              c_.colours().soft);
    }
    y_ += c_.t(62);
  }
  void title() {
    lines(text_.title, Face::TextStrong, kTitle, c_.colours().ink, kTitleLine, 3);
    y_ += c_.t(8);
  }
  void paragraph(const std::string& words, size_t most) {
    lines(words, Face::Text, kBody, c_.colours().ink, kLine, most);
    y_ += c_.t(14);
  }
  void heading(const std::string& words) { line(words, Face::TextStrong, kHeading, c_.colours().soft, 24); }

  scene::Colour timberOf(int piece) const {
    const Piece& p = seen_.model->work.pieces[static_cast<size_t>(piece)];
    const scene::Surface s = scene::surfaceOf(p, scene::kindOf(p.name));
    return {0.6 * s.early.red + 0.4 * s.late.red, 0.6 * s.early.green + 0.4 * s.late.green,
            0.6 * s.early.blue + 0.4 * s.late.blue, 1};
  }

  void rows() {
    if (text_.rows.empty()) return;
    heading(text_.rowsTitle);
    for (const CardRow& row : text_.rows) {
      rule();
      const double indent = row.piece >= 0 ? c_.t(40) : 0,
                   figures = c_.widthOf(row.size, Face::Lettering, 19);
      const double room = right_ - left_ - indent;
      const bool below = c_.widthOf(row.name, Face::Text, kBody) + figures + c_.t(12) > room;
      const double high = c_.t(below && !row.size.empty() ? 62 : 38), first = y_ + c_.t(25);
      if (shown(high)) {
        if (row.piece >= 0) {
          const Rect swatch{left_, first - c_.t(13), c_.t(28), c_.t(14)};
          c_.fill(swatch, timberOf(row.piece));
          c_.frame(swatch, c_.colours().ink, c_.u());
        }
        const double ends = below ? room : room - figures - c_.t(12);
        c_.text({left_ + indent, first}, c_.cutOff(row.name, Face::Text, kBody, ends), Face::Text, kBody,
                c_.colours().ink);
        c_.text({right_, below ? first + c_.t(26) : first}, row.size, Face::Lettering, 19, c_.colours().ink,
                Align::Right);
      }
      y_ += high;
    }
    rule();
    y_ += c_.t(18);
  }

  void care() {
    if (text_.care.empty()) return;
    if (foldCare_)
      return line("Take care: read it in the list of steps.", Face::Text, kBody, c_.colours().ink, kLine);
    const double pad = c_.t(14), inset = c_.t(52);
    const std::string words = "Take care. " + text_.care;
    const double left = left_;
    const auto all = [&] { return c_.lines(words, Face::Text, kBody, right_ - pad - left - inset); }();
    const double high = 2 * pad + c_.t(kLine) * static_cast<double>(all.size());
    if (shown(high)) {
      const Rect box{left_, y_, right_ - left_, high};
      c_.frame(box, c_.colours().ink, 1.4 * c_.u(), 2 * c_.u());
      const double x = left_ + c_.t(16), top = y_ + pad + c_.t(3), side = c_.t(22);
      c_.line({x + side / 2, top}, {x + side, top + side * 0.88}, c_.colours().ink, 1.6 * c_.u());
      c_.line({x + side, top + side * 0.88}, {x, top + side * 0.88}, c_.colours().ink, 1.6 * c_.u());
      c_.line({x, top + side * 0.88}, {x + side / 2, top}, c_.colours().ink, 1.6 * c_.u());
      c_.text({x + side / 2, top + side * 0.78}, "!", Face::TextStrong, 15, c_.colours().ink, Align::Middle);
      double y = y_ + pad;
      for (size_t i = 0; i < all.size(); ++i, y += c_.t(kLine)) {
        const std::string head = "Take care.";
        double at = left_ + inset;
        std::string rest = all[i];
        if (i == 0 && rest.rfind(head, 0) == 0) {
          at += c_.text({at, y + c_.t(19)}, head + " ", Face::TextStrong, kBody, c_.colours().ink);
          rest = rest.size() > head.size() ? rest.substr(head.size() + 1) : "";
        }
        c_.text({at, y + c_.t(19)}, rest, Face::Text, kBody, c_.colours().ink);
      }
    }
    y_ += high + c_.t(18);
  }

  void why() {
    if (text_.why.empty()) return;
    heading(text_.whyTitle);
    lines(text_.why, Face::Text, kBody, c_.colours().ink, kLine, foldWhy_ ? 2 : 9);
    y_ += c_.t(14);
  }

  void next() {
    if (text_.next.empty()) return;
    rule();
    y_ += c_.t(10);
    if (shown(c_.t(kLine))) {
      const double width =
          c_.text({left_, y_ + c_.t(19)}, "Next", Face::Text, kBody, c_.colours().soft) + c_.t(12);
      c_.text({left_ + width, y_ + c_.t(19)},
              c_.cutOff(text_.next, Face::Text, kBody, right_ - left_ - width), Face::Text, kBody,
              c_.colours().ink);
    }
    y_ += c_.t(kLine);
  }

  Controls& c_;
  const Seen& seen_;
  const CardText& text_;
  double left_, right_, y_ = 0, bottom_ = 1e9;
  bool drawing_ = false, foldWhy_ = false, foldCare_ = false;
};

/// One line: number and title.
void drawFolded(Controls& c, const Rect& r, const CardText& text) {
  c.fill(r, c.sheet().sheet, 3 * c.u());
  c.frame(r, c.sheet().hair, c.u(), 3 * c.u());
  double x = r.x + c.t(16);
  const double baseline = r.middle().y + c.t(7);
  x += c.text({x, baseline}, text.number, Face::Lettering, 26, c.colours().ink) + c.t(14);
  c.text({x, baseline - c.t(1)}, c.cutOff(text.title, Face::TextStrong, kBody, r.right() - x - c.t(16)),
         Face::TextStrong, kBody, c.colours().ink);
}

CardText faultCard(const std::vector<std::string>& lines) {
  CardText card;
  card.ofStage = "The file is not as it should be";
  card.title = "This cannot be shown";
  card.text = lines;
  return card;
}

}  // namespace

void drawCard(Controls& controls, const Seen& seen, std::vector<Input>&) {
  if (seen.screen.pictureOnly) return;
  CardText text;
  if (!seen.state.message.empty())
    text = faultCard(seen.state.message);
  else if (seen.model)
    text = cardOf(*seen.model, seen.state);
  else
    return;
  if (seen.screen.cardBelow) return drawFolded(controls, seen.screen.card, text);
  if (seen.state.spread > 0 && !seen.state.chosen && seen.state.message.empty()) {
    Rect r = seen.screen.card;
    r.height = controls.t(56);
    text.title = "Apart, each piece along its own way";
    return drawFolded(controls, r, text);
  }
  Card(controls, seen, text).draw();
}

}  // namespace dryfit::ui
