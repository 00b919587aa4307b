#include "ui/controls.h"

#include <imgui/imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "base/require.h"
#include "scene/embedded.h"

namespace dryfit::ui {

namespace {

using scene::Colour;
using scene::Face;
using scene::rgb;

/// Sizes of lettering in the design, by face; others are scaled from the next larger one.
const std::map<Face, std::vector<double>>& sizesUsed() {
  static const std::map<Face, std::vector<double>> sizes = {{Face::Text, {15, 16, 17, 18}},
                                                            {Face::TextStrong, {15, 16, 17, 18, 26}},
                                                            {Face::Lettering, {16, 19, 26, 56}}};
  return sizes;
}

ImU32 packed(Colour c) {
  return ImGui::ColorConvertFloat4ToU32({static_cast<float>(c.red), static_cast<float>(c.green),
                                         static_cast<float>(c.blue), static_cast<float>(c.alpha)});
}
ImVec2 at(Vec2 p) {
  return {static_cast<float>(p.x), static_cast<float>(p.y)};
}
ImDrawList& list() {
  return *ImGui::GetBackgroundDrawList();
}
ImVec2 highOf(const Rect& r) {
  return at({r.right(), r.bottom()});
}

std::string_view fontOf(Face face) {
  switch (face) {
    case Face::Text:
      return scene::embedded("assets/fonts/Inter-Regular.otf");
    case Face::TextStrong:
      return scene::embedded("assets/fonts/Inter-SemiBold.otf");
    case Face::Lettering:
      break;
  }
  return scene::embedded("assets/fonts/osifont.ttf");
}

/// The toolkit takes a size from the top of the tallest letter's line to its foot; the design's are of the
/// em. From the font's own tables (OpenType: head, hhea).
double lineOverEm(std::string_view font) {
  const auto u16 = [&](size_t at) {
    return static_cast<unsigned char>(font[at]) << 8 | static_cast<unsigned char>(font[at + 1]);
  };
  const auto s16 = [&](size_t at) { return static_cast<double>(static_cast<std::int16_t>(u16(at))); };
  double unitsPerEm = 1, line = 1;
  for (int i = 0; i < u16(4); ++i) {
    const size_t row = 12 + 16 * static_cast<size_t>(i);
    const size_t table = static_cast<size_t>(u16(row + 8)) << 16 | static_cast<size_t>(u16(row + 10));
    const std::string_view tag = font.substr(row, 4);
    if (tag == "head") unitsPerEm = s16(table + 18);
    if (tag == "hhea") line = s16(table + 4) - s16(table + 6);
  }
  return line / unitsPerEm;
}

/// Everything a file in a European language can hold, and the signs the program writes.
const ImWchar* glyphRanges() {
  static const ImWchar ranges[] = {0x20,   0x17F,  0x2010, 0x2027, 0x2030, 0x203A, 0x20AC, 0x20AC,
                                   0x2190, 0x2193, 0x2248, 0x2248, 0x2300, 0x2300, 0};
  return ranges;
}

}  // namespace

const Sheet& sheetOf(scene::Ground ground) {
  static const Sheet paper = {rgb(0x8A8377), rgb(0xCFC8BA), rgb(0xFCFAF5), rgb(0xFAF8F2),
                              rgb(0xDDBB88), rgb(0x0072B2), rgb(0xD55E00)};
  static const Sheet slate = {rgb(0x8F989C), rgb(0x465056), rgb(0x283037), rgb(0x2C343A),
                              rgb(0x9A784C), rgb(0x0072B2), rgb(0xD55E00)};
  return ground == scene::Ground::Paper ? paper : slate;
}

struct Controls::Fonts {
  double text = 0;
  std::map<std::pair<Face, int>, ImFont*> baked;
  std::map<Face, double> lineOverEm;

