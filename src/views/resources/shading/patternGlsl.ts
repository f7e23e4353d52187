import { glslFloat } from '../../../camera/toneCurve.ts';
import { TURN } from '../../../materials/patterns/noise.ts';
import { PatternKind } from '../../../materials/patterns/patternMixAt.ts';
import { CHIP_FACES } from '../../../materials/patterns/stone.ts';

/*
 * Twins of src/materials/patterns for the graphics card: the same lattice words and the same arithmetic in 32-bit floats, so
 * that the quick picture has each knot and chip where the traced one has it. Integers wrap in both.
 */

const noiseGlsl = `
const vec3 KG_GRADIENTS[16] = vec3[16](
  vec3(1, 1, 0), vec3(-1, 1, 0), vec3(1, -1, 0), vec3(-1, -1, 0), vec3(1, 0, 1), vec3(-1, 0, 1), vec3(1, 0, -1),
  vec3(-1, 0, -1), vec3(0, 1, 1), vec3(0, -1, 1), vec3(0, 1, -1), vec3(0, -1, -1), vec3(1, 1, 0), vec3(0, -1, 1),
  vec3(-1, 1, 0), vec3(0, -1, -1));

uint kgHashCell(ivec3 i, uint seed) {
  uint h = uint(i.x) * 73856093u ^ uint(i.y) * 19349663u ^ uint(i.z) * 83492791u ^ seed * 0x9e3779b1u;
  h = (h ^ (h >> 16)) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  return h ^ (h >> 16);
}

uint kgHashAgain(uint word) {
  uint h = (word + 0x6d2b79f5u) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  return h ^ (h >> 16);
}

float kgUnit(uint word, int shift) { return float((word >> shift) & 1023u) / 1024.0; }
vec3 kgUnits(uint word) { return vec3(kgUnit(word, 0), kgUnit(word, 10), kgUnit(word, 20)); }

float kgGradientDot(uint word, vec3 f) {
  return dot(KG_GRADIENTS[int(((word ^ (word >> 15)) * 0x2c1b3c6du) >> 28)], f);
}

float kgNoise(vec3 p, uint seed) {
  ivec3 i = ivec3(floor(p));
  vec3 f = p - floor(p);
  vec3 w = f * f * f * (f * (f * 6.0 - 15.0) + 10.0);
  uint x0 = uint(i.x) * 73856093u;
  uint x1 = x0 + 73856093u;
  uint y0 = uint(i.y) * 19349663u;
  uint y1 = y0 + 19349663u;
  uint s = seed * 0x9e3779b1u;
  uint z0 = uint(i.z) * 83492791u;
  uint z1 = z0 + 83492791u ^ s;
  z0 ^= s;
  float a = kgGradientDot(x0 ^ y0 ^ z0, f);
  float b = kgGradientDot(x1 ^ y0 ^ z0, f - vec3(1, 0, 0));
  float c = kgGradientDot(x0 ^ y1 ^ z0, f - vec3(0, 1, 0));
  float d = kgGradientDot(x1 ^ y1 ^ z0, f - vec3(1, 1, 0));
  float e = kgGradientDot(x0 ^ y0 ^ z1, f - vec3(0, 0, 1));
  float g = kgGradientDot(x1 ^ y0 ^ z1, f - vec3(1, 0, 1));
  float h = kgGradientDot(x0 ^ y1 ^ z1, f - vec3(0, 1, 1));
  float k = kgGradientDot(x1 ^ y1 ^ z1, f - vec3(1, 1, 1));
  return clamp(0.5 + 0.5 * mix(mix(mix(a, b, w.x), mix(c, d, w.x), w.y), mix(mix(e, g, w.x), mix(h, k, w.x), w.y), w.z), 0.0, 1.0);
}

float kgStep(float from, float to, float value) {
  float t = clamp((value - from) / (to - from), 0.0, 1.0);
  return t * t * (3.0 - 2.0 * t);
}

/* The eight cells on the near sides of a point, one after the other. */
ivec3 kgNearCell(vec3 p, int k) {
  ivec3 side = ivec3(mix(vec3(1.0), vec3(-1.0), vec3(lessThan(fract(p), vec3(0.5)))));
  return ivec3(floor(p)) + side * ivec3(k & 1, (k >> 1) & 1, (k >> 2) & 1);
}

const mat3 KG_TURN = mat3(${[0, 3, 6, 1, 4, 7, 2, 5, 8].map((i) => glslFloat(TURN[i])).join(', ')});
`;

