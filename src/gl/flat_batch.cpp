#include "gl/flat_batch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace dryfit::gl {

namespace {

using scene::Colour;

enum class Kind { Fill, Line, Dot, Letter };

struct Corner {
  Vec2 at, place;
};

class Builder {
 public:
  Builder(const scene::Lettering& lettering, LetterSheet& sheet) : lettering_(lettering), sheet_(sheet) {}
  std::vector<FlatVertex> out;

  void operator()(const scene::Fill& f) {
    for (size_t i = 2; i < f.points.size(); ++i)
      triangle({f.points[0], {}}, {f.points[i - 1], {}}, {f.points[i], {}}, f.colour, Kind::Fill, 0);
  }
  void operator()(const scene::Dot& d) {
    const double r = d.radiusPx + 1;
    quad({{{d.at + Vec2{-r, -r}, {-r, -r}},
           {d.at + Vec2{r, -r}, {r, -r}},
           {d.at + Vec2{r, r}, {r, r}},
           {d.at + Vec2{-r, r}, {-r, r}}}},
         d.colour, Kind::Dot, d.radiusPx);
  }
  void operator()(const scene::Stroke& s) {
    const size_t count = s.points.size();
    double run = 0;
    for (size_t i = 0; i + 1 < count + (s.closed ? 1 : 0); ++i) {
      const Vec2 a = s.points[i], b = s.points[(i + 1) % count];
      dashes(s, a, b, run);
      run += length(b - a);
    }
  }
  void operator()(const scene::Text& t) {
    if (t.haloPx > 0)
      for (int k = 0; k < 8; ++k) {
        const double turn = k * std::numbers::pi / 4;
        letters(t, Vec2{std::cos(turn), std::sin(turn)} * t.haloPx, t.halo);
      }
    letters(t, {}, t.colour);
  }

 private:
  void vertex(const Corner& c, Colour ink, Kind kind, double size) {
    const auto f = [](double v) { return static_cast<float>(v); };
    out.push_back({{f(c.at.x), f(c.at.y)},
                   {f(c.place.x), f(c.place.y)},
                   {f(ink.red), f(ink.green), f(ink.blue), f(ink.alpha)},
                   {static_cast<float>(kind), f(size)}});
  }
  void triangle(const Corner& a, const Corner& b, const Corner& c, Colour ink, Kind kind, double size) {
    for (const Corner* corner : {&a, &b, &c}) vertex(*corner, ink, kind, size);
  }
  void quad(const std::array<Corner, 4>& c, Colour ink, Kind kind, double size) {
    triangle(c[0], c[1], c[2], ink, kind, size);
    triangle(c[0], c[2], c[3], ink, kind, size);
  }

  void segment(Vec2 a, Vec2 b, double width, Colour ink) {
    const double run = length(b - a);
    if (run <= 0) return;
    const Vec2 way = (b - a) * (1 / run), side{-way.y, way.x};
    const double half = width / 2, reach = half + 1;
    const Vec2 from = a - way * half, to = b + way * half;  // so that bends close
    quad({{{from - side * reach, {0, -reach}},
           {to - side * reach, {0, -reach}},
           {to + side * reach, {0, reach}},
           {from + side * reach, {0, reach}}}},
         ink, Kind::Line, half);
  }
  void dashes(const scene::Stroke& s, Vec2 a, Vec2 b, double run) {
    const double whole = length(b - a), period = s.dashPx + s.gapPx;
    if (s.gapPx <= 0 || whole <= 0) return segment(a, b, s.widthPx, s.colour);
    const Vec2 way = (b - a) * (1 / whole);
    for (double at = -std::fmod(run, period); at < whole; at += period) {
      const double from = std::max(0.0, at), to = std::min(whole, at + s.dashPx);
      if (to > from) segment(a + way * from, a + way * to, s.widthPx, s.colour);
    }
  }

