import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPfm } from '../../../src/deliverables/image/index.ts';
import { compileWorld, createTracerFor, traceTile } from '../../../src/transport/index.ts';
import { type Region, TABLETOP_A, TABLETOP_N, type TabletopVariant, tabletopSet, tabletopView } from './scene.ts';

const SIZE = 256;

interface Traced {
  readonly means: (region: Region) => { mean: readonly number[]; standardError: number };
  readonly image: Float32Array;
}

function trace(variant: TabletopVariant, samples: number): Traced {
  const world = compileWorld(tabletopSet(variant), { rawColour: true });
  const layerGains = new Float32Array(6).fill(1);
  const job = {
    world,
    view: tabletopView(),
    widthPx: SIZE,
    heightPx: SIZE,
    seed: 7,
    samplesPerPixel: samples,
    maxDepth: 24,
    layerGains,
  };
  const tracer = createTracerFor(job);
  const tile = traceTile(tracer, 2, { x: 0, y: 0, widthPx: SIZE, heightPx: SIZE, firstSample: 0, samples });
  expect(tile.dropped).toBe(0);
  const n = SIZE * SIZE * 3;
  const image = Float32Array.from({ length: n }, (_, i) => (tile.layerSums[i] + tile.layerSums[n + i]) / samples);
  return {
    image,
    means: ({ box: [x0, x1, y0, y1] }) => {
      const mean = [0, 0, 0];
      let variance = 0;
      let count = 0;
      for (let y = y0; y < y1; y++)
        for (let x = x0; x < x1; x++) {
          const i = y * SIZE + x;
          for (let c = 0; c < 3; c++) mean[c] += image[i * 3 + c];
          const l = tile.luminanceSum[i] / samples;
          variance += Math.max(0, tile.luminanceSquareSum[i] / samples - l * l) / samples;
          count++;
        }
      return { mean: mean.map((m) => m / count), standardError: Math.sqrt(variance) / count };
    },
  };
}

describe('the tabletop scene against an independent renderer', () => {
  it('agrees within 2 % in every region of the neutral variant', () => {
    const { means } = trace(TABLETOP_N, 64);
    for (const region of TABLETOP_N.regions) {
      const { mean, standardError } = means(region);
      const expected = region.mean[1];
      expect(Math.abs(mean[1] - expected), `${region.name}: ${mean[1]} against ${expected}`).toBeLessThan(
        0.02 * expected + 3 * standardError,
      );
    }
  });

  it('agrees within 2 % outside the drink and 10 % in it in the coloured variant', () => {
    const { means } = trace(TABLETOP_A, 32);
    for (const region of TABLETOP_A.regions) {
      const { mean, standardError } = means(region);
      const inDrink = /drink|reflection|floor/.test(region.name);
      region.mean.forEach((expected, c) => {
        expect(
          Math.abs(mean[c] - expected),
          `${region.name} channel ${c}: ${mean[c]} against ${expected}`,
        ).toBeLessThan((inDrink ? 0.1 : 0.02) * expected + 4 * standardError);
      });
    }
  });

  it('has the reference files as described: their region means are the printed ones', () => {
    for (const variant of [TABLETOP_N, TABLETOP_A]) {
      const file = readPfm(readFileSync(new URL(variant.file, import.meta.url)));
      expect(file.ok).toBe(true);
      if (!file.ok) return;
      const { rgb } = file.value;
      for (const { box, mean, name } of variant.regions) {
        const [x0, x1, y0, y1] = box;
        let sum = 0;
        for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) sum += rgb[(y * SIZE + x) * 3 + 1];
        expect(sum / ((x1 - x0) * (y1 - y0)), `${variant.file} ${name}`).toBeCloseTo(mean[1], 4);
      }
    }
  });
});
