import { interpolate } from './indexTables.ts';

/** Index and density of what drinks are made of, sodium D line, 20 C. */

/** Sugar in water: degrees Brix (mass %), index, density kg/m3. CRC Handbook, concentrative properties of solutions. */
const SUCROSE: readonly (readonly [number, number, number])[] = [
  [0, 1.333, 998.2],
  [10, 1.3478, 1038.1],
  [20, 1.3639, 1081],
  [30, 1.3812, 1127],
  [40, 1.3999, 1176.5],
  [50, 1.4201, 1229.5],
  [60, 1.4419, 1286.4],
  [70, 1.4654, 1347.2],
  [80, 1.4906, 1411.7],
];

/** Index of a sugar syrup or soft drink by its Brix, 0 to 80; between rows good to about 3e-4. */
export const sucroseIndexD = (brix: number): number =>
  interpolate(
    SUCROSE.map(([b, n]) => [b, n] as const),
    brix,
  );

/** Density of a sugar syrup, kg/m3. */
export const sucroseDensityKgPerM3 = (brix: number): number =>
  interpolate(
    SUCROSE.map(([b, , density]) => [b, density] as const),
    brix,
  );

/**
 * Spirit in water: alcohol by volume in %, density kg/m3 (international alcoholometric tables, from memory).
 */
const SPIRIT_DENSITY: readonly (readonly [number, number])[] = [
  [0, 998.2],
  [10, 984.71],
  [20, 973.56],
  [30, 962.21],
  [40, 948.05],
  [50, 930.14],
  [60, 909.11],
  [70, 885.56],
  [80, 859.27],
  [90, 829.18],
  [100, 789.24],
];

/** Ethanol in water: mass %, index (CRC Handbook, concentrative properties of solutions, from memory). */
const ETHANOL_INDEX: readonly (readonly [number, number])[] = [
  [0, 1.333],
  [10, 1.3395],
  [20, 1.3469],
  [30, 1.3535],
  [40, 1.3583],
  [50, 1.3616],
  [60, 1.3638],
  [70, 1.3652],
  [80, 1.3658],
  [90, 1.365],
  [100, 1.3614],
];

const ETHANOL_DENSITY = 789.24;

/** Mass fraction 0..1 of ethanol in a spirit of `abvPercent` alcohol by volume. */
export const ethanolMassFraction = (abvPercent: number): number =>
  ((abvPercent / 100) * ETHANOL_DENSITY) / interpolate(SPIRIT_DENSITY, abvPercent);

/**
 * Index of a clear, unsweetened spirit. It is highest near 78 mass % and falls beyond, so a stronger spirit is not
 * always the denser optically.
 */
export const spiritIndexD = (abvPercent: number): number =>
  interpolate(ETHANOL_INDEX, 100 * ethanolMassFraction(abvPercent));

/** One part of a mixture. */
export interface MixtureComponent {
  readonly massFraction: number;
  readonly index: number;
  readonly densityKgPerM3: number;
}

/** Index of a mixture by the rule of Gladstone and Dale: n = 1 + rho * sum w_i (n_i - 1) / rho_i. */
export const gladstoneDaleIndex = (components: readonly MixtureComponent[], densityKgPerM3: number): number =>
  1 + densityKgPerM3 * components.reduce((sum, c) => sum + (c.massFraction * (c.index - 1)) / c.densityKgPerM3, 0);

/** Index of a mixture by the rule of Lorentz and Lorenz, on (n^2 - 1) / (n^2 + 2). */
export function lorentzLorenzIndex(components: readonly MixtureComponent[], densityKgPerM3: number): number {
  const refraction = (n: number): number => (n * n - 1) / (n * n + 2);
  const r =
    densityKgPerM3 * components.reduce((sum, c) => sum + (c.massFraction * refraction(c.index)) / c.densityKgPerM3, 0);
  return Math.sqrt((1 + 2 * r) / (1 - r));
}
