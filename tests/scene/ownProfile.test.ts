import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { piecesOf } from '../../src/scene/glassware/glassBody.ts';
import { profileFromSvgPath } from '../../src/scene/glassware/importProfile.ts';
import { defaultGlassProfile } from '../../src/scene/pieceDefaults.ts';
import { fitBiarcs } from '../../src/scene/profile/biarc.ts';
import { arcFromBulge, pointAlong, revolvedVolumeM3 } from '../../src/scene/profile/index.ts';
import { readSvgPath } from '../../src/scene/profile/svgPath.ts';
import { type DrawnPoint, type GlassProfile, glassProfileSchema } from '../../src/scene/records.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const own = (points: DrawnPoint[], heightM = 0.1): GlassProfile => ({ shape: 'ownProfile', heightM, points });
const faultOf = (profile: GlassProfile): string => {
  const result = buildGlassBody('glass', profile);
  if (result.ok) return '';
  expect(result.error[0].field).toBe('profile.points');
  expect(result.error[0].severity).toBe('error');
  return result.error[0].code;
};
const BEAKER: DrawnPoint[] = [
  { r: 0, y: 0 },
  { r: 30, y: 0 },
  { r: 30, y: 100 },
  { r: 27, y: 100 },
  { r: 27, y: 8 },
  { r: 0, y: 8 },
];

describe('a profile of your own', () => {
  it('is scaled to its height: a beaker drawn in any unit has the volume of its cylinders', () => {
    for (const unit of [1, 0.001, 25.4]) {
      const body = buildGlassBody('glass', own(BEAKER.map(({ r, y }) => ({ r: r * unit, y: y * unit + 7 }))));
      if (!body.ok) throw new Error(body.error[0].message);
      const exact = Math.PI * (0.03 ** 2 * 0.1 - 0.027 ** 2 * 0.092);
      expect(revolvedVolumeM3(piecesOf([...body.value.outside, ...body.value.inside]))).toBeCloseTo(exact, 12);
      expect(body.value.floorYM).toBeCloseTo(0.008, 12);
      expect(body.value.rimYM).toBe(0.1);
    }
  });

  it('rounds corners and bends sides: a quarter-round corner takes (1 - pi/4) R^2 from the section', () => {
    const round = BEAKER.map((p, i) => (i === 1 ? { ...p, round: 6 } : p));
    const body = buildGlassBody('glass', own(round));
    if (!body.ok) throw new Error(body.error[0].message);
    // Pappus: the lost corner's area times the way of its centroid, R (1 - 2 / (3 (4 - pi))) in from the corner.
    const lostArea = (1 - Math.PI / 4) * 0.006 ** 2;
    const centroid = 0.03 - 0.006 * (1 - 2 / (3 * (4 - Math.PI)));
    const exact = Math.PI * (0.03 ** 2 * 0.1 - 0.027 ** 2 * 0.092) - 2 * Math.PI * centroid * lostArea;
    expect(revolvedVolumeM3(piecesOf([...body.value.outside, ...body.value.inside]))).toBeCloseTo(exact, 12);
  });

  it.each<readonly [string, DrawnPoint[], string]>([
    ['off the axis at its end', BEAKER.map((p, i) => (i === 5 ? { r: 3, y: 8 } : p)), 'profile-not-drawable'],
    ['two points in one place', [...BEAKER.slice(0, 3), BEAKER[2], ...BEAKER.slice(3)], 'profile-not-drawable'],
    [
      'a rounding longer than its side',
      BEAKER.map((p, i) => (i === 3 ? { ...p, round: 40 } : p)),
      'profile-not-drawable',
    ],
    ['a side through another', BEAKER.map((p, i) => (i === 3 ? { r: 45, y: 60 } : p)), 'profile-crosses-itself'],
    [
      'a loop',
      [...BEAKER.slice(0, 2), { r: 20, y: 50 }, { r: 29, y: 20 }, ...BEAKER.slice(2)],
      'profile-crosses-itself',
    ],
    ['touching the axis', [{ r: 0, y: 0 }, { r: 9, y: 0 }, { r: 0, y: 20 }, ...BEAKER.slice(2)], 'profile-on-axis'],
    ['drawn inside first', [...BEAKER].reverse(), 'profile-runs-backward'],
    ['a rim like a knife', [...BEAKER.slice(0, 2), { r: 29, y: 100 }, ...BEAKER.slice(4)], 'rim-without-width'],
    ['a floor that rises to the axis', [...BEAKER.slice(0, 5), { r: 0, y: 30 }], 'inside-rises'],
    ['a wall of 0.1 mm', BEAKER.map((p, i) => (i === 3 || i === 4 ? { ...p, r: 29.9 } : p)), 'glass-too-thin'],
    [
      'nothing',
      [
        { r: 0, y: 0 },
        { r: 0, y: 0 },
        { r: 0, y: 0 },
        { r: 0, y: 0 },
      ],
      'profile-not-drawable',
    ],
  ])('%s is refused with a word that names the points', (_, points, code) => {
    expect(faultOf(own(points))).toBe(code);
    const set = buildSet(sceneOf([glassOf(own(points))]));
    expect(set.surfaces).toEqual([]);
    expect(set.diagnostics.some((d) => d.recordId === 'glass')).toBe(true);
  });

  it('never throws, whatever is drawn: 400 seeded tangles', () => {
    const point = fc.record({
      r: fc.double({ min: 0, max: 50, noNaN: true }),
      y: fc.double({ min: -20, max: 100, noNaN: true }),
      round: fc.option(fc.double({ min: 0, max: 20, noNaN: true }), { nil: undefined }),
      bulge: fc.option(fc.double({ min: -3, max: 3, noNaN: true }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 4, maxLength: 12 }), fc.boolean(), (points, ends) => {
        const drawn = ends ? points.map((p, i) => (i === 0 || i === points.length - 1 ? { ...p, r: 0 } : p)) : points;
        const parsed = glassProfileSchema.safeParse(own(drawn));
        if (!parsed.success) return;
        const result = buildGlassBody('glass', parsed.data);
        if (!result.ok) expect(result.error.length).toBeGreaterThan(0);
      }),
      { seed: 5, numRuns: 400 },
    );
  });

  it('knows up to where its inside is convex: past a waist ice would be judged wrongly', () => {
    const body = buildGlassBody('glass', defaultGlassProfile('ownProfile'));
    if (!body.ok) throw new Error('the default is sound');
    expect(body.value.convexUpToYM).toBeLessThan(0.06);
    expect(body.value.convexUpToYM).toBeGreaterThan(0.04);
  });
});

