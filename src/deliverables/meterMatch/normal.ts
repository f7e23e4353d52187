/** Distribution function of the standard normal. Abramowitz and Stegun 7.1.26, good to 1.5e-7. */
export function normalCdf(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const upper = (poly * Math.exp(-x * x)) / 2;
  return z >= 0 ? 1 - upper : upper;
}

/** z with normalCdf(z) = p, by bisection; p between 1e-6 and 1 - 1e-6. */
export function normalQuantile(p: number): number {
  let [low, high] = [-6, 6];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (normalCdf(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Half-width, in standard deviations, within which `count` independent figures all lie with this confidence (Sidak). */
export const jointFactor = (count: number, confidence: number): number =>
  normalQuantile((1 + confidence ** (1 / count)) / 2);
