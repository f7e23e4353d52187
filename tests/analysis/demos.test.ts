import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckName, Finding } from '../../src/analysis/contracts.ts';
import { checkFrame } from '../../src/analysis/runChecks.ts';
import { checkSettingsOf } from '../../src/document/checkSettings.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';

/** What each wrong demo was made to be caught by. */
const CAUGHT_BY: Readonly<Record<string, readonly CheckName[]>> = {
  'tonic-on-gloss-black': ['reflections', 'flare'],
  'iced-tea-on-paper-sweep': ['background', 'depthOfField'],
  'hard-noon-slatted-wall': ['spillAndShadows', 'lightDirection'],
  'blue-hour-lantern': ['practical', 'exposure'],
  'reed-screen-and-bounce': ['ratios', 'shadowMakers'],
};

/** Findings of every frame of a demo, worst first within a frame. */
function findingsOf(name: string): Finding[] {
  const opened = parseSetup(readFileSync(new URL(`../../assets/setups/${name}.json`, import.meta.url), 'utf8'));
  if (!opened.ok) throw new Error(opened.error.message);
  const { setup } = opened.value;
  return setup.frames.flatMap((frame) => {
    const scene = resolveFrame(setup, frame.id);
    if (!scene.ok) throw new Error(scene.error[0].message);
    return checkFrame(scene.value, { ...checkSettingsOf(setup, frame), remedies: false }).findings;
  });
}
const isFault = ({ grade }: Finding): boolean => grade === 'care' || grade === 'stop';

describe.each(Object.entries(CAUGHT_BY))('demo %s', (name, checks) => {
  it('as it should be: nothing to stop for', () => {
    expect(findingsOf(name).filter(({ grade }) => grade === 'stop')).toEqual([]);
  });

  it(`gone wrong: caught by ${checks.join(', ')}`, () => {
    const caught = new Set(
      findingsOf(`${name}-wrong`)
        .filter(isFault)
        .map(({ check }) => check),
    );
    expect(checks.filter((check) => !caught.has(check))).toEqual([]);
  });
});
