import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, glossSheet, matteSheet, panel, piece, scene, tonic } from './helpers/scenes.ts';

const TEA: [number, number, number] = [8, 25, 60];
const subject = { pieceId: 'tonic', meterPointM: [0, 0.08, 0] as [number, number, number] };
const glass = (absorptionPerM: readonly number[] = TEA) =>
  tonic({ ice: undefined, drink: { name: 'Tea', index: 1.336, absorptionPerM, fillFraction: 0.85 } });
const wall = (reflectance: number) =>
  piece({
    kind: 'wall',
    id: 'wall',
    name: 'Wall',
    positionM: [0, -0.2, -0.9],
    widthM: 3,
    heightM: 2,
    finish: { type: 'matte', reflectanceRgb: [reflectance, reflectance, reflectance] },
  });
const LOOK = camera({ positionM: [0, 0.12, 1.2], aimM: [0, 0.08, 0], focalLengthMm: 100, iso: 800 });
/** Bright field: a lit panel close behind, no wider than the frame needs. */
const brightField = (widthM: number): FrameScene =>
  scene({
    pieces: [matteSheet(0.05), glass()],
    fixtures: [
      panel({
        positionM: [0, 0.2, -0.6],
        aimM: [0, 0.15, 1],
        widthM,
        heightM: 0.8,
        output: { unit: 'lumens', value: 4000 },
      }),
    ],
    camera: LOOK,
    subject,
  });
/** Dark field: black behind, light from both sides. */
const darkField: FrameScene = scene({
  pieces: [matteSheet(0.02), wall(0.01), glass([0.3, 0.3, 0.3])],
  fixtures: [-1, 1].map((side) =>
    fixture({
      kind: 'softbox',
      id: side < 0 ? 'left' : 'right',
      name: side < 0 ? 'Left' : 'Right',
      positionM: [0.5 * side, 0.25, -0.25],
      aimM: [0, 0.08, 0],
      widthM: 0.3,
      heightM: 0.6,
      output: { unit: 'lumens', value: 4000 },
    }),
  ),
  camera: LOOK,
  subject,
});
const check = (of: FrameScene, limits = {}, remedies = false): CheckResult =>
  checkFrame(of, { checks: ['glow'], limits, remedies });
const find = ({ findings }: CheckResult, id: string): Finding | undefined =>
  findings.find((finding) => finding.id === `glow:${id}`);
const figures = (result: CheckResult) => result.figures.glow as Record<string, number> & { field: string };

describe('glow and edges', () => {
  it('reads a dark outline in bright field, and lets it be', () => {
    const result = check(brightField(0.5));
    expect(figures(result).field).toBe('bright field');
    expect(find(result, 'edges')?.grade).toBe('ok');
    expect(find(result, 'edges')?.summary).toContain('a dark line on bright ground');
  });

  it('reads a bright outline in dark field', () => {
    const result = check(darkField);
    expect(figures(result).field).toBe('dark field');
    expect(find(result, 'edges')?.grade).toMatch(/ok|note/);
    expect(find(result, 'edges')?.value).toBeGreaterThan(1);
    expect(find(result, 'edges')?.summary).toContain('a bright line on dark ground');
  });

  it('fires on a clear glass lost before an even wall with nothing dark or bright beside it', () => {
    const lost = scene({
      pieces: [matteSheet(0.5), wall(0.5), glass([0, 0, 0])],
      fixtures: [
        panel({
          positionM: [0, 2.6, 1.4],
          aimM: [0, 0.1, -0.4],
          widthM: 2.6,
          heightM: 2.6,
          output: { unit: 'lumens', value: 60000 },
        }),
      ],
      camera: LOOK,
      subject,
    });
    const edges = find(check(lost, { edgeContrastCareStops: 3 }), 'edges');
    expect(edges?.grade).toBe('care');
    expect(edges?.summary).toContain('is lost');
  });

  it('judges the glow only where the frame asks for one', () => {
    const front = scene({
      pieces: [matteSheet(0.3), wall(0.5), glass()],
      fixtures: [
        panel({
          positionM: [0.3, 0.8, -0.5],
          aimM: [0, 0.1, -0.2],
          widthM: 0.2,
          heightM: 0.2,
          output: { unit: 'lumens', value: 6000 },
        }),
      ],
      camera: LOOK,
      subject,
    });
    expect(find(check(front), 'drink')?.grade).toBe('ok');
    const value = find(check(front), 'drink')?.value ?? 0;
    const asked = find(check(front, { glowMinStops: value + 0.3 }, true), 'drink');
    expect(asked?.grade).toBe('care');
    const remedy = asked?.remedies[0];
    expect(remedy?.label).toMatch(
      /^Add a white card \d+ x \d+ cm behind the glass: the drink stands -?[\d.]+ stops over$/,
    );
    if (remedy)
      expect(find(check(applyChanges(front, remedy.changes), { glowMinStops: value + 0.3 }), 'drink')?.grade).toBe(
        'ok',
      );
  });

  it('has nothing to say of a subject that is no glass, or in the dark', () => {
    expect(check(scene({ pieces: [glossSheet(), block()] })).findings).toEqual([]);
    expect(check({ ...brightField(0.5), fixtures: [] }).findings).toEqual([]);
  });

  it('dims through the drink the more the liquid takes, and never changes with the strength of all lights', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0.3, max: 3, noNaN: true }), (a, k) => {
        const at = (perM: number, scale: number) => {
          const of = brightField(0.6);
          const [lamp] = of.fixtures;
          return figures(
            check({
              ...of,
              pieces: [of.pieces[0], glass([perM, perM, perM])],
              fixtures: [{ ...lamp, output: { unit: 'lumens', value: 4000 * scale } }],
            }),
          );
        };
        const one = at(a, 1);
        expect(at(a + 10, 1).centreOverSurroundingsStops).toBeLessThan(one.centreOverSurroundingsStops);
        expect(at(a, k).centreOverSurroundingsStops).toBeCloseTo(one.centreOverSurroundingsStops, 1);
      }),
      { seed: 17, numRuns: 5 },
    );
  });
});
