import { glslFloat } from '../../../camera/toneCurve.ts';
import { SCRATCH_ROUGHNESS } from '../../../materials/finishPattern.ts';
import { PatternKind } from '../../../materials/patterns/patternMixAt.ts';
import { lightingGlsl } from '../light/lightingGlsl.ts';
import { patternCall, patternGlsl } from './patternGlsl.ts';

/*
 * Surfaces other than glass, in working RGB times `kgScale` (sensor exposure per cd/m2). They follow the finishes of
 * the traced picture: Lambertian, coated base, metal, mirror, thin scattering sheet.
 */

export const surfaceVertexGlsl = `
invariant gl_Position;
out vec3 kgWorld;
out vec3 kgNormal;
void main() {
  vec4 world = modelMatrix * vec4(position, 1.0);
  kgWorld = world.xyz;
  kgNormal = mat3(modelMatrix) * normal;
  gl_Position = projectionMatrix * viewMatrix * world;
}
`;

/** What a ray from a surface or out of a glass meets: lights, then broad surfaces with their mean luminance. */
export const lookAlongGlsl = `
uniform highp sampler2D kgBackdrops;
uniform int kgBackdropCount;

/* Luminance of the nearest light that the ray meets and its distance; edges softened by 'spread' per metre. What lets
   light pass is not in the way here: glass follows its own rays. */
vec4 kgLightAlong(vec3 p, vec3 dir, float spread, float ownRecord) {
  vec4 found = vec4(0.0, 0.0, 0.0, 1e9);
  int from = 0;
  int to = 0;
  for (int k = 0; k < kgLightCount; k++) {
    vec4 t0 = texelFetch(kgLights, ivec2(0, k), 0);
    vec4 t5 = texelFetch(kgLights, ivec2(5, k), 0);
    if (t5.z == ownRecord) continue;
    vec4 t1 = texelFetch(kgLights, ivec2(1, k), 0);
    vec4 t2 = texelFetch(kgLights, ivec2(2, k), 0);
    vec4 t3 = texelFetch(kgLights, ivec2(3, k), 0);
    vec4 t4 = texelFetch(kgLights, ivec2(4, k), 0);
    vec3 o = t0.xyz - p;
    float share = 0.0;
    float t = 1e9;
    float cosine = 1.0;
    vec2 at = vec2(0.0);
    if (t0.w < 1.5) {
      cosine = -dot(dir, t3.xyz);
      if (cosine <= 1e-4) continue;
      t = -dot(o, t3.xyz) / cosine;
      if (t <= 1e-4) continue;
      vec3 x = dir * t - o;
      float lu = length(t1.xyz);
      float lv = length(t2.xyz);
      at = vec2(dot(x, t1.xyz) / (lu * lu), dot(x, t2.xyz) / (lv * lv));
      float soft = max(spread * t, 1e-4);
      if (t0.w < 0.5) {
        vec2 inner = (1.0 - abs(at)) * vec2(lu, lv);
        share = clamp(0.5 + inner.x / soft, 0.0, 1.0) * clamp(0.5 + inner.y / soft, 0.0, 1.0);
      } else {
        share = clamp(0.5 + (1.0 - length(at)) * lu / soft, 0.0, 1.0);
        at = vec2(0.0);
      }
    } else if (t0.w < 2.5) {
      t = dot(o, dir);
      if (t <= 0.0) continue;
      share = clamp(0.5 + (length(t1.xyz) - length(o - dir * t)) / max(spread * t, 1e-4), 0.0, 1.0);
      cosine = -dot(dir, t3.xyz);
    } else {
      float half_ = length(t1.xyz);
      vec3 axis = t1.xyz / half_;
      float da = dot(dir, axis);
      vec3 across = dir - axis * da;
      float a = max(dot(across, across), 1e-9);
      t = dot(o - axis * dot(o, axis), across) / a;
      if (t <= 0.0) continue;
      vec3 x = dir * t - o;
      float along = dot(x, axis);
      float soft = max(spread * t, 1e-4);
      share = clamp(0.5 + (length(t2.xyz) - length(x - axis * along)) / soft, 0.0, 1.0)
        * clamp(0.5 + (half_ - abs(along)) / soft, 0.0, 1.0);
    }
    if (share <= 0.0 || t > found.w) continue;
    vec2 s = clamp(at, -1.0, 1.0);
    share *= (1.0 - t1.w * s.x * s.x) * (1.0 - t1.w * s.y * s.y) * kgProfile(t2.w, cosine);
    found = vec4(t4.rgb * share, t);
    from = int(t3.w);
    to = from + int(t5.x);
  }
  for (int i = from; i < to; i++) {
    vec4 o3 = texelFetch(kgOccluders, ivec2(3, i), 0);
    if (o3.y == ownRecord || o3.x > 0.0) continue;
    vec4 o0 = texelFetch(kgOccluders, ivec2(0, i), 0);
    vec4 o1 = texelFetch(kgOccluders, ivec2(1, i), 0);
    vec4 o2 = texelFetch(kgOccluders, ivec2(2, i), 0);
    found.rgb *= 1.0 - kgCoverage(o3.z, o0, o1, o2, p, p + dir * found.w, max(spread * found.w, 1e-4));
  }
  return found;
}

/* Mean luminance of the nearest broad surface before 'most', and its distance. */
vec4 kgBackdropAlong(vec3 p, vec3 dir, float most) {
  vec4 found = vec4(0.0, 0.0, 0.0, most);
  for (int k = 0; k < kgBackdropCount; k++) {
    vec4 t0 = texelFetch(kgBackdrops, ivec2(0, k), 0);
    vec4 t1 = texelFetch(kgBackdrops, ivec2(1, k), 0);
    vec4 t2 = texelFetch(kgBackdrops, ivec2(2, k), 0);
    vec3 n = cross(t1.xyz, t2.xyz);
    float along = dot(n, dir);
    if (abs(along) < 1e-9) continue;
    float t = dot(n, t0.xyz - p) / along;
    if (t <= 1e-4 || t >= found.w) continue;
    vec3 x = p + dir * t - t0.xyz;
    float a = dot(x, t1.xyz) / dot(t1.xyz, t1.xyz);
    float b = dot(x, t2.xyz) / dot(t2.xyz, t2.xyz);
    if (a < 0.0 || a > 1.0 || b < 0.0 || b > 1.0) continue;
    found = vec4(texelFetch(kgBackdrops, ivec2(3, k), 0).rgb, t);
  }
  return found;
}
`;

