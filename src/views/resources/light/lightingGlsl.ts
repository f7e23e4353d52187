import { glslFloat } from '../../../camera/toneCurve.ts';
import { SQUARE_OF_DISC } from './lightCells.ts';
import { PROFILE_STEPS } from './profileTable.ts';

/*
 * Twins of lightCells.ts, coverage.ts, directIlluminance.ts and bouncePatches.ts for the graphics card. Lights,
 * occluders and patches are rows of float textures (layout: lightTextures.ts).
 */

/** Texels of one light, one occluder, one patch and one backdrop. */
export const LIGHT_TEXELS = 6;
export const OCCLUDER_TEXELS = 4;
export const PATCH_TEXELS = 3;
export const BACKDROP_TEXELS = 4;

/** Cells of one light in a shader; `kgCells` squared is at most this. */
export const MOST_CELLS = 16;

export const LIGHT_KIND = { rectangle: 0, disc: 1, sphere: 2, tube: 3 } as const;
export const OCCLUDER_KIND = { sheet: 0, cylinder: 1, box: 2, shell: 3, aperture: 4 } as const;

const coverageGlsl = `
float kgSheetCoverage(vec4 t0, vec4 t1, vec4 t2, vec3 p, vec3 s, float cell) {
  vec3 n = cross(t1.xyz, t2.xyz);
  vec3 d = s - p;
  float along = dot(n, d);
  if (abs(along) < 1e-12) return 0.0;
  float t = dot(n, t0.xyz - p) / along;
  if (t < 1e-4 || t > 0.9999) return 0.0;
  vec3 x = p + d * t - t0.xyz;
  float a = dot(x, t1.xyz) / t1.w;
  float b = dot(x, t2.xyz) / t2.w;
  // On a sheet seen at a slant a beam is longer.
  float slant = length(n) / along;
  float softA = max(cell * t, 1e-5) * length(vec2(1.0, dot(t1.xyz, d) * slant / t1.w));
  float softB = max(cell * t, 1e-5) * length(vec2(1.0, dot(t2.xyz, d) * slant / t2.w));
  return clamp(0.5 + min(a, t1.w - a) / softA, 0.0, 1.0) * clamp(0.5 + min(b, t2.w - b) / softB, 0.0, 1.0);
}

float kgCylinderCoverage(vec4 t0, vec4 t1, vec3 p, vec3 s, float cell) {
  vec2 o = p.xz - t0.xz - t1.zw * (p.y - t0.y);
  vec2 d = s.xz - p.xz - t1.zw * (s.y - p.y);
  float a = max(dot(d, d), 1e-12);
  float closest = clamp(-dot(o, d) / a, 0.0, 1.0);
  float miss = length(o + d * closest);
  float soft = max(cell * closest, 1e-5);
  float across = clamp(0.5 + (t1.x - miss) / soft, 0.0, 1.0);
  if (across == 0.0) return 0.0;
  float halfChord = sqrt(max(t1.x * t1.x - miss * miss, 0.0) / a);
  float yIn = mix(p.y, s.y, max(0.0, closest - halfChord));
  float yOut = mix(p.y, s.y, min(1.0, closest + halfChord));
  float gap = max(min(yIn, yOut) - (t0.y + t1.y), t0.y - max(yIn, yOut));
  return across * clamp(0.5 - gap / soft, 0.0, 1.0);
}

float kgBoxCoverage(vec4 t0, vec4 t1, vec4 t2, vec3 p, vec3 s, float cell) {
  vec3 q = p - t0.xyz;
  vec3 e = s - p;
  vec3 o = vec3(q.x * t2.x + q.z * t2.z, q.y, q.z * t2.x - q.x * t2.z);
  vec3 d = vec3(e.x * t2.x + e.z * t2.z, e.y, e.z * t2.x - e.x * t2.z);
  vec3 inverse = 1.0 / mix(d, vec3(1e-9), vec3(lessThan(abs(d), vec3(1e-9))));
  vec3 ta = (-t1.xyz - o) * inverse;
  vec3 tb = (t1.xyz - o) * inverse;
  vec3 lo = min(ta, tb);
  vec3 hi = max(ta, tb);
  float enter = max(1e-4, max(lo.x, max(lo.y, lo.z)));
  float leave = min(0.9999, min(hi.x, min(hi.y, hi.z)));
  float soft = max(cell * enter, 1e-5);
  return clamp((leave - enter) * length(d) / (2.0 * soft), 0.0, 1.0);
}

float kgShellCoverage(vec4 t0, vec4 t1, vec3 p, vec3 s, float cell) {
  vec3 o = p - t0.xyz;
  vec3 d = s - p;
  float a = max(dot(d.xz, d.xz), 1e-12);
  float b = dot(o.xz, d.xz);
  float disc = b * b - a * (dot(o.xz, o.xz) - t1.x * t1.x);
  if (disc <= 0.0) return 0.0;
  float root = sqrt(disc);
  float taken = 0.0;
  for (int i = 0; i < 2; i++) {
    float t = (-b + (i == 0 ? -root : root)) / a;
    if (t < 1e-4 || t > 0.9999) continue;
    float y = o.y + d.y * t;
    taken = max(taken, clamp(0.5 + min(y, t1.y - y) / max(cell * t, 1e-5), 0.0, 1.0));
  }
  for (int i = 0; i < 2; i++) {
    if ((i == 0 ? t1.z : t1.w) < 0.5) continue;
    float t = ((i == 0 ? t1.y : 0.0) - o.y) / (abs(d.y) < 1e-9 ? 1e-9 : d.y);
    if (t > 1e-4 && t < 0.9999 && length(o.xz + d.xz * t) < t1.x) taken = 1.0;
  }
  return taken;
}

float kgApertureCoverage(vec4 t0, vec4 t1, vec3 p, vec3 s, float cell) {
  float before = dot(p - t0.xyz, t1.xyz);
  if (before <= 0.0) return 1.0;
  float t = before / max(before - dot(s - t0.xyz, t1.xyz), 1e-9);
  return clamp(0.5 + (length(p + (s - p) * t - t0.xyz) - t1.w) / max(cell * t, 1e-5), 0.0, 1.0);
}

float kgCoverage(float kind, vec4 t0, vec4 t1, vec4 t2, vec3 p, vec3 s, float cell) {
  return kind == ${glslFloat(OCCLUDER_KIND.sheet)} ? kgSheetCoverage(t0, t1, t2, p, s, cell)
    : kind == ${glslFloat(OCCLUDER_KIND.cylinder)} ? kgCylinderCoverage(t0, t1, p, s, cell)
    : kind == ${glslFloat(OCCLUDER_KIND.box)} ? kgBoxCoverage(t0, t1, t2, p, s, cell)
    : kind == ${glslFloat(OCCLUDER_KIND.shell)} ? kgShellCoverage(t0, t1, p, s, cell)
    : kgApertureCoverage(t0, t1, p, s, cell);
}
`;

