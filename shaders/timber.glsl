// Timber as a function of place in the piece: x along the grain, growth rings about an axis beside the piece. The
// same function on every face, end and section, so the figure runs on round every corner.

struct Grain {
  vec2 pith;   // y and z of the tree's middle, mm
  float ring;  // mm from ring to ring
  float tilt;  // lean of the tree's axis, mm a mm
  uint seed;
};

// One year: pale, darkening, then a sharp end. `blur` is how much of a year one pixel covers.
float year(float t, float blur) {
  float f = fract(t);
  float sharp = smoothstep(0.15, 0.9, f) * (1.0 - smoothstep(0.92, 1.0, f));
  return mix(sharp, 0.40, smoothstep(0.28, 0.75, blur));
}

vec3 timber(vec3 at, vec3 normal, Grain grain, vec3 early, vec3 late) {
  // Lengths across the grain as one number that changes on face and edge alike.
  float across = at.y * 0.83 + at.z * 0.57;
  vec2 from = at.yz - grain.pith;
  from.x += at.x * grain.tilt;
  float wander = 20.0 * (noise(vec2(0.0022 * at.x, 0.010 * across), grain.seed) - 0.5) +
                 6.0 * (noise(vec2(0.0066 * at.x, 0.030 * across), grain.seed + 1u) - 0.5) +
                 1.8 * (noise(vec2(0.012 * at.x, 0.05 * across), grain.seed + 2u) - 0.5);
  float radius = length(from) + wander;
  float t = radius / grain.ring + 1.6 * (noise(vec2(0.05 * radius, 0.5), grain.seed + 3u) - 0.5);
  float blur = fwidth(t);
  float rings = 0.62 * year(t, blur) + 0.38 * year(t / 4.3, blur / 4.3);

  float end = smoothstep(0.72, 0.97, abs(normal.x));
  float contrast = mix(1.0, 1.25, end);
  vec3 colour = mix(early, late, clamp(rings * contrast, 0.0, 1.0));

  float streak = 1.3 * across;
  float fine = 1.0 - smoothstep(0.4, 1.6, fwidth(streak));
  float fibre = 0.14 * (noise(vec2(0.018 * at.x, streak), grain.seed + 4u) - 0.5) * fine * (1.0 - end);
  float slow = 0.09 * (noise(vec2(0.004 * at.x, 0.017 * across), grain.seed + 5u) - 0.5);
  float angle = atan(from.y, from.x) * 60.0;
  float ray = 0.06 * (noise(vec2(angle, 0.02 * radius), grain.seed + 6u) - 0.5) * end *
              (1.0 - smoothstep(0.5, 1.5, fwidth(angle)));
  return colour * (1.0 + fibre + slow + ray) * mix(1.0, 0.80, end);
}
