import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/contracts.ts';
import { buildOrder } from '../../../src/deliverables/sheets/buildOrder.ts';
import { cautions } from '../../../src/deliverables/sheets/cautions.ts';
import { csvFromTable } from '../../../src/deliverables/sheets/csv.ts';
import { findingsSheet } from '../../../src/deliverables/sheets/findingsSheet.ts';
import { frameChanges } from '../../../src/deliverables/sheets/frameChanges.ts';
import { kitList } from '../../../src/deliverables/sheets/kitList.ts';
import { powerSheet } from '../../../src/deliverables/sheets/powerSheet.ts';
import { shotList } from '../../../src/deliverables/sheets/shotList.ts';
import { supportSheet } from '../../../src/deliverables/sheets/supportSheet.ts';
import type { Cell, Table } from '../../../src/deliverables/sheets/table.ts';
import { hostileSetup } from '../helpers/hostile.ts';
import { openFrames, openPapers } from '../helpers/openFrames.ts';
import { readCsv } from '../helpers/readCsv.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const setup = studioSetup();
const frames = openFrames(setup);
const column = (table: Table, title: string): Cell[] => {
  const at = table.columns.findIndex((c) => c.title === title);
  return table.rows.map((row) => row[at]);
};
const text = (table: Table): string => table.rows.flat().join('\n');

describe('kitList', () => {
  const table = kitList(frames);
  const row = (what: string): readonly Cell[] | undefined =>
    table.rows.find((cells) => String(cells[2]).startsWith(what));

  it('counts every light, sheet, stand, arm, boom, clamp and cable', () => {
    const quantityOf = (group: string): number =>
      table.rows.filter(([g]) => g === group).reduce((sum, [, n]) => sum + Number(n), 0);
    expect(quantityOf('Lights')).toBe(6);
    expect(quantityOf('Flags, cards, cloths')).toBe(4);
    expect(quantityOf('Clamps')).toBe(4);
    // Nine stand (the fill card stands on the table), one of them with a boom; five reach by arm.
    expect(quantityOf('Stands and arms')).toBe(9 + 1 + 5);
    expect(row('Boom')?.[1]).toBe(1);
    expect(row('Grip head')?.[1]).toBe(5);
    expect(row('Mains cable')?.[1]).toBe(6);
  });

  it('asks for as many bags as the stands sheet, and for its counterweight', () => {
    const bags = column(supportSheet(frames), 'Bags of 7 kg').reduce((sum: number, n) => sum + Number(n), 0);
    expect(row('Sandbag 7 kg')?.[1]).toBe(bags);
    expect(String(row('Counterweight')?.[2])).toContain('600 mm behind the pivot');
  });

  it('puts equal things on one line with their marks', () => {
    const twice = structuredClone(setup);
    twice.fixtures[5] = { ...twice.fixtures[1], id: 'fixture:second', name: 'Second' };
    const two = kitList(openFrames(twice)).rows.find((cells) => cells[2] === 'LED panel 60 x 30 cm');
    expect(two).toEqual(['Lights', 2, 'LED panel 60 x 30 cm', '2, 6']);
  });

  it('lists what any frame needs once, also when another frame hides it', () => {
    expect(table.rows.filter((cells) => cells[2] === 'White bounce card 20 x 30 cm')).toHaveLength(1);
    expect(row('Matte box')?.[3]).toBe('Rotating close-up');
  });
});

describe('powerSheet', () => {
  it('adds up 459 W, 4.25 A at 120 V and 2.22 A at 230 V at power factor 0.9', () => {
    const table = powerSheet(frames);
    const total = table.rows[table.rows.length - 1];
    expect(total[2]).toBe(150 + 90 + 150 + 15 + 9 + 45);
    expect(Number(total[3])).toBeCloseTo(459 / (120 * 0.9), 9);
    expect(Number(total[4])).toBeCloseTo(459 / (230 * 0.9), 9);
    expect(table.notes.join(' ')).toContain('NEC 210.20(A)');
    expect(table.notes.join(' ')).toContain('licensed people decide');
  });

  it('says which lights state no watts', () => {
    const silent = structuredClone(setup);
    delete silent.fixtures[2].powerW;
    expect(powerSheet(openFrames(silent)).notes.join(' ')).toContain('not counted: 3.');
  });

  it('puts the circuits of the location first', () => {
    const table = powerSheet(
      openFrames({ ...setup, room: { temperatureC: 22, drinkC: 6, mainsV: 100, mainsHz: 50, circuitA: 15 } }),
    );
    expect(table.columns[5].title).toBe('Circuit, 100 V, 15 A');
  });
});

describe('shotList', () => {
  it('gives lens, stop, shutter, focus and sharp depth of each frame', () => {
    const table = shotList(frames);
    expect(column(table, 'Frame')).toEqual(['Wide', 'Rotating close-up']);
    expect(column(table, 'Stop')).toEqual(['f/11', 'f/8']);
    expect(column(table, 'Shutter')).toEqual(['1/50 s', '1/48 s']);
    // Wide: f 85, N 11, c = 43.267 / 1500 = 0.028844 mm, s 1409: H = 85^2 / (11 x 0.028844) + 85 = 22856 mm;
    // near = s (H - f) / (H + s - 2f) = 1332, far = s (H - f) / (H - s) = 1496.
    expect(column(table, 'Sharp from, to (mm)')[0]).toBe('1332, 1496');
  });

  it('tells blur and run-out of the turn, and what changes from the frame before', () => {
    const [, note] = column(shotList(frames), 'To note').map(String);
    // m = 100 / (861 - 100) = 0.13141; 0.13141 x 3840 / 0.036 = 14017 px/m. Run-out 0.4 mm each way: 11.2 px.
    // The glass turns 0.4 mm off the axis at 6 rpm, 35.4 mm at its widest: v = 2 pi 0.0354 / 10 = 22.24 mm/s, / 48 s.
    expect(note).toMatch(/^Turn at 6 rpm: blur 6\.5 px, run-out 11\.2 px at 3840 px across\./);
    expect(note).toContain('Take out A Fill card.');
    expect(note).toContain('Set 1 Key to 1 stop under full.');
    // 100 Hz ripple, 1/48 s: |sinc(100 / 48)| = 4.0 %, under what is worth a note; at 60 Hz 12.7 %.
    expect(note).not.toContain('Hz mains');
    const sixty = openFrames({
      ...setup,
      room: { temperatureC: 22, drinkC: 6, mainsV: 120, mainsHz: 60, circuitA: 15 },
    });
    expect(String(column(shotList(sixty), 'To note')[1])).toContain('At 60 Hz mains 13 %');
  });
});

