import { describe, expect, it } from 'vitest';
import type { LineMark, Mark, PointMm, TextMark } from '../../../src/deliverables/paper/marks.ts';
import { PAPER_SIZES } from '../../../src/deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../../src/deliverables/paper/svgFromSheet.ts';
import { DRAWING_SCALES } from '../../../src/deliverables/plan/drawingScale.ts';
import { type DrawingSheet, drawingSheets } from '../../../src/deliverables/plan/drawingSheets.ts';
import type { Setup } from '../../../src/document/setup.ts';
import { hostileSetup } from '../helpers/hostile.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { readMarkup } from '../helpers/readMarkup.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const A4 = { paper: PAPER_SIZES.a4, date: '2026-04-18' };
const setup = studioSetup();
const sheets = drawingSheets(openFrame(setup), A4);
const [plan, front, side] = sheets;

const textsOf = (marks: readonly Mark[]): TextMark[] => marks.filter((mark) => mark.type === 'text');
const linesOf = (marks: readonly Mark[]): LineMark[] => marks.filter((mark) => mark.type === 'line');
const distanceMm = (a: PointMm, b: PointMm): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Everything that stands on the set, straight from the setup. */
function standing({ fixtures, grip, frames }: Setup) {
  return [...fixtures, ...grip, { id: 'camera', ...frames[0].camera }];
}

describe('stated lengths', () => {
  const [sx, , sz] = setup.subject.meterPointM;

  it('gives every light, sheet and the camera its place to the millimetre on the plan', () => {
    const words = new Set(textsOf(plan.sheet.marks).map(({ text }) => text.replace(/^\S+ {2}/, '')));
    for (const { id, positionM } of standing(setup)) {
      const right = Math.round((positionM[0] - sx) * 1000);
      const frontOf = Math.round((positionM[2] - sz) * 1000);
      for (const [measures, mm] of [
        ['right', right],
        ['front', frontOf],
      ] as const) {
        const stated = plan.stated.find((s) => s.recordId === id && s.measures === measures);
        expect(stated?.words, `${id} ${measures}`).toBe(mm === 0 ? '0' : `${mm > 0 ? '+' : '\u2212'}${Math.abs(mm)}`);
        expect(words.has(stated?.words ?? ''), `${id} ${measures} is set on the sheet`).toBe(true);
      }
    }
  });

  it('gives every height over the table to the millimetre on both elevations', () => {
    for (const sheet of [front, side]) {
      for (const { id, positionM } of standing(setup)) {
        const stated = sheet.stated.find((s) => s.recordId === id && s.measures === 'height');
        expect(stated?.words, id).toBe(`+${Math.round(positionM[1] * 1000)}`);
      }
    }
  });

  it('draws each tape line as long on paper as its figure says at the scale', () => {
    const { view, denominator } = plan;
    const subject = view.toPaper([sx, sz]);
    const tapes = plan.stated.filter(({ measures }) => measures === 'level distance');
    expect(tapes.map(({ recordId }) => recordId).sort()).toEqual(
      ['camera', ...setup.fixtures.map(({ id }) => id)].sort(),
    );
    for (const { recordId, words } of tapes) {
      const record = standing(setup).find(({ id }) => id === recordId);
      const levelM = Math.hypot((record?.positionM[0] ?? 0) - sx, (record?.positionM[2] ?? 0) - sz);
      expect(words).toBe(String(Math.round(levelM * 1000)));
      // The line starts at the subject, is broken for its figure, and ends at the light.
      const end = view.toPaper([record?.positionM[0] ?? 0, record?.positionM[2] ?? 0]);
      const starts = linesOf(plan.sheet.marks).some(({ pointsMm }) => distanceMm(pointsMm[0], subject) < 1e-6);
      const ends = linesOf(plan.sheet.marks).some(
        ({ pointsMm }) => distanceMm(pointsMm[pointsMm.length - 1], end) < 1e-6,
      );
      expect([starts, ends]).toEqual([true, true]);
      expect(distanceMm(subject, end) * denominator).toBeCloseTo(levelM * 1000, 6);
    }
  });

  it('says in the list how high, how far and how far down each light looks', () => {
    const all = textsOf(plan.sheet.marks).map(({ text }) => text);
    // Key: 0.925 left and 0.398 in front of the meter point; level distance 1.007; down from 0.728 to 0.081 over 1.007.
    expect(all).toContain('1007 level from subject: 925 left, 398 front');
    expect(all).toContain('728 over table (floor 1490), aims at 81, 33\u00b0 down');
    expect((Math.atan2(0.728 - 0.081, Math.hypot(0.925, 0.398)) * 180) / Math.PI).toBeCloseTo(32.7, 1);
    expect(all).toContain('Floor 762 under the table top (foot of Scenery flat).');
  });

  it('takes a stated table height for the floor', () => {
    const [withHeight] = drawingSheets(openFrame(setup), { ...A4, tableHeightM: 0.91 });
    const all = textsOf(withHeight.sheet.marks).map(({ text }) => text);
    expect(all).toContain('728 over table (floor 1638), aims at 81, 33\u00b0 down');
  });

  it('leaves out what a frame hides and keeps every mark the same', () => {
    const [turnPlan] = drawingSheets(openFrame(setup, 1), A4);
    const marksOf = ({ sheet }: DrawingSheet) =>
      textsOf(sheet.marks)
        .map(({ text }) => text)
        .filter((text) => /^[A-D1-6]$/.test(text));
    expect(new Set(marksOf(turnPlan))).toEqual(new Set(['1', '2', '3', '4', '5', '6', 'B', 'C', 'D']));
    expect(turnPlan.stated.some(({ recordId }) => recordId === 'grip:card')).toBe(false);
  });
});

