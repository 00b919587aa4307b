// Depth alone, for the shade that pieces cast.

#include "items.glsl"

layout(location = 0) in vec3 at;
layout(location = 2) in uint item;

uniform mat4 clipFromWorld;
uniform vec4 cuts[6];

out float gl_ClipDistance[6];

void main() {
  vec3 world = toWorld(int(item), at);
  gl_Position = clipFromWorld * vec4(world, 1.0);
  for (int i = 0; i < 6; ++i) gl_ClipDistance[i] = cuts[i].w - dot(cuts[i].xyz, world);
}
