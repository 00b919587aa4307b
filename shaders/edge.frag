#include "items.glsl"
#include "output.glsl"

flat in int itemIndex;
in vec2 place;
flat in float halfWidth;
out vec4 colour;

uniform vec2 dash;    // pixels drawn and left out; 0: unbroken
uniform vec4 inkAll;  // sRGB; alpha of every edge; w < 0: the item's own ink at full strength

void main() {
  float alpha = clamp(halfWidth + 0.5 - abs(place.y), 0.0, 1.0) * min(1.0, 2.0 * halfWidth);
  if (dash.y > 0.0 && mod(place.x, dash.x + dash.y) > dash.x) discard;
  vec3 ink = inkAll.w < 0.0 ? itemTexel(itemIndex, 7).rgb : inkAll.rgb;
  colour = vec4(written(toLinear(ink)), alpha * abs(inkAll.w));
}
