import { describe, expect, it } from 'vitest';
import { checkFrame, type MeterReading } from '../../../src/analysis/index.ts';
import { camera, panel, scene } from '../../analysis/helpers/scenes.ts';

/*
 * A panel is set by what it gives at a distance, stands on the line from the hero through the lens, and the check must
 * read the stop that the meter formula N = sqrt(E S t / C) gives (ISO 2720:1974; C 250 flat, 340 dome; constants in that
 * standard's ranges from memory). The panel is 5 cm at 2 m, so the dome's cardioid takes nothing off.
 */
const readAt = (lux: number, iso: number, shutterS: number): { flat: MeterReading; dome: MeterReading } => {
  const { figures } = checkFrame(
    scene({
      pieces: [],
      fixtures: [
        panel({
          positionM: [0, 0.08, 2],
          aimM: [0, 0.08, 0],
          widthM: 0.05,
          heightM: 0.05,
          output: { unit: 'luxAtDistance', value: lux, distanceM: 2 },
        }),
      ],
      camera: camera({ positionM: [0, 0.08, 1.2], aimM: [0, 0.08, 0], iso, shutterS }),
      subject: { pieceId: 'hero', meterPointM: [0, 0.08, 0] },
    }),
    { checks: ['exposure'] },
  );
  const exposure = figures.exposure as { incidentDome: MeterReading; incidentFlatTowardLens: MeterReading };
  return { flat: exposure.incidentFlatTowardLens, dome: exposure.incidentDome };
};

describe('meter stops through the whole chain', () => {
  it.each([
    [1000, 100, 1 / 50, 2.828427],
    [2000, 400, 1 / 48, 8.164966],
    [20000, 100, 1 / 125, 8],
    [960, 400, 1 / 48, 2 ** 2.5],
    [1000, 100, 0.16, 8],
  ])('flat cell: %f lx, ISO %f, %f s gives f/%f', (lux, iso, shutterS, fNumber) => {
    const { flat } = readAt(lux, iso, shutterS);
    expect(flat.lux / lux).toBeCloseTo(1, 2);
    expect(Math.abs(2 * Math.log2(flat.fNumber / fNumber))).toBeLessThan(0.01);
  });

  it('dome: 5000 lx, ISO 800, 1/125 s gives f/9.70', () => {
    expect(readAt(5000, 800, 1 / 125).dome.fNumber).toBeCloseTo(9.701425, 1);
  });

  it('dome: 27 417 lx at ISO 100 and 1/50 s gives f/13, exactly 12.699', () => {
    // 2^(22/6) = 12.6992; E = 340 x 12.6992^2 / (100 / 50) = 27 415.8 lx.
    const fNumber = 2 ** (22 / 6);
    const { dome } = readAt((340 * fNumber ** 2) / 2, 100, 1 / 50);
    expect(dome.fNumber).toBeCloseTo(12.6992, 1);
    expect(dome.marked).toBe('f/13');
  });

  it.each([
    [2.5, 0],
    [250, 6.64386],
    [320, 7],
    [1000, 8.64386],
    [10000, 11.96578],
    [81920, 15],
  ])('flat cell: %f lx is EV %f at ISO 100', (lux, ev100) => {
    // EV100 = log2(100 E / 250).
    expect(readAt(lux, 100, 1 / 50).flat.ev100).toBeCloseTo(ev100, 2);
  });
});
