import { describe, expect, it } from 'vitest';
import { checkFrame } from '../../../src/analysis/index.ts';
import { camera, fixture, grip, scene } from '../../analysis/helpers/scenes.ts';

/**
 * Pinhole projection, from first principles: a sheet w x h square to the axis at a from the lens centre is w v / a by h v / a on a
 * sensor v behind it, and 1/v = 1/f - 1/s for a lens of focal length f focused at s (thin lens; any handbook of optics).
 */
function expectedShare({ wM, hM, aM, fM, sM }: { wM: number; hM: number; aM: number; fM: number; sM: number }): number {
  const vM = 1 / (1 / fM - 1 / sM);
  return ((wM * vM) / aM / 0.036) * ((hM * vM) / aM / 0.024);
}

const shareOf = (aM: number, wM: number, hM: number, focalLengthMm: number, focusDistanceM: number): number => {
  const { findings } = checkFrame(
    scene({
      pieces: [],
      subject: { pieceId: 'gone', meterPointM: [0, 0, -5] },
      fixtures: [
        fixture({
          kind: 'bulb',
          id: 'lamp',
          name: 'Lamp',
          positionM: [0, 3, 2],
          aimM: [0, 0, 0],
          output: { unit: 'lumens', value: 1000 },
        }),
      ],
      grip: [
        grip({
          kind: 'flag',
          id: 'flag',
          name: 'Flag',
          positionM: [0, 1, 1.5 - aM],
          aimM: [0, 1, 9],
          widthM: wM,
          heightM: hM,
        }),
        // Behind all: what fills most of the frame is the background.
        grip({
          kind: 'flag',
          id: 'cloth',
          name: 'Black cloth',
          positionM: [0, 1, -4],
          aimM: [0, 1, 9],
          widthM: 10,
          heightM: 10,
        }),
      ],
      camera: camera({ positionM: [0, 1, 1.5], aimM: [0, 1, 0], focalLengthMm, focusDistanceM }),
    }),
    { checks: ['thingsInFrame'] },
  );
  return findings.find(({ id }) => id === 'thingsInFrame:flag')?.value ?? 0;
};

describe('the part of the frame that a sheet covers', () => {
  // Worked by hand for the first: v = 1/(1/.05 - 1/1.5) = 51.7241 mm; .2 x .1 m at 1 m: 10.3448 x 5.17241 mm of 36 x 24 = 6.1930 %.
  it('of .2 x .1 m at 1 m is 6.193 % of a 36 x 24 mm frame behind 50 mm focused at 1.5 m', () => {
    expect(expectedShare({ wM: 0.2, hM: 0.1, aM: 1, fM: 0.05, sM: 1.5 })).toBeCloseTo(0.06193, 5);
  });

  it.each([
    [1, 0.2, 0.1, 50, 1.5],
    [0.8, 0.12, 0.2, 50, 1.5],
    [1.5, 0.3, 0.3, 85, 1.2],
    [2, 0.5, 0.2, 35, 2],
  ])(
    'at %f m, %f x %f m, behind %f mm focused at %f m: w v / a by h v / a, within one line of cells',
    (aM, wM, hM, f, sM) => {
      const expected = expectedShare({ wM, hM, aM, fM: f / 1000, sM });
      const share = shareOf(aM, wM, hM, f, sM);
      // 147 x 98 cells in a 3:2 frame: an edge lies within half a cell either way.
      const [across, down] = [Math.sqrt((expected * (wM / hM)) / 1.5), Math.sqrt((expected * 1.5) / (wM / hM))];
      expect(Math.abs(share - expected)).toBeLessThan(across / 98 + down / 147);
    },
  );
});
