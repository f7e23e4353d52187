import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import {
  intersectRevolvedArc,
  intersectRevolvedLine,
  roots,
  solveDepressedQuartic,
} from '../../src/transport/kernels/revolved.ts';

const TWO_PI = 2 * Math.PI;

/** Signed distance to the profile circle of a turned arc, along a ray: zero on the surface. */
const arcDistance = (ray: Float64Array, t: number, rc: number, yc: number, radius: number): number => {
  const x = ray[0] + t * ray[3];
  const y = ray[1] + t * ray[4];
  const z = ray[2] + t * ray[5];
  return Math.hypot(Math.hypot(x, z) - rc, y - yc) - radius;
};

/** First crossing by marching: the distance function changes by at most the step, so no crossing is stepped over. */
function marchArc(
  ray: Float64Array,
  rc: number,
  yc: number,
  radius: number,
  inside: (r: number, y: number) => boolean,
) {
  let t = 1e-7;
  let last = arcDistance(ray, t, rc, yc, radius);
  while (t < 3) {
    const next = t + Math.max(2e-6, Math.abs(last) * 0.999);
    const d = arcDistance(ray, next, rc, yc, radius);
    if (last < 0 !== d < 0) {
      let low = t;
      let high = next;
      for (let i = 0; i < 80; i++) {
        const mid = (low + high) / 2;
        if (arcDistance(ray, mid, rc, yc, radius) < 0 === last < 0) low = mid;
        else high = mid;
      }
      const x = ray[0] + low * ray[3];
      const y = ray[1] + low * ray[4];
      const z = ray[2] + low * ray[5];
      if (inside(Math.hypot(x, z), y)) return low;
    }
    t = next;
    last = d;
  }
  return -1;
}

function randomRay(random: () => number): Float64Array {
  const at = () => (random() - 0.5) * 0.2;
  const from = [at() * 8, at() * 8, at() * 8];
  const to = [at(), at(), at()];
  const d = to.map((v, i) => v - from[i]);
  const length = Math.hypot(d[0], d[1], d[2]);
  return Float64Array.from([...from, ...d.map((v) => v / length)]);
}

describe('turned pieces', () => {
  it('meets a cylinder of radius 0.035 m where the closed form says', () => {
    const data = Float64Array.from([0.035, 0, 0.035, 0.14, 0, TWO_PI, 0, 0]);
    const ray = Float64Array.from([-1, 0.07, 0.02, 1, 0, 0]);
    const t = intersectRevolvedLine(ray, data, 0, 1e-7, 10);
    expect(t).toBeCloseTo(1 - Math.sqrt(0.035 ** 2 - 0.02 ** 2), 14);
    expect(intersectRevolvedLine(ray, data, 0, t + 1e-7, 10)).toBeCloseTo(1 + Math.sqrt(0.035 ** 2 - 0.02 ** 2), 14);
  });

  it('agrees with marching along the distance function on 1500 seeded rays against whole and partial tori', () => {
    const random = createRandom(11);
    let hits = 0;
    for (let i = 0; i < 1500; i++) {
      const rc = random() < 0.2 ? 0 : (random() - 0.3) * 0.08;
      const yc = (random() - 0.5) * 0.05;
      const radius = 0.01 + random() * 0.06;
      const low = (random() - 0.5) * Math.PI;
      const span = random() < 0.3 ? TWO_PI : random() * 3;
      const data = Float64Array.from([rc, yc, radius, low, span, 0, TWO_PI, 1]);
      const ray = randomRay(random);
      const inside = (r: number, y: number): boolean => {
        let a = Math.atan2(y - yc, r - rc) - low;
        a -= TWO_PI * Math.floor(a / TWO_PI);
        return a <= span;
      };
      const expected = marchArc(ray, rc, yc, radius, inside);
      const t = intersectRevolvedArc(ray, data, 0, 1e-7, 3);
      // A ray that only grazes, or meets the very end of the piece, may fall either way.
      if (expected < 0 !== t < 0) {
        const at = Math.max(expected, t);
        const slope = Math.abs(
          arcDistance(ray, at + 1e-4, rc, yc, radius) - arcDistance(ray, at - 1e-4, rc, yc, radius),
        );
        expect(slope, `ray ${i}`).toBeLessThan(2e-5);
        continue;
      }
      if (expected < 0) continue;
      hits++;
      expect(Math.abs(t - expected), `ray ${i}`).toBeLessThan(1e-8);
    }
    expect(hits).toBeGreaterThan(200);
  });

  it('finds all four roots of (t^2 - 1)(t^2 - 4)', () => {
    expect(solveDepressedQuartic(-5, 0, 4, -10, 10)).toBe(4);
    for (const [i, t] of [-2, -1, 1, 2].entries()) expect(roots[i]).toBeCloseTo(t, 14);
    expect(solveDepressedQuartic(0, 0, 1, -10, 10)).toBe(0);
    expect(solveDepressedQuartic(-5, 0, 4, 0, 1.5)).toBe(1);
  });

  it('keeps to its azimuth range', () => {
    const quarter = Float64Array.from([0.02, 0, 0.02, 0.1, 0, Math.PI / 2, 0, 0]);
    const toward = (x: number, z: number) =>
      Float64Array.from([x, 0.05, z, -Math.sign(x) * (x ? 1 : 0), 0, -Math.sign(z) * (z ? 1 : 0)]);
    expect(intersectRevolvedLine(toward(1, 0), quarter, 0, 1e-7, 0.99)).toBeCloseTo(0.98, 12);
    expect(intersectRevolvedLine(toward(0, 1), quarter, 0, 1e-7, 0.99)).toBeCloseTo(0.98, 12);
    expect(intersectRevolvedLine(toward(-1, 0), quarter, 0, 1e-7, 0.99)).toBe(-1);
  });
});
