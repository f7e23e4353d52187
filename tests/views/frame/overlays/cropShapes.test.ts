import { describe, expect, it } from 'vitest';
import { CROP_NAMES } from '../../../../src/document/frameRecords.ts';
import {
  cropAspect,
  cropRect,
  insetRect,
  keptShare,
  SAFE_AREA_SHARES,
  WHOLE_FRAME,
} from '../../../../src/views/frame/overlays/cropShapes.ts';

describe('a crop', () => {
  // A 4:5 of a 16:9 of the same height is (4/5) / (16/9) = 0.45 of its width.
  it('of 4:5 keeps 45 % of a 16:9 frame, of 9:16 (9/16)^2 = 31.6 %, of 2.39:1 (16/9)/2.39 = 74.4 %', () => {
    const kept = (name: '4:5' | '9:16' | '2.39:1') => keptShare(cropRect(16 / 9, cropAspect(name)));
    expect(kept('4:5')).toBeCloseTo(0.45, 9);
    expect(kept('9:16')).toBeCloseTo((9 / 16) ** 2, 9);
    expect(kept('2.39:1')).toBeCloseTo(16 / 9 / 2.39, 9);
  });

  it('is centred, inside the frame, and of its shape, whatever the frame', () => {
    for (const frameAspect of [0.5, 1, 1.5, 16 / 9, 3]) {
      for (const name of CROP_NAMES) {
        const rect = cropRect(frameAspect, cropAspect(name));
        expect(rect.left * 2 + rect.width).toBeCloseTo(1, 12);
        expect(rect.top * 2 + rect.height).toBeCloseTo(1, 12);
        expect((rect.width / rect.height) * frameAspect).toBeCloseTo(cropAspect(name), 9);
        expect(Math.max(rect.width, rect.height)).toBeCloseTo(1, 12);
      }
    }
  });

  // SMPTE ST 2046-1:2009: 93 % and 90 % of width and height, that is 3.5 % and 5 % in from each edge (from memory).
  it('has its safe areas 3.5 % and 5 % in from each edge', () => {
    expect(insetRect(WHOLE_FRAME, SAFE_AREA_SHARES.action).left).toBeCloseTo(0.035, 12);
    expect(insetRect(WHOLE_FRAME, SAFE_AREA_SHARES.title).top).toBeCloseTo(0.05, 12);
  });
});
