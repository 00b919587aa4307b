// Passes that are added up are linear light; a single one is written as the screen wants it.

uniform bool encode;

// The curve of sRGB (IEC 61966-2-1).
vec3 toLinear(vec3 c) {
  return mix(c / 12.92, pow((c + 0.055) / 1.055, vec3(2.4)), step(0.04045, c));
}
vec3 toScreen(vec3 c) {
  c = clamp(c, 0.0, 1.0);
  return mix(c * 12.92, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c));
}
vec3 written(vec3 linear) {
  return encode ? toScreen(linear) : linear;
}
