import { describe, expect, it } from 'vitest';
import { cameraDiagnostics } from '../../src/camera/cameraDiagnostics.ts';
import type { Camera } from '../../src/camera/records.ts';
import { sampleCamera } from './sampleCamera.ts';

const codes = (changes: Partial<Camera>): string[] => cameraDiagnostics(sampleCamera(changes)).map((d) => d.code);

describe('cameraDiagnostics', () => {
  it('finds nothing doubtful about a 50 mm lens at f/8 and 1.5 m', () => {
    expect(cameraDiagnostics(sampleCamera())).toEqual([]);
  });
  it('refuses a focus at or inside the focal length and names field and mend', () => {
    const [found] = cameraDiagnostics(sampleCamera({ focalLengthMm: 100, focusDistanceM: 0.1 }));
    expect(found).toMatchObject({
      severity: 'error',
      code: 'focus-inside-focal-length',
      field: 'camera.focusDistanceM',
      value: 0.1,
    });
    expect(found?.message).toContain('focus further away');
  });
  it.each<[string, Partial<Camera>]>([
    // 100 mm at .11 m is 10 times life size; N_eff 88 also diffracts.
    ['magnification-high', { focalLengthMm: 100, focusDistanceM: 0.11, apertureFNumber: 2.8 }],
    ['stop-very-wide', { apertureFNumber: 0.7, frontElementDiameterM: 0.1 }],
    // 100/1.4 = 71.4 mm against 62 mm.
    ['pupil-larger-than-front-element', { focalLengthMm: 100, apertureFNumber: 1.4 }],
    // 2.44 x .55 x 22 = 29.5 um against 28.8 um.
    ['diffraction-soft', { apertureFNumber: 22 }],
    ['aim-at-camera', { aimM: [0, 0.3, 1.5] }],
    // Diagonal 43.3 mm behind 12 mm: 122 degrees.
    ['view-very-wide', { focalLengthMm: 12 }],
  ])('warns of %s', (code, changes) => {
    expect(codes(changes)).toContain(code);
  });
  it('warns when flags of the matte box reach into the frame, and not before', () => {
    // 50 mm at 1.5 m: half width over distance .348; box of 100 mm inner width: 50/(.348) = 143.7 mm.
    const box = { innerWidthM: 0.1, innerHeightM: 0.1, depthM: 0.1, topFlagM: 0, sideFlagsM: 0.04 };
    expect(codes({ matteBox: box })).toEqual([]);
    expect(codes({ matteBox: { ...box, sideFlagsM: 0.05 } })).toEqual(['matte-box-in-frame']);
  });
});
