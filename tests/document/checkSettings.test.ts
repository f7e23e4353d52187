import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/document/changes.ts';
import { checkSettingsOf, withMark } from '../../src/document/checkSettings.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import { applyDiff, diffSetups } from '../../src/document/diff.ts';
import type { Setup } from '../../src/document/setup.ts';
import { sampleSetup } from './sampleSetup.ts';

function applied(setup: Setup, ...changes: Parameters<typeof applyChanges>[1]): Setup {
  const result = applyChanges(setup, changes);
  if (!result.ok) throw new Error(result.error.map((issue) => issue.message).join('\n'));
  return result.value;
}

describe('what the document says to the checks', () => {
  it('is the usual room and capture where nothing is stated', () => {
    const setup = sampleSetup();
    expect(setup).not.toHaveProperty('room');
    const settings = checkSettingsOf(setup, setup.frames[0]);
    expect(settings.room).toMatchObject({ temperatureC: 22, mainsV: 230, mainsHz: 50, circuitA: 10 });
    expect(settings.capture).toEqual({ kind: setup.frames[0].kind, framesPerS: 24, pictureWidthPx: 3840 });
    expect(settings.marks).toEqual([]);
  });

  it('takes a room, a mark and a limit in, writes them, reads them back, and undoes them', () => {
    const before = sampleSetup();
    const frame = before.frames[0];
    const after = applied(
      before,
      { op: 'updateRoom', patch: { temperatureC: 26, mainsHz: 60 } },
      { op: 'updateFrame', id: frame.id, patch: { marks: withMark(frame, 'reflections:key:in:hero', true, 'meant') } },
      {
        op: 'updateFrame',
        id: frame.id,
        patch: { limits: { shadowCount: 2, backgroundWanted: 'even' }, framesPerS: 25 },
      },
    );
    const settings = checkSettingsOf(after, after.frames[0]);
    expect(settings.room).toMatchObject({ temperatureC: 26, mainsHz: 60, mainsV: 230 });
    expect(settings.marks).toEqual([{ findingId: 'reflections:key:in:hero', wanted: true, reason: 'meant' }]);
    expect(settings.limits).toMatchObject({ shadowCount: 2, backgroundWanted: 'even' });
    expect(settings.capture.framesPerS).toBe(25);
    const opened = parseSetup(serializeSetup(after));
    expect(opened.ok && opened.value.setup).toEqual(after);
    const diff = diffSetups(before, after);
    expect(diff && applyDiff(after, diff, 'backward')).toEqual(before);
    expect(applied(after, { op: 'updateRoom', patch: null })).not.toHaveProperty('room');
  });

  it('holds one mark for each finding, and none where it is taken away', () => {
    const one = withMark({ marks: [] }, 'a', true);
    const two = withMark({ marks: one }, 'a', false, 'gone');
    expect(two).toEqual([{ findingId: 'a', wanted: false, reason: 'gone' }]);
    expect(withMark({ marks: two }, 'a', null)).toEqual([]);
  });

  it.each([
    [{ limits: { shadowCount: 1.5 } }, /shadowCount/],
    [{ limits: { backgroundWanted: 'plain' } }, /backgroundWanted/],
    [{ marks: [{ findingId: '', wanted: true }] }, /findingId/],
    [{ pictureWidthPx: 0 }, /pictureWidthPx/],
  ])('refuses %j with the field named', (patch, field) => {
    const setup = sampleSetup();
    const result = applyChanges(setup, [{ op: 'updateFrame', id: setup.frames[0].id, patch }]);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.error.map((issue) => issue.message).join()).toMatch(field);
  });
});