const woodGrain = `
float kgMix_woodGrain(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec3 p = m * q[0];
  float along = q[2] < 0.5 ? p.x : q[2] < 1.5 ? p.y : p.z;
  float across = q[2] < 0.5 ? p.z : p.x;
  float deep = q[2] > 0.5 && q[2] < 1.5 ? p.z : p.y;
  uint word = kgHashCell(ivec3(1, 2, 3), seed);
  float a = across + 8.0 * (kgUnit(word, 0) - 0.5) + 0.01 * along;
  float b = deep + 7.0 + 10.0 * kgUnit(word, 10) + 0.035 * along;
  float sway = kgNoise(vec3(along * 0.09, across * 0.22, deep * 0.22), seed) - 0.5;
  float ring = sqrt(a * a + b * b) + q[3] * 5.0 * sway;
  float f = fract(ring);
  float depth = 0.45 + 0.55 * kgUnit(kgHashCell(ivec3(int(floor(ring)), 0, 0), seed), 0);
  float rise = kgStep(0.1, 0.88, f) * (1.0 - kgStep(0.9, 1.0, f)) * depth;
  float fibre = kgNoise(vec3(along * 0.35, across * 9.0, deep * 9.0), seed + 1u);
  return clamp(rise * (1.0 - q[4]) + kgStep(0.25, 0.8, fibre) * q[4], 0.0, 1.0);
}
`;

/** Places of a flat pattern in its plane, in cells. */
const planeGlsl = `
vec2 kgInPlane(vec3 m, float q[8]) {
  return vec2(q[2] > 1.5 && q[2] < 2.5 ? m.z : m.x, q[2] < 0.5 ? m.z : q[2] > 2.5 ? m.y - m.z : m.y) * q[0];
}
`;

const planks = `${planeGlsl}
float kgMix_planks(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec2 p = kgInPlane(m, q);
  float row = floor(p.y);
  float along = p.x / q[4] + kgUnit(kgHashCell(ivec3(int(row), 11, 0), seed), 0);
  float board = floor(along);
  float fu = (along - board) * q[4];
  float fv = p.y - row;
  float edge = min(min(fu, q[4] - fu), min(fv, 1.0 - fv));
  float gap = 1.0 - kgStep(0.35 * q[3], 0.65 * q[3], edge);
  uint word = kgHashCell(ivec3(int(row), int(board), 1), seed);
  float shift = 97.0 * kgUnit(word, 10);
  float sway = kgNoise(vec3(p.x * 0.45 + shift, p.y * 0.7, shift), seed);
  float lines = kgNoise(vec3(p.x * 0.5 + shift, p.y * 13.0 + 4.0 * sway, shift), seed + 1u);
  float grain = kgStep(0.3, 0.75, 0.6 * lines + 0.4 * sway);
  float tone = clamp(q[5] * 0.45 * kgUnit(word, 0) + q[6] * 0.5 * grain, 0.0, 1.0);
  return gap + (1.0 - gap) * tone;
}
`;

