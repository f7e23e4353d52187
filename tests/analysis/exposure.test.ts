import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CheckResult,
  checkFrame,
  createBouncePatches,
  createCheckInput,
  createFrameLight,
  type Finding,
  type MeterReading,
  measureIlluminance,
  type SpotReading,
} from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, glossSheet, grip, matteSheet, panel, scene, tonic } from './helpers/scenes.ts';

const check = (of: FrameScene): CheckResult => checkFrame(of, { checks: ['exposure'] });
const finding = ({ findings }: CheckResult, id: string): Finding | undefined => findings.find((f) => f.id === id);
interface Figures {
  readonly incidentDome: MeterReading;
  readonly incidentOverSettingStops: number;
  readonly bounceLux: number;
  readonly fixtureShares: readonly { fixtureId: string; lux: number; share: number }[];
  readonly keyToFillStops: number | null;
  readonly spots: readonly SpotReading[];
  readonly clippedShare: number;
  readonly lampShare: number;
  readonly settings: { readonly clippingNits: number };
}
const figures = ({ figures: all }: CheckResult): Figures => all.exposure as Figures;

/** A key in front of the hero, beside the lens. */
const key = (lux: number, patch: Record<string, unknown> = {}) =>
  panel({
    id: 'key',
    name: 'Key',
    positionM: [0.4, 0.6, 1.5],
    aimM: [0, 0.08, 0],
    widthM: 0.3,
    heightM: 0.3,
    output: { unit: 'luxAtDistance', value: lux, distanceM: Math.hypot(0.4, 0.52, 1.5) },
    ...patch,
  });
const lit = (lux: number, parts: Partial<FrameScene> = {}): FrameScene =>
  scene({ pieces: [matteSheet(), block()], fixtures: [key(lux)], ...parts });

