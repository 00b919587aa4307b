in vec2 spot;
in vec4 colourIn;
flat in vec2 what;
out vec4 colour;

uniform sampler2D letters;

void main() {
  float alpha = 1.0;
  if (what.x > 2.5)
    alpha = texture(letters, spot / vec2(textureSize(letters, 0))).r;
  else if (what.x > 1.5)
    alpha = clamp(what.y + 0.5 - length(spot), 0.0, 1.0);
  else if (what.x > 0.5)
    alpha = clamp(what.y + 0.5 - abs(spot.y), 0.0, 1.0) * min(1.0, 2.0 * what.y);
  colour = vec4(colourIn.rgb, colourIn.a * alpha);
}