const stone = `
float kgMix_stone(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec3 c = m * q[0];
  float p = 0.3 * (0.66 * c.x + 0.41 * c.y + 0.63 * c.z);
  float u = -0.44 * c.x + 0.89 * c.y - 0.11 * c.z;
  float v = -0.61 * c.x - 0.2 * c.y + 0.77 * c.z;
  float broadWarp = kgNoise(vec3(p * 1.3, u * 0.55, v * 0.55), seed) - 0.5;
  float fineWarp = kgNoise(vec3(p * 5.1 + 7.7, u * 2.3, v * 2.3), seed + 3u) - 0.5;
  float warp = 2.2 * broadWarp + 0.55 * fineWarp;
  float n = kgNoise(vec3(p + warp, u * 0.9 + 0.6 * warp, v * 0.9 - warp), seed + 1u);
  float f = kgNoise(vec3(p * 2.1 - warp, u * 2.0 + warp, v * 2.0 + 1.3 * warp), seed + 2u);
  float strength = kgStep(-0.15, 0.2, broadWarp + 0.4 * fineWarp);
  float broad = 1.0 - kgStep(0.0, max(0.3 * q[3], 1e-6), abs(n - 0.5));
  float fine = 1.0 - kgStep(0.0, max(0.14 * q[3], 1e-6), abs(f - 0.5));
  float veins = max(broad * (0.25 + 0.75 * strength), 0.5 * fine * strength);
  return clamp(veins + q[4] * (1.0 - veins) * kgStep(0.25, 0.8, 0.5 + 0.6 * warp), 0.0, 1.0);
}
`;

const FACE_COUNT = CHIP_FACES.length / 3;
const terrazzo = `
const vec3 KG_CHIP_FACES[${FACE_COUNT}] = vec3[${FACE_COUNT}](
  ${Array.from({ length: FACE_COUNT }, (_, i) => `vec3(${[0, 1, 2].map((k) => glslFloat(CHIP_FACES[3 * i + k])).join(', ')})`).join(', ')});

float kgChips(vec3 p, uint seed, float chips, float variation) {
  float most = 0.0;
  for (int k = 0; k < 8; k++) {
    ivec3 cell = kgNearCell(p, k);
    uint word = kgHashCell(cell, seed);
    vec3 d = p - vec3(cell) - 0.25 - 0.5 * kgUnits(word);
    float d2 = dot(d, d);
    if (d2 > 0.5184) continue;
    uint more = kgHashAgain(word);
    if (kgUnit(more, 0) > chips * 1.6) continue;
    float half_ = 0.17 + 0.25 * chips + 0.12 * kgUnit(more, 10);
    int pick = int((more >> 20) & 31u);
    float reach = max(
      max(abs(dot(KG_CHIP_FACES[pick % ${FACE_COUNT}], d)) / half_, abs(dot(KG_CHIP_FACES[(pick + 9) % ${FACE_COUNT}], d)) / (half_ * 0.8)),
      max(abs(dot(KG_CHIP_FACES[(pick + 20) % ${FACE_COUNT}], d)) / half_, sqrt(d2) / 0.66));
    float tone = 1.0 - variation * float((more >> 25) & 127u) / 127.0;
    most = max(most, (1.0 - kgStep(0.94, 1.06, reach)) * tone);
  }
  return most;
}

float kgMix_terrazzo(vec3 m, float q[8]) {
  vec3 p = KG_TURN * (m * q[0]);
  uint seed = uint(q[1]);
  return max(kgChips(p, seed, q[3], q[4]), kgChips(p * 2.3 + vec3(0.37, 0.71, 0.13), seed + 1u, q[3], q[4]));
}
`;

const plaster = `
float kgTwoOctaves(vec3 p, uint seed) {
  return (kgNoise(p, seed) * 2.0 + kgNoise(p * 2.03 + vec3(17.31, 5.77, 29.13), seed ^ 0x5bd1u)) / 3.0;
}

float kgMix_plaster(vec3 m, float q[8]) {
  vec3 p = m * q[0];
  uint seed = uint(q[1]);
  float coarse = kgTwoOctaves(p, seed);
  float fine = kgTwoOctaves(p * 4.1 + vec3(3.7, 8.3, 1.9), seed + 1u);
  return clamp(0.5 + (0.5 + 2.5 * q[3]) * (0.8 * coarse + 0.2 * fine - 0.5), 0.0, 1.0);
}
`;

