import { beforeAll, describe, expect, it } from 'vitest';
import { createCheckInput } from '../../../src/analysis/checkInput.ts';
import type { CheckInput } from '../../../src/analysis/contracts.ts';
import { createFrameStudy } from '../../../src/analysis/frameStudy.ts';
import { csvFromTable } from '../../../src/deliverables/sheets/csv.ts';
import { fixtureSchedule, gripSchedule } from '../../../src/deliverables/sheets/fixtureSchedule.ts';
import { lightByLightSheet, meterSheet } from '../../../src/deliverables/sheets/meterSheet.ts';
import { type PredictedReading, predictReadings } from '../../../src/deliverables/sheets/predictedReadings.ts';
import { columnHead, type Table } from '../../../src/deliverables/sheets/table.ts';
import { validateSetup } from '../../../src/document/validate.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { readCsv } from '../helpers/readCsv.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const setup = studioSetup();
const frameSet = openFrame(setup);

/** Rows of a table as they stand in its CSV file, by head. */
function rowsOf(table: Table): Record<string, string>[] {
  const [heads, ...rows] = readCsv(csvFromTable(table));
  expect(heads).toEqual(table.columns.filter(({ blank }) => !blank).map(columnHead));
  return rows.map((row) => {
    expect(row).toHaveLength(heads.length);
    return Object.fromEntries(row.map((field, i) => [heads[i], field]));
  });
}

describe('sheets of one frame', () => {
  let input: CheckInput;
  let readings: PredictedReading[];
  beforeAll(() => {
    input = createCheckInput(frameSet.scene);
    readings = predictReadings(input);
  });

  it('schedules every light to the millimetre, with level 2^stops and its mains', () => {
    const rows = rowsOf(fixtureSchedule(frameSet, readings));
    expect(rows).toHaveLength(6);
    // Top light: 0.151 - 0.012 right, -0.246 + 0.007 front; looks from (0.151, 1.037, -0.246) at (0, 0.06, -0.1).
    const tilt = (Math.atan2(1.037 - 0.06, Math.hypot(0.151, 0.146)) * 180) / Math.PI;
    expect(rows[1]).toMatchObject({
      'No.': '2',
      Light: 'Top light',
      'Right +, left \u2212 (mm)': '139',
      'Front +, back \u2212 (mm)': '-239',
      'Over table (mm)': '1037',
      'Over floor (mm)': '1799',
      'Aim over table (mm)': '60',
      'Tilt down (\u00b0)': tilt.toFixed(0),
      'Dimmer (stops)': '-1.5',
      // 2^-1.5 = 0.3536.
      'Level (%)': '35',
      'Mains (W)': '90',
    });
    expect(rows[1]['On it']).toContain('honeycomb');
  });

  it('schedules grip with roll and height', () => {
    const rows = rowsOf(gripSchedule(frameSet));
    expect(rows.map(({ Mark }) => Mark)).toEqual(['A', 'B', 'C', 'D']);
    expect(rows[3]).toMatchObject({ Item: 'Backdrop cutter', 'Over table (mm)': '800', 'Roll (\u00b0)': '15' });
  });

  it('adds the lights alone up to all lights at every point', () => {
    expect(readings.length).toBeGreaterThanOrEqual(12);
    for (const { totalLux, fixtureLux } of readings) {
      const sum = fixtureLux.reduce((total, lux) => total + lux, 0);
      expect(Math.abs(sum - totalLux)).toBeLessThan(1e-6 * totalLux + 1e-9);
    }
  });

  it('gives each light the same reading when the others are off', () => {
    const key = { ...setup, fixtures: setup.fixtures.map((f, i) => ({ ...f, on: i === 0 })) };
    const alone = predictReadings(createCheckInput(openFrame(key).scene));
    for (const [i, { totalLux }] of alone.entries()) expect(totalLux).toBeCloseTo(readings[i].fixtureLux[0], 6);
  });

  it('reads on the dome what the checks read', () => {
    const { dome } = createFrameStudy(input).meter();
    // The checks share shadow rays between receptors, so their quadrature may stop one step later.
    expect(readings[0].totalLux / dome.totalLux).toBeCloseTo(1, 2);
  });

  it('prints stops that follow from lux: EV = log2(100 E / C), N^2 = E S t / C', () => {
    const rows = rowsOf(meterSheet(frameSet, readings));
    for (const [i, row] of rows.entries()) {
      const { totalLux, point } = readings[i];
      const c = point.receptor.type === 'dome' ? 340 : 250;
      expect(row['Target (lx)']).toBe(totalLux.toFixed(0));
      expect(row['EV at ISO 100']).toBe(Math.log2((100 * totalLux) / c).toFixed(1));
      const stop = /^f\/([\d.]+)(?: ([+-][\d.]+))?$/.exec(row.Stop);
      const marked = 2 ** (Math.round(6 * Math.log2(Number(stop?.[1]))) / 6);
      const printed = marked * 2 ** (Number(stop?.[2] ?? 0) / 2);
      // Printed to a tenth of a stop.
      expect(Math.abs(2 * Math.log2(printed / Math.sqrt((totalLux * 200 * 0.02) / c)))).toBeLessThanOrEqual(0.0501);
    }
    expect(rows[0]['From subject (stops)']).toBe('0.0');
  });

  it('holds the meter on base and backdrop where they are: on the paper sweep, three by three over the frame', () => {
    const backdrop = readings.filter(({ point }) => point.id.startsWith('backdrop-'));
    expect(backdrop).toHaveLength(9);
    for (const { point } of backdrop) {
      // The sweep's upright part stands at z = 0.45 - 0.85 - 0.25 = -0.65, the cove before it.
      expect(point.pointM[2]).toBeGreaterThan(-0.66);
      expect(point.pointM[2]).toBeLessThan(-0.4);
      if (point.receptor.type === 'plane') expect(point.receptor.normal[2]).toBeGreaterThan(0.7);
    }
    for (const { point } of readings.filter(({ point: p }) => p.id.startsWith('base-'))) {
      expect(point.pointM[1]).toBeGreaterThan(0);
      expect(point.pointM[1]).toBeLessThan(0.07);
    }
  });

  it('lists only lights that are on, each alone', () => {
    const dark = { ...setup, fixtures: setup.fixtures.map((f, i) => ({ ...f, on: i < 2 })) };
    const frame = openFrame(dark);
    const table = lightByLightSheet(frame, predictReadings(createCheckInput(frame.scene)));
    expect(new Set(rowsOf(table).map(({ Light }) => Light))).toEqual(new Set(['1  Key', '2  Top light']));
  });
});

