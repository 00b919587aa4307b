// Lines, fills and letters over the picture, in pixels from the top left corner.

layout(location = 0) in vec2 at;
layout(location = 1) in vec2 place;   // in the letter sheet, texels; or distances, see flat.frag
layout(location = 2) in vec4 ink;
layout(location = 3) in vec2 kind;    // x: 0 fill, 1 line, 2 dot, 3 letter; y: half width or radius

uniform vec2 pictureSize;
out vec2 spot;
out vec4 colourIn;
flat out vec2 what;

void main() {
  spot = place;
  colourIn = ink;
  what = kind;
  gl_Position = vec4(at.x / pictureSize.x * 2.0 - 1.0, 1.0 - at.y / pictureSize.y * 2.0, 0.0, 1.0);
}
