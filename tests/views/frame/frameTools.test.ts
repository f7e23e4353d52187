import { describe, expect, it } from 'vitest';
import { fixtureSchema } from '../../../src/fixtures/records.ts';
import { loupePlace } from '../../../src/views/frame/overlays/loupePlace.ts';
import { buildUpLights, soloAtStep, stepOfSolo } from '../../../src/views/frame/tools/buildUp.ts';
import { FRAME_TOOLS, toolsAfterToggle } from '../../../src/views/frame/tools/frameToolsStore.ts';
import { roundAngleDeg } from '../../../src/views/frame/tools/TurnOptions.tsx';
import { TOOL_WORDS } from '../../../src/views/frame/tools/toolWords.ts';

const lights = ['a', 'b', 'c'].map((id) =>
  fixtureSchema.parse({
    kind: 'bulb',
    id,
    name: id,
    positionM: [0, 1, 0],
    aimM: [0, 0, 0],
    output: { unit: 'lumens', value: 100 },
    on: id !== 'b',
  }),
);

describe('tools of the frame', () => {
  it('are taken up and put away singly; before and reference share one divider, so one puts the other away', () => {
    expect(toolsAfterToggle(['findings'], 'crop')).toEqual(['findings', 'crop']);
    expect(toolsAfterToggle(['findings', 'crop'], 'findings')).toEqual(['crop']);
    expect(toolsAfterToggle(['compare'], 'reference')).toEqual(['reference']);
    expect(toolsAfterToggle(['reference', 'loupe'], 'compare')).toEqual(['loupe', 'compare']);
  });

  it('have a key each, none twice, and none that the window has for something else', () => {
    const keys = FRAME_TOOLS.map((tool) => TOOL_WORDS[tool].key);
    expect(new Set(keys).size).toBe(keys.length);
    // F stops, A shelf, M switch, S solo, K keep, L lock, H hide, X centre, Q aim, R tape, D drawing.
    expect(keys.filter((key) => 'FAMSKLHXQRD'.includes(key))).toEqual([]);
  });

  it('build up the lights that burn, in their order, or show each alone', () => {
    const burning = buildUpLights(lights);
    expect(burning.map(({ id }) => id)).toEqual(['a', 'c']);
    expect(soloAtStep(burning, 0, false)).toEqual(['a']);
    expect(soloAtStep(burning, 1, false)).toEqual(['a', 'c']);
    expect(soloAtStep(burning, 1, true)).toEqual(['c']);
    expect(soloAtStep(burning, 9, false)).toEqual(['a', 'c']);
    expect(stepOfSolo(burning, ['a', 'c'], false)).toBe(1);
    expect(stepOfSolo(burning, ['c'], false)).toBeNull();
  });

  it('show any angle of the table within one round: 405 and -315 degrees are 45', () => {
    expect([405, -315, 0, 360, 359.5].map(roundAngleDeg)).toEqual([45, 45, 0, 0, 359.5]);
  });

  it('keep the loupe inside the picture and off the pointer, in every corner', () => {
    for (const [x, y] of [
      [5, 5],
      [795, 5],
      [5, 445],
      [795, 445],
      [400, 225],
    ]) {
      const { leftPx, topPx } = loupePlace(x, y, 800, 450);
      expect(leftPx).toBeGreaterThanOrEqual(0);
      expect(leftPx + 173).toBeLessThanOrEqual(800);
      expect(topPx).toBeGreaterThanOrEqual(0);
      expect(topPx + 271).toBeLessThanOrEqual(450);
      const covers = x >= leftPx && x <= leftPx + 173 && y >= topPx && y <= topPx + 271;
      expect(covers).toBe(false);
    }
  });
});