describe('scale', () => {
  it('draws all three sheets at one usual scale, the largest that fits', () => {
    expect(new Set(sheets.map(({ denominator }) => denominator)).size).toBe(1);
    const scales: readonly number[] = DRAWING_SCALES;
    const at = scales.indexOf(plan.denominator);
    expect(at).toBeGreaterThan(0);
    // Its content fits; one scale larger it would not, in width or height, on some sheet.
    const fitsAt = (denominator: number): boolean =>
      sheets.every((sheet) => {
        const size = contentMm(sheet);
        const grown = plan.denominator / denominator;
        return size.width * grown <= 297 - 98 - 28 + 1e-6 && size.height * grown <= 210 - 16 - 37 + 1e-6;
      });
    expect(fitsAt(plan.denominator)).toBe(true);
    expect(fitsAt(scales[at - 1])).toBe(false);
  });

  it('prints a bar whose parts are as long as their figures say', () => {
    const boxes = linesOf(plan.sheet.marks).filter(
      ({ fill, closed, stroke }) => closed && stroke && (fill === 0 || fill === 1),
    );
    const bar = boxes.filter(({ pointsMm }) => Math.abs(pointsMm[2][1] - pointsMm[0][1] - 1.6) < 1e-9);
    expect(bar.length).toBe(5);
    const whole = bar[bar.length - 1].pointsMm[1][0] - bar[0].pointsMm[0][0];
    const figures = textsOf(plan.sheet.marks).map(({ text }) => text);
    expect(figures).toEqual(expect.arrayContaining(['0', '0.2', '0.4', '0.6', '0.8', '1 m']));
    expect((whole * plan.denominator) / 1000).toBeCloseTo(1, 9);
    expect(bar.map(({ fill }) => fill)).toEqual([0, 1, 0, 1, 0]);
  });

  it('places a light on the drawing where its outline is centred', () => {
    // The bulb is a circle of 6 cm round its position on every sheet: three circles, all 60 / scale mm wide.
    const [x, y, z] = setup.fixtures[4].positionM;
    for (const [sheet, centreM] of [
      [plan, [x, z]],
      [front, [x, -y]],
      [side, [-z, -y]],
    ] as const) {
      const centre = sheet.view.toPaper(centreM);
      const circle = linesOf(sheet.sheet.marks).find(
        ({ closed, pointsMm }) =>
          closed &&
          pointsMm.length > 20 &&
          pointsMm.every((p) => Math.abs(distanceMm(p, centre) - 30 / sheet.denominator) < 0.02),
      );
      expect(circle, sheet.side).toBeDefined();
    }
  });

  it('keeps everything inside the paper, A4 and Letter, both on their side', () => {
    for (const paper of [PAPER_SIZES.a4, PAPER_SIZES.letter]) {
      for (const { sheet } of drawingSheets(openFrame(setup), { ...A4, paper })) {
        expect([sheet.widthMm, sheet.heightMm]).toEqual([paper.heightMm, paper.widthMm]);
        for (const mark of sheet.marks) {
          const points = mark.type === 'line' ? mark.pointsMm : mark.type === 'text' ? [mark.atMm] : [];
          for (const [px, py] of points) {
            expect(px).toBeGreaterThanOrEqual(0);
            expect(px).toBeLessThanOrEqual(sheet.widthMm);
            expect(py).toBeGreaterThanOrEqual(0);
            expect(py).toBeLessThanOrEqual(sheet.heightMm);
          }
        }
      }
    }
  });
});

describe('SVG', () => {
  it('is well-formed, at full size, with no colour but greys', () => {
    const svg = svgFromSheet(plan.sheet);
    const { tags } = readMarkup(svg);
    expect(tags[0].name).toBe('svg');
    expect(tags[0].attributes.get('width')).toBe('297mm');
    expect(tags[0].attributes.get('viewBox')).toBe('0 0 297 210');
    for (const [, r, g, b] of svg.matchAll(/#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\b/g))
      expect([g, b]).toEqual([r, r]);
  });

  it('shows hostile names as text and runs none of them', () => {
    for (const { sheet } of drawingSheets(openFrame(hostileSetup()), A4)) {
      const { tags, text } = readMarkup(svgFromSheet(sheet));
      expect(new Set(tags.map(({ name }) => name))).toEqual(
        new Set(['svg', 'title', 'rect', 'path', 'circle', 'text']),
      );
      for (const { attributes } of tags) for (const name of attributes.keys()) expect(name).not.toMatch(/^on|href/i);
      expect(text).toContain('alert(1)');
    }
  });

  it('says the same every time', () => {
    const again = drawingSheets(openFrame(studioSetup()), A4);
    expect(svgFromSheet(again[2].sheet)).toBe(svgFromSheet(side.sheet));
  });
});

function contentMm({ sheet, view, side: from }: DrawingSheet) {
  const frameSet = openFrame(setup);
  const project = (x: number, y: number, z: number) =>
    view.toPaper(from === 'plan' ? [x, z] : from === 'front' ? [x, -y] : [-z, -y]);
  const points = [...frameSet.set.boundsByRecord].flatMap(([, { minM, maxM }]) => [project(...minM), project(...maxM)]);
  points.push(project(...frameSet.scene.camera.positionM));
  const xs = points.map(([px]) => px);
  const ys = points.map(([, py]) => py);
  expect(sheet.marks.length).toBeGreaterThan(50);
  // The camera's body reaches a little farther than its lens.
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
}
