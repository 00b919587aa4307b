#include "light.glsl"
#include "output.glsl"

in vec3 worldAt;
out vec4 colour;

uniform vec3 ground;  // sRGB
uniform vec3 shade;   // sRGB
uniform float part;   // how much of the light this pass's lamp is
uniform float reachMm;  // shade of what stands higher than this is hardly seen: a room is lit from all round

void main() {
  float seen = seenFrom(worldAt, vec3(0.0, 0.0, 1.0));
  float dark = 0.9 * part * (1.0 - seen) * exp(-shaderAway(worldAt) / reachMm);
  colour = vec4(written(mix(toLinear(ground), toLinear(shade), dark)), 1.0);
}
