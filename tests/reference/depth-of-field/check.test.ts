import { describe, expect, it } from 'vitest';
import { checkFrame } from '../../../src/analysis/index.ts';
import { block, camera, panel, scene } from '../../analysis/helpers/scenes.ts';

/*
 * Near and far limits: H = f^2/(N c) + f, near = s(H - f)/(H + s - 2f), far = s(H - f)/(H - s); with magnification and pupil
 * ratio after J. Conrad, Depth of Field in Depth (2006). The figures are computed from these, in millimetres.
 */
interface Figures {
  readonly nearM: number;
  readonly farM: number;
  readonly totalM: number;
  readonly effectiveFNumber: number;
  readonly diffractionMm: number;
  readonly circleOfConfusionMm: number;
  readonly records: readonly { id: string; focus: string; nearBlurCircles: number; farBlurCircles: number }[];
}
const DIAGONAL_MM = Math.hypot(36, 24);
const figuresAt = (fMm: number, fNumber: number, cMm: number, sMm: number, pupilRatio = 1): Figures =>
  checkFrame(
    scene({
      pieces: [block()],
      fixtures: [panel()],
      camera: camera({
        positionM: [0, 0.06, sMm / 1000],
        aimM: [0, 0.06, 0],
        focalLengthMm: fMm,
        apertureFNumber: fNumber,
        focusDistanceM: sMm / 1000,
        pupilRatio,
      }),
    }),
    { checks: ['depthOfField'], limits: { circleOfConfusionDivisor: DIAGONAL_MM / cMm } },
  ).figures.depthOfField as Figures;

describe('depth of field through the check', () => {
  it.each([
    [50, 8, 0.03, 1000, 916.4223, 1100.3521, 183.9298],
    [100, 11, 0.025, 600, 591.8619, 608.365, 16.50312],
    [35, 2.8, 0.025, 1500, 1384.1287, 1637.044, 252.9153],
    [85, 4, 0.03, 800, 790.6112, 809.6145, 19.00337],
  ])('%f mm at f/%f, c %f, focused at %f mm: sharp from %f to %f mm', (f, n, c, s, near, far, total) => {
    const figures = figuresAt(f, n, c, s);
    expect(figures.nearM * 1000).toBeCloseTo(near, 3);
    expect(figures.farM * 1000).toBeCloseTo(far, 3);
    expect(figures.totalM * 1000).toBeCloseTo(total, 3);
    expect(figures.circleOfConfusionMm).toBeCloseTo(c, 9);
  });

  it('100 mm at half life size, f/8: 298.56688 to 301.44695 mm, and the effective stop is f/12', () => {
    const figures = figuresAt(100, 8, 0.03, 300);
    expect(figures.nearM * 1000).toBeCloseTo(298.56688, 3);
    expect(figures.farM * 1000).toBeCloseTo(301.44695, 3);
    expect(figures.effectiveFNumber).toBeCloseTo(12, 9);
  });

  it('f/16 at life size with a pupil ratio of .5 sharpens 2.880066 mm', () => {
    expect(figuresAt(100, 16, 0.03, 200, 0.5).totalM * 1000).toBeCloseTo(2.880066, 4);
  });

  it.each([
    [8, 10.736],
    [16, 21.472],
    [22, 29.524],
  ])('draws a point %f um wide by diffraction at f/%f (2.44 lambda N, .55 um; Born and Wolf 8.5)', (n, um) => {
    // Focused so far off that magnification adds nothing to the stop.
    expect(figuresAt(50, n, 0.03, 90000).diffractionMm * 1000).toBeCloseTo(um, 1);
  });

  it('says 1 circle of blur just at the limits', () => {
    // A block 5 cm deep with its faces at the near and the far limit of 916.4223 and 1100.3521 mm would be 18 cm: here the
    // lens is moved so that its front face lies at the near limit, its back inside.
    const of = scene({
      pieces: [block()],
      fixtures: [panel()],
      camera: camera({
        positionM: [0, 0.06, 0.025 + 0.9164223],
        aimM: [0, 0.06, 0],
        focalLengthMm: 50,
        apertureFNumber: 8,
        focusDistanceM: 1,
      }),
    });
    const { records } = checkFrame(of, {
      checks: ['depthOfField'],
      limits: { circleOfConfusionDivisor: DIAGONAL_MM / 0.03 },
    }).figures.depthOfField as Figures;
    expect(records[0].nearBlurCircles).toBeCloseTo(1, 4);
    expect(records[0].farBlurCircles).toBeLessThan(1);
  });
});
