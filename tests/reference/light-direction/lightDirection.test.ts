import { describe, expect, it } from 'vitest';
import { checkFrame, createCheckInput, createFrameStudy } from '../../../src/analysis/index.ts';
import { lightAt } from '../../../src/analysis/light/lightVector.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { block, fixture, matteSheet, panel, piece, scene } from '../../analysis/helpers/scenes.ts';

const studyOf = (...fixtures: Parameters<typeof fixture>[0][]) =>
  createFrameStudy(
    createCheckInput(
      scene({
        pieces: [],
        fixtures: fixtures.map((record) => fixture(record)),
        subject: { pieceId: 'gone', meterPointM: [0, 0, 0] },
      }),
    ),
  );
const bulb = (id: string, positionM: Vec3, lumens: number) => ({
  kind: 'bulb',
  id,
  name: id,
  positionM,
  aimM: [0, 0, 0],
  diameterM: 0.02,
  output: { unit: 'lumens', value: lumens },
});

describe('the light vector', () => {
  it('of one bulb points at it and is I / d^2 long (inverse square; CIE S 017)', () => {
    const at = lightAt(studyOf(bulb('a', [0.6, 0.8, 0], 4 * Math.PI * 100)), [0, 0, 0], null);
    expect(at.vector[0]).toBeCloseTo(0.6, 3);
    expect(at.vector[1]).toBeCloseTo(0.8, 3);
    expect(at.vectorLux).toBeCloseTo(100, 0);
    expect(at.dominance).toBe(1);
  });

  it('of two bulbs is the sum of both as arrows (Gershun, The Light Field, 1936, from memory)', () => {
    // 300 lx along x and 400 lx along y: 500 lx at 53.13 degrees.
    const at = lightAt(
      studyOf(bulb('a', [1, 0, 0], 4 * Math.PI * 300), bulb('b', [0, 1, 0], 4 * Math.PI * 400)),
      [0, 0, 0],
      null,
    );
    expect(at.vectorLux / 500).toBeCloseTo(1, 2);
    expect((Math.atan2(at.vector[1], at.vector[0]) * 180) / Math.PI).toBeCloseTo(53.13, 0);
    expect(at.lights[0].caster.id).toBe('b');
    expect(at.dominance).toBeCloseTo(4 / 7, 2);
  });

  it('cancels between two alike on opposite sides', () => {
    const at = lightAt(studyOf(bulb('a', [1, 0, 0], 1000), bulb('b', [-1, 0, 0], 1000)), [0, 0, 0], null);
    expect(at.vectorLux).toBeLessThan(1e-6 * 2000);
  });

  it('gives the size of a light as it is seen: a 20 cm ball at 1 m is 2 asin(.1) = 11.478 degrees wide', () => {
    const at = lightAt(studyOf({ ...bulb('a', [0, 0, 1], 1000), diameterM: 0.2 }), [0, 0, 0], null);
    expect((at.lights[0].sizeRad * 180) / Math.PI).toBeCloseTo(11.478, 1);
  });
});

describe('the check of direction', () => {
  it.each([
    [1, 1],
    [2, 1],
    [4, 1],
    [20, 1],
  ])('a lamp %f m up over a subject and a wall %f m behind: the angle between the ways to it', (heightM, behindM) => {
    const lamp = panel({
      positionM: [0.3, heightM, 0.5],
      aimM: [0, 0, -0.4],
      widthM: 0.05,
      heightM: 0.05,
      output: { unit: 'lumens', value: 20000 },
    });
    const wall = piece({
      kind: 'wall',
      id: 'wall',
      name: 'Wall',
      positionM: [0, -1, -behindM],
      widthM: 4,
      heightM: 3,
      finish: { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
    });
    const of = scene({ pieces: [matteSheet(), wall, block()], fixtures: [lamp] });
    const { figures } = checkFrame(of, { checks: ['lightDirection'], remedies: false });
    const study = createFrameStudy(createCheckInput(of));
    const background = study.background();
    const cells = background?.place.cells ?? [];
    const middle = cells.reduce((best, cell) =>
      Math.hypot(cell.u - 0.5, cell.v - 0.4) < Math.hypot(best.u - 0.5, best.v - 0.4) ? cell : best,
    ).pointM;
    const foot = study.hero()?.footM ?? [0, 0, 0];
    const way = (from: Vec3): Vec3 => {
      const d: Vec3 = [0.3 - from[0], heightM - from[1], 0.5 - from[2]];
      const l = Math.hypot(...d);
      return [d[0] / l, d[1] / l, d[2] / l];
    };
    const angle = (a: Vec3, b: Vec3): number =>
      (Math.acos(Math.min(1, a[0] * b[0] + a[1] * b[1] + a[2] * b[2])) * 180) / Math.PI;
    const ways = [of.subject.meterPointM, foot, middle].map((p) => way(p as Vec3));
    const expected = Math.max(angle(ways[0], ways[1]), angle(ways[0], ways[2]), angle(ways[1], ways[2]));
    const { widestAngleDeg } = figures.lightDirection as { widestAngleDeg: number };
    expect(Math.abs(widestAngleDeg - expected)).toBeLessThan(0.5);
  });
});
