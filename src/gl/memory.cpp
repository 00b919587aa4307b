#include "gl/memory.h"

#include <fstream>
#include <iterator>
#include <sstream>

namespace dryfit::gl {

std::uint64_t bytesFor(scene::PictureSize size, bool several) {
  // A pixel: screen 4 and depth 4; a pass 8 and depth 4, the sum 16; the image 3, and as much again for its
  // file.
  const std::uint64_t perPixel = several ? 4 + 4 + 8 + 4 + 16 + 6 : 4 + 4 + 6;
  return static_cast<std::uint64_t>(size.width) * static_cast<std::uint64_t>(size.height) * perPixel;
}

std::optional<std::uint64_t> availableIn(const std::string& meminfo) {
  std::istringstream lines(meminfo);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string name;
    std::uint64_t kilobytes = 0;
    if (words >> name >> kilobytes && name == "MemAvailable:") return kilobytes * 1024;
  }
  return {};
}

std::optional<std::uint64_t> memoryLeft() {
  std::ifstream file("/proc/meminfo");
  return availableIn({std::istreambuf_iterator<char>(file), {}});
}

}  // namespace dryfit::gl
