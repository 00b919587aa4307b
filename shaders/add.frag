// A pass, to be added to those before it.
uniform sampler2D pass;
out vec4 colour;
void main() {
  colour = texelFetch(pass, ivec2(gl_FragCoord.xy), 0);
}