describe('an arc by its bulge', () => {
  it.each([1, 0.5, -0.3, -1.8, 0.01])('%f: its sagitta is half the chord times the bulge', (bulge) => {
    const arc = arcFromBulge({ rM: 1, yM: 0 }, { rM: 3, yM: 0 }, bulge);
    // A left turn bulges to the right of the chord: down here.
    expect(pointAlong(arc, 0.5).yM).toBeCloseTo(-bulge, 9);
    expect(pointAlong(arc, 0.5).rM).toBeCloseTo(2, 9);
  });
});

describe('arcs fitted to a curve', () => {
  it('stay within the tolerance of a quarter ellipse of 40 x 25, and never kink', () => {
    const at = (t: number) => {
      const a = (t * Math.PI) / 2;
      return { x: 40 * Math.cos(a), y: 25 * Math.sin(a), dx: -40 * Math.sin(a), dy: 25 * Math.cos(a) };
    };
    const arcs = [...fitBiarcs(at, 0.01), { x: 0, y: 25, bulge: 0 }];
    expect(arcs.length).toBeLessThan(20);
    let before: number | undefined;
    for (let i = 0; i + 1 < arcs.length; i++) {
      const arc = arcFromBulge(
        { rM: arcs[i].x, yM: arcs[i].y },
        { rM: arcs[i + 1].x, yM: arcs[i + 1].y },
        arcs[i].bulge,
      );
      if (arc.type !== 'arc') throw new Error('an arc');
      for (let k = 0; k <= 8; k++) {
        const p = pointAlong(arc, k / 8);
        // First-order distance to the ellipse F = 0: F over its gradient.
        const f = (p.rM / 40) ** 2 + (p.yM / 25) ** 2 - 1;
        expect(Math.abs(f) / (2 * Math.hypot(p.rM / 1600, p.yM / 625))).toBeLessThan(0.012);
      }
      const side = arc.angle1Rad > arc.angle0Rad ? 1 : -1;
      const start = arc.angle0Rad + (side * Math.PI) / 2;
      if (before !== undefined) expect(Math.cos(start - before)).toBeGreaterThan(1 - 1e-9);
      before = arc.angle1Rad + (side * Math.PI) / 2;
    }
  });
});

