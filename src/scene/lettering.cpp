#include "scene/lettering.h"

#include <ft2build.h>
#include FT_FREETYPE_H

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>
#include <tuple>

#include "scene/embedded.h"

namespace dryfit::scene {
namespace {

constexpr std::array<const char*, 3> fontFiles = {
    "assets/fonts/Inter-Regular.otf", "assets/fonts/Inter-SemiBold.otf", "assets/fonts/osifont.ttf"};
/// What stands highest and hangs lowest in texts of the house; brackets and the like may reach further.
constexpr std::string_view commonSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,%";

Diagnostic fontFault(const std::string& name) {
  return {Fault::SystemFault, name, "the font built into the program cannot be read", "", {}};
}

/// Code points; a byte that is no UTF-8 stands for itself as U+FFFD, so that it is seen as missing.
std::vector<std::uint32_t> codePoints(const std::string& utf8) {
  std::vector<std::uint32_t> points;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto lead = static_cast<unsigned char>(utf8[i++]);
    const int more = lead < 0x80   ? 0
                     : lead < 0xC2 ? -1
                     : lead < 0xE0 ? 1
                     : lead < 0xF0 ? 2
                     : lead < 0xF5 ? 3
                                   : -1;
    std::uint32_t point = more <= 0 ? lead : lead & (0x3Fu >> more);
    bool good = more >= 0;
    for (int k = 0; good && k < more; ++k) {
      good = i < utf8.size() && (static_cast<unsigned char>(utf8[i]) & 0xC0) == 0x80;
      if (good) point = (point << 6) | (static_cast<unsigned char>(utf8[i++]) & 0x3Fu);
    }
    points.push_back(good ? point : 0xFFFDu);
  }
  return points;
}

struct Extent {
  double ascent = 0, descent = 0;  ///< parts of the em
};

}  // namespace

struct Lettering::Fonts {
  FT_Library library = nullptr;
  std::array<FT_Face, fontFiles.size()> faces{};
  std::array<Extent, fontFiles.size()> extents{};
  struct Baked {
    std::shared_ptr<const Glyph> glyph;
    std::uint32_t key = 0;
  };
  std::map<std::tuple<std::size_t, FT_F26Dot6, FT_UInt>, Baked> baked;

  Fonts() = default;
  Fonts(const Fonts&) = delete;
  ~Fonts() {
    for (const FT_Face face : faces)
      if (face) FT_Done_Face(face);
    if (library) FT_Done_FreeType(library);
  }
  Extent extentOf(FT_Face face) const;
  FT_Face sized(std::size_t font, FT_F26Dot6 size) const;
  const Baked& bake(std::size_t font, FT_F26Dot6 size, FT_UInt index);
};

Extent Lettering::Fonts::extentOf(FT_Face face) const {
  Extent extent;
  const double unit = 1.0 / face->units_per_EM;
  for (const char sign : commonSigns) {
    const FT_UInt index = FT_Get_Char_Index(face, static_cast<FT_ULong>(sign));
    if (FT_Load_Glyph(face, index, FT_LOAD_NO_SCALE)) continue;
    const FT_Glyph_Metrics& metrics = face->glyph->metrics;
    extent.ascent = std::max(extent.ascent, static_cast<double>(metrics.horiBearingY) * unit);
    extent.descent =
        std::max(extent.descent, static_cast<double>(metrics.height - metrics.horiBearingY) * unit);
  }
  return extent;
}

FT_Face Lettering::Fonts::sized(std::size_t font, FT_F26Dot6 size) const {
  FT_Set_Char_Size(faces[font], 0, size, 72, 72);
  return faces[font];
}

const Lettering::Fonts::Baked& Lettering::Fonts::bake(std::size_t font, FT_F26Dot6 size, FT_UInt index) {
  const auto [place, isNew] = baked.try_emplace({font, size, index});
  if (!isNew) return place->second;
  const FT_Face face = sized(font, size);
  auto glyph = std::make_shared<Glyph>();
  // Hinting is left out: letters are placed between pixels and turned, and must be as wide at every size.
  if (!FT_Load_Glyph(face, index, FT_LOAD_NO_HINTING | FT_LOAD_NO_BITMAP | FT_LOAD_RENDER)) {
    const FT_GlyphSlot slot = face->glyph;
    glyph->width = static_cast<int>(slot->bitmap.width);
    glyph->height = static_cast<int>(slot->bitmap.rows);
    glyph->left = slot->bitmap_left;
    glyph->top = -slot->bitmap_top;
    glyph->advance = static_cast<double>(slot->linearHoriAdvance) / 65536;
    for (int row = 0; row < glyph->height; ++row) {
      const unsigned char* from = slot->bitmap.buffer + row * slot->bitmap.pitch;
      glyph->coverage.insert(glyph->coverage.end(), from, from + glyph->width);
    }
  }
  place->second = {std::move(glyph), static_cast<std::uint32_t>(baked.size())};
  return place->second;
}

Result<Lettering> Lettering::load() {
  auto fonts = std::make_unique<Fonts>();
  if (FT_Init_FreeType(&fonts->library)) return fontFault("fonts");
  for (std::size_t i = 0; i < fontFiles.size(); ++i) {
    const std::string_view file = embedded(fontFiles[i]);
    if (FT_New_Memory_Face(fonts->library, reinterpret_cast<const FT_Byte*>(file.data()),
                           static_cast<FT_Long>(file.size()), 0, &fonts->faces[i]))
      return fontFault(fontFiles[i]);
    fonts->extents[i] = fonts->extentOf(fonts->faces[i]);
  }
  return Lettering(std::move(fonts));
}

Lettering::Lettering(std::unique_ptr<Fonts> fonts) : fonts_(std::move(fonts)) {}
Lettering::Lettering(Lettering&&) noexcept = default;
Lettering& Lettering::operator=(Lettering&&) noexcept = default;
Lettering::~Lettering() = default;

std::vector<Lettering::Placed> Lettering::laid(const std::string& utf8, Face face, double sizePx) const {
  REQUIRE(sizePx > 0);
  const auto font = static_cast<std::size_t>(face);
  const auto size = static_cast<FT_F26Dot6>(std::lround(sizePx * 64));
  std::vector<Placed> placed;
  double pen = 0;
  FT_UInt before = 0;
  for (const std::uint32_t point : codePoints(utf8)) {
    const FT_UInt index = FT_Get_Char_Index(fonts_->faces[font], point);
    const Fonts::Baked& letter = fonts_->bake(font, size, index);
    FT_Vector kern{};
    if (before && index && FT_HAS_KERNING(fonts_->faces[font]))
      FT_Get_Kerning(fonts_->sized(font, size), before, index, FT_KERNING_UNFITTED, &kern);
    pen += static_cast<double>(kern.x) / 64;
    placed.push_back({letter.glyph, pen, letter.key});
    pen += letter.glyph->advance;
    before = index;
  }
  return placed;
}

TextExtent Lettering::measure(const std::string& utf8, Face face, double sizePx) const {
  const std::vector<Placed> letters = laid(utf8, face, sizePx);
  const Extent& extent = fonts_->extents[static_cast<std::size_t>(face)];
  const double width = letters.empty() ? 0 : letters.back().penX + letters.back().glyph->advance;
  return {width, extent.ascent * sizePx, extent.descent * sizePx};
}

}  // namespace dryfit::scene
