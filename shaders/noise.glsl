// Value noise from integer hashes: the same on every machine, and no texture to carry.

uint mixBits(uint x) {
  x = (x ^ (x >> 16)) * 0x7feb352du;
  return x ^ (x >> 15);
}

float lattice(ivec2 cell, uint seed) {
  uint h = mixBits(uint(cell.x) * 0x9e3779b1u + uint(cell.y) * 0x85ebca77u + seed);
  return float(h >> 8) * (1.0 / 16777216.0);
}

// 0 to 1, smooth, one lattice cell a unit.
float noise(vec2 p, uint seed) {
  vec2 base = floor(p), f = p - base;
  ivec2 cell = ivec2(base);
  f = f * f * (3.0 - 2.0 * f);
  float low = mix(lattice(cell, seed), lattice(cell + ivec2(1, 0), seed), f.x);
  float high = mix(lattice(cell + ivec2(0, 1), seed), lattice(cell + ivec2(1, 1), seed), f.x);
  return mix(low, high, f.y);
}
