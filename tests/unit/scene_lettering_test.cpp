// Lettering against the fonts' own tables, read here by hand (OpenType 1.9: head, hhea, hmtx, cmap format 4).
#include "scene/lettering.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string_view>

#include "scene/embedded.h"

namespace dryfit::scene {
namespace {

/// A font file, big-endian.
struct FontFile {
  std::string_view bytes;
  unsigned u16(std::size_t at) const {
    return static_cast<unsigned char>(bytes[at]) * 256u + static_cast<unsigned char>(bytes[at + 1]);
  }
  std::size_t u32(std::size_t at) const { return u16(at) * 65536u + u16(at + 2); }
  std::size_t table(std::string_view tag) const {
    for (unsigned i = 0; i < u16(4); ++i)
      if (bytes.substr(12 + 16 * i, 4) == tag) return u32(12 + 16 * i + 8);
    ADD_FAILURE() << "no table " << tag;
    return 0;
  }
  unsigned glyphOf(unsigned point) const {
    const std::size_t cmap = table("cmap");
    for (unsigned i = 0; i < u16(cmap + 2); ++i) {
      const std::size_t sub = cmap + u32(cmap + 4 + 8 * i + 4);
      if (u16(sub) != 4) continue;
      const unsigned twice = u16(sub + 6);
      for (unsigned s = 0; s < twice; s += 2) {
        if (point > u16(sub + 14 + s)) continue;
        const std::size_t startAt = sub + 16 + twice + s;
        const unsigned start = u16(startAt), delta = u16(startAt + twice), range = u16(startAt + 2 * twice);
        if (point < start) return 0;
        if (range == 0) return (point + delta) & 0xFFFF;
        return (u16(startAt + 2 * twice + range + 2 * (point - start)) + delta) & 0xFFFF;
      }
    }
    return 0;
  }
  /// Parts of the em.
  double advanceOf(unsigned point) const {
    const unsigned metrics = u16(table("hhea") + 34), glyph = std::min(glyphOf(point), metrics - 1);
    return static_cast<double>(u16(table("hmtx") + 4 * glyph)) / u16(table("head") + 18);
  }
};

const Lettering& lettering() {
  static const Lettering made = Lettering::load().value();
  return made;
}

// 26.6 fixed point of the size and 16.16 of the advance: a hundredth of a pixel holds both.
constexpr double kPixel = 0.01;

TEST(Lettering, AdvancesAreTheFontsOwn) {
  const struct {
    Face face;
    const char* file;
  } faces[] = {{Face::Text, "assets/fonts/Inter-Regular.otf"},
               {Face::TextStrong, "assets/fonts/Inter-SemiBold.otf"},
               {Face::Lettering, "assets/fonts/osifont.ttf"}};
  for (const auto& [face, file] : faces) {
    const FontFile font{embedded(file)};
    for (const char sign : std::string("aHm1059.")) {
      const double expected = font.advanceOf(static_cast<unsigned>(sign)) * 20;
      EXPECT_NEAR(lettering().measure(std::string(1, sign), face, 20).width, expected, kPixel)
          << file << sign;
    }
    EXPECT_NEAR(lettering().measure("\u00D7", face, 20).width, font.advanceOf(0xD7) * 20, kPixel) << file;
  }
}

TEST(Lettering, WidthIsWhereTheLastPenEnds) {
  const auto letters = lettering().laid("hanging stile", Face::Text, 17);
  ASSERT_EQ(letters.size(), 13u);
  const TextExtent extent = lettering().measure("hanging stile", Face::Text, 17);
  EXPECT_DOUBLE_EQ(extent.width, letters.back().penX + letters.back().glyph->advance);
  for (std::size_t i = 1; i < letters.size(); ++i) EXPECT_GT(letters[i].penX, letters[i - 1].penX);
}

TEST(Lettering, LettersStayWithinTheirExtent) {
  for (const Face face : {Face::Text, Face::TextStrong, Face::Lettering}) {
    const std::string text = "raised and fielded panel, 132.5 \u00D7 44";
    const TextExtent extent = lettering().measure(text, face, 20);
    for (const auto& letter : lettering().laid(text, face, 20)) {
      // a bitmap is whole pixels: up to one more
      EXPECT_LE(-letter.glyph->top, extent.ascent + 1);
      EXPECT_LE(letter.glyph->top + letter.glyph->height, extent.descent + 1);
      EXPECT_EQ(letter.glyph->coverage.size(), static_cast<std::size_t>(letter.glyph->width) *
                                                   static_cast<std::size_t>(letter.glyph->height));
    }
  }
}

// ISO 3098-1 (from memory): capitals and figures are as high as the lettering's nominal height, all alike.
TEST(Lettering, FiguresOfSizesAreOneHeight) {
  const auto letters = lettering().laid("0123456789", Face::Lettering, 100);
  for (const auto& letter : letters) EXPECT_NEAR(letter.glyph->height, letters.front().glyph->height, 3);
}

TEST(Lettering, AKeyIsALetterOfAFaceAndSize) {
  const auto letters = lettering().laid("noon", Face::Text, 17);
  EXPECT_EQ(letters[0].key, letters[3].key);
  EXPECT_EQ(letters[1].glyph, letters[2].glyph);
  EXPECT_NE(letters[0].key, letters[1].key);
  EXPECT_NE(letters[0].key, lettering().laid("n", Face::Text, 16)[0].key);
  EXPECT_NE(letters[0].key, lettering().laid("n", Face::TextStrong, 17)[0].key);
  EXPECT_EQ(letters[0].key, lettering().laid("n", Face::Text, 17)[0].key);
}

TEST(Lettering, AMissingSignIsSeen) {
  const auto letters = lettering().laid("\u4E2D", Face::Lettering, 40);
  ASSERT_EQ(letters.size(), 1u);
  EXPECT_GT(letters[0].glyph->width, 0);
  EXPECT_TRUE(std::any_of(letters[0].glyph->coverage.begin(), letters[0].glyph->coverage.end(),
                          [](std::uint8_t c) { return c > 128; }));
  // what is no UTF-8 is one missing sign a byte, and what follows is read
  EXPECT_EQ(lettering().laid("a\xFF\xC3z", Face::Text, 17).size(), 4u);
}

TEST(Lettering, NothingIsNothing) {
  EXPECT_TRUE(lettering().laid("", Face::Text, 17).empty());
  EXPECT_EQ(lettering().measure("", Face::Text, 17).width, 0);
  EXPECT_GT(lettering().measure("", Face::Text, 17).ascent, 0);
}

TEST(Lettering, TwoLoadsAgree) {
  const Lettering other = Lettering::load().value();
  const auto a = lettering().laid("top rail", Face::TextStrong, 19),
             b = other.laid("top rail", Face::TextStrong, 19);
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].penX, b[i].penX);
    EXPECT_EQ(a[i].glyph->coverage, b[i].glyph->coverage);
  }
}

}  // namespace
}  // namespace dryfit::scene
