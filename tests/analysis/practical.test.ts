import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type CheckResult, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { block, camera, fixture, matteSheet, panel, scene } from './helpers/scenes.ts';

const lamp = (patch: Record<string, unknown> = {}) =>
  fixture({
    kind: 'bulb',
    id: 'lamp',
    name: 'Table lamp',
    positionM: [0.25, 0.2, -0.3],
    aimM: [0, 0.1, 0],
    diameterM: 0.06,
    output: { unit: 'lumens', value: 300 },
    ...patch,
  });
const lantern = (patch: Record<string, unknown> = {}) =>
  lamp({ kind: 'lantern', diameterM: 0.14, heightM: 0.18, shape: 'cylinder', bulbDiameterM: 0.04, ...patch });
const set = (practical: FrameScene['fixtures'][number], patch: Record<string, unknown> = {}): FrameScene =>
  scene({
    pieces: [matteSheet(0.3), block()],
    fixtures: [panel({ positionM: [-0.8, 0.9, 0.8] }), practical],
    camera: camera({ positionM: [0, 0.25, 1.3], aimM: [0.05, 0.15, 0], focalLengthMm: 50, iso: 400, ...patch }),
  });
const check = (of: FrameScene, remedies = false, limits = {}): CheckResult =>
  checkFrame(of, { checks: ['practical'], remedies, limits });
const only = ({ findings }: CheckResult): Finding | undefined => findings[0];

describe('practical', () => {
  it('fires on a bare bulb that burns out, and the dimmer setting that it offers holds it', () => {
    const before = set(lamp({ output: { unit: 'lumens', value: 1500 } }));
    const finding = only(check(before, true));
    expect(finding?.grade).toBe('stop');
    expect(finding?.summary).toMatch(
      /^The brightest part of Table lamp is [\d.]+ stops past clipping.*over the subject\.$/,
    );
    const remedy = finding?.remedies[0];
    expect(remedy?.label).toMatch(/^Dim Table lamp by [\d.]+ stops: it holds$/);
    if (!remedy) return;
    const after = only(check(applyChanges(before, remedy.changes)));
    expect(after?.grade).toBe('ok');
    // Not dimmed further than it must be.
    expect(after?.value).toBeGreaterThan(-0.2);
  });

  it('is ok with a dim lantern, and says how far it is under clipping', () => {
    const finding = only(check(set(lantern({ output: { unit: 'lumens', value: 60 } }))));
    expect(finding?.grade).toBe('ok');
    expect(finding?.summary).toContain('under clipping');
  });

  it('looks at the shade of a lantern where the bulb is hidden', () => {
    const bare = only(check(set(lamp())))?.value ?? 0;
    const shaded = only(check(set(lantern())))?.value ?? 0;
    expect(shaded).toBeLessThan(bare - 2);
  });

  it('clips the red channel first in a warm bulb under daylight balance, and not under its own', () => {
    const at = (whiteBalanceK: number) => only(check(set(lamp({ cctK: 2700 }), { whiteBalanceK })));
    expect(at(5600)?.summary).toContain('red first');
    expect(at(2700)?.summary).not.toContain('first');
    expect(at(5600)?.value).toBeGreaterThan((at(2700)?.value ?? 0) + 0.25);
  });

  it('stays quiet about a bulb out of the frame, hidden, or off', () => {
    expect(check(set(lamp({ positionM: [1.5, 0.6, 0] }))).findings).toEqual([]);
    expect(check(set(lamp({ positionM: [0, 0.06, -0.2], diameterM: 0.03 }))).findings).toEqual([]);
    expect(check(set(lamp({ on: false }))).findings).toEqual([]);
  });

  it('leaves a panel in the picture to the check of flare', () => {
    const of = set(lamp({ on: false }));
    const behind = panel({ id: 'behind', positionM: [0.2, 0.3, -0.8], aimM: [0.2, 0.3, 1] });
    expect(check({ ...of, fixtures: [behind] }).findings).toEqual([]);
  });

  it('moves by just the stops that the dimmer moves, for the part of the light that is its own', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 0, noNaN: true }), (dimStops) => {
        const full = only(check(set(lamp())))?.value ?? 0;
        const dimmed = only(check(set(lamp({ dimStops }))))?.value ?? 0;
        expect(dimmed - full).toBeCloseTo(dimStops, 1);
      }),
      { seed: 2, numRuns: 8 },
    );
  });
});
