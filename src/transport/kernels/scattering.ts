import { patternMixAt } from '../../materials/patterns/patternMixAt.ts';
import { pictureColourAt } from '../../materials/picture.ts';
import type { World } from '../contracts.ts';
import { ALBEDO_TABLE_SIZE, FINISH, FinishKind, TRANSFORM } from '../layout/schema.ts';
import { dielectricReflectance, ggxDensity, ggxMasking, ggxShadowing, sampleVisibleNormal } from './microfacet.ts';
import { primitiveColumn } from './primitiveColumn.ts';

/** Rougher than this is scattered over a lobe; smoother is a mirror direction. */
const SMOOTH_ALPHA = 1e-3;

/**
 * What surfaces do with light, for every finish but 'clear' and 'mirror' (single directions, handled by the path itself)
 * and the smooth top of a gloss coat (likewise). Registers: `normal` (unit, on the side of `out`), `out` (unit, toward where the
 * light goes), `into` (unit, toward where it comes from). Results: `value[0..2]` = f cos theta per channel, `value[3]` = the
 * density, 1/sr, with which `sample` picks `into`.
 */
export interface Scattering {
  readonly normal: Float64Array;
  readonly out: Float64Array;
  readonly into: Float64Array;
  readonly value: Float64Array;
  /** Index beyond the surface over index on the side of `out`: read for frosted glass. */
  readonly eta: Float64Array;
  /** Reflectance at the point in hand, after `shade`. */
  readonly tint: Float64Array;
  /** Kind of a finish. */
  readonly kind: Uint8Array;
  /** True where there is a lobe (not a single direction) to connect to lights. */
  readonly hasLobe: Uint8Array;
  /** True where light may cross to the other side. */
  readonly transmits: Uint8Array;
  /** True where `shade` needs a random number. */
  readonly isPatterned: Uint8Array;
  /**
   * Finish that shows at a point of a primitive (its own, or its dust or scratches), with the pattern's colour there taken up for
   * all that follows. `u` in [0, 1) decides where a speck covers only a part.
   */
  shade(primitive: number, finish: number, x: number, y: number, z: number, u: number): number;
  evaluate(finish: number): void;
  /** Picks `into`; false when it points nowhere useful. */
  sample(finish: number, choose: number, u: number, v: number): boolean;
  /** Reflectance of the smooth coat of a gloss finish at the angle of `out`, 0 for others. */
  coatReflectance(finish: number): number;
  /** Largest channel of what the lobe of a finish sends back from `out`. */
  lobeAlbedo(finish: number): number;
}

