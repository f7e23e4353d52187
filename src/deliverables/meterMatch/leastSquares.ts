/** Small dense linear algebra; matrices are lists of rows. */
export type Matrix = readonly (readonly number[])[];

/**
 * Inverse of a symmetric positive definite matrix by Cholesky factors; null when it is not, to rounding (`leastPivot` of
 * its largest diagonal entry).
 */
export function invertSymmetric(m: Matrix, leastPivot = 1e-12): number[][] | null {
  const n = m.length;
  const lower: number[][] = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const largest = Math.max(0, ...m.map((row, i) => row[i]));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = m[i][j];
      for (let k = 0; k < j; k++) sum -= lower[i][k] * lower[j][k];
      if (i === j) {
        if (!(sum > leastPivot * largest)) return null;
        lower[i][i] = Math.sqrt(sum);
      } else lower[i][j] = sum / lower[j][j];
    }
  }
  const inverse: number[][] = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (let column = 0; column < n; column++) {
    const y = new Array<number>(n).fill(0);
    for (let i = 0; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= lower[i][k] * y[k];
      y[i] = sum / lower[i][i];
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i];
      for (let k = i + 1; k < n; k++) sum -= lower[k][i] * inverse[k][column];
      inverse[i][column] = sum / lower[i][i];
    }
  }
  return inverse;
}

/** Normal equations of weighted least squares over some columns: A' W A and A' W b. */
export function normalEquations(
  a: Matrix,
  b: readonly number[],
  weights: readonly number[],
  columns: readonly number[],
) {
  const matrix = columns.map((p) =>
    columns.map((q) => a.reduce((sum, row, j) => sum + weights[j] * row[p] * row[q], 0)),
  );
  const right = columns.map((p) => a.reduce((sum, row, j) => sum + weights[j] * row[p] * b[j], 0));
  return { matrix, right };
}

export const times = (m: Matrix, v: readonly number[]): number[] =>
  m.map((row) => row.reduce((sum, value, i) => sum + value * v[i], 0));

/**
 * Minimum of sum w (A x - b)^2 over x >= 0. Source: C. L. Lawson and R. J. Hanson, Solving Least Squares Problems (1974),
 * algorithm NNLS (23.10). Columns must not depend on one another.
 */
export function solveNonNegative(a: Matrix, b: readonly number[], weights: readonly number[]): number[] {
  const n = a[0]?.length ?? 0;
  const x = new Array<number>(n).fill(0);
  const passive = new Set<number>();
  const gradient = (): number[] =>
    Array.from({ length: n }, (_, i) =>
      a.reduce((sum, row, j) => {
        const residual = b[j] - row.reduce((s, value, k) => s + value * x[k], 0);
        return sum + weights[j] * row[i] * residual;
      }, 0),
    );
  const scale = Math.max(1e-300, ...gradient().map(Math.abs));
  for (let round = 0; round < 3 * n + 10; round++) {
    const w = gradient();
    let enter = -1;
    for (let i = 0; i < n; i++)
      if (!passive.has(i) && w[i] > 1e-10 * scale && (enter < 0 || w[i] > w[enter])) enter = i;
    if (enter < 0) break;
    passive.add(enter);
    for (;;) {
      const columns = [...passive].sort((p, q) => p - q);
      const { matrix, right } = normalEquations(a, b, weights, columns);
      const inverse = invertSymmetric(matrix, 1e-14);
      if (!inverse) {
        passive.delete(enter);
        return x;
      }
      const z = times(inverse, right);
      if (z.every((value) => value > 0)) {
        x.fill(0);
        columns.forEach((column, k) => {
          x[column] = z[k];
        });
        break;
      }
      // Go toward z until the first one reaches 0, and let that one go.
      let step = 1;
      columns.forEach((column, k) => {
        if (z[k] <= 0) step = Math.min(step, x[column] / (x[column] - z[k]));
      });
      columns.forEach((column, k) => {
        x[column] += step * (z[k] - x[column]);
        if (x[column] <= 1e-15) {
          x[column] = 0;
          passive.delete(column);
        }
      });
      if (passive.size === 0) break;
    }
  }
  return x;
}
