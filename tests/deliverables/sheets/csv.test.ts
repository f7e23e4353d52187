import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvFromRecords, csvFromTable } from '../../../src/deliverables/sheets/csv.ts';
import type { Table } from '../../../src/deliverables/sheets/table.ts';
import { HOSTILE_TEXTS } from '../helpers/hostile.ts';
import { readCsv } from '../helpers/readCsv.ts';

describe('CSV', () => {
  it('gives back any fields to a reader of RFC 4180', () => {
    fc.assert(
      fc.property(fc.array(fc.array(fc.string(), { minLength: 1, maxLength: 6 }), { maxLength: 8 }), (records) => {
        // A record of one empty field is an empty line, which the grammar can't tell from none before the end.
        const kept = records.filter((fields) => fields.length > 1 || fields[0] !== '');
        expect(readCsv(csvFromRecords(kept))).toEqual(kept);
      }),
      { seed: 11 },
    );
  });

  it('quotes quotes, commas and line breaks, and ends records in CR LF', () => {
    expect(csvFromRecords([['a', 'b,c', 'd"e', 'f\r\ng']])).toBe('a,"b,c","d""e","f\r\ng"\r\n');
  });

  it('writes heads with units, numbers with their decimals and nothing for what is not known', () => {
    const table: Table = {
      id: 't',
      title: 'T',
      columns: [
        { title: 'Name', share: 1 },
        { title: 'Height', unit: 'mm', share: 1 },
        { title: 'Level', unit: 'stops', digits: 1, share: 1 },
        { title: 'Read', share: 1, blank: true },
      ],
      rows: [
        ['Key', 728.4, -0.04, null],
        ['Rim', null, -1.26, null],
      ],
      notes: [],
    };
    expect(readCsv(csvFromTable(table))).toEqual([
      ['Name', 'Height (mm)', 'Level (stops)'],
      ['Key', '728', '0.0'],
      ['Rim', '', '-1.3'],
    ]);
  });

  it('keeps texts that a spreadsheet would run as formulas from running, and negative numbers as numbers', () => {
    const rows = HOSTILE_TEXTS.map((text) => [text, -3]);
    const table: Table = {
      id: 't',
      title: 'T',
      columns: [
        { title: 'Name', share: 1 },
        { title: 'n', share: 1 },
      ],
      rows,
      notes: [],
    };
    const [, ...read] = readCsv(csvFromTable(table));
    for (const [i, [name, n]] of read.entries()) {
      expect(name).not.toMatch(/^[=+\-@\t\r]/);
      expect(name.replace(/^'(?=[=@])/, '')).toBe(HOSTILE_TEXTS[i]);
      expect(n).toBe('-3');
    }
  });
});
