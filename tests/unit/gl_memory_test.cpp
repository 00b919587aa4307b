// What a picture takes of memory.
#include "gl/memory.h"

#include <gtest/gtest.h>

namespace dryfit::gl {
namespace {

TEST(PictureMemory, IsToldByThePixel) {
  EXPECT_EQ(bytesFor({1000, 100}, false), 100000u * 14);
  EXPECT_EQ(bytesFor({1000, 100}, true), 100000u * 42);
  EXPECT_EQ(bytesFor({32768, 32768}, true), 42ull << 30);  // no overflow
}

TEST(PictureMemory, IsReadFromTheSystemsOwnText) {
  // As proc(5) has it: kilobytes of 1024.
  const std::string text =
      "MemTotal:       24576000 kB\nMemFree:         1000 kB\nMemAvailable:    2048 kB\n";
  EXPECT_EQ(availableIn(text), 2048u * 1024);
  EXPECT_FALSE(availableIn("MemTotal: 5 kB\n").has_value());
  EXPECT_FALSE(availableIn("").has_value());
}

TEST(PictureMemory, ThereIsSomeHere) {
  EXPECT_GT(memoryLeft().value_or(~0ull), bytesFor({1920, 1080}, true));
}

}  // namespace
}  // namespace dryfit::gl
