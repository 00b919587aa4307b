// An edge as a flat strip of a stated width in pixels. Which edges are seen is decided here: a side between two faces
// turned away is not, a smooth one only where it is an outline.

#include "items.glsl"

layout(location = 0) in vec3 from;
layout(location = 1) in vec3 to;
layout(location = 2) in vec3 normalLeft;
layout(location = 3) in vec3 normalRight;
layout(location = 4) in uint item;
layout(location = 5) in uint runsOn;  // the surface runs on smoothly here

uniform mat4 clipFromWorld;
uniform vec4 cuts[6];
uniform vec2 pictureSize;   // pixels
uniform vec4 eye;           // xyz: the eye, or the way to the looker where w is 0
uniform vec3 widths;        // outline, edge, all (0: by what it is), pixels
uniform float pixelsPerMm;  // parallel: everywhere; else at a depth of 1
uniform float fullFrom;     // a piece thinner than this, pixels, has thinner lines: or it would be ink alone
uniform float nearer;       // of the depth range, drawn this much towards the looker
uniform bool hiddenToo;     // also where both faces are turned away
uniform float overrunMm;    // run on beyond both ends, short edges less

out float gl_ClipDistance[6];
flat out int itemIndex;
out vec2 place;             // pixels along the edge, and across it from its middle
flat out float halfWidth;

bool facing(vec3 normal, vec3 towards) {
  return dot(normal, towards) > 1e-5;
}

void main() {
  itemIndex = int(item);
  vec3 a = toWorld(itemIndex, from), b = toWorld(itemIndex, to);
  vec3 towards = eye.w > 0.5 ? normalize(eye.xyz - 0.5 * (a + b)) : eye.xyz;
  bool left = facing(turnedToWorld(itemIndex, normalLeft), towards);
  bool right = facing(turnedToWorld(itemIndex, normalRight), towards);
  bool outline = left != right;
  bool seen = outline || (runsOn == 0u && (left || hiddenToo));
  vec3 along = b - a;
  float lengthMm = length(along);
  vec3 overrun = along / max(lengthMm, 1e-6) * min(overrunMm, 0.06 * lengthMm);
  a -= overrun;
  b += overrun;

  vec4 p = clipFromWorld * vec4(a, 1.0), q = clipFromWorld * vec4(b, 1.0);
  vec2 pa = (p.xy / p.w * 0.5 + 0.5) * pictureSize, pb = (q.xy / q.w * 0.5 + 0.5) * pictureSize;
  vec2 way = pb - pa;
  float run = length(way);
  way = run > 1e-4 ? way / run : vec2(1.0, 0.0);
  float thick = itemTexel(itemIndex, 6).y * pixelsPerMm / p.w;
  float fine = clamp(thick / fullFrom, outline ? 0.55 : 0.25, 1.0);
  float width = (widths.z > 0.0 ? widths.z : fine * (outline ? widths.x : widths.y)) * itemTexel(itemIndex, 7).w;
  halfWidth = 0.5 * width;
  float reach = halfWidth + 0.6;  // room for a soft side
  bool end = (gl_VertexID & 1) != 0, side = (gl_VertexID & 2) != 0;
  vec2 at = (end ? pb + way * halfWidth : pa - way * halfWidth) + vec2(-way.y, way.x) * (side ? reach : -reach);
  place = vec2(end ? run + halfWidth : -halfWidth, side ? reach : -reach);

  vec4 clip = end ? q : p;
  vec3 world = end ? b : a;
  gl_Position = seen ? vec4((at / pictureSize * 2.0 - 1.0) * clip.w, clip.z - nearer * clip.w, clip.w)
                     : vec4(0.0, 0.0, 2.0, 1.0);
  for (int i = 0; i < 6; ++i) gl_ClipDistance[i] = cuts[i].w + 1e-3 - dot(cuts[i].xyz, world);
}
