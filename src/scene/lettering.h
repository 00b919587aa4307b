// Lettering: the fonts of the house, measured and baked. Inter (OFL) for words, osifont for sizes; both lie
// in assets/fonts and are built into the program.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/vec.h"
#include "scene/overlay.h"

namespace dryfit::scene {

/// A letter as grey coverage. Pixels, y downwards, from the pen's place on the baseline.
struct Glyph {
  int width = 0, height = 0;
  double left = 0, top = 0;  ///< of the bitmap's corner from the pen: right, and down (mostly negative)
  double advance = 0;        ///< to the next pen
  std::vector<std::uint8_t> coverage;  ///< width * height
};

struct TextExtent {
  double width = 0;                ///< from first pen to last
  double ascent = 0, descent = 0;  ///< of the letters of the face, both positive: the same for every text
};

class Lettering {
 public:
  /// Fails: SystemFault when a font built in cannot be read.
  static Result<Lettering> load();
  Lettering(Lettering&&) noexcept;
  Lettering& operator=(Lettering&&) noexcept;
  ~Lettering();

  TextExtent measure(const std::string& utf8, Face face, double sizePx) const;
  /// Letters in order, with where each pen stands from the first (kerned). Baked at `sizePx`, kept.
  struct Placed {
    std::shared_ptr<const Glyph> glyph;
    double penX = 0;
    std::uint32_t key = 0;  ///< the same letter of the same face and size has the same key
  };
  std::vector<Placed> laid(const std::string& utf8, Face face, double sizePx) const;

 private:
  struct Fonts;
  explicit Lettering(std::unique_ptr<Fonts> fonts);
  std::unique_ptr<Fonts> fonts_;
};

}  // namespace dryfit::scene
