import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcAbout,
  directionAlong,
  distanceToPieceM,
  joinPieces,
  lineBetween,
  offsetPiece,
  offsetProfile,
  type ProfilePiece,
  pieceLengthM,
  pointAlong,
  profilePoint,
  radiiAtHeightM,
  radiusAtHeightM,
  reversePiece,
  revolvedVolumeM3,
  roundCorner,
  splitPieceAtHeight,
  splitProfileAtHeight,
  tangentDirectionLeavingCircleOnLeft,
} from '../../src/scene/profile/index.ts';

const coordinate = fc.double({ min: 0.01, max: 0.2, noNaN: true });
const anyPoint = fc.tuple(coordinate, coordinate).map(([r, y]) => profilePoint(r, y));
const anyLine = fc
  .tuple(anyPoint, anyPoint)
  .filter(([a, b]) => Math.hypot(a.rM - b.rM, a.yM - b.yM) > 1e-3)
  .map(([a, b]): ProfilePiece => lineBetween(a, b));
const anyArc = fc
  .record({
    r: fc.double({ min: 0.1, max: 0.2, noNaN: true }),
    y: coordinate,
    radius: fc.double({ min: 0.005, max: 0.09, noNaN: true }),
    start: fc.double({ min: -3, max: 3, noNaN: true }),
    span: fc.double({ min: 0.05, max: 6, noNaN: true }),
    back: fc.boolean(),
  })
  .map(
    ({ r, y, radius, start, span, back }): ProfilePiece =>
      arcAbout(profilePoint(r, y), radius, start, back ? start - span : start + span),
  );
const anyPiece = fc.oneof(anyLine, anyArc);

