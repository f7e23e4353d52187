import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/document/changes.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import { traceKey } from '../../src/document/hash.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import { sampleSetup } from './sampleSetup.ts';

// A JPEG begins with FF D8 FF (ISO/IEC 10918-1, annex B), which is /9j/ in base64.
const JPEG = 'data:image/jpeg;base64,/9j/4AAQSkZJRgABAQAAAQABAAD/2wBD';
const FULL = {
  delivery: { crops: ['4:5', '9:16'], safeAreas: true },
  desk: {
    groups: [{ id: 'group:1', name: 'Paper', fixtureIds: ['fixture:key'] }],
    lookA: {
      name: 'Look A',
      states: [{ fixtureId: 'fixture:key', on: true, dimStops: -1.5, cctK: 4300, duv: 0.002 }],
    },
    blendShare: 0.25,
  },
  reference: { name: 'mood.jpg', widthPx: 1600, heightPx: 1067, dataUrl: JPEG },
};

function withFrame(patch: Record<string, unknown>): Setup {
  const setup = applyChanges(sampleSetup(), [{ op: 'updateFrame', id: 'frame:wide', patch }]);
  if (!setup.ok) throw new Error(setup.error[0].message);
  return setup.value;
}

const keyOf = (setup: Setup): string => {
  const scene = resolveFrame(setup, 'frame:wide');
  if (!scene.ok) throw new Error(scene.error[0].message);
  return traceKey(scene.value);
};

describe('what a frame carries beside its light', () => {
  it('comes back from a file to the last field, and begins no new trace [F2, T2]', () => {
    const setup = withFrame(FULL);
    const read = parseSetup(serializeSetup(setup));
    expect(read.ok && read.value.setup).toEqual(setup);
    expect(setup.frames[0]).toMatchObject(FULL);
    expect(keyOf(setup)).toBe(keyOf(sampleSetup()));
  });

  it('goes when it is taken away, and leaves the very frame of before', () => {
    const gone = applyChanges(withFrame(FULL), [
      { op: 'updateFrame', id: 'frame:wide', patch: { delivery: null, desk: null, reference: null } },
    ]);
    expect(gone.ok && gone.value).toEqual(sampleSetup());
  });

  it.each([
    ['a page in place of a picture', { reference: { ...FULL.reference, dataUrl: 'data:text/html;base64,PGI+' } }],
    ['an address in place of a picture', { reference: { ...FULL.reference, dataUrl: 'https://example.org/a.jpg' } }],
    ['a picture of a million characters', { reference: { ...FULL.reference, dataUrl: `${JPEG}${'A'.repeat(1e6)}` } }],
    ['a shape that nobody delivers', { delivery: { crops: ['17:9'], safeAreas: false } }],
    ['a blend past look B', { desk: { ...FULL.desk, blendShare: 1.2 } }],
    [
      'a look with a dimmer over full',
      { desk: { lookA: { name: 'A', states: [{ ...FULL.desk.lookA.states[0], dimStops: 1 }] } } },
    ],
  ])('refuses %s whole [D2]', (_what, patch) => {
    const refused = applyChanges(sampleSetup(), [{ op: 'updateFrame', id: 'frame:wide', patch }]);
    expect(refused.ok).toBe(false);
  });
});