  ImFont* of(Face face, double design) const {
    for (const double size : sizesUsed().at(face))
      if (size >= design - 1e-6) return baked.at({face, static_cast<int>(size)});
    return baked.at({face, static_cast<int>(sizesUsed().at(face).back())});
  }
};

Controls::Controls() : fonts_(std::make_unique<Fonts>()) {}
Controls::~Controls() = default;

void Controls::setText(double text) {
  if (fonts_->text == text) return;
  fonts_->text = text;
  fonts_->baked.clear();
  for (const auto& [face, sizes] : sizesUsed()) fonts_->lineOverEm[face] = lineOverEm(fontOf(face));
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  atlas.Clear();
  for (const auto& [face, sizes] : sizesUsed())
    for (const double size : sizes) {
      const std::string_view file = fontOf(face);
      REQUIRE(!file.empty());
      ImFontConfig config;
      config.FontDataOwnedByAtlas = false;
      config.OversampleH = 2;
      config.OversampleV = 1;
      fonts_->baked[{face, static_cast<int>(size)}] = atlas.AddFontFromMemoryTTF(
          const_cast<char*>(file.data()), static_cast<int>(file.size()),
          static_cast<float>(size * text * fonts_->lineOverEm.at(face)), &config, glyphRanges());
    }
  atlas.Build();
}

void Controls::begin(const Screen& screen, scene::Ground ground) {
  screen_ = screen;
  ground_ = ground;
  before_ = std::move(recorded_);
  recorded_.clear();
  taken_ = false;
  if (!ImGui::GetIO().MouseDown[0]) holding_.clear();
}

Vec2 Controls::pointer() const {
  const ImVec2 p = ImGui::GetIO().MousePos;
  const ImVec2 scale = ImGui::GetIO().DisplayFramebufferScale;
  return {p.x * scale.x, p.y * scale.y};
}

bool Controls::hot(const Rect& r) const {
  return r.has(pointer());
}

void Controls::record(const std::string& label, const Rect& r, bool on) {
  recorded_.push_back({label, r, on});
  if (hot(r)) taken_ = true;
  if (focus_ == label) frame(r.grown(3 * u()), sheet().chosen, 2 * u(), 3 * u());
}

bool Controls::pressed(const Rect& r, const std::string& label, bool on) {
  record(label, r, on);
  if (focus_ == label && std::exchange(pressFocused_, false)) return true;
  return hot(r) && ImGui::IsMouseClicked(0);
}

void Controls::focusNext(int by) {
  if (before_.empty() && recorded_.empty()) return;
  const auto& all = recorded_.empty() ? before_ : recorded_;
  int place = by > 0 ? -1 : static_cast<int>(all.size());
  for (size_t i = 0; i < all.size(); ++i)
    if (all[i].label == focus_) place = static_cast<int>(i);
  const int count = static_cast<int>(all.size());
  focus_ = all[static_cast<size_t>((place + by + count) % count)].label;
}

void Controls::fill(const Rect& r, Colour c, double round) {
  list().AddRectFilled(at({r.x, r.y}), highOf(r), packed(c), static_cast<float>(round));
}
void Controls::frame(const Rect& r, Colour c, double width, double round) {
  list().AddRect(at({r.x, r.y}), highOf(r), packed(c), static_cast<float>(round), 0,
                 static_cast<float>(width));
}
void Controls::line(Vec2 a, Vec2 b, Colour c, double width) {
  list().AddLine(at(a), at(b), packed(c), static_cast<float>(width));
}
void Controls::shape(const std::vector<Vec2>& points, Colour c) {
  std::vector<ImVec2> all;
  for (const Vec2 p : points) all.push_back(at(p));
  list().AddConvexPolyFilled(all.data(), static_cast<int>(all.size()), packed(c));
}

double Controls::widthOf(const std::string& words, Face face, double design) const {
  const ImFont* font = fonts_->of(face, design);
  const double size = design * screen_.text * fonts_->lineOverEm.at(face);
  return font->CalcTextSizeA(static_cast<float>(size), 1e9f, 0, words.c_str()).x;
}

double Controls::text(Vec2 place, const std::string& words, Face face, double design, Colour c, Align align) {
  ImFont* font = fonts_->of(face, design);
  const double size = design * screen_.text * fonts_->lineOverEm.at(face),
               width = widthOf(words, face, design);
  if (align == Align::Middle) place.x -= width / 2;
  if (align == Align::Right) place.x -= width;
  const double ascent = font->Ascent * size / font->FontSize;
  list().AddText(font, static_cast<float>(size), at({std::round(place.x), std::round(place.y - ascent)}),
                 packed(c), words.c_str());
  return width;
}

std::vector<std::string> Controls::lines(const std::string& words, Face face, double design,
                                         double width) const {
  std::vector<std::string> out;
  std::string line;
  for (size_t i = 0; i <= words.size();) {
    const size_t end = std::min(words.find(' ', i), words.size());
    const std::string word = words.substr(i, end - i), longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && widthOf(longer, face, design) > width) {
      out.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    i = end + 1;
  }
  if (!line.empty()) out.push_back(line);
  return out;
}

std::string Controls::cutOff(const std::string& words, Face face, double design, double width) const {
  if (widthOf(words, face, design) <= width) return words;
  std::string cut = words;
  const auto isRest = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; };  // UTF-8
  while (!cut.empty() && widthOf(cut + "\u2026", face, design) > width) {
    while (cut.size() > 1 && isRest(cut.back())) cut.pop_back();
    cut.pop_back();
  }
  return cut + "\u2026";
}

