import { applyMatrix3 } from '../matrix3.ts';
import { invariant } from '../result.ts';
import { kelvinFromMired, miredFromKelvin } from '../units.ts';
import type { Vec3 } from '../vec3.ts';
import { CIE_1931_START_NM, CIE_1931_STEP_NM, CIE_1931_X_BAR, CIE_1931_Y_BAR, CIE_1931_Z_BAR } from './cie1931.ts';
import { luminanceFromRec2020, REC2020_FROM_XYZ, type Xy, xyFromXyz, xyzFromXy } from './spaces.ts';

/** Second radiation constant hc/k, m K; exact in the SI since 2019. */
export const SECOND_RADIATION_CONSTANT_MK = 1.438776877e-2;

/** CIE 1960 UCS chromaticity (u, v), in which duv is measured. */
export type Uv1960 = readonly [number, number];

export const uv1960FromXy = ([x, y]: Xy): Uv1960 => {
  const d = -2 * x + 12 * y + 3;
  return [(4 * x) / d, (6 * y) / d];
};

export const xyFromUv1960 = ([u, v]: Uv1960): Xy => {
  const d = 2 * u - 8 * v + 4;
  return [(3 * u) / d, (2 * v) / d];
};

/**
 * XYZ of a black body, relative: Planck's law summed over the CIE 1931 observer at 5 nm, 360-830 nm.
 * Good to 2e-6 in x and y against the 1 nm table. `c2MK` lets old illuminants with an older constant be checked.
 */
export function xyzFromBlackBody(temperatureK: number, c2MK = SECOND_RADIATION_CONSTANT_MK): Vec3 {
  invariant(temperatureK > 0, () => `black body at ${temperatureK} K`);
  let x = 0;
  let y = 0;
  let z = 0;
  CIE_1931_Y_BAR.forEach((yBar, i) => {
    const wavelengthUm = (CIE_1931_START_NM + CIE_1931_STEP_NM * i) * 1e-3;
    const power = wavelengthUm ** -5 / Math.expm1((c2MK * 1e6) / (wavelengthUm * temperatureK));
    x += power * CIE_1931_X_BAR[i];
    y += power * yBar;
    z += power * CIE_1931_Z_BAR[i];
  });
  return [x, y, z];
}

/** Luminous efficacy of monochromatic radiation at 555 nm, lm/W (SI: 683 at 540 THz). */
export const MAXIMUM_EFFICACY_LM_PER_W = 683.002;

/**
 * Lumens per watt of radiation of a black body: what share of a hot filament's heat is light. The total is the
 * Stefan-Boltzmann integral of the same law, (pi^4 / 15) (T / c2)^4.
 */
export function blackBodyEfficacyLmPerW(temperatureK: number): number {
  const total = (Math.PI ** 4 / 15) * (temperatureK / (SECOND_RADIATION_CONSTANT_MK * 1e6)) ** 4;
  return (MAXIMUM_EFFICACY_LM_PER_W * xyzFromBlackBody(temperatureK)[1] * CIE_1931_STEP_NM * 1e-3) / total;
}

/**
 * Chromaticity of a source of correlated colour temperature `cctK` (500 to 1e6 K), `duv` off the Planckian locus
 * at right angles to it in CIE 1960 uv; positive is greener (ANSI C78.377 sign).
 */
export function xyFromCct(cctK: number, duv = 0): Xy {
  const xy = xyFromXyz(xyzFromBlackBody(cctK));
  if (duv === 0) return xy;
  const [u, v] = uv1960FromXy(xy);
  const step = cctK * 1e-4;
  const [u0, v0] = uv1960FromXy(xyFromXyz(xyzFromBlackBody(cctK - step)));
  const [u1, v1] = uv1960FromXy(xyFromXyz(xyzFromBlackBody(cctK + step)));
  // Toward higher temperature u falls; its left-hand normal turned to +v is the green side.
  const alongU = u1 - u0;
  const alongV = v1 - v0;
  const length = Math.hypot(alongU, alongV);
  return xyFromUv1960([u + (duv * alongV) / length, v - (duv * alongU) / length]);
}

/**
 * Chromaticity of CIE daylight, 4000 to 25000 K (nearest end outside that).
 * Source: CIE 15:2004, section 3.1, equations 3.3 and 3.4.
 */
export function xyFromDaylightCct(cctK: number): Xy {
  const t = Math.min(25000, Math.max(4000, cctK));
  const x =
    t <= 7000
      ? -4.607e9 / t ** 3 + 2.9678e6 / t ** 2 + 0.09911e3 / t + 0.244063
      : -2.0064e9 / t ** 3 + 1.9018e6 / t ** 2 + 0.24748e3 / t + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/**
 * Working colour (linear Rec. 2020) of a chromaticity at luminance exactly 1. No channel is negative: a chromaticity
 * outside the gamut (a very warm source pushed green) goes to the gamut's edge along its own channels.
 */
export function rgbFromXy(xy: Xy): Vec3 {
  const [r, g, b] = applyMatrix3(REC2020_FROM_XYZ, xyzFromXy(xy));
  const inside: Vec3 = [Math.max(0, r), Math.max(0, g), Math.max(0, b)];
  const luminance = luminanceFromRec2020(inside);
  return [inside[0] / luminance, inside[1] / luminance, inside[2] / luminance];
}

/**
 * Working colour of a source, luminance exactly 1, so that colouring a film layer keeps what a meter reads.
 * See {@link xyFromCct} for `duv`.
 */
export const rgbFromCct = (cctK: number, duv = 0): Vec3 => rgbFromXy(xyFromCct(cctK, duv));

/** Shift of the gel that turns `fromK` into `toK`; negative cools. */
export const miredShift = (fromK: number, toK: number): number => miredFromKelvin(toK) - miredFromKelvin(fromK);
/** Colour temperature after a gel of the given shift. */
export const kelvinAfterShift = (cctK: number, shiftMired: number): number =>
  kelvinFromMired(miredFromKelvin(cctK) + shiftMired);

/**
 * Correlated colour temperature from chromaticity, about 2000 to 12500 K.
 * Source: C. S. McCamy, "Correlated color temperature as an explicit function of chromaticity coordinates",
 * Color Research and Application 17, 142-144 (1992) (from memory); good to a few kelvin near the locus.
 */
export const cctFromXy = ([x, y]: Xy): number => {
  const n = (x - 0.332) / (0.1858 - y);
  return 449 * n ** 3 + 3525 * n ** 2 + 6823.3 * n + 5520.33;
};

/**
 * Colour temperature whose black body lies nearest in CIE 1960 uv, and the distance to it, + above the locus: the definition of
 * CIE 15:2004, section 9.5, by golden section over mired.
 */
export function cctAndDuvFromXy(xy: Xy): { readonly cctK: number; readonly duv: number } {
  const [u, v] = uv1960FromXy(xy);
  const away = (mired: number): number => {
    const [u0, v0] = uv1960FromXy(xyFromCct(kelvinFromMired(mired)));
    return Math.hypot(u - u0, v - v0);
  };
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = miredFromKelvin(25000);
  let high = miredFromKelvin(1400);
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = away(left);
  let atRight = away(right);
  while (high - low > 0.005) {
    if (atLeft < atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - golden * (high - low);
      atLeft = away(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + golden * (high - low);
      atRight = away(right);
    }
  }
  const mired = (low + high) / 2;
  const [, v0] = uv1960FromXy(xyFromCct(kelvinFromMired(mired)));
  return { cctK: kelvinFromMired(mired), duv: away(mired) * (v >= v0 ? 1 : -1) };
}
