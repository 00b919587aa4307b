// The bench or floor under the work: a square that catches shade and has no other look.

uniform mat4 clipFromWorld;
uniform vec4 square;   // middle x, y, half size, height
out vec3 worldAt;

void main() {
  vec2 corner = vec2(gl_VertexID & 1, gl_VertexID >> 1) * 2.0 - 1.0;
  worldAt = vec3(square.xy + corner * square.z, square.w);
  gl_Position = clipFromWorld * vec4(worldAt, 1.0);
}
