import { lightingGlsl } from '../light/lightingGlsl.ts';
import { type CutModel, MOST_ICE } from './glassProfile.ts';
import { lookAlongGlsl } from './surfaceGlsl.ts';

/*
 * A vessel with its drink and ice: rays are followed through the profile by exact Snell and Fresnel, each time along
 * the stronger of the two ways, until they leave; then they meet a light, or what the picture shows behind. Where light
 * splits evenly the traced picture has both ways; this has one and the first mirror image of the other.
 */

/** Texels of one segment: ends, normals, then media, roughness and whether a pattern may lie on it. */
export const SEGMENT_TEXELS = 3;

/** How a pattern turns the wall, in shaders. */
export const CUT_STYLE: Readonly<Record<CutModel['style'], number>> = { ribs: 1, flutes: 2, hammered: 3, facets: 4 };

/** Rays through one point of frosted glass. */
const FROST_RAYS = 12;

/*
 * Frost and cuts turn the normal of the smooth wall; the wall itself stays where it is. Bars and grooves are arcs as the set
 * builds them (half chord 0.94 of half the pitch), dents lie in even rows, a facet has the one normal of its middle.
 */
const turnedNormalGlsl = `
vec3 kgCutNormal(vec3 at, vec3 n) {
  float radius = length(at.xz);
  if (kgCut.x < 0.5 || at.y < kgCutFrom || at.y > kgCutTo || radius < 1e-4) return n;
  float pitch = 6.28318531 / kgCut.y;
  vec3 around = vec3(-at.z, 0.0, at.x) / radius;
  float side = dot(n.xz, at.xz) < 0.0 ? -1.0 : 1.0;
  float azimuth = atan(at.z, at.x) - kgCut.w;
  float row = 0.0;
  float up = 0.0;
  if (kgCut.x > 2.5 && kgCut.x < 3.5) {
    float rise = 0.88 * pitch * radius;
    row = floor((at.y - kgCutFrom) / rise);
    up = at.y - kgCutFrom - (row + 0.5) * rise;
    azimuth += 0.5 * pitch * mod(row, 2.0);
  }
  float off = azimuth - pitch * floor(azimuth / pitch + 0.5);
  if (kgCut.x > 3.5) return normalize(n - side * around * tan(off));
  float s = off * radius;
  float w = 0.47 * pitch * radius;
  float d2 = s * s + up * up;
  if (d2 >= w * w) return n;
  float h = min(kgCut.z, 0.8 * w);
  float arc = (w * w + h * h) / (2.0 * h);
  // Slope of the arc, down from the middle of a bar and up from the middle of a hollow.
  float slope = inversesqrt(max(arc * arc - d2, 1e-12)) * (kgCut.x < 1.5 ? 1.0 : -1.0);
  return normalize(n + side * slope * (s * around + vec3(0.0, up, 0.0)));
}

/* One of the microfacets of a rough wall: GGX slopes, evenly spread over the rays of a point. */
vec3 kgFrostNormal(vec3 n, float alpha, int ray, int turn) {
  float grain = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715))));
  float u = (float(ray) + grain) / ${FROST_RAYS}.0;
  float slope = alpha * sqrt(u / (1.0 - min(u, 0.98)));
  float phi = 6.28318531 * fract(0.61803399 * float(ray) + 0.37 * float(turn) + grain);
  vec3 x = normalize(cross(abs(n.y) > 0.9 ? vec3(1.0, 0.0, 0.0) : vec3(0.0, 1.0, 0.0), n));
  return normalize(n + slope * (cos(phi) * x + sin(phi) * cross(n, x)));
}
`;