const directGlsl = `
float kgProfile(float row, float cosine) {
  if (row < 0.0) return 1.0;
  float place = sqrt(max(0.0, 0.5 - 0.5 * cosine)) * ${glslFloat(PROFILE_STEPS - 1)};
  int i = min(${PROFILE_STEPS - 2}, int(place));
  float a = texelFetch(kgProfiles, ivec2(i, int(row)), 0).r;
  float b = texelFetch(kgProfiles, ivec2(i + 1, int(row)), 0).r;
  return mix(a, b, place - float(i));
}

/* Illuminance of a surface element by all lights, working RGB. With coatIndex over 1 the light that a smooth coat of
   that index turns away at each angle is left out. */
vec3 kgDirect(vec3 p, vec3 n, float ownRecord, float coatIndex) {
  vec3 sum = vec3(0.0);
  for (int k = 0; k < kgLightCount; k++) {
    vec4 t0 = texelFetch(kgLights, ivec2(0, k), 0);
    vec4 t5 = texelFetch(kgLights, ivec2(5, k), 0);
    if (t5.z == ownRecord) continue;
    vec4 t1 = texelFetch(kgLights, ivec2(1, k), 0);
    vec4 t2 = texelFetch(kgLights, ivec2(2, k), 0);
    vec4 t3 = texelFetch(kgLights, ivec2(3, k), 0);
    vec4 t4 = texelFetch(kgLights, ivec2(4, k), 0);
    vec3 u = t1.xyz;
    vec3 v = t2.xyz;
    vec3 face = t3.xyz;
    int cells = t5.y > 0.5 ? max(1, kgCells >> 1) : kgCells;
    int nu = cells;
    int nv = cells;
    float area = t4.w;
    vec3 toPoint = p - t0.xyz;
    float axial = 2.0;
    if (t0.w == ${glslFloat(LIGHT_KIND.disc)}) {
      u *= ${glslFloat(SQUARE_OF_DISC)};
      v *= ${glslFloat(SQUARE_OF_DISC)};
      nu = nv = 2;
    } else if (t0.w == ${glslFloat(LIGHT_KIND.sphere)}) {
      axial = dot(normalize(toPoint), face);
      face = normalize(toPoint);
      float side = length(u) * ${glslFloat(SQUARE_OF_DISC)};
      u = normalize(cross(abs(face.y) > 0.9 ? vec3(1.0, 0.0, 0.0) : vec3(0.0, 1.0, 0.0), face));
      v = cross(face, u) * side;
      u *= side;
      nu = nv = 2;
      area *= 0.25;
    } else if (t0.w == ${glslFloat(LIGHT_KIND.tube)}) {
      vec3 axis = normalize(u);
      face = normalize(toPoint - axis * dot(toPoint, axis));
      v = cross(axis, face) * length(v);
      nu = 2 * cells;
      nv = 1;
      area *= ${glslFloat(1 / Math.PI)};
    }
    if (dot(toPoint, face) <= 0.0) continue;
    area /= float(nu * nv);
    float side = sqrt(area);
    int count = nu * nv;
    float weights[${MOST_CELLS}];
    vec3 places[${MOST_CELLS}];
    float open = 0.0;
    for (int c = 0; c < count; c++) {
      float a = float(2 * (c / nv) + 1) / float(nu) - 1.0;
      float b = float(2 * (c % nv) + 1) / float(nv) - 1.0;
      vec3 at = t0.xyz + u * a + v * b;
      vec3 d = at - p;
      float d2 = max(dot(d, d), side * side / 16.0);
      vec3 dir = d * inversesqrt(d2);
      float here = dot(dir, n);
      float there = -dot(dir, face);
      float weight = 0.0;
      if (here > 0.0 && there > 0.0) {
        weight = (1.0 - t1.w * a * a) * (1.0 - t1.w * b * b) * kgProfile(t2.w, axial > 1.5 ? there : axial) * here * there * area / d2;
        if (coatIndex > 1.0) weight *= 1.0 - kgFresnel(here, coatIndex);
      }
      weights[c] = weight;
      places[c] = at;
      open += weight;
    }
    if (open <= 0.0) continue;
    // Occluders outside, cells inside: each is fetched once.
    int from = int(t3.w);
    for (int i = from; i < from + int(t5.x); i++) {
      vec4 o3 = texelFetch(kgOccluders, ivec2(3, i), 0);
      if (o3.y == ownRecord) continue;
      vec4 o0 = texelFetch(kgOccluders, ivec2(0, i), 0);
      vec4 o1 = texelFetch(kgOccluders, ivec2(1, i), 0);
      vec4 o2 = texelFetch(kgOccluders, ivec2(2, i), 0);
      for (int c = 0; c < count; c++) {
        if (weights[c] > 0.0) weights[c] *= 1.0 - (1.0 - o3.x) * kgCoverage(o3.z, o0, o1, o2, p, places[c], side);
      }
    }
    float lxPerNit = 0.0;
    for (int c = 0; c < count; c++) lxPerNit += weights[c];
    sum += t4.rgb * lxPerNit;
  }
  return sum;
}

vec3 kgBounced(vec3 p, vec3 n) {
  vec3 sum = vec3(0.0);
  for (int k = 0; k < kgPatchCount; k++) {
    vec4 t0 = texelFetch(kgPatches, ivec2(0, k), 0);
    vec4 t1 = texelFetch(kgPatches, ivec2(1, k), 0);
    vec3 d = t0.xyz - p;
    float d2 = max(dot(d, d), 1e-9);
    float inverse = inversesqrt(d2);
    float here = dot(d, n) * inverse;
    float there = -dot(d, t1.xyz) * inverse;
    if (here <= 0.0 || there <= 0.0) continue;
    sum += texelFetch(kgPatches, ivec2(2, k), 0).rgb * (3.14159265 * here * there * t0.w / (3.14159265 * d2 + t0.w));
  }
  return sum;
}
`;

/** Exact Fresnel reflectance, unpolarised, from air (or out of a medium, with the inverse of its index). */
const fresnelGlsl = `
float kgFresnel(float cosine, float index) {
  float g2 = index * index - 1.0 + cosine * cosine;
  if (g2 <= 0.0) return 1.0;
  float g = sqrt(g2);
  float s = (cosine - g) / (cosine + g);
  float p = (index * index * cosine - g) / (index * index * cosine + g);
  return 0.5 * (s * s + p * p);
}
`;

/** Uniforms and functions for shaders that light surfaces. */
export const lightingGlsl = `
uniform highp sampler2D kgLights;
uniform highp sampler2D kgOccluders;
uniform highp sampler2D kgPatches;
uniform highp sampler2D kgProfiles;
uniform int kgLightCount;
uniform int kgPatchCount;
uniform int kgCells;
${fresnelGlsl}${coverageGlsl}${directGlsl}`;