void Controls::pencilUnder(Vec2 from, double width, const std::string& seed) {
  std::uint32_t hash = 2166136261u;
  for (const char c : seed) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
  const auto wobble = [&] {
    hash = hash * 1664525u + 1013904223u;
    return ((hash >> 16 & 255) / 255.0 * 2 - 1) * u();
  };
  for (const double down : {0.0, 2.2}) {
    constexpr int kParts = 5;
    Vec2 last{from.x - 5 * u(), from.y + down * u() + wobble()};
    for (int i = 1; i <= kParts; ++i) {
      const Vec2 next{from.x - 5 * u() + (width + 10 * u()) * i / kParts, from.y + down * u() + wobble()};
      line(last, next, colours().ink, 2 * u());
      last = next;
    }
  }
}

double Controls::wordWidth(const std::string& label, double design, bool on) const {
  return widthOf(label, on ? Face::TextStrong : Face::Text, design);
}

scene::Colour Controls::wordColour(const Rect& r, bool on) const {
  return on || hot(r) ? colours().ink : colours().soft;
}

bool Controls::word(Vec2 place, const std::string& label, double design, bool on, bool pencil) {
  const Face face = on ? Face::TextStrong : Face::Text;
  const double width = widthOf(label, face, design), high = t(design);
  const Rect r{place.x - 6 * u(), place.y - 1.3 * high, width + 12 * u(), 1.9 * high};
  text(place, label, face, design, wordColour(r, on));
  if (on && pencil) pencilUnder({place.x, place.y + 0.55 * high}, width, label);
  if (on && !pencil)
    line({place.x, place.y + 0.45 * high}, {place.x + width, place.y + 0.45 * high}, sheet().chosen, 2 * u());
  return pressed(r, label, on);
}

bool Controls::lozenge(Vec2 place, const std::string& label, bool on) {
  const double side = t(7), y = place.y - t(5.5);
  const std::vector<Vec2> points = {
      {place.x, y}, {place.x + side, y - side}, {place.x + 2 * side, y}, {place.x + side, y + side}};
  if (on) {
    shape(points, sheet().chosen);
  } else {
    for (size_t i = 0; i < 4; ++i) line(points[i], points[(i + 1) % 4], colours().soft, 1.1 * u());
  }
  const Vec2 words{place.x + 2 * side + t(7), place.y};
  const Face face = on ? Face::TextStrong : Face::Text;
  const double width = widthOf(label, face, 16);
  const Rect r{place.x - 4 * u(), place.y - t(22), words.x + width - place.x + 8 * u(), t(34)};
  text(words, label, face, 16, wordColour(r, on));
  if (on) line({words.x, place.y + t(7)}, {words.x + width, place.y + t(7)}, sheet().chosen, 2 * u());
  return pressed(r, label, on);
}

bool Controls::button(const Rect& r, const std::string& label, bool main) {
  const bool down = hot(r) && ImGui::GetIO().MouseDown[0];
  const double shift = down ? u() : 0;
  const Rect face{r.x + shift, r.y + shift, r.width, r.height};
  fill(face, hot(r) ? colours().ground : sheet().sheet, 3 * u());
  frame(face, colours().ink, (main ? 1.8 : 1.1) * u(), 3 * u());
  text({face.middle().x, face.middle().y + t(5.5)}, label, Face::TextStrong, 16, colours().ink,
       Align::Middle);
  return pressed(r, label, false);
}

std::optional<double> Controls::slider(const Rect& r, const std::string& label, double share, bool off) {
  const double base = r.y + r.height * 0.42;
  const Colour scale = sheet().pencil;
  line({r.x, base}, {r.right(), base}, scale, 1.1 * u());
  for (int i = 0; i <= 10; ++i) {
    const double x = r.x + r.width * i / 10, high = (i % 5 ? 5 : 8) * u();
    line({x, base - high}, {x, base}, scale, u());
  }
  const double x = r.x + share * r.width, w = 6.5 * u(), h = 11 * u();
  if (!off && share > 0) line({r.x, base}, {x, base}, colours().ink, 2.4 * u());
  const std::vector<Vec2> marker = {{x, base}, {x + w, base + h}, {x - w, base + h}};
  const Rect reach{r.x - 10 * u(), r.y - 6 * u(), r.width + 20 * u(), r.height + 12 * u()};
  const bool filled = !off && (share > 0 || hot(reach) || holding_ == label);
  if (filled) {
    shape(marker, colours().ink);
  } else {
    shape(marker, colours().ground);
    for (size_t i = 0; i < 3; ++i) line(marker[i], marker[(i + 1) % 3], colours().ink, 1.1 * u());
  }
  const auto place = held(reach, label);
  if (!place) return {};
  return std::clamp((place->x - r.x) / r.width, 0.0, 1.0);
}

std::optional<Vec2> Controls::held(const Rect& r, const std::string& label, bool* released) {
  record(label, r, false);
  if (hot(r) && ImGui::IsMouseClicked(0) && holding_.empty()) holding_ = label;
  if (holding_ == label) return pointer();
  if (released) *released = false;
  return {};
}

}  // namespace dryfit::ui
