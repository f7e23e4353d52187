import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pointInFamily } from '../../../src/analysis/family/familyOfAngles.ts';
import { rayThrough } from '../../../src/camera/projection.ts';
import { PAPER_SIZES } from '../../../src/deliverables/paper/paperSize.ts';
import { drawingSheets } from '../../../src/deliverables/plan/drawingSheets.ts';
import { familiesOf, familyOutlineM } from '../../../src/deliverables/plan/familyMarks.ts';
import { projectToSheet } from '../../../src/deliverables/plan/projectToSheet.ts';
import { parseSetup } from '../../../src/document/codec.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const DEMO = new URL('../../../assets/setups/tonic-on-gloss-black.json', import.meta.url);
const opened = parseSetup(readFileSync(DEMO, 'utf8'));
if (!opened.ok) throw new Error(opened.error.message);
const frameSet = openFrame(opened.value.setup);

describe('family of angles on the drawings', () => {
  const [family] = familiesOf(frameSet);

  it('holds what the gloss base mirrors: the law of reflection on rays of the frame itself', () => {
    const { originM, direction } = rayThrough(frameSet.view, 0.5, 0.93);
    const top = family.mirror.pointM[1];
    const t = (top - originM[1]) / direction[1];
    expect(t).toBeGreaterThan(0);
    // Angle in equals angle out on a level mirror: the height turns round, the rest goes on.
    const at = (s: number) =>
      [originM[0] + direction[0] * (t + s), top - direction[1] * s, originM[2] + direction[2] * (t + s)] as const;
    for (const s of [0.2, 0.6, 1.2]) {
      expect(pointInFamily(family, at(s))).toBe(true);
      for (const side of ['plan', 'front', 'side'] as const) {
        expect(isInside(projectToSheet(side, at(s)), familyOutlineM(family, side))).toBe(true);
      }
    }
  });

  it('is drawn and named on all three sheets, and explained among the signs', () => {
    for (const { sheet } of drawingSheets(frameSet, { paper: PAPER_SIZES.a4, date: '2026-04-18' })) {
      expect(sheet.marks.some((mark) => mark.type === 'clip')).toBe(true);
      const texts = sheet.marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : []));
      expect(texts).toContain('Signs');
      expect(texts.some((text) => text.startsWith('mirrored to the lens'))).toBe(true);
    }
  });

  it('is left out where nothing in the frame mirrors', () => {
    const matte = openFrame(studioSetup());
    expect(familiesOf(matte)).toEqual([]);
    const [plan] = drawingSheets(matte, { paper: PAPER_SIZES.a4, date: '2026-04-18' });
    expect(plan.sheet.marks.some((mark) => mark.type === 'clip')).toBe(false);
  });
});

/** Even-odd rule. */
function isInside([u, v]: readonly [number, number], outline: readonly (readonly [number, number])[]): boolean {
  let inside = false;
  outline.forEach(([u0, v0], i) => {
    const [u1, v1] = outline[(i + 1) % outline.length];
    if (v0 > v !== v1 > v && u < u0 + ((v - v0) * (u1 - u0)) / (v1 - v0)) inside = !inside;
  });
  return inside;
}
