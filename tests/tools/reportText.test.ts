import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/analysis/contracts.ts';
import { figureLines } from '../../tools/cli/figureLines.ts';
import { findingLines, showNumber } from '../../tools/cli/findingsTable.ts';

const nameOf = (id: string): string => (id === 'fixture:back' ? 'Back panel' : id);

describe('the report in text', () => {
  it('sets findings in columns, shares in percent, the sentence broken at 110 letters and the first remedy', () => {
    const finding: Finding = {
      id: 'a',
      check: 'flare',
      grade: 'stop',
      subject: 'fixture:back',
      value: 0.625,
      unit: 'share of the front element',
      limit: 0.5,
      summary: `Back panel ${'lights it '.repeat(12)}twice.`,
      where: {},
      remedies: [
        { label: 'Add a flag', changes: [] },
        { label: 'Turn it away', changes: [] },
      ],
    };
    const lines = findingLines([finding, { ...finding, grade: 'note', limit: null, value: 0, remedies: [] }], nameOf);
    expect(lines[0]).toBe('grade  check  subject     figure                       limit');
    expect(lines[1]).toBe('stop   flare  Back panel  62.5 % of the front element  50 % of the front element');
    expect(lines[2].length).toBeLessThanOrEqual(110);
    expect(lines[4]).toBe('  Remedy: Add a flag');
    expect(lines[5]).toBe('note   flare  Back panel  0 % of the front element');
    expect(lines).toHaveLength(8);
    expect(findingLines([], nameOf)).toEqual(['No findings.']);
  });

  it('takes the unit of a figure from its name or its group, and calls records by name', () => {
    const figures = {
      flare: { frontElementLux: { 'fixture:back': 209.4 }, veilNits: 1.456 },
      exposure: {
        incidentDome: { lux: 569.2, ev100: 7.39, fNumber: 3.66, marked: 'f/3.5' },
        clippedShare: 0.0694,
        fixtureShares: [{ fixtureId: 'fixture:back', name: 'Back panel', share: 0.44 }],
        keyToFillStops: null,
      },
    };
    expect(figureLines(figures, nameOf)).toEqual([
      '',
      'flare',
      '  front element, Back panel  209 lx',
      '  veil                       1.46 cd/m2',
      '',
      'exposure',
      '  incident dome               569 lx',
      '  incident dome               EV100 7.39',
      '  incident dome               f/3.66',
      '  incident dome, marked       f/3.5',
      '  clipped                     6.94 %',
      '  fixture shares, Back panel  44 %',
      '  key to fill                 none',
    ]);
  });

  it('knows the units of every check: px per mm is no length, a place is in percent of the frame, a name is no figure', () => {
    const figures = {
      turntable: { rpm: 2, pxPerMm: 12.75, wobblePx: 1.2, safeShutterAngles: [172.8, 345.6] },
      heroTime: { likelyMin: 5.56, iceG: 57.4, assumed: { roomC: 22, heatTransferWPerM2K: { least: 5 } } },
      powerAndRigging: {
        mainsV: 230,
        totalPowerW: 219,
        currentA: 1.06,
        booms: [{ name: 'Sky', massKg: 4.31, momentNm: 19 }],
      },
      colourMix: { apartMired: 200, deltaE2000: 27.1, keyK: 2500, key: 'Lantern' },
      background: { hotSpotUv: [0.5, 0.478], tipPenumbraM: null },
      shadowMakers: {},
    };
    expect(figureLines(figures, nameOf)).toEqual([
      '',
      'turntable',
      '  rpm                  2 rpm',
      '  px per mm            12.8 px per mm',
      '  wobble               1.2 px',
      '  safe shutter angles  173, 346',
      '',
      'heroTime',
      '  likely                         5.56 min',
      '  ice                            57.4 g',
      '  assumed, room                  22 degrees C',
      '  assumed, heat transfer, least  5 W/m2 K',
      '',
      'powerAndRigging',
      '  mains               230 V',
      '  total power         219 W',
      '  current             1.06 A',
      '  booms, Sky, mass    4.31 kg',
      '  booms, Sky, moment  19 N m',
      '',
      'colourMix',
      '  apart        200 mired',
      '  delta e2000  dE2000 27.1',
      '  key          2500 K',
      '  key          Lantern',
      '',
      'background',
      '  hot spot      50 %, 47.8 %',
      '  tip penumbra  none',
      '',
      'shadowMakers',
      '  nothing to measure',
    ]);
  });

  it('writes three significant digits and whole thousands', () => {
    expect([0, 0.012345, 12.345, 1234.5, -2.449].map(showNumber)).toEqual(['0', '0.0123', '12.3', '1235', '-2.45']);
  });
});
