// The mean of the passes, as the screen wants it.

#include "output.glsl"

uniform sampler2D sum;
uniform float scale;
out vec4 colour;
void main() {
  colour = vec4(written(texelFetch(sum, ivec2(gl_FragCoord.xy), 0).rgb * scale), 1.0);
}