describe('a bulb alone', () => {
  it('reads E = I / d^2: 806 lm all round is 64.14 cd, 64.1 lx flat at 1 m, 16.0 lx at 2 m', () => {
    // Isotropic: I = 806 / (4 pi) = 64.14 cd; a ball of 6 cm is a point to 0.1 % from 1 m on.
    for (const [distanceM, lux] of [
      [1, 64.14],
      [2, 16.03],
    ]) {
      const made = validateSetup({
        format: 'keyglass-setup',
        formatVersion: 1,
        title: 'Bulb',
        subject: { pieceId: 'piece:card', meterPointM: [0, 0.5, 0] },
        pieces: [
          {
            kind: 'tabletop',
            id: 'piece:card',
            name: 'Card',
            positionM: [0, -0.5, 0],
            widthM: 0.1,
            depthM: 0.1,
            finish: { type: 'matte', reflectanceRgb: [0, 0, 0] },
          },
        ],
        fixtures: [
          {
            kind: 'bulb',
            id: 'fixture:bulb',
            name: 'Bulb',
            positionM: [0, 0.5, distanceM],
            aimM: [0, 0.5, 0],
            output: { unit: 'lumens', value: 806 },
          },
        ],
        frames: [
          {
            id: 'frame:1',
            name: 'One',
            camera: {
              positionM: [0, 0.5, 3],
              aimM: [0, 0.5, 0],
              focalLengthMm: 85,
              focusDistanceM: 3,
              apertureFNumber: 8,
              shutterS: 0.02,
              iso: 100,
            },
          },
        ],
      });
      if (!made.ok) throw new Error(made.error[0]?.message);
      const readings = predictReadings(createCheckInput(openFrame(made.value).scene));
      const flat = readings.find(({ point }) => point.id === 'subject-flat');
      expect((flat?.totalLux ?? 0) / lux).toBeCloseTo(1, 2);
    }
  });
});
