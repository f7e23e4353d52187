import { applyMatrix3 } from '../matrix3.ts';
import type { Vec3 } from '../vec3.ts';
import { D65_XY, REC709_FROM_XYZ, XYZ_FROM_REC709, xyzFromXy } from './spaces.ts';

const D65_XYZ = xyzFromXy(D65_XY);

/** CIE 1976 L*, a*, b* of XYZ against a white (D65, Y = 1). Source: ISO/CIE 11664-4:2019. */
export function labFromXyz(xyz: Vec3, whiteXyz: Vec3 = D65_XYZ): Vec3 {
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const fx = f(xyz[0] / whiteXyz[0]);
  const fy = f(xyz[1] / whiteXyz[1]);
  const fz = f(xyz[2] / whiteXyz[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** Inverse of {@link labFromXyz}. */
export function xyzFromLab(lab: Vec3, whiteXyz: Vec3 = D65_XYZ): Vec3 {
  const f = (t: number): number => (t > 6 / 29 ? t ** 3 : 3 * (6 / 29) ** 2 * (t - 4 / 29));
  const fy = (lab[0] + 16) / 116;
  return [whiteXyz[0] * f(fy + lab[1] / 500), whiteXyz[1] * f(fy), whiteXyz[2] * f(fy - lab[2] / 200)];
}

/** L*, a*, b* of linear Rec. 709, white (1, 1, 1). */
export const labFromRec709 = (rgb: Vec3): Vec3 => labFromXyz(applyMatrix3(XYZ_FROM_REC709, rgb));
/** Linear Rec. 709 of L*, a*, b*; outside 0..1 where the colour lies outside that gamut. */
export const rec709FromLab = (lab: Vec3): Vec3 => applyMatrix3(REC709_FROM_XYZ, xyzFromLab(lab));

/**
 * CIEDE2000 colour difference with unit parametric factors.
 * Source: Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data,
 * and mathematical observations", Color Research and Application 30(1), 21-30 (2005), equations 2 to 22.
 */
export function deltaE2000(lab1: Vec3, lab2: Vec3): number {
  const deg = Math.PI / 180;
  const c1 = Math.hypot(lab1[1], lab1[2]);
  const c2 = Math.hypot(lab2[1], lab2[2]);

  // a' stretches the red-green axis near neutral.
  const g = 0.5 * (1 - Math.sqrt(chromaShare((c1 + c2) / 2)));
  const a1 = (1 + g) * lab1[1];
  const a2 = (1 + g) * lab2[1];
  const chroma1 = Math.hypot(a1, lab1[2]);
  const chroma2 = Math.hypot(a2, lab2[2]);
  const hue1 = hueDeg(a1, lab1[2]);
  const hue2 = hueDeg(a2, lab2[2]);

  // Differences and means; hue is undefined for neutrals.
  const bothChromatic = chroma1 * chroma2 !== 0;
  let hueStep = bothChromatic ? hue2 - hue1 : 0;
  if (hueStep > 180) hueStep -= 360;
  else if (hueStep < -180) hueStep += 360;
  const deltaL = lab2[0] - lab1[0];
  const deltaC = chroma2 - chroma1;
  const deltaH = 2 * Math.sqrt(chroma1 * chroma2) * Math.sin((hueStep / 2) * deg);
  const meanL = (lab1[0] + lab2[0]) / 2;
  const meanC = (chroma1 + chroma2) / 2;
  let meanHue = hue1 + hue2;
  if (bothChromatic) {
    if (Math.abs(hue1 - hue2) > 180) meanHue += meanHue < 360 ? 360 : -360;
    meanHue /= 2;
  }

  // Weights.
  const t =
    1 -
    0.17 * Math.cos((meanHue - 30) * deg) +
    0.24 * Math.cos(2 * meanHue * deg) +
    0.32 * Math.cos((3 * meanHue + 6) * deg) -
    0.2 * Math.cos((4 * meanHue - 63) * deg);
  const lightness50 = (meanL - 50) ** 2;
  const sl = 1 + (0.015 * lightness50) / Math.sqrt(20 + lightness50);
  const sc = 1 + 0.045 * meanC;
  const sh = 1 + 0.015 * meanC * t;
  const rotationDeg = 60 * Math.exp(-(((meanHue - 275) / 25) ** 2));
  const rt = -2 * Math.sqrt(chromaShare(meanC)) * Math.sin(rotationDeg * deg);
  const l = deltaL / sl;
  const c = deltaC / sc;
  const h = deltaH / sh;
  return Math.sqrt(l * l + c * c + h * h + rt * c * h);
}

/** C^7 / (C^7 + 25^7), how far from neutral a chroma is. */
const chromaShare = (chroma: number): number => chroma ** 7 / (chroma ** 7 + 25 ** 7);

const hueDeg = (a: number, b: number): number => {
  if (a === 0 && b === 0) return 0;
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
};