describe('splitting a profile at a height', () => {
  it('keeps the length and lets the parts share ends at exactly that height', () => {
    fc.assert(
      fc.property(anyPiece, coordinate, (piece, yM) => {
        const parts = splitPieceAtHeight(piece, yM);
        const total = parts.reduce((sum, p) => sum + pieceLengthM(p), 0);
        expect(total).toBeCloseTo(pieceLengthM(piece), 12);
        for (let i = 0; i + 1 < parts.length; i++) {
          expect(parts[i].to).toBe(parts[i + 1].from);
          expect(parts[i].to.yM).toBe(yM);
          expect(distanceToPieceM(piece, parts[i].to)).toBeLessThan(1e-12);
        }
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  it('puts every part wholly on its own side', () => {
    fc.assert(
      fc.property(anyPiece, coordinate, (piece, yM) => {
        const { below, above } = splitProfileAtHeight([{ piece }], yM);
        for (const t of [0, 0.1, 0.37, 0.5, 0.81, 1]) {
          for (const p of below) expect(pointAlong(p.piece, t).yM).toBeLessThan(yM + 1e-12);
          for (const p of above) expect(pointAlong(p.piece, t).yM).toBeGreaterThan(yM - 1e-12);
        }
      }),
      { seed: 12, numRuns: 400 },
    );
  });

  it('keeps the volume of revolution: the parts sum to the whole', () => {
    fc.assert(
      fc.property(anyPiece, coordinate, (piece, yM) => {
        expect(revolvedVolumeM3(splitPieceAtHeight(piece, yM))).toBeCloseTo(revolvedVolumeM3([piece]), 14);
      }),
      { seed: 13, numRuns: 200 },
    );
  });
});

describe('radius at a height', () => {
  it('finds points that lie on the piece, and none above or below it', () => {
    fc.assert(
      fc.property(anyPiece, coordinate, (piece, yM) => {
        const radii = radiiAtHeightM([piece], yM);
        for (const rM of radii) expect(distanceToPieceM(piece, profilePoint(rM, yM))).toBeLessThan(1e-9);
        const heights = Array.from({ length: 200 }, (_, i) => pointAlong(piece, i / 199).yM);
        const crosses = heights.some((h, i) => i > 0 && (h - yM) * (heights[i - 1] - yM) < 0);
        if (crosses) expect(radii.length).toBeGreaterThan(0);
      }),
      { seed: 14, numRuns: 400 },
    );
  });

  it('gives 30 mm half way up a cone from 20 to 40 mm, and nothing over its top', () => {
    const cone = lineBetween(profilePoint(0.02, 0), profilePoint(0.04, 0.1));
    expect(radiusAtHeightM([cone], 0.05)).toBeCloseTo(0.03, 15);
    expect(radiusAtHeightM([cone], 0.11)).toBeUndefined();
  });
});

describe('offsetting', () => {
  it('moves each point of a piece by the distance to the left of the walk, and back again', () => {
    fc.assert(
      fc.property(anyPiece, fc.double({ min: -0.004, max: 0.004, noNaN: true }), (piece, distanceM) => {
        const moved = offsetPiece(piece, distanceM);
        if (!moved) throw new Error('radius is over 5 mm, the offset under 4 mm');
        for (const t of [0, 0.25, 0.5, 1]) {
          const p = pointAlong(piece, t);
          const q = pointAlong(moved, t);
          const u = directionAlong(piece, t);
          // Left of (r, y) is (-y, r).
          expect(q.rM - p.rM).toBeCloseTo(-u.yM * distanceM, 12);
          expect(q.yM - p.yM).toBeCloseTo(u.rM * distanceM, 12);
        }
        const back = offsetPiece(moved, -distanceM);
        expect(back?.from.rM).toBeCloseTo(piece.from.rM, 12);
        expect(back?.to.yM).toBeCloseTo(piece.to.yM, 12);
      }),
      { seed: 15, numRuns: 300 },
    );
  });

  it('carries two lines to their new corner: a 50 x 100 mm box shrinks to 48 x 98 mm for 2 mm', () => {
    const box = [
      lineBetween(profilePoint(0, 0), profilePoint(0.05, 0)),
      lineBetween(profilePoint(0.05, 0), profilePoint(0.05, 0.1)),
      lineBetween(profilePoint(0.05, 0.1), profilePoint(0, 0.1)),
    ];
    const inner = offsetProfile(box, 0.002);
    if (!inner.ok) throw new Error(inner.error);
    expect(inner.value[0].to.rM).toBeCloseTo(0.048, 15);
    expect(inner.value[0].to.yM).toBeCloseTo(0.002, 15);
    expect(inner.value[1].to.yM).toBeCloseTo(0.098, 15);
    expect(inner.value[0].to).toBe(inner.value[1].from);
  });

  it('fails with a reason when a 1 mm rounding is asked to move in by 2 mm', () => {
    const arc = arcAbout(profilePoint(0.02, 0.02), 0.001, -Math.PI / 2, 0);
    const result = offsetProfile([arc], 0.002);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.error).toContain('radius');
  });
});

describe('volume of revolution', () => {
  // Archimedes: ball 4/3 pi R^3; cone a third of its cylinder. Pappus: torus 2 pi^2 c R^2.
  it('gives the ball, the cone and the torus', () => {
    const ball = [arcAbout(profilePoint(0, 0), 0.03, -Math.PI / 2, Math.PI / 2)];
    expect(revolvedVolumeM3(ball)).toBeCloseTo((4 / 3) * Math.PI * 0.03 ** 3, 15);
    const cone = [lineBetween(profilePoint(0.03, 0), profilePoint(0, 0.09))];
    expect(revolvedVolumeM3(cone)).toBeCloseTo((Math.PI * 0.03 ** 2 * 0.09) / 3, 15);
    const torus = [arcAbout(profilePoint(0.05, 0.2), 0.01, 0, 2 * Math.PI)];
    expect(revolvedVolumeM3(torus)).toBeCloseTo(2 * Math.PI ** 2 * 0.05 * 0.01 ** 2, 15);
  });

  it('changes sign when walked the other way, and agrees with a sum of 20 000 discs', () => {
    fc.assert(
      fc.property(anyPiece, (piece) => {
        expect(revolvedVolumeM3([reversePiece(piece)])).toBeCloseTo(-revolvedVolumeM3([piece]), 15);
        const n = 20000;
        let sum = 0;
        for (let i = 0; i < n; i++) {
          const a = pointAlong(piece, i / n);
          const b = pointAlong(piece, (i + 1) / n);
          sum += Math.PI * ((a.rM + b.rM) / 2) ** 2 * (b.yM - a.yM);
        }
        expect(revolvedVolumeM3([piece])).toBeCloseTo(sum, 9);
      }),
      { seed: 16, numRuns: 40 },
    );
  });
});

describe('tangent joins', () => {
  it('rounds any corner so that the walk has no kink', () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, (a, corner, b) => {
        const u = directionAlong(lineBetween(a, corner), 0);
        const v = directionAlong(lineBetween(corner, b), 0);
        const turn = Math.atan2(u.rM * v.yM - u.yM * v.rM, u.rM * v.rM + u.yM * v.yM);
        fc.pre(Math.abs(turn) > 0.05 && Math.abs(turn) < 3);
        const leg = Math.min(pieceLengthM(lineBetween(a, corner)), pieceLengthM(lineBetween(corner, b)));
        fc.pre(leg > 1e-3);
        const arc = roundCorner(a, corner, b, (leg * 0.9) / Math.tan(Math.abs(turn) / 2));
        const start = directionAlong(arc, 0);
        const end = directionAlong(arc, 1);
        expect(start.rM).toBeCloseTo(u.rM, 9);
        expect(start.yM).toBeCloseTo(u.yM, 9);
        expect(end.rM).toBeCloseTo(v.rM, 9);
        expect(end.yM).toBeCloseTo(v.yM, 9);
        expect(distanceToPieceM(lineBetween(a, corner), arc.from)).toBeLessThan(1e-9);
        expect(distanceToPieceM(lineBetween(corner, b), arc.to)).toBeLessThan(1e-9);
        expect(joinPieces([lineBetween(a, arc.from), arc, lineBetween(arc.to, b)])).toHaveLength(3);
      }),
      { seed: 17, numRuns: 300 },
    );
  });

  it('leaves a circle of 1 on the left when walking from (0, 0) past a centre at (0, 2): 60 degrees from level', () => {
    const u = tangentDirectionLeavingCircleOnLeft(profilePoint(0, 0), profilePoint(0, 2), 1);
    // sin(half angle) = 1/2: 30 degrees off the upright, to the right.
    expect(u.rM).toBeCloseTo(0.5, 12);
    expect(u.yM).toBeCloseTo(Math.sqrt(3) / 2, 12);
  });
});
