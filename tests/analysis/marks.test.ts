import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  type CheckFrameOptions,
  type CheckResult,
  checkFrame,
  type Finding,
  type FindingMark,
} from '../../src/analysis/index.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { camera, fixture, matteSheet, scene, tonic } from './helpers/scenes.ts';

const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });
const inSheet = 'reflections:back-panel:in:sheet';
const withPanel: FrameScene = scene({ camera: WIDE });
const check = (of: FrameScene, options: CheckFrameOptions = {}): CheckResult =>
  checkFrame(of, { checks: ['reflections'], remedies: false, ...options });
const find = ({ findings }: CheckResult, id: string): Finding | undefined => findings.find((f) => f.id === id);
const mark = (findingId: string, wanted: boolean, reason = ''): FindingMark => ({ findingId, wanted, reason });

/** A highball lit by a softbox from the front left, which shows in its wall. */
const catchLight: FrameScene = scene({
  pieces: [matteSheet(0.05), tonic({ ice: undefined })],
  fixtures: [
    fixture({
      kind: 'softbox',
      id: 'box',
      name: 'Soft box',
      positionM: [-0.9, 0.5, 0.7],
      aimM: [0, 0.08, 0],
      widthM: 0.5,
      heightM: 0.5,
      output: { unit: 'luxAtDistance', value: 20000, distanceM: 1 },
    }),
  ],
  subject: { pieceId: 'tonic', meterPointM: [0, 0.08, 0] },
});

describe('marks', () => {
  it('make a wanted finding ok, keep its figure, and say why', () => {
    const plain = find(check(withPanel), inSheet);
    const wanted = find(
      check(withPanel, { marks: [mark(inSheet, true, 'the streak is the look')], remedies: true }),
      inSheet,
    );
    expect(plain?.grade).toBe('stop');
    expect(wanted?.grade).toBe('ok');
    expect(wanted?.value).toBe(plain?.value);
    expect(wanted?.remedies).toEqual([]);
    expect(wanted?.summary).toMatch(/Marked as wanted: the streak is the look\.$/);
  });

  it('lift an unwanted note to care and leave a stop a stop', () => {
    const glint = find(check(catchLight), 'reflections:box:through:tonic');
    expect(glint?.grade).toBe('note');
    const unwanted = find(
      check(catchLight, { marks: [mark('reflections:box:through:tonic', false)] }),
      'reflections:box:through:tonic',
    );
    expect(unwanted?.grade).toBe('care');
    expect(find(check(withPanel, { marks: [mark(inSheet, false)] }), inSheet)?.grade).toBe('stop');
  });

  it('do nothing for a finding that is not there', () => {
    expect(check(withPanel, { marks: [mark('gone', true), mark('reflections:x', false)] }).findings).toEqual(
      check(withPanel).findings,
    );
  });

  it('bring a way out of an unwanted catch-light, true when it is made', () => {
    const id = 'reflections:box:through:tonic';
    const marks = [mark(id, false)];
    const finding = find(check(catchLight, { marks, remedies: true }), id);
    for (const remedy of finding?.remedies ?? []) {
      const after = find(check(applyChanges(catchLight, remedy.changes), { marks }), id);
      expect(after === undefined || after.value < (finding?.value ?? 0), remedy.label).toBe(true);
    }
    expect(find(check(catchLight, { remedies: true }), id)?.remedies).toEqual([]);
  });
});

describe('where a light shows', () => {
  it('names what mirrored it last: ice, drink, or the far wall', () => {
    const iced: FrameScene = {
      ...catchLight,
      pieces: [matteSheet(0.05), tonic({ ice: { count: 5, edgeM: 0.03, bevelM: 0.002, seed: 2 } })],
    };
    const words = check(iced)
      .findings.map(({ summary }) => summary)
      .join('\n');
    expect(words).toMatch(
      / in the ice of the glass,| in the drink in the glass,| in the far wall of the glass,| through the glass,/,
    );
  });
});
