#include "scene/surface.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "base/hash.h"

namespace dryfit::scene {

namespace {

struct Tone {
  const char* kind;
  unsigned early, late;
};
constexpr std::array kTones = {
    Tone{"stile", 0xEBC998, 0xB9824C},    Tone{"rail", 0xE2B67C, 0xA56C38},
    Tone{"muntin", 0xE7C08A, 0xAF7842},   Tone{"panel", 0xD79E63, 0x9A5A2C},
    Tone{"moulding", 0xC58A55, 0x8A5229}, Tone{"bead", 0xC58A55, 0x8A5229},
    Tone{"wedge", 0xA86E3F, 0x6E4222},    Tone{"pin", 0xA86E3F, 0x6E4222},
    Tone{"dowel", 0xA86E3F, 0x6E4222},    Tone{"lining", 0xF2D6A6, 0xCB9A5C},
    Tone{"jamb", 0xF2D6A6, 0xCB9A5C},     Tone{"ground", 0xEEDDB4, 0xCBAC74},
    Tone{"backing", 0xDDBB84, 0xA97F49},  Tone{"architrave", 0xE9C28E, 0xB57F48},
    Tone{"skirting", 0xE3B983, 0xAE7741},
};
/// What is not seen as a timber of its own: by material.
struct Stuff {
  const char* material;
  Substance substance;
  unsigned face, joints;
  Coursing coursing;
};
constexpr std::array kStuffs = {
    Stuff{"brick", Substance::Brick, 0xE9E2D8, 0xC3B6A6, {75, 225, false}},
    Stuff{"block", Substance::Brick, 0xE9E2D8, 0xC3B6A6, {225, 450, false}},
    Stuff{"plaster", Substance::Plaster, 0xEDE9E1, 0xEDE9E1, {}},
    Stuff{"floor", Substance::Plaster, 0xCFC8BA, 0xCFC8BA, {}},  // a screed, in the design's hairline grey
    Stuff{"boarding", Substance::Boards, 0xEDE3CC, 0xDCCCAA, {150, 0, false}},
    Stuff{"studs", Substance::Boards, 0xE4D2AE, 0xCDB58A, {50, 0, true}},
    Stuff{"brass", Substance::Metal, 0xBD9A50, 0xBD9A50, {}},
    Stuff{"steel", Substance::Metal, 0xA9AEB1, 0xA9AEB1, {}},
};

const Stuff* stuffOf(const std::string& material) {
  const auto known =
      std::find_if(kStuffs.begin(), kStuffs.end(), [&](const Stuff& s) { return material == s.material; });
  return known == kStuffs.end() ? nullptr : &*known;
}

/// For kinds the table does not know, in the order their names fall.
constexpr std::array kOthers = {Tone{"", 0xEBC998, 0xB9824C}, Tone{"", 0xDDBB84, 0xA97F49},
                                Tone{"", 0xE2B67C, 0xA56C38}, Tone{"", 0xF2D6A6, 0xCB9A5C}};

std::uint32_t seedOf(const std::string& text) {
  return static_cast<std::uint32_t>(stableHash(text));
}
/// A number from 0 to 1 that a seed and a place in the list always give.
double chance(std::uint32_t seed, std::uint32_t place) {
  std::uint32_t x = seed ^ (place * 0x9E3779B9u);
  x = (x ^ (x >> 16)) * 0x7FEB352Du;
  x = (x ^ (x >> 15)) * 0x846CA68Bu;
  return ((x ^ (x >> 16)) >> 8) / 16777216.0;
}
double between(double low, double high, double part) {
  return low + (high - low) * part;
}

Tone toneOf(const std::string& kind) {
  const auto known =
      std::find_if(kTones.begin(), kTones.end(), [&](const Tone& t) { return kind == t.kind; });
  return known != kTones.end() ? *known : kOthers[seedOf(kind) % kOthers.size()];
}

Colour shaded(unsigned hex, double by) {
  const Colour c = rgb(hex);
  const auto part = [by](double v) { return std::clamp(v * by, 0.0, 1.0); };
  return {part(c.red), part(c.green), part(c.blue), 1};
}

/// The tree's middle lies under the face of a plain-sawn board, beside the edge of a quarter-sawn one.
Grain grainOf(const Piece& piece, std::uint32_t seed) {
  Grain g;
  g.seed = seed;
  const Vec3 half = sizeOf(piece.states.front().cut->shell) * 0.5;
  const double off = between(35, 110, chance(seed, 1)), aside = between(-0.5, 0.5, chance(seed, 2));
  if (piece.quarterSawn) {
    g.pithYMm = -(half.y + off);
    g.pithZMm = aside * half.z;
  } else {
    g.pithYMm = aside * half.y;
    g.pithZMm = -(half.z + off);
  }
  g.ringMm = between(4.2, 5.8, chance(seed, 3));
  g.tilt = between(0.008, 0.018, chance(seed, 4)) * (chance(seed, 5) < 0.5 ? -1 : 1);
  return g;
}

}  // namespace

Surface surfaceOf(const Piece& piece, const std::string& kind) {
  const std::uint32_t seed = seedOf(piece.id);
  Surface s;
  const Tone tone = toneOf(kind);
  const double by = between(0.975, 1.02, chance(seed, 6));
  s.early = shaded(tone.early, by);
  s.late = shaded(tone.late, by);
  s.grain = grainOf(piece, seed);
  if (const Stuff* stuff = stuffOf(piece.material)) {
    s.substance = stuff->substance;
    s.early = rgb(stuff->face);
    s.late = rgb(stuff->joints);
    s.coursing = stuff->coursing;
  }
  return s;
}

}  // namespace dryfit::scene
