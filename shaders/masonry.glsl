// Walls and plaster: joints on the face, the drawing office's hatches on the cut.

// How near a line of the given spacing is, 1 on it: `half` is its half width, both in the unit of x.
float line(float x, float spacing, float halfWidth) {
  float away = abs(fract(x / spacing + 0.5) - 0.5) * spacing;
  float soft = fwidth(x) * 0.75;
  return 1.0 - smoothstep(halfWidth - soft, halfWidth + soft, away);
}

// The two world axes that span a face, by its normal.
vec2 onFace(vec3 at, vec3 normal) {
  vec3 n = abs(normal);
  if (n.z >= n.x && n.z >= n.y) return at.xy;
  return n.x > n.y ? at.yz : at.xz;
}

// Half bond; size is a brick's length and a course's height, joints of 10 counted in.
vec3 brickFace(vec3 at, vec3 normal, vec2 size, vec3 face, vec3 joint) {
  vec2 p = onFace(at, normal);
  float course = floor(p.y / size.y);
  float bed = line(p.y, size.y, 4.0);
  float header = line(p.x + 0.5 * size.x * mod(course, 2.0), size.x, 4.0);
  return mix(face, joint, 0.55 * max(bed, header));
}

// Hatching at 45 degrees, a line each 11 mm square to it.
vec3 brickCut(vec3 at, vec3 normal, vec3 face, vec3 ink) {
  vec2 p = onFace(at, normal);
  return mix(face, ink, 0.5 * line((p.x + p.y) * 0.70710678, 11.0, 0.55));
}

// Boards side by side in the world, each with a figure of its own and a joint to the next.
vec3 boards(vec3 at, vec3 normal, float width, bool upright, uint seed, vec3 early, vec3 late) {
  vec3 n = abs(normal);
  vec3 along = n.x > n.y ? at.yzx : at.xzy;  // along the wall, up, through it
  if (upright) along.xy = along.yx;
  float board = floor(along.y / width);
  uint own = seed + 31u * uint(int(board) + 1024);
  vec3 inBoard = vec3(along.x + 700.0 * board, along.y - (board + 0.5) * width, along.z);
  vec3 inNormal = n.z > max(n.x, n.y) ? vec3(upright ? 1.0 : 0.0, upright ? 0.0 : 1.0, 0.0) : vec3(0.0, 0.0, 1.0);
  vec3 face = timber(inBoard, inNormal, Grain(vec2(0.3 * width, -60.0), 5.0, 0.012, own), early, late);
  return mix(face, late * 0.62, 0.7 * line(along.y, width, 1.6));
}

// Fine dots, scattered: a cell in three has one.
vec3 plasterCut(vec3 at, vec3 normal, vec3 face, vec3 ink) {
  vec2 p = onFace(at, normal) / 3.2;
  ivec2 cell = ivec2(floor(p));
  vec2 middle = vec2(lattice(cell, 11u), lattice(cell, 12u)) * 0.72 + 0.14;
  float away = length(p - floor(p) - middle);
  float soft = fwidth(p.x) + fwidth(p.y);
  float mark = 1.0 - smoothstep(0.14 - 0.5 * soft, 0.14 + 0.5 * soft, away);
  float there = step(0.62, lattice(cell, 13u)) * (1.0 - smoothstep(0.7, 1.6, soft));
  return mix(face, ink, 0.55 * mark * there);
}
