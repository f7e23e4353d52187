import { describe, expect, it } from 'vitest';
import { createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { castHeroShadows } from '../../../src/analysis/shadows/castShadow.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { Fixture } from '../../../src/fixtures/records.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { block, fixture, matteSheet, panel, scene } from '../../analysis/helpers/scenes.ts';
import { traceNits } from '../../helpers/traceNits.ts';

/*
 * The shadow as the independent path tracer lays it on the table, read along a line as with a very small meter: luminance with
 * the hero over luminance without. Across the edge of a wide block it ramps from 0 to 1 over the penumbra as that edge lays the
 * light open, which is known in closed form for a level square and a disc. Place and width of the ramp are fitted.
 */

const TABLE_Y = 0.005;
const BLACK = { type: 'matte', reflectanceRgb: [0, 0, 0] };
const HEIGHT_M = 0.12;
const HALF_M = 0.03;

const hero = block({ widthM: 2 * HALF_M, depthM: 0.5, heightM: HEIGHT_M, positionM: [0, TABLE_Y, 0], finish: BLACK });
const setOf = (light: Fixture, pieces: FrameScene['pieces']): FrameScene =>
  scene({ pieces, fixtures: [light], subject: { pieceId: 'hero', meterPointM: [0, 0.08, 0] } });

const nitsAt = (input: ReturnType<typeof createCheckInput>, [x, , z]: Vec3, samples: number): number =>
  traceNits(input, [x, TABLE_Y + 0.004, z], [0, -1, 0], { samples, maxDepth: 2 }).nits;

/** What an edge has laid open of a light when it has come t of the way across, as a part of its light at x. */
type Open = (t: number, xM: number) => number;

/** Of a disc far off: the area of a disc that is cut by a straight edge. */
const openDisc: Open = (t) => {
  const c = 1 - 2 * Math.min(1, Math.max(0, t));
  return (Math.acos(c) - c * Math.sqrt(1 - c * c)) / Math.PI;
};

/** Of a Lambertian square level with the table: E of a strip is the integral of H^2 / d^4 over it, nearer side first. */
const openSquare = (middleXM: number, sizeM: number, heightM: number): Open => {
  const n = 24;
  const strip = (xM: number, i: number): number => {
    const away = middleXM + ((n - 1 - 2 * i) / (2 * n)) * sizeM - xM;
    let sum = 0;
    for (let k = 0; k < n; k++) sum += 1 / (away ** 2 + heightM ** 2 + (((2 * k + 1 - n) / (2 * n)) * sizeM) ** 2) ** 2;
    return sum;
  };
  return (t, xM) => {
    const at = n * Math.min(1, Math.max(0, t));
    let [open, all] = [0, 0];
    for (let i = 0; i < n; i++) {
      const light = strip(xM, i);
      all += light;
      open += light * Math.min(1, Math.max(0, at - i));
    }
    return open / all;
  };
};

/** Start and width of the ramp that fits the readings best, by a search that closes in. */
function fitRamp(readings: readonly (readonly [number, number])[], open: Open, guess: [number, number]) {
  const miss = (startM: number, widthM: number): number =>
    readings.reduce((sum, [at, share]) => sum + (share - open((at - startM) / widthM, at)) ** 2, 0);
  let [startM, widthM] = guess;
  for (let stepM = guess[1] / 4; stepM > guess[1] / 4000; stepM /= 1.5) {
    let best = { startM, widthM, off: miss(startM, widthM) };
    for (const a of [-2, -1, 0, 1, 2]) {
      for (const b of [-2, -1, 0, 1, 2]) {
        const [s, w] = [startM + a * stepM, Math.max(guess[1] / 20, widthM + b * stepM)];
        const off = miss(s, w);
        if (off < best.off) best = { startM: s, widthM: w, off };
      }
    }
    [startM, widthM] = [best.startM, best.widthM];
  }
  return { startM, widthM };
}

/** Where half of the light is laid open. */
function halfOpenM(open: Open, { startM, widthM }: { readonly startM: number; readonly widthM: number }): number {
  let [dark, lit] = [startM, startM + widthM];
  for (let i = 0; i < 40; i++) {
    const middle = (dark + lit) / 2;
    if (open((middle - startM) / widthM, middle) < 0.5) dark = middle;
    else lit = middle;
  }
  return lit;
}

const LIGHTS: readonly { readonly name: string; readonly open: Open; readonly light: Fixture }[] = [
  {
    name: 'a panel, face down',
    open: openSquare(-0.6, 0.2, 0.9 - TABLE_Y),
    light: panel({ positionM: [-0.6, 0.9, 0], aimM: [-0.6, 0, 0], widthM: 0.2, heightM: 0.2, beamAngleDeg: 120 }),
  },
  {
    name: 'a softbox, face down',
    open: openSquare(-0.5, 0.4, 1 - TABLE_Y),
    light: fixture({
      kind: 'softbox',
      id: 'box',
      name: 'Box',
      positionM: [-0.5, 1, 0],
      aimM: [-0.5, 0, 0],
      widthM: 0.4,
      heightM: 0.4,
      edgeFalloff: 0,
      output: { unit: 'lumens', value: 9000 },
    }),
  },
  {
    name: 'a spot, aimed at the block',
    open: openDisc,
    light: fixture({
      kind: 'spot',
      id: 'spot',
      name: 'Spot',
      positionM: [-1.1, 0.9, 0],
      aimM: [0, 0.05, 0],
      beamAngleDeg: 40,
      lensDiameterM: 0.12,
      output: { unit: 'lumens', value: 9000 },
    }),
  },
];

describe('the edge at the tip of a shadow, on the traced table', () => {
  it.each(LIGHTS)('under $name lies where the check says and is as soft, within 2 %', ({ open, light }) => {
    const withHero = createCheckInput(setOf(light, [matteSheet(0.5), hero]));
    const without = createCheckInput(setOf(light, [matteSheet(0.5)]));
    const study = createFrameStudy(withHero);
    const place = study.hero();
    if (!place) throw new Error('no hero');
    const [shadow] = castHeroShadows(study, place);
    const { tipPenumbraM, lengthM } = shadow;
    if (tipPenumbraM === null || lengthM === null) throw new Error('no tip');
    // The length counts to the shadow of the middle of the top; the edge that throws the tip lies half a width on.
    const scale = (shadow.lightM[1] - TABLE_Y) / (shadow.lightM[1] - TABLE_Y - HEIGHT_M);
    const middleM = lengthM + HALF_M * scale;
    const readings = Array.from({ length: 31 }, (__, i): [number, number] => {
      const x = middleM + (i / 15 - 1) * tipPenumbraM;
      return [x, nitsAt(withHero, [x, 0, 0], 6000) / nitsAt(without, [x, 0, 0], 2000)];
    });
    const fitted = fitRamp(readings, open, [middleM - tipPenumbraM / 2, tipPenumbraM]);
    const halfM = halfOpenM(open, fitted);
    expect(Math.abs(halfM / middleM - 1)).toBeLessThan(0.02);
    expect(Math.abs((halfM - HALF_M * scale) / lengthM - 1)).toBeLessThan(0.02);
    expect(Math.abs(fitted.widthM / tipPenumbraM - 1)).toBeLessThan(0.02);
  });
});

describe('the way a shadow falls, on the traced table', () => {
  it.each([
    [-0.7, 0.5],
    [0.9, 0.15],
    [0.2, -0.8],
  ])('from a panel over (%f, %f): middle of the darkness on an arc, within .02 radian', (x, z) => {
    const light = panel({ positionM: [x, 0.8, z], aimM: [0, 0, 0], widthM: 0.1, heightM: 0.1 });
    const post = block({ widthM: 0.04, depthM: 0.04, heightM: 0.2, positionM: [0, TABLE_Y, 0], finish: BLACK });
    const withPost = createCheckInput(setOf(light, [matteSheet(0.5), post]));
    const without = createCheckInput(setOf(light, [matteSheet(0.5)]));
    const study = createFrameStudy(withPost);
    const place = study.hero();
    if (!place) throw new Error('no hero');
    const [shadow] = castHeroShadows(study, place);
    const said = Math.atan2(shadow.direction[2], shadow.direction[0]);
    let [dark, moment] = [0, 0];
    for (let i = -20; i <= 20; i++) {
      const angle = said + i * 0.03;
      const at: Vec3 = [0.12 * Math.cos(angle), 0, 0.12 * Math.sin(angle)];
      const kept = 1 - nitsAt(withPost, at, 1200) / nitsAt(without, at, 1200);
      dark += kept;
      moment += kept * i * 0.03;
    }
    expect(dark).toBeGreaterThan(3);
    expect(Math.abs(moment / dark)).toBeLessThan(0.02);
  });
});
