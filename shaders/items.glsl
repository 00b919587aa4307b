// What each item is like, 8 texels an item: see src/gl/item_table.cpp, which writes them.

uniform samplerBuffer items;

vec4 itemTexel(int item, int k) {
  return texelFetch(items, item * 8 + k);
}

// Rows of world-from-piece.
vec3 toWorld(int item, vec3 at) {
  vec4 p = vec4(at, 1.0);
  return vec3(dot(itemTexel(item, 0), p), dot(itemTexel(item, 1), p), dot(itemTexel(item, 2), p));
}
vec3 turnedToWorld(int item, vec3 v) {
  return vec3(dot(itemTexel(item, 0).xyz, v), dot(itemTexel(item, 1).xyz, v), dot(itemTexel(item, 2).xyz, v));
}
