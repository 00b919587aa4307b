// The lit surface of a piece, or of a face that a section cuts.

#include "items.glsl"
#include "noise.glsl"
#include "timber.glsl"
#include "masonry.glsl"
#include "light.glsl"
#include "output.glsl"

flat in int itemIndex;
in vec3 pieceAt;
in vec3 pieceNormal;
in vec3 worldAt;
in vec3 worldNormal;
out vec4 colour;

uniform bool cut;       // a section's face: even light, hatches
uniform float opacity;
uniform vec3 hatchInk;  // sRGB

vec3 surface() {
  vec4 early = itemTexel(itemIndex, 3), late = itemTexel(itemIndex, 4);
  int substance = int(early.w + 0.5);
  vec3 n = normalize(worldNormal);
  if (substance == 0) {
    vec4 rings = itemTexel(itemIndex, 5);
    Grain grain = Grain(rings.xy, rings.z, rings.w, uint(itemTexel(itemIndex, 6).x));
    return timber(pieceAt, normalize(pieceNormal), grain, early.rgb, late.rgb);
  }
  vec4 laid = itemTexel(itemIndex, 6);  // seed, .., length along the course, upright
  if (substance == 1)
    return cut ? brickCut(worldAt, n, early.rgb, hatchInk)
               : brickFace(worldAt, n, vec2(laid.z, late.w), early.rgb, late.rgb);
  if (substance == 4) return boards(worldAt, n, late.w, laid.w > 0.5, uint(laid.x), early.rgb, late.rgb);
  if (substance == 2) return cut ? plasterCut(worldAt, n, early.rgb, hatchInk) : early.rgb;
  return early.rgb;
}

void main() {
  vec3 n = normalize(worldNormal);
  float bright = cut ? light.w : lit(worldAt, n);
  colour = vec4(written(toLinear(clamp(surface(), 0.0, 1.0)) * bright), opacity);
}