describe('buildOrder', () => {
  const papers = openPapers(setup);
  const table = buildOrder(
    frames,
    papers.map(({ readings }) => readings),
  );

  it('goes from table to hero and then by frame, steps numbered through', () => {
    const stages = [...new Set(column(table, 'Stage'))];
    expect(stages).toEqual([
      'Set',
      'Camera',
      'Lights',
      'Flags, cards, cloths',
      'Check',
      'Hero',
      'Then Rotating close-up',
    ]);
    expect(column(table, 'Step')).toEqual(table.rows.map((_, i) => i + 1));
  });

  it('puts the light first that does most for the subject', () => {
    const lights = table.rows.filter(([, stage]) => stage === 'Lights').map(([, , what]) => String(what)[0]);
    const dome = papers[0].readings[0].fixtureLux;
    const byLux = dome.map((lux, i) => ({ lux, mark: String(i + 1) })).sort((a, b) => b.lux - a.lux);
    expect(lights).toEqual(byLux.map(({ mark }) => mark));
  });

  it('speaks of hero time only where the figure is given', () => {
    expect(text(table)).not.toContain('ice goes');
    const timed = buildOrder(frames, [], { heroTime: { shortestS: 240, likelyS: 420, longestS: 660, iceG: 80 } });
    expect(text(timed)).toContain('about 7 min before the ice goes (an estimate, 4 to 11)');
  });
});

describe('frameChanges', () => {
  it('says nothing between a frame and itself', () => {
    expect(frameChanges(frames[0], frames[0])).toEqual([]);
  });

  it('says where a light moves to, in the figures of the plan', () => {
    const moved = structuredClone(setup);
    moved.frames[1].overrides = [
      { collection: 'fixtures', id: 'fixture:rim', patch: { positionM: [0.512, 0.655, -0.612], cctK: 4300 } },
    ];
    const changes = frameChanges(...(openFrames(moved) as [(typeof frames)[0], (typeof frames)[0]]));
    expect(changes).toContain('Move 3 Rim to 500 right, 605 back, 655 over the table.');
    expect(changes).toContain('Set 3 Rim to 4300 K.');
  });
});

describe('cautions', () => {
  const table = cautions(frames);

  it('covers overhead, booms, stands, heat, power, water, glass and the turntable with the figures of the set', () => {
    expect([...new Set(column(table, 'Topic'))]).toEqual([
      'Overhead',
      'Boom',
      'Stands',
      'Heat',
      'Power',
      'Water and mains',
      'Glass',
      'Turntable',
    ]);
    expect(text(table)).toContain('459 W stated in all');
    expect(text(table)).toContain('2 Top light: 3.5 kg at 504 mm needs');
    expect(text(table)).toContain('Liquid on set: Iced tea.');
  });

  it('leaves the decision to local codes and licensed people', () => {
    expect(table.notes.join(' ')).toMatch(/Local codes.*licensed.*come first/);
  });
});

describe('findingsSheet', () => {
  it('writes a line for each finding of each frame', () => {
    const finding: Finding = {
      id: 'flare:x',
      check: 'flare',
      grade: 'care',
      subject: 'fixture:rim',
      value: 0.1234567,
      unit: 'share of the front element',
      limit: 0.05,
      summary: 'Rim reaches the lens, past "B".',
      where: { frame: { u: 1.2, v: 0.1, widthU: 0, heightV: 0 } },
      remedies: [{ label: 'Lower the flag', changes: [] }],
    };
    const [, first, second] = readCsv(csvFromTable(findingsSheet(frames, [[finding], [finding]])));
    expect(first).toEqual([
      'Wide',
      'care',
      'flare',
      'Rim',
      '0.1235',
      '0.0500',
      'share of the front element',
      'Rim reaches the lens, past "B".',
      'Lower the flag',
      '1.200',
      '0.100',
      'flare:x',
    ]);
    expect(second[0]).toBe('Rotating close-up');
  });
});

describe('hostile names', () => {
  it('come back from every CSV file as they are, none of them a formula', () => {
    const hostile = openPapers(hostileSetup());
    const sets = hostile.map(({ frameSet }) => frameSet);
    const tables = [
      kitList(sets),
      supportSheet(sets),
      powerSheet(sets),
      shotList(sets),
      cautions(sets),
      buildOrder(sets, []),
    ];
    for (const table of tables) {
      const [heads, ...rows] = readCsv(csvFromTable(table));
      expect(rows).toHaveLength(table.rows.length);
      for (const fields of rows) {
        expect(fields).toHaveLength(heads.length);
        for (const field of fields) if (!/^-?[\d.]+$/.test(field)) expect(field).not.toMatch(/^[=+\-@]/);
      }
    }
  });
});
