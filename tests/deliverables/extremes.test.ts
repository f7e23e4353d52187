import { validateBytes } from 'gltf-validator';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { writeGlb } from '../../src/deliverables/exchange/gltfFiles.ts';
import { gltfFromFrame } from '../../src/deliverables/exchange/gltfFromFrame.ts';
import { PAPER_SIZES } from '../../src/deliverables/paper/paperSize.ts';
import { frameTables, papersPdf, setupTables } from '../../src/deliverables/papers.ts';
import { drawingSheets } from '../../src/deliverables/plan/drawingSheets.ts';
import { emptySetup } from '../../src/document/defaults.ts';
import { LIST_LIMITS } from '../../src/document/setup.ts';
import { validateSetup } from '../../src/document/validate.ts';
import { openFrame, openPapers } from './helpers/openFrames.ts';
import { studioSetup } from './helpers/studioSetup.ts';

const options = { date: '2026-04-18', madeOn: new Date('2026-04-18T00:00:00Z') };

describe('a new setup: a glass on a table, no light', () => {
  const frames = openPapers(emptySetup());

  it('makes its papers, with no reading where there is no light', async () => {
    const pdf = await PDFDocument.load(await papersPdf(frames, 'a4', options));
    expect(pdf.getPageCount()).toBeGreaterThanOrEqual(3);
    const [schedule, meter, ...others] = frameTables(frames[0], options);
    expect(schedule.rows).toEqual([]);
    expect(meter.rows[0].slice(2, 6)).toEqual([0, null, 'no reading', null]);
    // No grip, and no light to be metered alone.
    expect(others).toEqual([]);
    expect(setupTables(frames, options).map(({ id }) => id)).toContain('kit-list');
  });

  it('says that the height of the table is not known', () => {
    const [plan] = drawingSheets(frames[0].frameSet, { ...options, paper: PAPER_SIZES.a4 });
    const words = plan.sheet.marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : []));
    expect(words).toContain('Height of the table is not known.');
    expect(words.some((text) => text.includes('over table,'))).toBe(true);
    expect(words.some((text) => text.includes('(floor'))).toBe(false);
  });

  it('is valid glTF without lights', async () => {
    const report = await validateBytes(writeGlb(gltfFromFrame(frames[0].frameSet)), { maxIssues: 20 });
    expect(report.issues.messages.filter(({ severity }) => severity <= 1)).toEqual([]);
    expect(report.info.extensionsUsed).not.toContain('KHR_lights_punctual');
  });
});

describe('the largest setup: 32 lights and 64 sheets of grip', () => {
  const base = studioSetup();
  const made = validateSetup({
    ...base,
    fixtures: Array.from({ length: LIST_LIMITS.fixtures }, (_, i) => ({
      ...base.fixtures[4],
      id: `fixture:${i}`,
      name: `Bulb ${i + 1} of very many with a long name`,
      positionM: [Math.cos(i) * (0.8 + 0.02 * i), 0.3 + 0.02 * i, Math.sin(i) * (0.8 + 0.02 * i)],
    })),
    grip: Array.from({ length: LIST_LIMITS.grip }, (_, i) => ({
      ...base.grip[1],
      id: `grip:${i}`,
      name: `Flag ${i + 1}`,
      positionM: [Math.cos(i) * 1.7, 0.2 + 0.01 * i, Math.sin(i) * 1.7],
      widthM: 0.1,
      heightM: 0.1,
    })),
    frames: [{ ...base.frames[0] }],
  });
  if (!made.ok) throw new Error(made.error[0]?.message);
  const setup = made.value;

  it('keeps every stated length, also where the list beside the plan is full', () => {
    const [plan] = drawingSheets(openFrame(setup), { ...options, paper: PAPER_SIZES.letter });
    const words = plan.sheet.marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : []));
    expect(words.some((text) => /^and \d+ more: see the fixture schedule$/.test(text))).toBe(true);
    const records = [...setup.fixtures, ...setup.grip];
    const [sx] = setup.subject.meterPointM;
    for (const { id, positionM } of records) {
      const stated = plan.stated.find((s) => s.recordId === id && s.measures === 'right');
      expect(stated?.lengthM).toBeCloseTo(positionM[0] - sx, 12);
    }
    // Every mark stands on the sheet.
    for (const mark of ['1', '32', 'A', 'Z', 'A2', 'R3']) expect(words).toContain(mark);
  });
});
