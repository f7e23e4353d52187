import { describe, expect, it } from 'vitest';
import { createCheckInput } from '../../../src/analysis/checkInput.ts';
import { circuitSheet } from '../../../src/deliverables/sheets/circuitSheet.ts';
import { csvFromTable } from '../../../src/deliverables/sheets/csv.ts';
import { heroClock, heroTimeOf } from '../../../src/deliverables/sheets/heroClock.ts';
import { validateSetup } from '../../../src/document/validate.ts';
import { openFrames } from '../helpers/openFrames.ts';
import { readCsv } from '../helpers/readCsv.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

describe('hero clock', () => {
  const frames = openFrames(studioSetup());

  it('gives the range of the check and room for the times of the day, which a file leaves out', () => {
    const times = frames.map(({ scene }) => heroTimeOf(createCheckInput(scene)));
    const table = heroClock(frames, times);
    if (!table || !times[0]) throw new Error('the tea has ice');
    const { shortestS, likelyS, longestS, iceG } = times[0];
    expect(shortestS).toBeLessThanOrEqual(likelyS);
    expect(likelyS).toBeLessThanOrEqual(longestS);
    // Three cubes of 26 mm: 3 x 17.6 cm3 x 0.917 g/cm3 = 48 g, less what the bevels take.
    expect(iceG).toBeGreaterThan(40);
    expect(iceG).toBeLessThan(48.4);
    const [heads, first] = readCsv(csvFromTable(table));
    expect(heads).toEqual(['No.', 'Frame', 'Hero', 'Ice (g)', 'At least (min)', 'Likely (min)', 'At most (min)']);
    expect(first.slice(0, 3)).toEqual(['1', 'Wide', 'Iced tea']);
    expect(Number(first[5])).toBeCloseTo(likelyS / 60, 1);
  });

  it('is left out where no drink has ice', () => {
    const setup = structuredClone(studioSetup());
    for (const piece of setup.pieces) if (piece.kind === 'glass') delete piece.ice;
    const bare = openFrames(setup);
    expect(heroTimeOf(createCheckInput(bare[0].scene))).toBeNull();
    expect(heroClock(bare, [null, null])).toBeNull();
  });
});

describe('power and cable by circuit', () => {
  it('fills the circuits of the room to 80 % at most and gives every light its cable', () => {
    const made = validateSetup({ ...structuredClone(studioSetup()), room: { mainsV: 120, mainsHz: 60, circuitA: 2 } });
    if (!made.ok) throw new Error(made.error[0]?.message);
    const table = circuitSheet(openFrames(made.value));
    expect(new Set(table.rows.map(([supply]) => supply))).toEqual(new Set(['120 V, 2 A']));
    expect(table.rows.map(([, , mark]) => mark).sort()).toEqual(['1', '2', '3', '4', '5', '6']);
    // 459 W at 120 V and power factor 0.9 are 4.25 A; 1.6 A a circuit: three at least.
    expect(new Set(table.rows.map(([, circuit]) => circuit)).size).toBeGreaterThanOrEqual(3);
    for (const [, , , , , amps, filled, cableM] of table.rows) {
      expect(Number(amps)).toBeLessThanOrEqual(1.6);
      if (filled !== null) expect(Number(filled)).toBeLessThanOrEqual(100);
      expect([3, 5, 10, 15, 20, 25, 50]).toContain(cableM);
    }
  });

  it('lays out one circuit of each voltage where the setup names no room', () => {
    const table = circuitSheet(openFrames(studioSetup()));
    expect(new Set(table.rows.map(([supply]) => supply))).toEqual(new Set(['120 V, 15 A', '230 V, 10 A']));
  });
});
