import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import { buildSet } from '../../src/scene/buildSet.ts';

const folder = new URL('../../assets/setups/', import.meta.url);

function openDemo(name: string): Setup {
  const opened = parseSetup(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.value.setup;
}

/** Above this a traced preview of a frame takes too long to judge light by. Our own measure, no source. */
const MOST_SURFACES = 1200;

const FRAMES = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.replace('.json', ''))
  .flatMap((name) => openDemo(name).frames.map((frame) => ({ name, frameId: frame.id })));

describe('demo setups as sets', () => {
  it('there are five stories', () => {
    const names = [...new Set(FRAMES.map(({ name }) => name))].filter((name) => !name.endsWith('-wrong'));
    expect(names).toEqual([
      'blue-hour-lantern',
      'hard-noon-slatted-wall',
      'iced-tea-on-paper-sweep',
      'reed-screen-and-bounce',
      'tonic-on-gloss-black',
    ]);
  });

  it.each(FRAMES)('$name, $frameId, builds without an error, in under 1200 surfaces', ({ name, frameId }) => {
    const scene = resolveFrame(openDemo(name), frameId);
    if (!scene.ok) throw new Error(scene.error[0].message);
    const set = buildSet(scene.value);
    expect(set.diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(set.surfaces.length).toBeGreaterThan(20);
    expect(set.surfaces.length).toBeLessThan(MOST_SURFACES);
  });

  it('name what they show without a record that nobody sees: every hidden or carried id exists', () => {
    for (const { name } of FRAMES) {
      const setup = openDemo(name);
      const ids = new Set([...setup.pieces, ...setup.fixtures, ...setup.grip].map(({ id }) => id));
      const named = [...setup.frames.flatMap((frame) => frame.hidden), ...(setup.turntable?.carries ?? [])];
      expect(named.filter((id) => !ids.has(id))).toEqual([]);
      expect(ids.has(setup.subject.pieceId)).toBe(true);
    }
  });
});