  void letters(const scene::Text& t, Vec2 off, Colour ink) {
    const Vec2 along{std::cos(t.angleRad), -std::sin(t.angleRad)}, down{-along.y, along.x};
    const bool level = t.angleRad == 0;  // whole pixels keep level letters sharp
    Vec2 start = t.at;
    if (level) start = {std::round(start.x), std::round(start.y)};
    for (const auto& letter : lettering_.laid(t.text, t.face, t.sizePx)) {
      const scene::Glyph& g = *letter.glyph;
      if (g.width == 0 || g.height == 0) continue;
      const auto spot = sheet_.place(letter);
      const double pen = level ? std::round(letter.penX) : letter.penX;
      const Vec2 corner = start + off + along * (pen + g.left) + down * g.top;
      const Vec2 across = along * g.width, below = down * g.height;
      const double x = spot.x, y = spot.y;
      quad({{{corner, {x, y}},
             {corner + across, {x + g.width, y}},
             {corner + across + below, {x + g.width, y + g.height}},
             {corner + below, {x, y + g.height}}}},
           ink, Kind::Letter, 0);
    }
  }

  const scene::Lettering& lettering_;
  LetterSheet& sheet_;
};

void attribute(GLuint place, int size, size_t offset) {
  glEnableVertexAttribArray(place);
  glVertexAttribPointer(place, size, GL_FLOAT, GL_FALSE, sizeof(FlatVertex),
                        reinterpret_cast<const void*>(offset));
}

}  // namespace

LetterSheet::Spot LetterSheet::place(const scene::Lettering::Placed& letter) {
  const auto known = known_.find(letter.key);
  if (known != known_.end()) return known->second;
  const scene::Glyph& g = *letter.glyph;
  constexpr int kGap = 2;  // so that turned letters do not catch their neighbours
  if (penX_ + g.width + kGap > kWidth) {
    penX_ = 1;
    rowTop_ += rowHeight_ + kGap;
    rowHeight_ = 0;
  }
  rowHeight_ = std::max(rowHeight_, g.height);
  texels_.resize(static_cast<size_t>(kWidth) * static_cast<size_t>(height() + kGap));
  for (int y = 0; y < g.height; ++y)
    std::copy_n(g.coverage.begin() + static_cast<std::ptrdiff_t>(y) * g.width, g.width,
                texels_.begin() + static_cast<std::ptrdiff_t>(rowTop_ + y) * kWidth + penX_);
  const Spot spot{penX_, rowTop_};
  penX_ += g.width + kGap;
  return known_[letter.key] = spot;
}

std::vector<FlatVertex> flatVertices(const scene::Overlay& overlay, const scene::Lettering& lettering,
                                     LetterSheet& sheet) {
  Builder builder(lettering, sheet);
  for (const scene::OverlayMark& mark : overlay.marks) std::visit(builder, mark);
  return std::move(builder.out);
}

FlatBatch::FlatBatch() : buffer_(Buffer::make()), array_(VertexArray::make()), letters_(Texture::make()) {}

void FlatBatch::draw(const scene::Overlay& overlay, const scene::Lettering& lettering, int letterUnit) {
  LetterSheet sheet;
  const std::vector<FlatVertex> vertices = flatVertices(overlay, lettering, sheet);
  if (vertices.empty()) return;
  glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(letterUnit));
  glBindTexture(GL_TEXTURE_2D, letters_.name());
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, LetterSheet::kWidth,
               static_cast<GLsizei>(sheet.texels().size() / LetterSheet::kWidth), 0, GL_RED, GL_UNSIGNED_BYTE,
               sheet.texels().data());
  glBindVertexArray(array_.name());
  glBindBuffer(GL_ARRAY_BUFFER, buffer_.name());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(vertices.size() * sizeof(FlatVertex)),
               vertices.data(), GL_DYNAMIC_DRAW);
  attribute(0, 2, offsetof(FlatVertex, at));
  attribute(1, 2, offsetof(FlatVertex, place));
  attribute(2, 4, offsetof(FlatVertex, ink));
  attribute(3, 2, offsetof(FlatVertex, kind));
  glDrawArrays(GL_TRIANGLES, 0, static_cast<GLsizei>(vertices.size()));
}

}  // namespace dryfit::gl
