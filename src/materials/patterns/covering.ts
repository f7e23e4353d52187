import { cellBorderDistance, clampUnit, gradientNoise, hashCell, smoothStep, TURN, unitOfBits } from './noise.ts';

/** Plain weave: threads over and under one another, each with a tone that drifts along it (slub). */
export function linenMix(u: number, v: number, seed: number, slub: number): number {
  const drift = slub * 0.5;
  const uu = u + drift * (gradientNoise(u * 0.11, v * 0.05, 0, seed) - 0.5);
  const vv = v + drift * (gradientNoise(u * 0.05, v * 0.11, 9.5, seed) - 0.5);
  const iu = Math.floor(uu);
  const iv = Math.floor(vv);
  const fu = uu - iu;
  const fv = vv - iv;
  const height = smoothStep(0, 0.55, 16 * fu * (1 - fu) * fv * (1 - fv));
  const warpOnTop = ((iu + iv) & 1) === 0;
  const tone = warpOnTop
    ? gradientNoise(iu * 7.31 + 0.5, v * 0.045, 3.5, seed)
    : gradientNoise(u * 0.045, iv * 7.31 + 0.5, 5.5, seed);
  const turn = warpOnTop ? fv : fu;
  const shade = 0.22 * (2 * turn - 1) * (2 * turn - 1) + (0.1 + 0.9 * slub) * smoothStep(0.3, 0.7, tone) * 0.8;
  return clampUnit(0.62 * (1 - height) + shade * height);
}

/** Creases between pebbles, and a little unevenness on them. */
export function leatherMix(x: number, y: number, z: number, seed: number, crease: number): number {
  const border = cellBorderDistance(
    TURN[0] * x + TURN[1] * y + TURN[2] * z,
    TURN[3] * x + TURN[4] * y + TURN[5] * z,
    TURN[6] * x + TURN[7] * y + TURN[8] * z,
    seed,
  );
  const fold = 1 - smoothStep(0, 0.08 + 0.5 * crease, border);
  return clampUnit(0.88 * fold + 0.12 * gradientNoise(x * 0.4, y * 0.4, z * 0.4, seed + 1));
}

/** Joints are 1; tiles differ in tone. Rows run along u and are set off by `bond` of a tile from one to the next. */
export function tilesMix(u: number, v: number, seed: number, params: Float64Array, offset: number): number {
  const joint = params[offset + 3];
  const ratio = params[offset + 4];
  const row = Math.floor(v);
  const along = u / ratio + params[offset + 5] * (row & 1);
  const column = Math.floor(along);
  const fu = (along - column) * ratio;
  const fv = v - row;
  const edge = Math.min(fu, ratio - fu, fv, 1 - fv);
  const inJoint = 1 - smoothStep(0.4 * joint, 0.6 * joint, edge);
  const tone = params[offset + 6] * 0.6 * unitOfBits(hashCell(row, column, 0, seed), 0);
  return inJoint + (1 - inJoint) * tone;
}

/** Fine parallel streaks along one axis. */
export function brushedMix(axis: number, x: number, y: number, z: number, seed: number, unevenness: number): number {
  const along = (axis === 0 ? x : axis === 1 ? y : z) * 0.02;
  const a = axis === 0 ? z : x;
  const b = axis === 1 ? z : y;
  const fine = gradientNoise(along, a, b, seed);
  const broad = gradientNoise(along * 0.3, a * 0.13, b * 0.13, seed + 1);
  return clampUnit(smoothStep(0.2, 0.8, fine) * (1 - 0.5 * unevenness) + unevenness * (broad - 0.25));
}
