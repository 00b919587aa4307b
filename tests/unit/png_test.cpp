// Pictures as PNG: read back by libpng, and taken apart chunk by chunk by a reader of our own.
#include "paper/png.h"

#include <gtest/gtest.h>
#include <png.h>

#include <cstring>
#include <random>

namespace dryfit::paper {
namespace {

scene::Image noise(int width, int height, unsigned seed) {
  std::mt19937 random(seed);
  scene::Image image{width, height, {}};
  for (int i = 0; i < 3 * width * height; ++i) image.rgb.push_back(static_cast<std::uint8_t>(random()));
  return image;
}
scene::Image ramp(int width, int height) {
  scene::Image image{width, height, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (const int part : {x, y, x + y}) image.rgb.push_back(static_cast<std::uint8_t>(part));
  return image;
}

/// libpng's own reader, the simple one: no code shared with how we write.
scene::Image readBack(const std::string& bytes) {
  png_image png;
  std::memset(&png, 0, sizeof png);
  png.version = PNG_IMAGE_VERSION;
  scene::Image image;
  if (!png_image_begin_read_from_memory(&png, bytes.data(), bytes.size())) return image;
  png.format = PNG_FORMAT_RGB;
  image.width = static_cast<int>(png.width);
  image.height = static_cast<int>(png.height);
  image.rgb.resize(PNG_IMAGE_SIZE(png));
  png_image_finish_read(&png, nullptr, image.rgb.data(), 0, nullptr);
  return image;
}

/// CRC as the standard's annex D gives it, bit by bit.
std::uint32_t crcOf(const std::string& bytes) {
  std::uint32_t crc = 0xFFFFFFFFu;
  for (const char c : bytes) {
    crc ^= static_cast<std::uint8_t>(c);
    for (int bit = 0; bit < 8; ++bit) crc = crc & 1 ? 0xEDB88320u ^ (crc >> 1) : crc >> 1;
  }
  return ~crc;
}
std::uint32_t numberAt(const std::string& bytes, size_t at) {
  std::uint32_t n = 0;
  for (size_t i = 0; i < 4; ++i) n = n << 8 | static_cast<std::uint8_t>(bytes.at(at + i));
  return n;
}

struct Chunk {
  std::string type, data;
};
/// Every chunk of a sound file; a test stops at a wrong sum or a byte too many.
std::vector<Chunk> chunksOf(const std::string& bytes) {
  EXPECT_EQ(bytes.substr(0, 8), "\x89PNG\r\n\x1a\n");
  std::vector<Chunk> out;
  size_t at = 8;
  while (at < bytes.size()) {
    const size_t length = numberAt(bytes, at);
    const std::string named = bytes.substr(at + 4, 4 + length);
    EXPECT_EQ(numberAt(bytes, at + 8 + length), crcOf(named)) << named.substr(0, 4);
    out.push_back({named.substr(0, 4), named.substr(4)});
    at += 12 + length;
  }
  EXPECT_EQ(at, bytes.size());
  return out;
}

TEST(Png, ReadsBackTheSamePixels) {
  for (const scene::Image& image : {noise(1, 1, 1), noise(333, 17, 2), ramp(640, 360), ramp(16, 2000)}) {
    const scene::Image back = readBack(pngBytes(image).value());
    EXPECT_EQ(back.width, image.width);
    EXPECT_EQ(back.height, image.height);
    EXPECT_EQ(back.rgb, image.rgb);
  }
}

TEST(Png, HoldsTheHeadTheColourSpaceAndThePictureAndNothingElse) {
  const auto chunks = chunksOf(pngBytes(ramp(640, 360)).value());
  ASSERT_GE(chunks.size(), 4u);
  EXPECT_EQ(chunks[0].type, "IHDR");
  // Width, height, 8 bits, true colour, and the only methods there are, not interlaced.
  EXPECT_EQ(chunks[0].data, std::string("\0\0\x02\x80\0\0\x01\x68\x08\x02\0\0\0", 13));
  EXPECT_EQ(chunks[1].type, "sRGB");
  EXPECT_EQ(chunks[1].data, std::string(1, '\0'));  // perceptual
  for (size_t i = 2; i + 1 < chunks.size(); ++i) EXPECT_EQ(chunks[i].type, "IDAT");
  EXPECT_EQ(chunks.back().type, "IEND");
}

TEST(Png, TheSamePictureIsTheSameBytes) {
  EXPECT_EQ(pngBytes(noise(100, 80, 7)).value(), pngBytes(noise(100, 80, 7)).value());
}

TEST(Png, APictureThatIsNotWholeIsACallersBug) {
  EXPECT_THROW(static_cast<void>(pngBytes({0, 0, {}})), ContractViolation);
  EXPECT_THROW(static_cast<void>(pngBytes({2, 2, {1, 2, 3}})), ContractViolation);
}

TEST(Png, SidesThatPngCannotHoldAreTold) {
  const int beyond = 2'000'000;  // libpng's own limit is a million a side
  const auto written = pngBytes({beyond, 1, std::vector<std::uint8_t>(3u * beyond)});
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.faults()[0].fault, Fault::SystemFault);
  EXPECT_EQ(written.faults()[0].message.rfind("the picture cannot be written as PNG: ", 0), 0u)
      << written.faults()[0].message;
}

}  // namespace
}  // namespace dryfit::paper