const linen = `${planeGlsl}
float kgMix_linen(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec2 p = kgInPlane(m, q);
  float drift = q[3] * 0.5;
  vec2 at = p + drift * (vec2(kgNoise(vec3(p.x * 0.11, p.y * 0.05, 0.0), seed), kgNoise(vec3(p.x * 0.05, p.y * 0.11, 9.5), seed)) - 0.5);
  vec2 i = floor(at);
  vec2 f = at - i;
  float height = kgStep(0.0, 0.55, 16.0 * f.x * (1.0 - f.x) * f.y * (1.0 - f.y));
  bool warpOnTop = ((int(i.x) + int(i.y)) & 1) == 0;
  float tone = warpOnTop ? kgNoise(vec3(i.x * 7.31 + 0.5, p.y * 0.045, 3.5), seed)
    : kgNoise(vec3(p.x * 0.045, i.y * 7.31 + 0.5, 5.5), seed);
  float turn = warpOnTop ? f.y : f.x;
  float shade = 0.22 * (2.0 * turn - 1.0) * (2.0 * turn - 1.0) + (0.1 + 0.9 * q[3]) * kgStep(0.3, 0.7, tone) * 0.8;
  return clamp(0.62 * (1.0 - height) + shade * height, 0.0, 1.0);
}
`;

const leather = `
float kgMix_leather(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec3 p = KG_TURN * (m * q[0]);
  ivec3 i = ivec3(floor(p));
  float first = 9.0;
  float second = 9.0;
  for (int k = 0; k < 27; k++) {
    ivec3 cell = i + ivec3(k / 9, (k / 3) % 3, k % 3) - 1;
    vec3 d = vec3(cell) + 0.1 + 0.8 * kgUnits(kgHashCell(cell, seed)) - p;
    float d2 = dot(d, d);
    second = min(second, max(first, d2));
    first = min(first, d2);
  }
  float fold = 1.0 - kgStep(0.0, 0.08 + 0.5 * q[3], sqrt(second) - sqrt(first));
  return clamp(0.88 * fold + 0.12 * kgNoise(m * q[0] * 0.4, seed + 1u), 0.0, 1.0);
}
`;

const tiles = `${planeGlsl}
float kgMix_tiles(vec3 m, float q[8]) {
  vec2 p = kgInPlane(m, q);
  float row = floor(p.y);
  float along = p.x / q[4] + q[5] * float(int(row) & 1);
  float column = floor(along);
  float fu = (along - column) * q[4];
  float fv = p.y - row;
  float edge = min(min(fu, q[4] - fu), min(fv, 1.0 - fv));
  float joint = 1.0 - kgStep(0.4 * q[3], 0.6 * q[3], edge);
  float tone = q[6] * 0.6 * kgUnit(kgHashCell(ivec3(int(row), int(column), 0), uint(q[1])), 0);
  return joint + (1.0 - joint) * tone;
}
`;

const brushed = `
float kgMix_brushed(vec3 m, float q[8]) {
  uint seed = uint(q[1]);
  vec3 p = m * q[0];
  float along = (q[2] < 0.5 ? p.x : q[2] < 1.5 ? p.y : p.z) * 0.02;
  float a = q[2] < 0.5 ? p.z : p.x;
  float b = q[2] > 0.5 && q[2] < 1.5 ? p.z : p.y;
  float fine = kgNoise(vec3(along, a, b), seed);
  float broad = kgNoise(vec3(along * 0.3, a * 0.13, b * 0.13), seed + 1u);
  return clamp(kgStep(0.2, 0.8, fine) * (1.0 - 0.5 * q[3]) + q[3] * (broad - 0.25), 0.0, 1.0);
}
`;

