import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, glossSheet, grip, matteSheet, panel, piece, scene } from './helpers/scenes.ts';

const LOOK = camera({ positionM: [0, 0.25, 1.5], aimM: [0, 0.2, 0], focalLengthMm: 50, focusDistanceM: 1.5 });
const wall = (patch: Record<string, unknown> = {}) =>
  piece({
    kind: 'wall',
    id: 'wall',
    name: 'Paper',
    positionM: [0, -0.2, -0.9],
    widthM: 3,
    heightM: 2,
    finish: { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
    ...patch,
  });
const spot = (patch: Record<string, unknown> = {}) =>
  fixture({
    kind: 'spot',
    id: 'wash',
    name: 'Wash',
    positionM: [-1, 0.6, 0.2],
    aimM: [-0.3, 0.3, -0.9],
    beamAngleDeg: 40,
    output: { unit: 'luxAtDistance', value: 3000, distanceM: 1.2 },
    ...patch,
  });
const set = (parts: Partial<FrameScene> = {}): FrameScene =>
  scene({ pieces: [matteSheet(0.05), wall(), block()], fixtures: [spot()], camera: LOOK, ...parts });
const check = (of: FrameScene, limits = {}, remedies = false): CheckResult =>
  checkFrame(of, { checks: ['background'], limits, remedies });
const only = ({ findings }: CheckResult): Finding | undefined => findings[0];
interface Figures {
  readonly surface: string;
  readonly spreadStops: number;
  readonly illuminanceSpreadStops: number;
  readonly gradientDirectionDeg: number;
  readonly gradientStops: number;
  readonly hotSpotUv: readonly [number, number];
  readonly fixtureLux: Record<string, number>;
  readonly meanLux: number;
  readonly meanNits: number;
}
const figures = (result: CheckResult): Figures => result.figures.background as Figures;

describe('background', () => {
  it('fires on a paper that is to be even and falls off, and offers a move that evens it', () => {
    const before = set({
      fixtures: [panel({ id: 'wash', name: 'Wash', positionM: [-0.3, 0.7, 0.6], aimM: [0, 0.2, -0.9] })],
    });
    const finding = only(check(before, { backgroundWanted: 'even' }, true));
    expect(finding?.grade).toMatch(/care|stop/);
    expect(finding?.value).toBeGreaterThan(0.5);
    expect(finding?.summary).toMatch(/^The wall spreads over [\d.]+ stops: brightest upper .*, darkest right/);
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^(Turn|Move) Wash .*: spread 0\.[0-5] stops/);
    if (remedy)
      expect(only(check(applyChanges(before, remedy.changes), { backgroundWanted: 'even' }))?.grade).toBe('ok');
  });

  it('stays quiet when two lights from far off keep it even', () => {
    const pair = [-1.5, 1.5].map((x) =>
      panel({ id: x < 0 ? 'left' : 'right', name: `Side ${x}`, positionM: [x, 0.8, 2.6], aimM: [0, 0.2, -0.9] }),
    );
    const finding = only(check(set({ fixtures: pair }), { backgroundWanted: 'even' }));
    expect(finding?.grade).toBe('ok');
    expect(finding?.value).toBeLessThan(0.5);
  });

  it('is no more than a note where the frame wants nothing of the background', () => {
    expect(only(check(set()))?.grade).toBe('note');
  });

  it('is ok with a gradient that is wanted where it is, and cares when it is not there', () => {
    const { hotSpotUv } = figures(check(set()));
    const wanted = { backgroundWanted: 'graded' as const, backgroundPlaceV: hotSpotUv[1] };
    expect(only(check(set(), { ...wanted, backgroundPlaceU: hotSpotUv[0] }))?.grade).toBe('ok');
    const off = only(check(set(), { ...wanted, backgroundPlaceU: hotSpotUv[0] + 0.5 }));
    expect(off?.grade).toBe('care');
    expect(off?.value).toBeCloseTo(0.5, 6);
    expect(off?.unit).toBe('of the frame off its place');
  });

  it('offers to aim the light at the wanted bright end, and that puts it there', () => {
    const limits = { backgroundWanted: 'graded' as const, backgroundPlaceU: 0.75, backgroundPlaceV: 0.35 };
    const before = set({ fixtures: [spot({ positionM: [-0.2, 0.9, 1.2], beamAngleDeg: 20 })] });
    const finding = only(check(before, limits, true));
    expect(finding?.grade).toBe('care');
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toBe('Aim Wash at the wanted bright end');
    if (remedy) expect(only(check(applyChanges(before, remedy.changes), limits))?.grade).toBe('ok');
  });

  it('cares when a gradient is wanted and the wall is flat', () => {
    const flat = set({ fixtures: [panel({ positionM: [0, 1, 3], aimM: [0, 0.2, -0.9] })] });
    const finding = only(check(flat, { backgroundWanted: 'graded' }));
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toContain('a gradient of 1 stop is wanted');
  });

  it('points the gradient at the light: left is 180 degrees, up is 90', () => {
    expect(Math.abs(figures(check(set())).gradientDirectionDeg)).toBeGreaterThan(135);
    const above = figures(check(set({ fixtures: [panel({ positionM: [0, 1.3, -0.3], aimM: [0, 0.5, -0.9] })] })));
    expect(Math.abs(above.gradientDirectionDeg - 90)).toBeLessThan(20);
  });

  it('reads a wall behind upright slats as striped, by its lit parts and smoothed as the wall without slats', () => {
    // Slats of a pitch that is small against a window: a like part of each window is shaded, so that the mean falls by one
    // factor all over, and the lit stripes are what they are without slats.
    const lamp = spot({
      positionM: [-0.2, 0.3, 3],
      beamAngleDeg: 30,
      lensDiameterM: 0.01,
      output: { unit: 'lumens', value: 4000 },
    });
    const slats = piece({
      kind: 'slatScreen',
      id: 'slats',
      name: 'Slats',
      positionM: [-0.25, -0.2, 0.3],
      headingDeg: 0,
      widthM: 2,
      heightM: 1.4,
      direction: 'upright',
      slatWidthM: 0.006,
      pitchM: 0.012,
      tiltDeg: 0,
      finish: { type: 'matte', reflectanceRgb: [0.02, 0.02, 0.02] },
    });
    // The lens looks past the slats from between them and the wall.
    const near = camera({ positionM: [0.1, 0.25, 0.2], aimM: [0, 0.2, -0.9], focalLengthMm: 28, focusDistanceM: 0.6 });
    const subject = { pieceId: 'gone', meterPointM: [0, 0.2, -0.5] as [number, number, number] };
    const bare = set({ pieces: [wall()], fixtures: [lamp], camera: near, subject });
    const striped = { ...bare, pieces: [slats, ...bare.pieces] };
    const spread = (of: FrameScene, backgroundRead: string): number =>
      figures(check(of, { backgroundRead, backgroundWanted: 'even' })).spreadStops;
    const plain = spread(bare, 'asSeen');
    expect(plain).toBeGreaterThan(0.3);
    expect(spread(striped, 'asSeen')).toBeGreaterThan(plain + 1.5);
    expect(Math.abs(spread(striped, 'litParts') - spread(bare, 'litParts'))).toBeLessThan(0.1);
    // Slats have a thickness, so a little less passes them aslant.
    expect(Math.abs(spread(striped, 'smoothed') - spread(bare, 'smoothed'))).toBeLessThan(0.35);
    const summary = only(check(striped, { backgroundRead: 'litParts' }))?.summary;
    expect(summary).toMatch(/^The wall, its lit parts alone, /);
  });

  it('takes the wall and not the table it stands behind, and a backlit cloth when that is what is there', () => {
    expect(figures(check(set())).surface).toBe('wall');
    const cloth = grip({
      kind: 'diffusionFrame',
      id: 'cloth',
      name: 'Back cloth',
      positionM: [0, 0.3, -0.6],
      aimM: [0, 0.3, 2],
      widthM: 1.6,
      heightM: 1.2,
    });
    const back = panel({ positionM: [0, 0.3, -1.6], aimM: [0, 0.3, 0] });
    const lit = figures(check(set({ pieces: [matteSheet(0.05), block()], grip: [cloth], fixtures: [back] })));
    expect(lit.surface).toBe('Back cloth');
    expect(lit.meanNits).toBeGreaterThan(100);
    expect(lit.spreadStops).toBeLessThan(3);
  });

  it('reads a gloss table to the horizon by what the lens sees of it', () => {
    const result = check(set({ pieces: [glossSheet({ depthM: 12, widthM: 12 }), block()], fixtures: [panel()] }));
    expect(result.findings.length).toBe(1);
    expect(figures(result).surface).toBe('gloss sheet');
  });

  it('says nothing of a frame without a background, or without light', () => {
    expect(check(set({ pieces: [block()] })).findings).toEqual([]);
    expect(check(set({ fixtures: [] })).findings).toEqual([]);
  });

  it('keeps its spread when all lights are scaled alike, and its fixtures add up to the mean', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (k, x) => {
          const at = (scale: number): Figures =>
            figures(
              check(
                set({
                  fixtures: [
                    spot({ output: { unit: 'lumens', value: 1000 * scale } }),
                    panel({
                      positionM: [x, 1, 0.4],
                      aimM: [0, 0.2, -0.9],
                      output: { unit: 'lumens', value: 700 * scale },
                    }),
                  ],
                }),
              ),
            );
          const [one, many] = [at(1), at(k)];
          expect(many.spreadStops).toBeCloseTo(one.spreadStops, 6);
          const total = Object.values(one.fixtureLux).reduce((sum, lux) => sum + lux, 0);
          expect(total / one.meanLux).toBeCloseTo(1, 6);
        },
      ),
      { seed: 3, numRuns: 8 },
    );
  });
});