export function createScattering(world: World): Scattering {
  const count = world.finishWords.length / FINISH.strideWords;
  const f = Float64Array.from(world.finishWords);
  const profiles = Float64Array.from(world.profileWords);
  const stride = FINISH.strideWords;
  const at = FINISH.offset;
  const kind = Uint8Array.from({ length: count }, (_, i) => f[i * stride + at.kind]);
  const hasLobe = Uint8Array.from(kind, (k) =>
    k === FinishKind.matte ||
    k === FinishKind.gloss ||
    k === FinishKind.metal ||
    k === FinishKind.translucent ||
    k === FinishKind.frosted
      ? 1
      : 0,
  );
  const transmits = Uint8Array.from(kind, (k) => (k === FinishKind.translucent || k === FinishKind.frosted ? 1 : 0));
  const normal = new Float64Array(3);
  const out = new Float64Array(3);
  const into = new Float64Array(3);
  const value = new Float64Array(4);
  const eta = Float64Array.of(1);
  // Reflectance at the point in hand.
  const tint = new Float64Array(3);
  const frameOf = primitiveColumn(world, 'patternFrame');
  const xf = Float64Array.from(world.transformWords);
  const place = new Float64Array(3);
  const patterned = Uint8Array.from({ length: count }, (_, i) =>
    Math.max(
      f[i * stride + at.pattern],
      f[i * stride + at.dust],
      f[i * stride + at.scratches],
      f[i * stride + at.picture],
    ) >= 0
      ? 1
      : 0,
  );

  /** Point in the frame of a primitive's pattern, into `place`. */
  const placeOf = (primitive: number, x: number, y: number, z: number): void => {
    const t = frameOf[primitive];
    if (t < 0) {
      place[0] = x;
      place[1] = y;
      place[2] = z;
      return;
    }
    const o = t * TRANSFORM.strideWords;
    const px = x - xf[o + 9];
    const py = y - xf[o + 10];
    const pz = z - xf[o + 11];
    place[0] = xf[o] * px + xf[o + 3] * py + xf[o + 6] * pz;
    place[1] = xf[o + 1] * px + xf[o + 4] * py + xf[o + 7] * pz;
    place[2] = xf[o + 2] * px + xf[o + 5] * py + xf[o + 8] * pz;
  };

  const mixAt = (pattern: number): number =>
    patternMixAt(profiles[pattern], profiles, pattern + 1, place[0], place[1], place[2]);

  const shade = (primitive: number, finish: number, x: number, y: number, z: number, u: number): number => {
    let shown = finish;
    if (patterned[finish] === 1) {
      placeOf(primitive, x, y, z);
      const o = finish * stride;
      const dust = f[o + at.dust];
      const scratches = f[o + at.scratches];
      const covered = dust >= 0 ? mixAt(dust) : 0;
      if (u < covered) shown = f[o + at.dustFinish];
      else if (scratches >= 0 && (u - covered) / (1 - covered) < mixAt(scratches)) shown = f[o + at.scratchFinish];
    }
    const o = shown * stride;
    tint[0] = f[o + at.r];
    tint[1] = f[o + at.g];
    tint[2] = f[o + at.b];
    const pattern = f[o + at.pattern];
    if (pattern >= 0) {
      placeOf(primitive, x, y, z);
      const mix = mixAt(pattern);
      for (let c = 0; c < 3; c++) tint[c] += (profiles[pattern + 9 + c] - tint[c]) * mix;
    }
    const picture = f[o + at.picture];
    if (picture >= 0) {
      placeOf(primitive, x, y, z);
      pictureColourAt(profiles, picture, place[0], place[1], place[2], tint);
    }
    return shown;
  };
  const half = new Float64Array(3);
  const frame = new Float64Array(6);

  const cosWithNormal = (d: Float64Array): number => d[0] * normal[0] + d[1] * normal[1] + d[2] * normal[2];

  /** Share of light from this angle that the coat reflects: exact Fresnel, or the table of a rough coat. */
  const coatAlbedo = (o: number, cos: number): number => {
    const table = f[o + at.albedoTable];
    if (table < 0) return dielectricReflectance(cos, f[o + at.index]);
    const x = cos * (ALBEDO_TABLE_SIZE - 1);
    const i = x >= ALBEDO_TABLE_SIZE - 1 ? ALBEDO_TABLE_SIZE - 2 : Math.floor(x);
    return profiles[table + i] + (profiles[table + i + 1] - profiles[table + i]) * (x - i);
  };

  /**
   * Matte base seen through a coat: light enters (1 - E), bounces between base and coat, leaves (1 - E):
   * f = (1 - E_i)(1 - E_o) rho / (pi n^2 (1 - rho F_in)). With rho 1 nothing is lost.
   */
  const coatedBase = (o: number, cosO: number, cosI: number, channel: number): number => {
    const rho = tint[channel];
    const n = f[o + at.index];
    return (
      ((1 - coatAlbedo(o, cosO)) * (1 - coatAlbedo(o, cosI)) * rho) /
      (Math.PI * n * n * (1 - rho * f[o + at.insideReflectance]))
    );
  };

  const baseAlbedo = (o: number, cosO: number): number => {
    const rho = Math.max(tint[0], tint[1], tint[2]);
    const inside = f[o + at.insideReflectance];
    return ((1 - coatAlbedo(o, cosO)) * rho * (1 - inside)) / (1 - rho * inside);
  };

  /** Chance that `sample` picks the facets of a rough coat rather than the base. */
  const facetChance = (o: number, cosO: number): number => {
    const e = coatAlbedo(o, cosO);
    return e / (e + baseAlbedo(o, cosO) + 1e-9);
  };

  const evaluate = (finish: number): void => {
    const o = finish * stride;
    const cosO = cosWithNormal(out);
    const cosI = cosWithNormal(into);
    value[0] = value[1] = value[2] = value[3] = 0;
    if (cosO <= 0) return;
    switch (kind[finish]) {
      case FinishKind.matte:
        if (cosI <= 0) return;
        value[3] = cosI / Math.PI;
        for (let c = 0; c < 3; c++) value[c] = tint[c] * value[3];
        return;
      case FinishKind.translucent: {
        const reflected = Math.max(tint[0], tint[1], tint[2]);
        const passed = Math.max(f[o + at.tr], f[o + at.tg], f[o + at.tb]);
        const sum = reflected + passed;
        if (sum <= 0 || cosI === 0) return;
        const lambert = Math.abs(cosI) / Math.PI;
        for (let c = 0; c < 3; c++) value[c] = (cosI > 0 ? tint[c] : f[o + at.tr + c]) * lambert;
        value[3] = (lambert * (cosI > 0 ? reflected : passed)) / sum;
        return;
      }
      case FinishKind.gloss: {
        if (cosI <= 0) return;
        for (let c = 0; c < 3; c++) value[c] = coatedBase(o, cosO, cosI, c) * cosI;
        const alpha = f[o + at.roughness];
        if (alpha < SMOOTH_ALPHA) {
          value[3] = cosI / Math.PI;
          return;
        }
        const chance = facetChance(o, cosO);
        value[3] = ((1 - chance) * cosI) / Math.PI;
        addFacets(o, alpha, cosO, cosI, chance, true);
        return;
      }
      case FinishKind.metal:
        if (cosI <= 0) return;
        addFacets(o, f[o + at.roughness], cosO, cosI, 1, false);
        return;
      case FinishKind.frosted:
        frosted(f[o + at.roughness], cosO, cosI);
        return;
    }
  };

  /**
   * Rough boundary of a dielectric: reflection off facets, and refraction through them (Walter et al. 2007, eqs 20, 21). The value
   * is for radiance, which shrinks by the square of the index ratio on the way in.
   */
  const frosted = (alpha: number, cosO: number, cosI: number): void => {
    const ratio = eta[0];
    const k = cosI > 0 ? 1 : ratio;
    let hx = out[0] + k * into[0];
    let hy = out[1] + k * into[1];
    let hz = out[2] + k * into[2];
    const length = Math.hypot(hx, hy, hz);
    if (!(length > 1e-9)) return;
    let cosH = (hx * normal[0] + hy * normal[1] + hz * normal[2]) / length;
    const flip = (cosH < 0 ? -1 : 1) / length;
    hx *= flip;
    hy *= flip;
    hz *= flip;
    cosH = Math.abs(cosH);
    const oh = out[0] * hx + out[1] * hy + out[2] * hz;
    const ih = into[0] * hx + into[1] * hy + into[2] * hz;
    if (oh <= 0 || ih * cosI <= 0) return;
    const d = ggxDensity(cosH, alpha);
    const g1 = ggxMasking(cosO, alpha);
    const g2 = ggxShadowing(cosO, Math.abs(cosI), alpha);
    const reflectance = dielectricReflectance(oh, ratio);
    if (cosI > 0) {
      value[3] = (reflectance * d * g1) / (4 * cosO);
      value[0] = (reflectance * d * g2) / (4 * cosO);
    } else {
      const denominator = (ih + oh / ratio) ** 2;
      const jacobian = (Math.abs(ih) * oh) / (denominator * cosO);
      value[3] = (1 - reflectance) * d * g1 * jacobian;
      value[0] = ((1 - reflectance) * d * g2 * jacobian) / (ratio * ratio);
    }
    value[1] = value[2] = value[0];
  };

  /** Adds a facet lobe, f cos = F D G2 / (4 cos_o), and its share of the density, D G1 / (4 cos_o). */
  const addFacets = (o: number, alpha: number, cosO: number, cosI: number, chance: number, coat: boolean): void => {
    let hx = out[0] + into[0];
    let hy = out[1] + into[1];
    let hz = out[2] + into[2];
    const inv = 1 / Math.hypot(hx, hy, hz);
    hx *= inv;
    hy *= inv;
    hz *= inv;
    const cosH = hx * normal[0] + hy * normal[1] + hz * normal[2];
    const cosHO = hx * out[0] + hy * out[1] + hz * out[2];
    if (cosH <= 0 || cosHO <= 0) return;
    const d = ggxDensity(cosH, alpha);
    const g2 = ggxShadowing(cosO, cosI, alpha);
    const common = (d * g2) / (4 * cosO);
    value[3] += (chance * d * ggxMasking(cosO, alpha)) / (4 * cosO);
    if (coat) {
      const r = dielectricReflectance(cosHO, f[o + at.index]);
      for (let c = 0; c < 3; c++) value[c] += r * common;
    } else {
      // Conductor by Schlick's curve from its reflectance at normal incidence.
      const m = (1 - cosHO) ** 5;
      for (let c = 0; c < 3; c++) {
        const f0 = tint[c];
        value[c] += (f0 + (1 - f0) * m) * common;
      }
    }
  };

  const makeFrame = (): void => {
    // Duff et al., JCGT 6(1), 2017.
    const sign = normal[2] >= 0 ? 1 : -1;
    const a = -1 / (sign + normal[2]);
    const b = normal[0] * normal[1] * a;
    frame[0] = 1 + sign * normal[0] * normal[0] * a;
    frame[1] = sign * b;
    frame[2] = -sign * normal[0];
    frame[3] = b;
    frame[4] = sign + normal[1] * normal[1] * a;
    frame[5] = -normal[1];
  };

  const sampleCosine = (u: number, v: number, side: number): void => {
    makeFrame();
    const r = Math.sqrt(u);
    const phi = 2 * Math.PI * v;
    const x = r * Math.cos(phi);
    const y = r * Math.sin(phi);
    const z = Math.sqrt(Math.max(0, 1 - u)) * side;
    for (let k = 0; k < 3; k++) into[k] = x * frame[k] + y * frame[3 + k] + z * normal[k];
  };

  const sampleFacets = (alpha: number, u: number, v: number): boolean => {
    makeFrame();
    const vx = out[0] * frame[0] + out[1] * frame[1] + out[2] * frame[2];
    const vy = out[0] * frame[3] + out[1] * frame[4] + out[2] * frame[5];
    const vz = cosWithNormal(out);
    sampleVisibleNormal(vx, vy, Math.max(vz, 1e-6), alpha, u, v, half);
    const s = 2 * (vx * half[0] + vy * half[1] + vz * half[2]);
    const lx = s * half[0] - vx;
    const ly = s * half[1] - vy;
    const lz = s * half[2] - vz;
    if (lz <= 0) return false;
    for (let k = 0; k < 3; k++) into[k] = lx * frame[k] + ly * frame[3 + k] + lz * normal[k];
    return true;
  };

  const sampleFrosted = (alpha: number, choose: number, u: number, v: number): boolean => {
    makeFrame();
    const ratio = eta[0];
    const vx = out[0] * frame[0] + out[1] * frame[1] + out[2] * frame[2];
    const vy = out[0] * frame[3] + out[1] * frame[4] + out[2] * frame[5];
    const vz = Math.max(cosWithNormal(out), 1e-6);
    sampleVisibleNormal(vx, vy, vz, alpha, u, v, half);
    const vh = vx * half[0] + vy * half[1] + vz * half[2];
    if (vh <= 0) return false;
    const reflects = choose < dielectricReflectance(vh, ratio);
    let lx: number;
    let ly: number;
    let lz: number;
    if (reflects) {
      lx = 2 * vh * half[0] - vx;
      ly = 2 * vh * half[1] - vy;
      lz = 2 * vh * half[2] - vz;
      if (lz <= 0) return false;
    } else {
      const inv = 1 / ratio;
      const cosT = Math.sqrt(Math.max(0, 1 - (1 - vh * vh) * inv * inv));
      const k = vh * inv - cosT;
      lx = k * half[0] - vx * inv;
      ly = k * half[1] - vy * inv;
      lz = k * half[2] - vz * inv;
      if (lz >= 0) return false;
    }
    for (let k = 0; k < 3; k++) into[k] = lx * frame[k] + ly * frame[3 + k] + lz * normal[k];
    return true;
  };

  const sample = (finish: number, choose: number, u: number, v: number): boolean => {
    const o = finish * stride;
    switch (kind[finish]) {
      case FinishKind.matte:
        sampleCosine(u, v, 1);
        return true;
      case FinishKind.translucent: {
        const reflected = Math.max(tint[0], tint[1], tint[2]);
        const passed = Math.max(f[o + at.tr], f[o + at.tg], f[o + at.tb]);
        if (reflected + passed <= 0) return false;
        sampleCosine(u, v, choose * (reflected + passed) < reflected ? 1 : -1);
        return true;
      }
      case FinishKind.gloss: {
        const alpha = f[o + at.roughness];
        if (alpha >= SMOOTH_ALPHA && choose < facetChance(o, cosWithNormal(out))) return sampleFacets(alpha, u, v);
        sampleCosine(u, v, 1);
        return true;
      }
      case FinishKind.metal:
        return sampleFacets(f[o + at.roughness], u, v);
      case FinishKind.frosted:
        return sampleFrosted(f[o + at.roughness], choose, u, v);
      default:
        return false;
    }
  };

  return {
    normal,
    out,
    into,
    value,
    eta,
    tint,
    kind,
    hasLobe,
    transmits,
    isPatterned: patterned,
    shade,
    evaluate,
    sample,
    coatReflectance: (finish) => {
      const o = finish * stride;
      return kind[finish] === FinishKind.gloss && f[o + at.roughness] < SMOOTH_ALPHA
        ? dielectricReflectance(Math.abs(cosWithNormal(out)), f[o + at.index])
        : 0;
    },
    lobeAlbedo: (finish) => {
      const o = finish * stride;
      if (kind[finish] === FinishKind.gloss) return baseAlbedo(o, Math.abs(cosWithNormal(out)));
      return Math.max(tint[0], tint[1], tint[2]) + Math.max(f[o + at.tr], f[o + at.tg], f[o + at.tb]);
    },
  };
}
