import { cornerRays, type FamilyOfAngles, familiesOfAngles } from '../../analysis/family/familyOfAngles.ts';
import { convexHull, type DrawingSide } from '../../scene/outline.ts';
import { compileWorld } from '../../transport/compile/compileWorld.ts';
import { createRayQuery } from '../../transport/cpu/rayQuery.ts';
import type { FrameSet } from '../frameSet.ts';
import type { ClipMark, Mark, PointMm } from '../paper/marks.ts';
import { textWidthMm } from '../paper/typeset.ts';
import type { Box } from './boxes.ts';
import { clearedText } from './clearedText.ts';
import type { PaperView } from './drawingScale.ts';
import { projectToSheet } from './projectToSheet.ts';
import type { TakenBoxes } from './takenBoxes.ts';

/** Faces that are drawn, largest in the frame first: more would hide one another. */
const MOST_FAMILIES = 1;
/** How far beyond the surface; the edge of the drawing cuts it. */
const REACH_M = 4;
export const FAMILY_LOOK = { fill: 0.93, stroke: { widthMm: 0.1, dashMm: [1.2, 0.8], grey: 0.45 } } as const;
const NAME_PT = 5.8;

/** What the largest mirror-like faces mirror into the frame; empty where there is none. */
export const familiesOf = ({ scene, set, view }: FrameSet): FamilyOfAngles[] =>
  familiesOfAngles({ scene, set, view, query: createRayQuery(compileWorld(set)) }).slice(0, MOST_FAMILIES);

/**
 * The region as it falls on one sheet: the outline of the whole of it, so that what stands outside on any one of the three
 * sheets shows in the surface on none. Drawn under everything else, cut at the edge of the drawing.
 */
export function drawFamilies(
  families: readonly FamilyOfAngles[],
  side: DrawingSide,
  view: PaperView,
  extent: Box,
): Mark[] {
  if (families.length === 0) return [];
  const clip: ClipMark = {
    type: 'clip',
    cornerMm: [extent.x0, extent.y0],
    widthMm: extent.x1 - extent.x0,
    heightMm: extent.y1 - extent.y0,
    marks: families.map((family) => ({
      type: 'line',
      pointsMm: familyOutlineM(family, side).map(view.toPaper),
      closed: true,
      ...FAMILY_LOOK,
    })),
  };
  return [clip];
}

/** Corners of the region on a sheet, metres. */
export const familyOutlineM = (family: FamilyOfAngles, side: DrawingSide) =>
  convexHull(cornerRays(family, REACH_M).flatMap((ray) => ray.map((p) => projectToSheet(side, p))));

/** 'mirrored by Gloss base' where it covers least, inside the region. */
export function nameFamilies(
  families: readonly FamilyOfAngles[],
  frameSet: FrameSet,
  place: { readonly side: DrawingSide; readonly view: PaperView; readonly extent: Box; readonly taken: TakenBoxes },
): Mark[] {
  const { side, view, extent, taken } = place;
  return families.flatMap((family): Mark[] => {
    const words = `mirrored by ${nameOf(frameSet, family.recordId)}`;
    const halfMm = textWidthMm(words, NAME_PT) / 2 + 0.6;
    const spot = middlesOf(family, side, view).find(([x, y]) => {
      const box = boxAt([x, y], halfMm);
      const inside = box.x0 > extent.x0 && box.x1 < extent.x1 && box.y0 > extent.y0 && box.y1 < extent.y1;
      return inside && taken.isFree(box, 0.2);
    });
    if (!spot) return [];
    taken.add(boxAt(spot, halfMm));
    return clearedText(spot, words, NAME_PT, { grey: 0.2 });
  });
}

/** Along the middle of the region, from far to near. */
function middlesOf(family: FamilyOfAngles, side: DrawingSide, view: PaperView): PointMm[] {
  const rays = cornerRays(family, REACH_M);
  const mean = (points: readonly (readonly [number, number])[]): PointMm => [
    points.reduce((sum, [u]) => sum + u, 0) / points.length,
    points.reduce((sum, [, v]) => sum + v, 0) / points.length,
  ];
  const [near, far] = [0, 1].map((end) => mean(rays.map((ray) => view.toPaper(projectToSheet(side, ray[end])))));
  return Array.from({ length: 48 }, (_, i): PointMm => {
    const t = 0.02 + i / 50;
    return [near[0] + (far[0] - near[0]) * t, near[1] + (far[1] - near[1]) * t];
  });
}

const boxAt = ([x, y]: PointMm, halfMm: number): Box => ({ x0: x - halfMm, x1: x + halfMm, y0: y - 1.2, y1: y + 1.2 });

const nameOf = ({ scene }: FrameSet, recordId: string): string =>
  scene.pieces.find(({ id }) => id === recordId)?.name ?? recordId;