describe('an SVG path', () => {
  const beaker = 'M0,100 H30 V0 H27 V92 H0 Z';

  it('of a half section becomes the same beaker, at its scale, from any start, either way round, absolute or relative', () => {
    const exact = Math.PI * (0.03 ** 2 * 0.1 - 0.027 ** 2 * 0.092);
    const paths = [
      beaker,
      'M 30 100 L 30 0 L 27 0 L 27 92 L 0 92 L 0 100 Z',
      'M0 92 L27 92 27 0 30 0 30 100 0 100',
      'm0,100 h30 v-100 h-3 v92 h-27 z',
      'M0,1e2H30V0H27V92H0Z',
    ];
    for (const path of paths) {
      const profile = profileFromSvgPath(path, { mmPerUnit: 1 });
      if (!profile.ok) throw new Error(profile.error);
      expect(profile.value.heightM).toBeCloseTo(0.1, 12);
      const body = buildGlassBody('glass', profile.value);
      if (!body.ok) throw new Error(body.error[0].message);
      expect(revolvedVolumeM3(piecesOf([...body.value.outside, ...body.value.inside]))).toBeCloseTo(exact, 12);
    }
  });

  it('keeps circles exact and follows curves: a bowl of half a ball drawn with A, C and Q', () => {
    // Inside a quarter circle of 40 about (0, 0) hanging down to (0, 40); outside a straight wall on a flat base.
    const k = 0.5522847498 * 40;
    const bowls = {
      arc: 'M0 50 H46 V0 H40 A40 40 0 0 1 0 40 Z',
      cubic: `M0 50 H46 V0 H40 C40 ${k} ${k} 40 0 40 Z`,
    };
    const exact = Math.PI * 0.046 ** 2 * 0.05 - (2 / 3) * Math.PI * 0.04 ** 3;
    const volume = (path: string): number => {
      const profile = profileFromSvgPath(path, { mmPerUnit: 1 });
      if (!profile.ok) throw new Error(profile.error);
      const body = buildGlassBody('glass', profile.value);
      if (!body.ok) throw new Error(body.error[0].message);
      return revolvedVolumeM3(piecesOf([...body.value.outside, ...body.value.inside]));
    };
    expect(volume(bowls.arc)).toBeCloseTo(exact, 12);
    // A cubic strays 2.7e-4 of the radius from the circle: a part in a thousand of the volume.
    expect(volume(bowls.cubic) / exact).toBeCloseTo(1, 2);
    // A parabola from (40, 0) to (0, 40) by Q with its control point in the corner (40, 40): under the circle.
    expect(volume('M0 50 H46 V0 H40 Q40 40 0 40 Z')).toBeLessThan(exact);
  });

  it.each([
    ['', 'empty'],
    ['L 1 2', 'begin with M'],
    ['M 0 0 L 10', 'needs 2 numbers'],
    ['M 0 0 T 10 10', 'is not read'],
    ['M 0 0 L 10 10 M 5 5 L 6 6', 'a second part'],
    ['M 0 0 L 1e9 0', 'too large'],
    ['M 0 0 L NaN 0', 'number 1 is missing'],
    ['5 5', 'belongs to no command'],
    ['M0 0 L10 0 10 10Z', 'a side along the axis'],
    ['M0 0 L10 0 0 10Z', 'at least three sides'],
    ['M5 0 L10 0 10 10 0 12', 'begin and end on the axis'],
    ['M 0 0 A 5 5 0 2 0 10 10', 'needs 7 numbers'],
  ])('"%s" is refused: %s', (path, words) => {
    const result = profileFromSvgPath(path, { mmPerUnit: 1 });
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.error).toContain(words);
  });

  it('of 60 000 letters or 5000 sides is refused, and no text makes it throw', () => {
    expect(readSvgPath('M0 0'.padEnd(60_000, ' ')).ok).toBe(false);
    expect(readSvgPath(`M0 0${'L1 1 0 0'.repeat(3000)}`).ok).toBe(false);
    const text = fc.string({ unit: fc.constantFrom(...'MLHVCQAZmlhvcqaz0123456789.,-+e \n'), maxLength: 200 });
    fc.assert(
      fc.property(text, fc.double({ min: 0.001, max: 1000, noNaN: true }), (path, mmPerUnit) => {
        const result = profileFromSvgPath(`M${path}`, { mmPerUnit });
        if (result.ok) buildGlassBody('glass', result.value);
      }),
      { seed: 3, numRuns: 600 },
    );
  });

  it('needs a scale', () => {
    expect(profileFromSvgPath(beaker, { mmPerUnit: 0 }).ok).toBe(false);
    expect(profileFromSvgPath(beaker, { mmPerUnit: Number.NaN }).ok).toBe(false);
  });
});
