// One light a pass: lit = ambient + seen * (base + slope * n.l). Over all passes this adds up to key and dome.

uniform vec3 toLight;        // unit, world
uniform vec4 light;          // ambient, base, slope; of a cut face's even light
uniform mat4 shadowFromWorld;
uniform sampler2DShadow shadowMap;
uniform sampler2D shadowDepth;  // the same map, as it is
uniform float shadowDepthMm;   // from its near to its far plane
uniform float shadowStepMm;  // size of one texel of the shadow map
uniform bool casts;          // false: nothing casts shade, key and open sky at once

uniform vec3 sky;            // middle of the open sky
uniform vec4 plainLight;     // direction of the key light, its strength
uniform float plainSky;      // strength of the open sky

float seenFrom(vec3 at, vec3 normal) {
  float slant = 1.0 - clamp(dot(normal, toLight), 0.0, 1.0);
  vec3 off = at + normal * shadowStepMm * (0.6 + 1.4 * slant) + toLight * shadowStepMm * 0.4;
  vec4 p = shadowFromWorld * vec4(off, 1.0);
  return texture(shadowMap, p.xyz * 0.5 + 0.5);
}

// How far off whatever stands between a place and the lamp is, mm; 0 when nothing does.
float shaderAway(vec3 at) {
  vec4 p = shadowFromWorld * vec4(at, 1.0);
  vec3 q = p.xyz * 0.5 + 0.5;
  return max(0.0, q.z - texture(shadowDepth, q.xy).r) * shadowDepthMm;
}

// `reachMm`: shade of what stands further off is hardly seen; 0: all of it is.
float lit(vec3 at, vec3 normal, float reachMm) {
  if (!casts) {
    float key = plainLight.w * max(dot(normal, plainLight.xyz), 0.0);
    float open = 0.5 + 0.5 * dot(normal, sky);  // part of the half sphere of sky before the face
    return light.x + key + plainSky * open * (0.25 + 0.75 * 0.5);
  }
  float facing = dot(normal, toLight);
  float seen = facing > 0.0 ? seenFrom(at, normal) : 0.0;
  if (facing > 0.0 && reachMm > 0.0) seen = 1.0 - (1.0 - seen) * exp(-shaderAway(at) / reachMm);
  return light.x + seen * (light.y + light.z * max(facing, 0.0));
}
