import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, grip, matteSheet, panel, scene } from './helpers/scenes.ts';

const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const withPanel: FrameScene = scene({ camera: WIDE });
const check = (of: FrameScene, limits = {}): CheckResult => checkFrame(of, { checks: ['thingsInFrame'], limits });
const find = ({ findings }: CheckResult, id: string): Finding | undefined => findings.find((f) => f.id === id);

describe('things in the picture', () => {
  const card = (positionM: readonly number[]) =>
    grip({
      kind: 'bounceCard',
      id: 'card',
      name: 'White card',
      positionM,
      aimM: [0, 0.08, 0],
      widthM: 0.2,
      heightM: 0.25,
    });

  it('fires on a card at the edge of the frame and stays quiet about one outside it', () => {
    const shown = check({ ...withPanel, pieces: [matteSheet(), block()], grip: [card([0.45, 0.13, 0.1])] });
    const finding = find(shown, 'thingsInFrame:card');
    expect(finding?.grade).toBe('care');
    expect(finding?.summary).toMatch(/^White card stands in the picture, .* of frame, over [\d.]+ % of it\.$/);
    const hidden = check({ ...withPanel, pieces: [matteSheet(), block()], grip: [card([1.4, 0.13, 0.1])] });
    expect(find(hidden, 'thingsInFrame:card')).toBeUndefined();
  });

  it('takes no offence at a backlit cloth that is the background, or at a bulb that is a practical', () => {
    const cloth = grip({
      kind: 'diffusionFrame',
      id: 'cloth',
      name: 'Cloth',
      positionM: [0, 0.5, -0.8],
      aimM: [0, 0.4, 2],
      widthM: 2.4,
      heightM: 1.6,
    });
    const bulb = fixture({
      kind: 'bulb',
      id: 'lamp',
      name: 'Lamp',
      positionM: [0.3, 0.2, -0.3],
      aimM: [0, 0, 0],
      output: { unit: 'lumens', value: 300 },
    });
    const { findings } = check({
      ...withPanel,
      pieces: [matteSheet(), block()],
      fixtures: [panel({ positionM: [0, 0.6, -1.8], aimM: [0, 0.4, 0] }), bulb],
      grip: [cloth],
      camera: camera({ positionM: [0, 0.25, 1.5], aimM: [0, 0.25, 0], focalLengthMm: 50, focusDistanceM: 1.5 }),
    });
    expect(findings).toEqual([]);
  });

  it('takes the part of the frame that the frame allows', () => {
    const of = { ...withPanel, pieces: [matteSheet(), block()], grip: [card([0.45, 0.13, 0.1])] };
    expect(find(check(of, { thingInFrameCareShare: 0.2 }), 'thingsInFrame:card')?.grade).toBe('note');
  });

  it('never changes with the strength of the light, and shrinks as a card is drawn back behind the set', () => {
    const at = (lux: number, backM: number): number =>
      find(
        check({
          ...withPanel,
          pieces: [matteSheet(), block()],
          fixtures: [panel({ output: { unit: 'luxAtDistance', value: lux, distanceM: 1 } })],
          grip: [{ ...card([0.25, 0.25, -backM]), aimM: [0.25, 0.25, 2] }],
        }),
        'thingsInFrame:card',
      )?.value ?? 0;
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        fc.double({ min: 0.1, max: 0.5, noNaN: true }),
        (lux, backM) => {
          expect(at(lux, backM)).toBe(at(6000, backM));
          expect(at(lux, backM + 0.4)).toBeLessThan(at(lux, backM));
        },
      ),
      { seed: 61, numRuns: 4 },
    );
  });

  it('gives the part of the frame that a flag of known size fills, within a cell row (pinhole projection)', () => {
    // .2 x .1 m square to the axis 1 m off, frame 36 x 24 mm behind f v / (v - f): the image is v / 1 m as large.
    const flag = grip({
      kind: 'flag',
      id: 'flag',
      name: 'Flag',
      positionM: [0, 0.5, 0.5],
      aimM: [0, 0.5, 1.5],
      widthM: 0.2,
      heightM: 0.1,
    });
    const { findings } = check({
      ...withPanel,
      pieces: [matteSheet(), block()],
      grip: [flag],
      camera: camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.5, 0], focalLengthMm: 50, focusDistanceM: 1.5 }),
    });
    const imageM = (0.05 * 1.5) / 1.45;
    const expected = ((0.2 * imageM) / 0.999 / 0.036) * ((0.1 * imageM) / 0.999 / 0.024);
    const share = findings.find(({ id }) => id === 'thingsInFrame:flag')?.value ?? 0;
    expect(Math.abs(share / expected - 1)).toBeLessThan(0.08);
  });
});
