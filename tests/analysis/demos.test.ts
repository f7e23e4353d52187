import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckName, Finding } from '../../src/analysis/contracts.ts';
import { checkFrame } from '../../src/analysis/runChecks.ts';
import { checkSettingsOf } from '../../src/document/checkSettings.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';

/** What each wrong demo was made to be caught by: these checks and no others. */
const CAUGHT_BY: Readonly<Record<string, readonly CheckName[]>> = {
  // The panel has slid down and back: mirrored and burnt out in the base, into the lens, off the front of the glass.
  'tonic-on-gloss-black': ['exposure', 'flare', 'reflections'],
  'iced-tea-on-paper-sweep': ['background', 'depthOfField'],
  // A second sun: another shadow, from another side, and the wall, read past its slats, has lost its gradient.
  'hard-noon-slatted-wall': ['background', 'lightDirection', 'spillAndShadows'],
  // Bulb too strong, clipping round it; sky green beside the door; doorway from too large a lens.
  'blue-hour-lantern': ['colourMix', 'exposure', 'practical', 'shadowMakers'],
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
const faultyChecks = (findings: readonly Finding[]): CheckName[] =>
  [...new Set(findings.filter(isFault).map(({ check }) => check))].sort();

describe.each(Object.entries(CAUGHT_BY))('demo %s', (name, checks) => {
  it('as it should be: nothing to stop for, and nothing to take care of', () => {
    expect(
      findingsOf(name)
        .filter(isFault)
        .map(({ grade, summary }) => `${grade}: ${summary}`),
    ).toEqual([]);
  });

  it(`gone wrong: caught by ${checks.join(', ')} and by nothing else`, () => {
    expect(faultyChecks(findingsOf(`${name}-wrong`))).toEqual([...checks].sort());
  });

  it('states its limits and marks alike, right and wrong', () => {
    const settings = (file: string): unknown => {
      const { frames } = JSON.parse(readFileSync(new URL(`../../assets/setups/${file}.json`, import.meta.url), 'utf8'));
      return frames.map(({ limits, marks }: { limits: unknown; marks: unknown }) => ({ limits, marks }));
    };
    expect(settings(`${name}-wrong`)).toEqual(settings(name));
  });
});