describe('exposure', () => {
  // Camera at f/11, 1/125 s, ISO 100, m = .0762: effective f/11.84, which a dome reads at 340 x 11.84^2 / .8 = 59 600 lx.
  it('is ok when the dome reads what the camera is set to', () => {
    const result = check(lit(60000));
    expect(finding(result, 'exposure:incident')?.grade).toBe('ok');
    expect(Math.abs(figures(result).incidentOverSettingStops)).toBeLessThan(0.2);
  });

  it.each([
    [60000 / 4, 'care', -2],
    [60000 * 4, 'care', 2],
    [60000 / 32, 'stop', -5],
    [60000 * 32, 'stop', 5],
  ])('reads %f lx as %s, %f stops off', (lux, grade, stops) => {
    const result = finding(check(lit(lux)), 'exposure:incident');
    expect(result?.grade).toBe(grade);
    expect(result?.value).toBeCloseTo(stops, 0);
    expect(result?.summary).toMatch(stops > 0 ? /over the setting/ : /under the setting/);
  });

  it('says so when no light reaches the meter', () => {
    const result = finding(check(lit(60000, { fixtures: [key(60000, { on: false })] })), 'exposure:incident');
    expect(result?.grade).toBe('stop');
    expect(result?.summary).toContain('No light');
  });

  it('takes the hero away to read the light in its place', () => {
    const gone = { pieceId: 'gone', meterPointM: [0, 0.08, 0] as [number, number, number] };
    const alone = figures(check(lit(60000, { pieces: [matteSheet()], subject: gone }))).incidentDome.lux;
    const withBlock = figures(check(lit(60000))).incidentDome.lux;
    const withDrink = figures(check(lit(60000, { pieces: [matteSheet(), tonic()] }))).incidentDome.lux;
    expect(withBlock).toBeCloseTo(alone, 6);
    expect(withDrink).toBeCloseTo(alone, 6);
  });

  it('loses a fixture behind a flag', () => {
    const flag = grip({
      kind: 'flag',
      id: 'flag',
      name: 'Flag',
      positionM: [0.27, 0.43, 1],
      aimM: [0, 0.08, 0],
      widthM: 0.6,
      heightM: 0.6,
    });
    // What is left comes off the sheet, where the flag's shadow does not reach.
    const { incidentDome, bounceLux } = figures(check(lit(60000, { grip: [flag] })));
    expect(incidentDome.lux).toBeCloseTo(bounceLux, 9);
    expect(incidentDome.lux).toBeLessThan(0.01 * 60000);
  });

  it('keeps every ratio when all fixtures are scaled alike, and moves the reading by the stops of the scale', () => {
    const at = (scale: number): Figures =>
      figures(
        check(lit(1, { fixtures: [key(4000 * scale), panel({ output: { unit: 'lumens', value: 3000 * scale } })] })),
      );
    const [one, four] = [at(1), at(4)];
    expect(four.keyToFillStops).toBeCloseTo(one.keyToFillStops ?? 0, 6);
    four.fixtureShares.forEach(({ share }, i) => {
      expect(share).toBeCloseTo(one.fixtureShares[i].share, 9);
    });
    expect(four.incidentOverSettingStops - one.incidentOverSettingStops).toBeCloseTo(2, 9);
  });

  it('moves by the stops of shutter, ISO and light alike, for any setting (ISO 2720: N^2 = E S t / C)', () => {
    const stop = fc.double({ min: -3, max: 3, noNaN: true });
    const over = (light: number, shutter: number, iso: number): number => {
      const of = lit(8000 * 2 ** light);
      return figures(
        check({
          ...of,
          camera: { ...of.camera, shutterS: of.camera.shutterS * 2 ** shutter, iso: of.camera.iso * 2 ** iso },
        }),
      ).incidentOverSettingStops;
    };
    const base = over(0, 0, 0);
    fc.assert(
      fc.property(stop, stop, stop, (light, shutter, iso) => {
        expect(over(light, shutter, iso) - base).toBeCloseTo(light + shutter + iso, 9);
      }),
      { seed: 63, numRuns: 5 },
    );
  });

  it('dims by stops: a key at -1.5 stops gives 2^-1.5 of its light', () => {
    const full = figures(check(lit(60000))).incidentDome.lux;
    const dimmed = figures(check(lit(60000, { fixtures: [key(60000, { dimStops: -1.5 })] }))).incidentDome.lux;
    expect(dimmed / full).toBeCloseTo(2 ** -1.5, 6);
  });

  it('gives shares that add up to the reading, key first', () => {
    const { fixtureShares, incidentDome, keyToFillStops } = figures(
      check(lit(1, { fixtures: [panel({ output: { unit: 'luxAtDistance', value: 1000, distanceM: 1 } }), key(8000)] })),
    );
    expect(fixtureShares[0].fixtureId).toBe('key');
    const [keyLux, fillLux] = fixtureShares.map(({ lux }) => lux);
    expect(keyLux + fillLux).toBeCloseTo(incidentDome.lux, 6);
    // What the key throws off the sheet fills as well, so the ratio is a little less than that of the two fixtures.
    const ofFixtures = Math.log2((keyLux + fillLux) / fillLux);
    expect(keyToFillStops).toBeLessThan(ofFixtures);
    expect(keyToFillStops).toBeGreaterThan(1);
  });

  it('fires on clipping of a white base and stays quiet on a dark one', () => {
    const bright = check(lit(250000, { pieces: [matteSheet(0.9), block()] }));
    expect(finding(bright, 'exposure:clipping')?.grade).toBe('care');
    expect(figures(bright).clippedShare).toBeGreaterThan(0.3);
    const dark = check(lit(60000, { pieces: [matteSheet(0.1), block()] }));
    expect(finding(dark, 'exposure:clipping')).toBeUndefined();
  });

  it('does not count a lamp in view as clipping', () => {
    const lamp = panel({ positionM: [0, 0.1, -0.6], aimM: [0, 0.1, 2], widthM: 0.3, heightM: 0.2 });
    const result = figures(check(scene({ pieces: [block()], fixtures: [lamp] })));
    expect(result.lampShare).toBeGreaterThan(0.1);
    expect(result.clippedShare).toBeLessThan(0.01);
  });

  it('reads the base as L = rho E / pi within 2 % (CIE 171:2006, 5.6, Lambertian reflection)', () => {
    const of = lit(60000, { pieces: [matteSheet(0.4), block()] });
    const spot = figures(check(of)).spots.find(({ name }) => name.startsWith('base'));
    const input = createCheckInput(of);
    // The spot lies 1.5 widths of the 5 cm block to camera right of its middle.
    const { totalLux } = measureIlluminance(createFrameLight(input), [0.075, 0.005, 0], {
      type: 'plane',
      normal: [0, 1, 0],
    });
    expect((spot?.luminanceNits ?? 0) / ((0.4 * totalLux) / Math.PI)).toBeCloseTo(1, 1);
    expect(Math.abs((spot?.luminanceNits ?? 0) / ((0.4 * totalLux) / Math.PI) - 1)).toBeLessThan(0.02);
  });

  it('counts a bounce card as a light: L = rho E / pi over the rectangle that it is, within 3 %', () => {
    // The card stands at x = -0.5, 0.4 m square, facing +x, lit square on by a far small panel at (4, 0, 0); the cell at
    // the origin faces the card. F of four rectangles .2 x .2 with a corner opposite at .5: X = Y = .4.
    const of = scene({
      pieces: [],
      fixtures: [
        panel({
          id: 'key',
          positionM: [4, 0, 0],
          aimM: [0, 0, 0],
          widthM: 0.05,
          heightM: 0.05,
          output: { unit: 'luxAtDistance', value: 1000, distanceM: 4.498 },
        }),
      ],
      grip: [
        grip({
          kind: 'bounceCard',
          id: 'card',
          name: 'Card',
          positionM: [-0.5, 0, 0],
          aimM: [4, 0, 0],
          widthM: 0.4,
          heightM: 0.4,
          reflectanceRgb: [0.8, 0.8, 0.8],
        }),
      ],
    });
    const input = createCheckInput(of);
    const light = createFrameLight(input);
    const patches = createBouncePatches(input, light);
    const { bounceLux, totalLux } = measureIlluminance(
      light,
      [0, 0, 0],
      { type: 'plane', normal: [-1, 0, 0] },
      { patches },
    );
    const x = 0.2 / 0.498;
    const root = Math.sqrt(1 + x * x);
    const factor = (4 / (2 * Math.PI)) * 2 * (x / root) * Math.atan(x / root);
    const expected = 0.8 * 1000 * factor;
    expect(totalLux).toBeCloseTo(bounceLux, 9);
    expect(Math.abs(bounceLux / expected - 1)).toBeLessThan(0.03);
  });

  it('counts a diffusion frame as a light, and its transmission: .5 cloth gives .5 E pi-weighted light behind it', () => {
    const at = (transmittance: number) =>
      figures(
        check(
          scene({
            pieces: [],
            fixtures: [
              key(20000, { positionM: [0, 0.08, 2], output: { unit: 'luxAtDistance', value: 20000, distanceM: 2 } }),
            ],
            grip: [
              grip({
                kind: 'diffusionFrame',
                id: 'cloth',
                name: 'Cloth',
                positionM: [0, 0.08, 1],
                aimM: [0, 0.08, 0],
                widthM: 1,
                heightM: 1,
                transmittance,
                reflectance: 0.3,
              }),
            ],
            camera: camera({ positionM: [0, 0.08, 0.8], aimM: [0, 0.08, 0], focusDistanceM: 0.8 }),
          }),
        ),
      ).incidentDome.lux;
    expect(at(0.3)).toBeGreaterThan(0);
    expect(at(0.6) / at(0.3)).toBeCloseTo(2, 6);
  });

  it('names the fixture that a bulb is and reads it from every side alike', () => {
    const bulb = fixture({
      kind: 'bulb',
      id: 'bulb',
      name: 'Bulb',
      positionM: [0.5, 0.08, 0],
      aimM: [0, 0, 0],
      output: { unit: 'lumens', value: 1200 },
    });
    const { fixtureShares } = figures(check(lit(1, { pieces: [glossSheet(), block()], fixtures: [bulb] })));
    // I = 1200 / 4 pi = 95.49 cd at .5 m from the side of the dome, which takes half (1 + cos 90) / 2: within 3 %.
    // The dome looks at the lens, 12.7 degrees up and square to the bulb.
    expect(fixtureShares[0].lux / (95.493 / 0.25 / 2)).toBeCloseTo(1, 1);
  });
});
