import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { normalize, type Vec3 } from '../../src/core/vec3.ts';
import type { Finish } from '../../src/materials/finish.ts';
import { compileWorld } from '../../src/transport/index.ts';
import { createScattering, type Scattering } from '../../src/transport/kernels/scattering.ts';
import { levelSquare, setOf, surfaceOf } from '../helpers/surfaces.ts';

const FINISHES: readonly { name: string; finish: Finish; eta: number }[] = [
  { name: 'matte', finish: { type: 'matte', reflectanceRgb: [0.6, 0.5, 0.4] }, eta: 1 },
  {
    name: 'gloss, smooth',
    finish: { type: 'gloss', reflectanceRgb: [0.6, 0.5, 0.4], coatIndex: 1.49, roughness: 0 },
    eta: 1,
  },
  {
    name: 'gloss, alpha 0.2',
    finish: { type: 'gloss', reflectanceRgb: [0.3, 0.2, 0.1], coatIndex: 1.49, roughness: 0.2 },
    eta: 1,
  },
  { name: 'metal, alpha 0.3', finish: { type: 'metal', reflectanceRgb: [0.9, 0.7, 0.4], roughness: 0.3 }, eta: 1 },
  {
    name: 'translucent',
    finish: { type: 'translucent', reflectanceRgb: [0.3, 0.3, 0.3], transmittanceRgb: [0.5, 0.4, 0.3] },
    eta: 1,
  },
  { name: 'frosted, into glass', finish: { type: 'clear', roughness: 0.3 }, eta: 1.5 },
  { name: 'frosted, out of glass', finish: { type: 'clear', roughness: 0.3 }, eta: 1 / 1.5 },
];

function scatteringOf(finish: Finish, eta: number): Scattering {
  const world = compileWorld(setOf([surfaceOf('s', levelSquare([0, 0, 0], 1, 'up'), finish)]), { rawColour: true });
  const scattering = createScattering(world);
  scattering.normal.set([0, 1, 0]);
  scattering.eta[0] = eta;
  scattering.shade(0, 0, 0, 0, 0, 0);
  return scattering;
}

const THETA_CELLS = 20;
const PHI_CELLS = 24;
const SUB = 12;

/** Calls back with the middle of each of many small cells of the sphere and its solid angle. */
function overSphere(visit: (direction: Vec3, solidAngle: number, cell: number) => void): void {
  const n = THETA_CELLS * SUB;
  const m = PHI_CELLS * SUB;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < m; j++) {
      const theta = (Math.PI * (i + 0.5)) / n;
      const cos = Math.cos(theta);
      const phi = (2 * Math.PI * (j + 0.5)) / m;
      const sin = Math.sin(theta);
      const cell = Math.floor(i / SUB) * PHI_CELLS + Math.floor(j / SUB);
      visit([sin * Math.cos(phi), cos, sin * Math.sin(phi)], sin * (Math.PI / n) * ((2 * Math.PI) / m), cell);
    }
}

const OUT: readonly Vec3[] = [[0, 1, 0], normalize([0.8, 1, 0.2]), normalize([1, 0.35, -0.4])];

describe('scattering at surfaces', () => {
  for (const { name, finish, eta } of FINISHES) {
    it(`samples ${name} with the density that it states (chi-square over 480 cells of the sphere)`, () => {
      for (const out of OUT) {
        const s = scatteringOf(finish, eta);
        s.out.set(out);
        const expected = new Float64Array(THETA_CELLS * PHI_CELLS);
        overSphere((d, w, cell) => {
          s.into.set(d);
          s.evaluate(0);
          expected[cell] += s.value[3] * w;
        });
        const draws = 60_000;
        const random = createRandom(17);
        const counts = new Float64Array(expected.length);
        for (let i = 0; i < draws; i++) {
          if (!s.sample(0, random(), random(), random())) continue;
          expect(Math.hypot(...s.into)).toBeCloseTo(1, 9);
          const theta = Math.min(Math.PI - 1e-9, Math.acos(Math.max(-1, Math.min(1, s.into[1]))));
          let phi = Math.atan2(s.into[2], s.into[0]);
          if (phi < 0) phi += 2 * Math.PI;
          counts[
            Math.floor((theta / Math.PI) * THETA_CELLS) * PHI_CELLS + Math.floor((phi / (2 * Math.PI)) * PHI_CELLS)
          ]++;
        }
        let chi2 = 0;
        let cells = 0;
        let pooledExpected = 0;
        let pooledCount = 0;
        expected.forEach((e, i) => {
          const mean = e * draws;
          if (mean < 8) {
            pooledExpected += mean;
            pooledCount += counts[i];
            return;
          }
          chi2 += (counts[i] - mean) ** 2 / mean;
          cells++;
        });
        if (pooledExpected > 8) {
          chi2 += (pooledCount - pooledExpected) ** 2 / pooledExpected;
          cells++;
        }
        // Mean `cells`, standard deviation sqrt(2 cells); 5 of them, and the quadrature's own error in steep cells.
        expect(chi2, `${name} from ${out.map((v) => v.toFixed(2))}`).toBeLessThan(
          cells * 1.15 + 5 * Math.sqrt(2 * cells),
        );
      }
    });

    it(`sends back no more light than ${name} gets`, () => {
      for (const out of OUT) {
        const s = scatteringOf(finish, eta);
        s.out.set(out);
        let sum = 0;
        overSphere((d, w) => {
          s.into.set(d);
          s.evaluate(0);
          // Radiance that enters a denser medium grows by eta^2: count light, not radiance.
          sum += s.value[0] * w * (d[1] < 0 ? eta * eta : 1);
        });
        expect(sum).toBeLessThan(1.003);
        expect(sum).toBeGreaterThan(0.05);
      }
    });
  }

  it('is reciprocal: f(a, b) = f(b, a), and over n^2 for frosted glass, on 300 seeded pairs', () => {
    const random = createRandom(23);
    for (const { name, finish, eta } of FINISHES)
      for (let i = 0; i < 300; i++) {
        const s = scatteringOf(finish, eta);
        const a = normalize([random() - 0.5, random() + 0.02, random() - 0.5]);
        const b = normalize([random() - 0.5, random() - (finish.type === 'clear' ? 0.5 : 0), random() - 0.5]);
        if (Math.abs(b[1]) < 0.02) continue;
        s.out.set(a);
        s.into.set(b);
        s.evaluate(0);
        const forward = s.value[0] / Math.abs(b[1]);
        // Seen from the other side the normal turns and the index ratio is upside down.
        if (b[1] < 0) {
          s.normal.set([0, -1, 0]);
          s.eta[0] = 1 / eta;
        }
        s.out.set(b);
        s.into.set(a);
        s.evaluate(0);
        const backward = s.value[0] / Math.abs(a[1]);
        const n2 = b[1] < 0 && finish.type === 'clear' ? eta * eta : 1;
        expect(Math.abs(forward * n2 - backward), name).toBeLessThan(1e-9 + 1e-6 * backward);
      }
  });
});
