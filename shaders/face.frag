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
uniform float formedReachMm;  // of shade on walls and floors: a long one would be read as a thing

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

// What metal throws back of the lamp: a bright band along a knuckle, a lit or a dull plate.
float sheen(vec3 n) {
  return pow(max(dot(n, normalize(plainLight.xyz + sky)), 0.0), 24.0);
}

void main() {
  vec3 n = normalize(worldNormal);
  int substance = int(itemTexel(itemIndex, 3).w + 0.5);
  bool formed = substance == 1 || substance == 2 || substance == 4;
  float bright = cut ? light.w : lit(worldAt, n, formed ? formedReachMm : 0.0);
  vec3 face = toLinear(clamp(surface(), 0.0, 1.0));
  if (substance == 3 && !cut) face += 0.55 * sheen(n);
  colour = vec4(written(face * bright), opacity);
}