const intersectGlsl = `
uniform highp sampler2D kgSegments;
uniform int kgSegmentCount;

/* Nearest profile piece that a ray meets after 'from': its distance, and which. Coordinates from the foot. */
float kgMeetProfile(vec3 o, vec3 d, float from, out int which) {
  float best = 1e9;
  which = -1;
  float dd = dot(d.xz, d.xz);
  float od = dot(o.xz, d.xz);
  float oo = dot(o.xz, o.xz);
  for (int i = 0; i < kgSegmentCount; i++) {
    vec4 e = texelFetch(kgSegments, ivec2(0, i), 0);
    float dr = e.z - e.x;
    float dy = e.w - e.y;
    if (abs(dy) < 0.02 * abs(dr) + 1e-7) {
      if (abs(d.y) < 1e-7) continue;
      float t = (0.5 * (e.y + e.w) - o.y) / d.y;
      if (t <= from || t >= best) continue;
      float r = length(o.xz + d.xz * t);
      if (r < min(e.x, e.z) - 1e-6 || r > max(e.x, e.z) + 1e-6) continue;
      best = t;
      which = i;
      continue;
    }
    float k = dr / dy;
    float r0 = e.x + k * (o.y - e.y);
    float a = dd - k * k * d.y * d.y;
    float b = od - k * r0 * d.y;
    float c = oo - r0 * r0;
    float disc = b * b - a * c;
    if (disc < 0.0) continue;
    float root = sqrt(disc);
    float q = b > 0.0 ? -b - root : -b + root;
    float ta = abs(a) > 1e-9 ? q / a : -1.0;
    float tb = abs(q) > 1e-12 ? c / q : -1.0;
    float lo = min(e.y, e.w) - 1e-6;
    float hi = max(e.y, e.w) + 1e-6;
    for (int s = 0; s < 2; s++) {
      float t = s == 0 ? ta : tb;
      if (t <= from || t >= best) continue;
      float y = o.y + d.y * t;
      if (y < lo || y > hi || e.x + k * (y - e.y) < 0.0) continue;
      best = t;
      which = i;
    }
  }
  return best;
}

vec3 kgProfileNormal(vec3 at, int which) {
  vec4 e = texelFetch(kgSegments, ivec2(0, which), 0);
  vec4 n = texelFetch(kgSegments, ivec2(1, which), 0);
  float r = length(at.xz);
  float s = abs(e.w - e.y) > abs(e.z - e.x) ? (at.y - e.y) / (e.w - e.y) : (r - e.x) / (e.z - e.x);
  vec2 m = mix(n.xy, n.zw, clamp(s, 0.0, 1.0));
  vec2 out_ = r > 1e-7 ? at.xz / r : vec2(1.0, 0.0);
  return normalize(vec3(out_.x * m.x, m.y, out_.y * m.x));
}

/* Entry into and exit from a cube of ice; entry over exit when it is missed. */
vec2 kgMeetIce(int i, vec3 world, vec3 d, out vec3 inNormal, out vec3 outNormal) {
  vec3 o = (kgIce[i] * vec4(world, 1.0)).xyz;
  vec3 e = mat3(kgIce[i]) * d;
  vec3 inverse = 1.0 / mix(e, vec3(1e-6), vec3(lessThan(abs(e), vec3(1e-6))));
  vec3 ta = (-1.0 - o) * inverse;
  vec3 tb = (1.0 - o) * inverse;
  vec3 lo = min(ta, tb);
  vec3 hi = max(ta, tb);
  float enter = max(lo.x, max(lo.y, lo.z));
  float leave = min(hi.x, min(hi.y, hi.z));
  vec3 nIn = -sign(e) * vec3(equal(lo, vec3(enter)));
  vec3 nOut = sign(e) * vec3(equal(hi, vec3(leave)));
  inNormal = normalize(nIn * mat3(kgIce[i]));
  outNormal = normalize(nOut * mat3(kgIce[i]));
  return vec2(enter, leave);
}
`;

const seeGlsl = `
/* What a ray that has left the glass meets. */
vec3 kgSee(vec3 p, vec3 dir) {
  vec4 light = kgLightAlong(p, dir, 0.002, -1.0);
  vec4 backdrop = kgBackdropAlong(p, dir, light.w);
  if (backdrop.w >= light.w) return light.rgb;
  vec4 clip = kgViewProjection * vec4(p + dir * backdrop.w, 1.0);
  vec2 uv = clip.xy / clip.w * 0.5 + 0.5;
  bool shown = clip.w > 0.0 && uv.x > 0.0 && uv.x < 1.0 && uv.y > 0.0 && uv.y < 1.0;
  return shown ? textureLod(kgBehind, uv, 0.0).rgb : backdrop.rgb;
}

vec3 kgGlint(vec3 p, vec3 dir) {
  vec4 light = kgLightAlong(p, dir, 0.004, -1.0);
  vec4 backdrop = kgBackdropAlong(p, dir, light.w);
  return backdrop.w < light.w ? backdrop.rgb : light.rgb;
}
`;