const FINISH_NUMBERS = { matte: 0, gloss: 1, metal: 2, mirror: 3, translucent: 4, black: 5, emitting: 6 } as const;
export type FinishNumber = (typeof FINISH_NUMBERS)[keyof typeof FINISH_NUMBERS];
export const FINISH = FINISH_NUMBERS;

/** Which patterns a surface's shader draws. Those without any share one program. */
export interface SurfacePatterns {
  /** Of `PatternKind`; 0 for an even base. */
  readonly base: number;
  readonly dust: boolean;
  readonly scratches: boolean;
}

export const EVEN_SURFACE: SurfacePatterns = { base: PatternKind.none, dust: false, scratches: false };

/* A pattern whose cells are smaller than a pixel shows its mean. */
const patternPlacesGlsl = `
uniform mat4 kgPatternFromWorld;
uniform float kgPattern[8];
uniform vec4 kgSecond;
uniform float kgDust[8];
uniform vec4 kgDustRgb;
uniform float kgScratches[8];
uniform float kgScratchMean;

float kgFaded(float mixed, float mean, float cellsPerPixel) {
  return mix(mixed, mean, smoothstep(0.5, 1.5, cellsPerPixel));
}
`;

/** The shader of all surfaces but glass, up to `kgShade()`. */
export function surfaceFragmentGlsl({ base, dust, scratches }: SurfacePatterns): string {
  const call = patternCall(base);
  const kinds = [base, dust ? PatternKind.speckle : 0, scratches ? PatternKind.scratches : 0];
  const drawn = patternGlsl(kinds);
  const place = `
  vec3 place = (kgPatternFromWorld * vec4(kgWorld, 1.0)).xyz;
  float pixelM = max(length(dFdx(place)), length(dFdy(place)));`;
  const mixed = (name: string, numbers: string, mean: string): string =>
    `kgFaded(${name}(place, ${numbers}), ${mean}, pixelM * ${numbers}[0])`;
  return `
precision highp float;
precision highp int;
${lightingGlsl}${lookAlongGlsl}${drawn && drawn + patternPlacesGlsl}
uniform vec3 kgReflectance;
uniform vec3 kgTransmittance;
uniform int kgFinish;
uniform float kgCoatIndex;
uniform float kgInside;
uniform float kgRoughness;
uniform float kgOwnRecord;
uniform vec3 kgEmission;
uniform float kgEmissionProfile;
uniform vec3 kgAmbient;
uniform vec3 kgFloor;
uniform vec4 kgClip;
uniform sampler2D kgMirror;
uniform float kgMirrored;
uniform vec2 kgViewport;
in vec3 kgWorld;
in vec3 kgNormal;
layout(location = 0) out vec4 kgColour;

vec3 kgReflected(vec3 p, vec3 n, vec3 view, float roughness) {
  if (kgMirrored > 0.5) {
    float lod = roughness > 0.0 ? log2(1.0 + roughness * kgViewport.y * 0.35) : 0.0;
    return textureLod(kgMirror, gl_FragCoord.xy / kgViewport, lod).rgb;
  }
  vec3 dir = reflect(-view, n);
  vec4 light = kgLightAlong(p, dir, 4.0 * roughness, kgOwnRecord);
  vec4 backdrop = kgBackdropAlong(p, dir, 1e9);
  return (backdrop.w < light.w ? backdrop.rgb : light.rgb) + kgAmbient;
}

vec3 kgShade() {
  vec3 n = normalize(kgNormal);
  vec3 view = normalize(cameraPosition - kgWorld);
  float facing = dot(n, view);
  vec3 reflectance = kgReflectance;
  float roughness = kgRoughness;${drawn && place}${
    call
      ? `
  reflectance = mix(reflectance, kgSecond.rgb, ${mixed(call, 'kgPattern', 'kgSecond.a')});`
      : ''
  }${
    scratches
      ? `
  float rough = max(roughness, ${glslFloat(SCRATCH_ROUGHNESS)});
  roughness = mix(roughness, rough, ${mixed('kgMix_scratches', 'kgScratches', 'kgScratchMean')});`
      : ''
  }
  if (kgFinish == ${FINISH_NUMBERS.emitting}) return facing > 0.0 ? kgEmission * kgProfile(kgEmissionProfile, facing) : kgFloor;
  if (kgFinish == ${FINISH_NUMBERS.black}) return kgFloor * (0.35 + 0.65 * abs(facing)) ;
  n = facing < 0.0 ? -n : n;
  facing = max(abs(facing), 1e-4);
  vec3 p = kgWorld + n * 2e-4;
  vec3 ambient = kgAmbient * (0.75 + 0.25 * n.y);
  if (kgFinish == ${FINISH_NUMBERS.metal} || kgFinish == ${FINISH_NUMBERS.mirror}) {
    float m = kgFinish == ${FINISH_NUMBERS.metal} ? pow(1.0 - facing, 5.0) : 0.0;
    return (reflectance + (1.0 - reflectance) * m) * kgReflected(p, n, view, roughness);
  }
  if (kgFinish == ${FINISH_NUMBERS.gloss}) {
    float turned = kgFresnel(facing, kgCoatIndex);
    vec3 lit = kgDirect(p, n, kgOwnRecord, kgCoatIndex);
    vec3 around = kgBounced(p, n) + ambient * 3.14159265;
    // Light from all round enters the coat by its mean transmittance.
    lit += around * (1.0 - kgInside) * kgCoatIndex * kgCoatIndex;
    vec3 base = (1.0 - turned) * reflectance / (kgCoatIndex * kgCoatIndex * (1.0 - reflectance * kgInside));
    vec3 coated = base * lit * 0.31830989 + turned * kgReflected(p, n, view, roughness);
    ${
      dust
        ? `// Specks lie on the coat.
    vec3 speck = kgDustRgb.rgb * (kgDirect(p, n, kgOwnRecord, 0.0) + around) * 0.31830989;
    return mix(coated, speck, ${mixed('kgMix_speckle', 'kgDust', 'kgDustRgb.a')});`
        : 'return coated;'
    }
  }
  vec3 colour = reflectance * ((kgDirect(p, n, kgOwnRecord, 0.0) + kgBounced(p, n)) * 0.31830989 + ambient);
  if (kgFinish == ${FINISH_NUMBERS.translucent}) {
    vec3 q = kgWorld - n * 2e-4;
    // A shade glows by its own bulb.
    colour += kgEmission;
    colour += kgTransmittance * ((kgDirect(q, -n, kgOwnRecord, 0.0) + kgBounced(q, -n)) * 0.31830989 + ambient);
  }
  return colour;
}
`;
}

/** Writes light as it is, for a picture that is developed afterwards. Clipped light is held so that edges stay clean. */
export const sceneOutputGlsl = `
void main() {
  if (dot(vec4(kgWorld, 1.0), kgClip) < 0.0) discard;
  kgColour = vec4(min(kgShade(), vec3(64.0)), 1.0);
}
`;

/** Lays down depth alone, so that light is worked out once for each point of the picture. */
export const depthFragmentGlsl = `
precision highp float;
uniform vec4 kgClip;
in vec3 kgWorld;
layout(location = 0) out vec4 kgColour;
void main() {
  if (dot(vec4(kgWorld, 1.0), kgClip) < 0.0) discard;
  kgColour = vec4(0.0);
}
`;
