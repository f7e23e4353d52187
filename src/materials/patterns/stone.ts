import { clampUnit, gradientNoise, hashAgain, hashCell, smoothStep, TURN, twoOctaves, unitOfBits } from './noise.ts';

/** Veins where a warped noise passes its middle, a second finer set, and cloud behind them. */
export function stoneMix(x: number, y: number, z: number, seed: number, veinWidth: number, cloud: number): number {
  // Veins run one way through the block: drawn out along one direction, which lies oblique to all faces.
  const p = 0.3 * (0.66 * x + 0.41 * y + 0.63 * z);
  const q = -0.44 * x + 0.89 * y - 0.11 * z;
  const r = -0.61 * x - 0.2 * y + 0.77 * z;
  const broadWarp = gradientNoise(p * 1.3, q * 0.55, r * 0.55, seed) - 0.5;
  const fineWarp = gradientNoise(p * 5.1 + 7.7, q * 2.3, r * 2.3, seed + 3) - 0.5;
  const warp = 2.2 * broadWarp + 0.55 * fineWarp;
  const n = gradientNoise(p + warp, q * 0.9 + 0.6 * warp, r * 0.9 - warp, seed + 1);
  const m = gradientNoise(p * 2.1 - warp, q * 2 + warp, r * 2 + 1.3 * warp, seed + 2);
  const strength = smoothStep(-0.15, 0.2, broadWarp + 0.4 * fineWarp);
  const broad = 1 - smoothStep(0, 0.3 * veinWidth, Math.abs(n - 0.5));
  const fine = 1 - smoothStep(0, 0.14 * veinWidth, Math.abs(m - 0.5));
  const veins = Math.max(broad * (0.25 + 0.75 * strength), 0.5 * fine * strength);
  return clampUnit(veins + cloud * (1 - veins) * smoothStep(0.25, 0.8, 0.5 + 0.6 * warp));
}

/** Chips in a binder: the mix is 0 in the binder and differs from chip to chip. */
export function terrazzoMix(x: number, y: number, z: number, seed: number, chips: number, variation: number): number {
  // Turned against the faces, so that every face cuts the lattice of chips at all heights alike.
  const a = TURN[0] * x + TURN[1] * y + TURN[2] * z;
  const b = TURN[3] * x + TURN[4] * y + TURN[5] * z;
  const c = TURN[6] * x + TURN[7] * y + TURN[8] * z;
  const large = chipField(a, b, c, seed, chips, variation);
  if (large >= 1) return large;
  return Math.max(large, chipField(a * 2.3 + 0.37, b * 2.3 + 0.71, c * 2.3 + 0.13, seed + 1, chips, variation));
}

/** Unit vectors spread over the sphere (a golden-angle spiral): the directions of chip faces. */
const FACE_COUNT = 32;
export const CHIP_FACES: Float64Array = (() => {
  const out = new Float64Array(FACE_COUNT * 3);
  for (let i = 0; i < FACE_COUNT; i++) {
    const z = 1 - (2 * i + 1) / FACE_COUNT;
    const r = Math.sqrt(1 - z * z);
    const phi = i * Math.PI * (3 - Math.sqrt(5));
    out[i * 3] = r * Math.cos(phi);
    out[i * 3 + 1] = r * Math.sin(phi);
    out[i * 3 + 2] = z;
  }
  return out;
})();

/** One broken chip a cell, bounded by three pairs of faces, at most 0.72 of a cell round its middle. */
function chipField(x: number, y: number, z: number, seed: number, chips: number, variation: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  // A chip reaches at most half way into the next cell, so only the cells on the near side matter.
  const sx = x - ix < 0.5 ? -1 : 1;
  const sy = y - iy < 0.5 ? -1 : 1;
  const sz = z - iz < 0.5 ? -1 : 1;
  let most = 0;
  for (let i = 0; i < 8; i++) {
    const cx = ix + ((i & 1) === 0 ? 0 : sx);
    const cy = iy + ((i & 2) === 0 ? 0 : sy);
    const cz = iz + ((i & 4) === 0 ? 0 : sz);
    const word = hashCell(cx, cy, cz, seed);
    const dx = x - cx - 0.25 - 0.5 * unitOfBits(word, 0);
    const dy = y - cy - 0.25 - 0.5 * unitOfBits(word, 10);
    const dz = z - cz - 0.25 - 0.5 * unitOfBits(word, 20);
    const d2 = dx * dx + dy * dy + dz * dz;
    if (d2 > 0.5184) continue;
    const more = hashAgain(word);
    if (unitOfBits(more, 0) > chips * 1.6) continue;
    const half = 0.17 + 0.25 * chips + 0.12 * unitOfBits(more, 10);
    const pick = (more >>> 20) & 31;
    const reach = Math.max(
      faceDistance(pick, dx, dy, dz) / half,
      faceDistance(pick + 9, dx, dy, dz) / (half * 0.8),
      faceDistance(pick + 20, dx, dy, dz) / half,
      Math.sqrt(d2) / 0.66,
    );
    const tone = 1 - variation * (((more >>> 25) & 127) / 127);
    const inside = (1 - smoothStep(0.94, 1.06, reach)) * tone;
    if (inside > most) most = inside;
  }
  return most;
}

const faceDistance = (face: number, x: number, y: number, z: number): number => {
  const i = 3 * (face % FACE_COUNT);
  return Math.abs(CHIP_FACES[i] * x + CHIP_FACES[i + 1] * y + CHIP_FACES[i + 2] * z);
};

/** Soft blotches in four octaves, coarse to fine. */
export function plasterMix(x: number, y: number, z: number, seed: number, contrast: number): number {
  const coarse = twoOctaves(x, y, z, seed);
  const fine = twoOctaves(x * 4.1 + 3.7, y * 4.1 + 8.3, z * 4.1 + 1.9, seed + 1);
  return clampUnit(0.5 + (0.5 + 2.5 * contrast) * (0.8 * coarse + 0.2 * fine - 0.5));
}