const followGlsl = `
vec3 kgThroughGlass(vec3 start, vec3 along, int ray) {
  vec3 dir = along;
  vec3 o = start - dir * 0.003 - kgFoot;
  vec3 share = vec3(1.0);
  vec3 sum = vec3(0.0);
  int medium = 0;
  int inIce = -1;
  for (int turn = 0; turn < 14; turn++) {
    int which;
    float t = 1e9;
    vec3 n = vec3(0.0);
    int next = medium;
    int nextIce = inIce;
    vec3 nIn;
    vec3 nOut;
    if (inIce >= 0) {
      vec2 span = kgMeetIce(inIce, o + kgFoot, dir, nIn, nOut);
      t = max(span.y, 1e-6);
      n = nOut;
      next = (o + dir * t).y > kgLevel ? 0 : 2;
      nextIce = -1;
    } else {
      t = kgMeetProfile(o, dir, turn == 0 ? 0.0 : 2e-5, which);
      for (int i = 0; i < kgIceCount; i++) {
        vec2 span = kgMeetIce(i, o + kgFoot, dir, nIn, nOut);
        if (span.x <= 2e-5 || span.x >= span.y || span.x >= t) continue;
        t = span.x;
        n = nIn;
        which = -1;
        next = 3;
        nextIce = i;
      }
      if (t > 1e8) break;
      if (which >= 0) {
        n = kgProfileNormal(o + dir * t, which);
        vec4 media = texelFetch(kgSegments, ivec2(2, which), 0);
        bool fromFront = dot(dir, n) < 0.0;
        if (media.w > 0.5) n = kgCutNormal(o + dir * t, n);
        if (media.z > 0.0) n = kgFrostNormal(n, media.z, ray, turn);
        // A facet that is turned away from the ray is hidden by its neighbours.
        if ((dot(dir, n) < 0.0) != fromFront) n = normalize(n - 1.02 * dot(dir, n) * dir);
        medium = int(fromFront ? media.x : media.y);
        next = int(fromFront ? media.y : media.x);
      }
    }
    vec3 lost = kgAbsorption[medium];
    if (medium == 2) {
      // A cloudy drink shows the light that falls on it: diffusive reflectance of a deep cloud from its
      // single-scattering albedo (B. Hapke, J. Geophys. Res. 86, 3039, 1981; from memory).
      vec3 all = lost + kgScattering;
      vec3 gamma = sqrt(clamp(lost / max(all, vec3(1e-6)), 0.0, 1.0));
      if (kgScattering.g > 0.0) sum += share * (1.0 - exp(-all * t)) * (1.0 - gamma) / (1.0 + gamma) * kgCloud;
      lost = all;
    }
    share *= exp(-lost * t);
    o += dir * t;
    if (dot(dir, n) > 0.0) n = -n;
    float ratio = kgIndex[next] / kgIndex[medium];
    if (abs(ratio - 1.0) < 1e-4) {
      medium = next;
      inIce = nextIce;
      continue;
    }
    float turned = kgFresnel(max(-dot(dir, n), 0.0), ratio);
    vec3 mirrored = reflect(dir, n);
    vec3 bent = refract(dir, n, 1.0 / ratio);
    if (turned < 0.5) {
      vec3 world = o + kgFoot;
      if (turn == 0) sum += share * turned * kgSee(world, mirrored);
      else if (turn < 6 && turned > 0.002) sum += share * turned * kgGlint(world, mirrored);
      share *= 1.0 - turned;
      dir = bent;
      medium = next;
      inIce = nextIce;
    } else {
      if (next == 0 && turned < 1.0) sum += share * (1.0 - turned) * kgSee(o + kgFoot, bent);
      share *= turned;
      dir = mirrored;
    }
    if (max(share.r, max(share.g, share.b)) < 0.01) return sum;
  }
  return sum + share * kgSee(o + kgFoot, dir);
}
`;

export const glassFragmentGlsl = `
precision highp float;
${lightingGlsl}${lookAlongGlsl}
uniform vec3 kgFoot;
uniform bool kgIsFrosted;
uniform vec4 kgCut;
uniform float kgCutFrom;
uniform float kgCutTo;
uniform float kgLevel;
uniform float kgIndex[4];
uniform vec3 kgAbsorption[4];
uniform vec3 kgScattering;
uniform vec3 kgCloud;
uniform mat4 kgIce[${MOST_ICE}];
uniform int kgIceCount;
uniform sampler2D kgBehind;
uniform mat4 kgViewProjection;
uniform vec4 kgClip;
in vec3 kgWorld;
in vec3 kgNormal;
layout(location = 0) out vec4 kgColour;
${turnedNormalGlsl}${intersectGlsl}${seeGlsl}${followGlsl}
void main() {
  vec3 dir = normalize(kgWorld - cameraPosition);
  if (dot(vec4(kgWorld, 1.0), kgClip) < 0.0 || dot(dir, kgNormal) > 0.0) discard;
  int rays = kgIsFrosted ? ${FROST_RAYS} : 1;
  // Few rays would show a small bright light as sparks; frost spreads it.
  float most = kgIsFrosted ? 3.0 : 64.0;
  vec3 sum = vec3(0.0);
  for (int ray = 0; ray < rays; ray++) sum += min(kgThroughGlass(kgWorld, dir, ray), vec3(most));
  kgColour = vec4(sum / float(rays), 1.0);
}
`;
