import { describe, expect, it } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import { describeCloseUpLoss, describeMeteredStop, describeSharpDepth } from '../../../src/views/frame/meteredStop.ts';

const camera = emptySetup().frames[0].camera;

describe('the words under the picture', () => {
  it('names the marked stop that the dome reads', () => {
    expect(describeMeteredStop({ exposure: { incidentDome: { fNumber: 8.98 } } })).toBe('Meter says f/9');
  });

  it('says so when no light reaches the meter, and nothing before the checks have spoken', () => {
    expect(describeMeteredStop({ exposure: { incidentDome: { fNumber: 0 } } })).toBe('No light at the meter');
    expect(describeMeteredStop({})).toBe('');
  });

  it('says what f/8 comes to at life size: N(1 + m) = f/16, and nothing for a far subject', () => {
    // Life size, m = 1, at s = 2f: 200 mm for a 100 mm lens. J. Conrad, "Depth of Field in Depth" (2006).
    const close = { ...camera, focalLengthMm: 100, focusDistanceM: 0.2, apertureFNumber: 8 };
    expect(describeCloseUpLoss(close)).toBe('f/8 works as f/16 this close');
    expect(describeCloseUpLoss({ ...close, focusDistanceM: 20 })).toBe('');
  });

  it('gives the near and far limits of an 85 mm lens at f/8 focused at 2 m as 1.89 and 2.12 m', () => {
    // c = 41.30 mm / 1500 = 0.02754 mm for 36 x 20.25 mm; H = 85^2 / (8 x 0.02754) + 85 mm = 32.88 m;
    // near = s(H - f)/(H + s - 2f) = 1.890 m, far = s(H - f)/(H - s) = 2.124 m.
    expect(describeSharpDepth({ ...camera, focalLengthMm: 85, focusDistanceM: 2, apertureFNumber: 8 })).toBe(
      'sharp 1.89 to 2.12 m',
    );
  });

  it('says nothing of depth when the lens is focused inside its focal length', () => {
    expect(describeSharpDepth({ ...camera, focusDistanceM: 0.05 })).toBe('');
  });
});
