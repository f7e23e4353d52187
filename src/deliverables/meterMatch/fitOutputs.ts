import { invertSymmetric, type Matrix, normalEquations, solveNonNegative } from './leastSquares.ts';

/** Weighted non-negative fit of factors on predicted light. */
export interface OutputFit {
  /** Factor on each column's predicted light; 0 or more. */
  readonly factors: readonly number[];
  /** Covariance of the factors that are over 0, by column; null for a column at its bound. */
  readonly covariance: ReadonlyMap<number, ReadonlyMap<number, number>>;
  readonly fittedLux: readonly number[];
  /** Standard deviation of each reading, lx. */
  readonly sigmaLux: readonly number[];
  /** Share of its own fitted value that each reading settles, 0..1. */
  readonly leverage: readonly number[];
  readonly chiSquare: number;
}

/** The display's last digit and stray light, lx. */
const LEAST_SIGMA_LUX = 0.5;
const ROUNDS = 6;

/**
 * Factors x >= 0 that make `predicted x` meet the readings, each weighed by the inverse square of its own standard
 * deviation. A meter repeats to a part of a stop, so the deviation is a share of what it reads: taken from the fit itself
 * and refined a few times, so that a low reading by chance does not count for more than a high one.
 *
 * @param predicted readings x columns, lx at factor 1
 * @param readLux what was read
 * @param repeatStops one standard deviation of each, stops
 */
export function fitOutputs(
  predicted: Matrix,
  readLux: readonly number[],
  repeatStops: readonly number[],
): OutputFit | null {
  const sigmaOf = (lux: number, j: number): number => Math.hypot(Math.LN2 * repeatStops[j] * lux, LEAST_SIGMA_LUX);
  let sigma = readLux.map(sigmaOf);
  let factors: number[] = [];
  let fitted: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const weights = sigma.map((s) => 1 / (s * s));
    factors = solveNonNegative(predicted, readLux, weights);
    fitted = predicted.map((row) => row.reduce((sum, lux, i) => sum + lux * factors[i], 0));
    sigma = fitted.map(sigmaOf);
  }
  const weights = sigma.map((s) => 1 / (s * s));
  const free = factors.flatMap((factor, i) => (factor > 0 ? [i] : []));
  const { matrix } = normalEquations(predicted, readLux, weights, free);
  const inverse = free.length > 0 ? invertSymmetric(matrix) : [];
  if (!inverse) return null;
  const covariance = new Map(
    free.map((column, p) => [column, new Map(free.map((other, q) => [other, inverse[p][q]] as const))] as const),
  );
  const leverage = predicted.map((row, j) => {
    let spread = 0;
    free.forEach((p, a) => {
      free.forEach((q, b) => {
        spread += row[p] * inverse[a][b] * row[q];
      });
    });
    return Math.min(1, spread * weights[j]);
  });
  const chiSquare = readLux.reduce((sum, lux, j) => sum + ((lux - fitted[j]) / sigma[j]) ** 2, 0);
  return { factors, covariance, fittedLux: fitted, sigmaLux: sigma, leverage, chiSquare };
}