const speckle = `
float kgSpecks(vec3 p, uint seed, float radius) {
  if (radius <= 0.0) return 0.0;
  float most2 = radius * radius * ${glslFloat((1.4 * 1.15) ** 2)};
  float bare = 1.0;
  for (int k = 0; k < 8; k++) {
    ivec3 cell = kgNearCell(p, k);
    uint word = kgHashCell(cell, seed);
    vec3 d = p - vec3(cell) - kgUnits(word);
    float d2 = dot(d, d);
    if (d2 > most2) continue;
    float r = radius * (0.6 + 0.8 * kgUnit(kgHashAgain(word), 0));
    bare *= kgStep(0.85 * r, 1.15 * r, sqrt(d2));
  }
  return 1.0 - bare;
}

float kgMix_speckle(vec3 m, float q[8]) {
  vec3 p = m * q[0];
  uint seed = uint(q[1]);
  return 1.0 - (1.0 - kgSpecks(p, seed, q[3])) * (1.0 - kgSpecks(p * 3.7, seed + 1u, q[4])) * (1.0 - q[5]);
}
`;

const scratches = `
float kgLines(vec3 p, uint seed, float halfWidth, float density) {
  float bare = 1.0;
  for (int k = 0; k < 8; k++) {
    ivec3 cell = kgNearCell(p, k);
    uint word = kgHashCell(cell, seed);
    vec3 d = p - vec3(cell) - kgUnits(word);
    float d2 = dot(d, d);
    if (d2 > 0.25) continue;
    uint more = kgHashAgain(word);
    if (kgUnit(more, 0) >= density) continue;
    float reach = 0.3 + 0.18 * kgUnit(more, 10);
    if (d2 > reach * reach) continue;
    float nz = 2.0 * kgUnit(more, 20) - 1.0;
    float phi = 6.28318531 * kgUnit(kgHashAgain(more), 0);
    float r = sqrt(1.0 - nz * nz);
    float away = abs(r * cos(phi) * d.x + r * sin(phi) * d.y + nz * d.z);
    if (away > 1.4 * halfWidth) continue;
    float across = 1.0 - kgStep(0.6 * halfWidth, 1.4 * halfWidth, away);
    bare *= 1.0 - across * (1.0 - kgStep(reach - 0.04, reach, sqrt(d2)));
  }
  return 1.0 - bare;
}

float kgMix_scratches(vec3 m, float q[8]) {
  float bare = 1.0;
  for (int k = 0; k < 3; k++) {
    float cells = q[0] * (k == 0 ? 1.0 : k == 1 ? 2.7 : 6.9);
    bare *= 1.0 - kgLines(m * cells, uint(q[1]) + uint(k), q[3] * cells, q[4]);
  }
  return 1.0 - bare;
}
`;

const MIXES = {
  ...{ woodGrain, planks, stone, terrazzo, plaster, linen, leather, tiles, brushed, speckle, scratches },
} as const;
type PatternName = keyof typeof MIXES;

const nameOf = (kind: number): PatternName | undefined =>
  (Object.keys(MIXES) as PatternName[]).find((name) => PatternKind[name] === kind);

/**
 * Functions for the pattern kinds that a shader needs, and no others: `float NAME(vec3 placeM, float parameters[8])` gives
 * the share of the second colour, for the name that `patternCall` tells.
 *
 * @param kinds of `PatternKind`; 0 and unknown ones are passed over.
 */
export function patternGlsl(kinds: readonly number[]): string {
  const names = new Set(kinds.map(nameOf).filter((name) => name !== undefined));
  if (names.size === 0) return '';
  const bodies = [...names].map((name) => MIXES[name].replace(planeGlsl, ''));
  const flat = [...names].some((name) => MIXES[name].includes(planeGlsl)) ? planeGlsl : '';
  return noiseGlsl + flat + bodies.join('');
}

/** What to call for a kind; undefined where there is no pattern. */
export function patternCall(kind: number): string | undefined {
  const name = nameOf(kind);
  return name === undefined ? undefined : `kgMix_${name}`;
}
