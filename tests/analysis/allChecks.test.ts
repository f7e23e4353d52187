import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckName, checkFrame, type Finding } from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { demoScene } from './helpers/scenes.ts';

/** Every light k times as strong, the shutter k times as short: the same picture. */
function scaled(of: FrameScene, k: number): FrameScene {
  return {
    ...of,
    camera: { ...of.camera, shutterS: of.camera.shutterS / k },
    fixtures: of.fixtures.map((fixture) => ({
      ...fixture,
      output: { ...fixture.output, value: fixture.output.value * k },
    })),
  };
}

/** What does not follow the light alone: heat, the mains, and motion while the shutter is open. */
const OWN = new Set<CheckName>(['heroTime', 'powerAndRigging', 'turntable']);
const ofLight = (of: FrameScene): Finding[] =>
  checkFrame(of, { remedies: false, sweep: false }).findings.filter(({ check }) => !OWN.has(check));

describe('all checks', () => {
  const findings = ofLight(demoScene());

  it('change no figure and no grade when all fixtures are scaled alike and the shutter follows (light is linear)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (k) => {
        const after = ofLight(scaled(demoScene(), k));
        expect(after.map(({ id, grade }) => [id, grade])).toEqual(findings.map(({ id, grade }) => [id, grade]));
        after.forEach(({ value, id }, i) => {
          expect(Math.abs(value - findings[i].value), id).toBeLessThan(1e-6 * Math.max(1, Math.abs(value)));
        });
      }),
      { seed: 71, numRuns: 2 },
    );
  });

  it('do not depend on the order of fixtures, grip and pieces', () => {
    const of = demoScene();
    const base = ofLight({ ...of, subject: { ...of.subject, pieceId: 'tonic' } });
    const shuffled = ofLight({
      ...of,
      subject: { ...of.subject, pieceId: 'tonic' },
      fixtures: [...of.fixtures].reverse(),
      pieces: [...of.pieces].reverse(),
      grip: [...of.grip].reverse(),
    });
    const byId = new Map(shuffled.map((finding) => [finding.id, finding]));
    expect([...byId.keys()].sort()).toEqual(base.map(({ id }) => id).sort());
    for (const { id, grade, value } of base) {
      expect(byId.get(id)?.grade, id).toBe(grade);
      expect(Math.abs((byId.get(id)?.value ?? 99) - value), id).toBeLessThan(1e-3 * Math.max(1, Math.abs(value)));
    }
  });

  it('say the same of a set that is turned round the middle of the table as a whole, to 2 %', () => {
    // Only what is not read on a grid of pixels, which a turn shifts by parts of a cell.
    const checks: readonly CheckName[] = [
      'exposure',
      'ratios',
      'spillAndShadows',
      'lightDirection',
      'depthOfField',
      'colourMix',
    ];
    const read = (of: FrameScene): Map<string, number> =>
      new Map(
        checkFrame(of, { checks, remedies: false })
          .findings.filter(({ id }) => id !== 'exposure:clipping')
          .map(({ id, value }) => [id, value]),
      );
    const base = read(demoScene());
    expect(base.size).toBeGreaterThan(5);
    fc.assert(
      fc.property(fc.double({ min: -170, max: 170, noNaN: true }), (turnDeg) => {
        const after = read(turned(demoScene(), turnDeg));
        expect([...after.keys()].sort()).toEqual([...base.keys()].sort());
        for (const [id, value] of base)
          expect(Math.abs((after.get(id) ?? 99) - value), id).toBeLessThan(0.02 * Math.max(1, Math.abs(value)));
      }),
      { seed: 72, numRuns: 2 },
    );
  });
});

type Triple = [number, number, number];
function turned(of: FrameScene, turnDeg: number): FrameScene {
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  // Counter-clockwise from above, as headings count.
  const turn = ([x, y, z]: readonly [number, number, number]): Triple => [c * x + s * z, y, -s * x + c * z];
  const aimed = <T extends { positionM: Triple; aimM: Triple }>(record: T): T => ({
    ...record,
    positionM: turn(record.positionM),
    aimM: turn(record.aimM),
  });
  return {
    ...of,
    camera: aimed(of.camera),
    fixtures: of.fixtures.map(aimed),
    grip: of.grip.map(aimed),
    pieces: of.pieces.map((piece) => ({
      ...piece,
      positionM: turn(piece.positionM),
      headingDeg: piece.headingDeg + turnDeg,
    })),
    subject: { ...of.subject, meterPointM: turn(of.subject.meterPointM) },
  };
}
