import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import { add, scale, sub, type Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, glossSheet, grip, matteSheet, panel, piece, scene, tonic } from './helpers/scenes.ts';

const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const withPanelInSheet = (parts: Partial<FrameScene> = {}): FrameScene => scene({ camera: WIDE, ...parts });

const check = (of: FrameScene, remedies = false): CheckResult => checkFrame(of, { checks: ['reflections'], remedies });
const inSheet = ({ findings }: CheckResult): Finding | undefined =>
  findings.find((finding) => finding.id === 'reflections:back-panel:in:sheet');

describe('reflections', () => {
  it('finds a panel in the gloss sheet, graded stop, with where it is and the chain that proves it', () => {
    const finding = inSheet(check(withPanelInSheet()));
    expect(finding?.grade).toBe('stop');
    expect(finding?.value).toBeGreaterThan(3);
    expect(finding?.summary).toMatch(
      /^Back panel shows in the gloss sheet, .* of frame, [\d.]+ stops over the base and [\d.]+ stops (past|under) clipping\.$/,
    );
    expect(finding?.where.outlineUv?.length).toBeGreaterThan(6);
    for (const chain of finding?.where.raysM ?? []) {
      expect(chain).toHaveLength(3);
      expect(chain[0]).toEqual([0, 0.5, 1.5]);
      expect(chain[1][1]).toBeCloseTo(0.005, 6);
    }
  });

  it('stays quiet over a matte sheet', () => {
    expect(check(withPanelInSheet({ pieces: [matteSheet(), block()] })).findings).toEqual([]);
  });

  it('stays quiet when the panel stands where the sheet mirrors it past the frame', () => {
    const moved = panel({ positionM: [0, 2.4, -0.4] });
    expect(check(withPanelInSheet({ fixtures: [moved] })).findings).toEqual([]);
  });

  it('stays quiet about a panel that is switched off', () => {
    expect(check(withPanelInSheet({ fixtures: [panel({ on: false })] })).findings).toEqual([]);
  });

  it('stays quiet about the dark back of a panel', () => {
    expect(inSheet(check(withPanelInSheet({ fixtures: [panel({ aimM: [0, 0.75, -5] })] })))).toBeUndefined();
  });

  it('grades by the limits that the frame states', () => {
    const value = inSheet(check(withPanelInSheet()))?.value ?? 0;
    const strict = checkFrame(withPanelInSheet(), {
      checks: ['reflections'],
      remedies: false,
      limits: { reflectionCareStops: value + 1, reflectionStopStops: value + 2 },
    });
    expect(inSheet(strict)?.grade).toBe('note');
  });

  it('finds a bulb whose image is far smaller than the spacing of the rays', () => {
    const bulb = fixture({
      kind: 'bulb',
      id: 'bulb',
      name: 'Bulb',
      positionM: [0.137, 0.31, -0.4],
      aimM: [0, 0, 0],
      diameterM: 0.004,
      output: { unit: 'lumens', value: 400 },
    });
    const { findings } = check(withPanelInSheet({ fixtures: [bulb] }));
    const finding = findings.find((f) => f.id === 'reflections:bulb:in:sheet');
    expect(finding?.grade).toBe('note');
    expect(finding?.where.frame?.widthU).toBeLessThan(1 / 140);
  });

  it('finds a lit bounce card in the sheet, and not an unlit one', () => {
    const card = grip({
      kind: 'bounceCard',
      id: 'card',
      name: 'White card',
      positionM: [0, 0.3, -0.5],
      aimM: [0, 0.1, 0.5],
      widthM: 0.4,
      heightM: 0.3,
    });
    const key = panel({ id: 'key', name: 'Key', positionM: [-0.8, 1.2, 1.2], aimM: [0, 0.2, -0.4] });
    const id = 'reflections:card:in:sheet';
    expect(check(withPanelInSheet({ fixtures: [key], grip: [card] })).findings.map((f) => f.id)).toContain(id);
    expect(check(withPanelInSheet({ fixtures: [{ ...key, on: false }], grip: [card] })).findings).toEqual([]);
  });

  it('never grades what shows in or through the drink as stop', () => {
    const { findings } = check(
      withPanelInSheet({
        pieces: [glossSheet(), tonic()],
        fixtures: [panel({ output: { unit: 'luxAtDistance', value: 2e5, distanceM: 1 } })],
        // Near enough that the image is well over the least area that is told.
        camera: camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 85, focusDistanceM: 1.57 }),
      }),
    );
    const inGlass = findings.filter((finding) => finding.id.includes(':tonic'));
    expect(inGlass.map((finding) => finding.id)).toContain('reflections:back-panel:through:tonic');
    for (const finding of inGlass) expect(['note', 'care']).toContain(finding.grade);
  });

  it('keeps stops over the surroundings when all fixtures are scaled alike (bright frame)', () => {
    // All ratios of light are independent of its amount; the shutter follows so that black and clipping do too.
    const at = (lux: number, shutterS: number): Finding | undefined =>
      inSheet(
        check(
          withPanelInSheet({
            fixtures: [panel({ output: { unit: 'luxAtDistance', value: lux, distanceM: 1 } })],
            camera: { ...WIDE, shutterS },
          }),
        ),
      );
    const [one, eight] = [at(6000, 1 / 60), at(48000, 1 / 480)];
    expect(eight?.value).toBeCloseTo(one?.value ?? 0, 6);
    expect(eight?.where).toEqual(one?.where);
  });

  it('puts a bulb in the same place in the sheet wherever it stands on its own mirror ray', () => {
    const bulbAt = (positionM: Vec3) =>
      fixture({
        kind: 'bulb',
        id: 'bulb',
        name: 'Bulb',
        positionM,
        aimM: [0, 0, 0],
        output: { unit: 'lumens', value: 900 },
      });
    const onSheet: Vec3 = [0.12, 0.005, 0.1];
    const incoming = sub(onSheet, WIDE.positionM);
    const outgoing: Vec3 = [incoming[0], -incoming[1], incoming[2]];
    for (const along of [0.3, 0.5, 0.9]) {
      const { findings } = check(withPanelInSheet({ fixtures: [bulbAt(add(onSheet, scale(outgoing, along)))] }));
      const finding = findings.find((f) => f.id === 'reflections:bulb:in:sheet');
      const point = finding?.where.pointM ?? [9, 9, 9];
      expect(Math.hypot(point[0] - onSheet[0], point[2] - onSheet[2])).toBeLessThan(0.01);
    }
  });

  it('offers moves that clear the image, smallest first, each true when it is made', () => {
    const before = withPanelInSheet();
    const remedies = inSheet(check(before, true))?.remedies ?? [];
    expect(remedies.length).toBeGreaterThan(0);
    expect(remedies.length).toBeLessThanOrEqual(3);
    const sizes = remedies.map(({ label }) => Number(/([\d.]+) m$/.exec(label)?.[1]));
    expect([...sizes].sort((a, b) => a - b)).toEqual(sizes);
    for (const remedy of remedies) {
      const after = inSheet(check(applyChanges(before, remedy.changes)));
      expect(after?.grade ?? 'ok', remedy.label).toMatch(/ok|note/);
    }
  });

  it('offers the smallest move: 5 cm less still shows the panel', () => {
    const before = withPanelInSheet();
    const remedy = inSheet(check(before, true))?.remedies[0];
    const change = remedy?.changes[0];
    expect(change?.op).toBe('update');
    if (change?.op !== 'update') return;
    const from = before.fixtures[0].positionM;
    const to = change.patch.positionM as Vec3;
    const d = sub(to, from);
    const shorter = add(from, scale(d, 1 - 0.06 / Math.hypot(...d)));
    const almost = applyChanges(before, [{ ...change, patch: { positionM: shorter } }]);
    expect(inSheet(check(almost))).toBeDefined();
  });

  it('sees the mirror image in a mirror wall behind the hero as well', () => {
    const wall = piece({
      kind: 'wall',
      id: 'wall',
      name: 'Mirror wall',
      positionM: [0, 0, -0.6],
      widthM: 2,
      heightM: 1,
      finish: { type: 'mirror', reflectanceRgb: [0.9, 0.9, 0.9] },
    });
    const front = panel({ positionM: [0.6, 0.35, 2.2], aimM: [0, 0.3, 0] });
    const level = camera({ positionM: [0, 0.3, 1.5], aimM: [0, 0.3, 0], focalLengthMm: 50, focusDistanceM: 1.5 });
    const { findings } = check(scene({ pieces: [matteSheet(0.1), wall, block()], fixtures: [front], camera: level }));
    expect(findings.some((f) => f.id === 'reflections:back-panel:in:wall' && f.grade === 'stop')).toBe(true);
  });

  it('gives the same answer twice', () => {
    const of = withPanelInSheet({ pieces: [glossSheet(), tonic()] });
    const [one, two] = [check(of, true), check(of, true)];
    expect(two.findings).toEqual(one.findings);
    expect(two.figures).toEqual(one.figures);
  });
});
