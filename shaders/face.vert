// Faces of the pieces: from the piece's frame to the picture.

#include "items.glsl"

layout(location = 0) in vec3 at;
layout(location = 1) in vec3 normal;
layout(location = 2) in uint item;

uniform mat4 clipFromWorld;
uniform vec4 cuts[6];  // taken away where dot(cut.xyz, p) > cut.w

invariant gl_Position;
out float gl_ClipDistance[6];
flat out int itemIndex;
out vec3 pieceAt;
out vec3 pieceNormal;
out vec3 worldAt;
out vec3 worldNormal;

void main() {
  itemIndex = int(item);
  pieceAt = at;
  pieceNormal = normal;
  worldAt = toWorld(itemIndex, at);
  worldNormal = turnedToWorld(itemIndex, normal);
  gl_Position = clipFromWorld * vec4(worldAt, 1.0);
  for (int i = 0; i < 6; ++i) gl_ClipDistance[i] = cuts[i].w - dot(cuts[i].xyz, worldAt);
}
