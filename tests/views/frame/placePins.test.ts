import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/contracts.ts';
import { placePins } from '../../../src/views/frame/placePins.ts';

const at = (id: string, u: number, v: number, size = 0.1): Finding => ({
  id,
  check: 'reflections',
  grade: 'stop',
  subject: 'light',
  value: 1,
  unit: 'stops',
  limit: 1,
  summary: id,
  where: { frame: { u, v, widthU: size, heightV: size } },
  remedies: [],
});
const W = 960;
const H = 540;

describe('marks in the frame', () => {
  it('stands off to the upper right of what it means and points at its middle', () => {
    const [pin] = placePins([{ finding: at('a', 0.5, 0.5), number: 1 }], W, H);
    expect([pin.anchorXPx, pin.anchorYPx]).toEqual([480, 270]);
    expect(pin.xPx).toBeGreaterThan(0.55 * W);
    expect(pin.yPx).toBeLessThan(0.45 * H);
  });

  it('ends its leader at the corner of an outline, not across it', () => {
    const outlined = at('a', 0.5, 0.5);
    const finding: Finding = {
      ...outlined,
      where: {
        ...outlined.where,
        outlineUv: [
          [0.45, 0.45],
          [0.55, 0.45],
          [0.5, 0.55],
        ],
      },
    };
    const [pin] = placePins([{ finding, number: 1 }], W, H);
    expect(pin.anchorXPx).toBeCloseTo(0.55 * W, 9);
    expect(pin.anchorYPx).toBeCloseTo(0.45 * H, 9);
  });

  it('keeps every mark inside the picture, also at the corners', () => {
    const corners = [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ] as const;
    const pins = placePins(
      corners.map(([u, v], i) => ({ finding: at(String(i), u, v), number: i + 1 })),
      W,
      H,
    );
    for (const { xPx, yPx } of pins) {
      expect(xPx).toBeGreaterThan(0);
      expect(xPx).toBeLessThan(W);
      expect(yPx).toBeGreaterThan(0);
      expect(yPx).toBeLessThan(H);
    }
  });

  it('moves six marks for one place clear of one another', () => {
    const pins = placePins(
      Array.from({ length: 6 }, (_, i) => ({ finding: at(String(i), 0.5, 0.5), number: i + 1 })),
      W,
      H,
    );
    for (let i = 0; i < pins.length; i++) {
      for (let j = 0; j < i; j++) {
        expect(Math.hypot(pins[i].xPx - pins[j].xPx, pins[i].yPx - pins[j].yPx)).toBeGreaterThanOrEqual(22);
      }
    }
  });

  it('marks what lies above the frame on the top edge, pointing up', () => {
    const [pin] = placePins([{ finding: at('a', 0.5, -0.6), number: 1 }], W, H);
    expect(pin.xPx).toBeCloseTo(480, 6);
    expect(pin.yPx).toBeCloseTo(16, 6);
    expect(pin.outward?.[0]).toBeCloseTo(0, 6);
    expect(pin.outward?.[1]).toBeCloseTo(-1, 6);
  });

  it('puts a note, which has no number, right where it is', () => {
    const [pin] = placePins([{ finding: at('a', 0.25, 0.75), number: null }], W, H);
    expect([pin.xPx, pin.yPx]).toEqual([240, 405]);
  });
});
