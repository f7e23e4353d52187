import type { Finding } from './contracts.ts';
import { boxOfUvs } from './places/inFrame.ts';
import { cellUv } from './specular/frameRegion.ts';
import type { FrameStudy } from './study.ts';
import { nameOfRecord, percentWords, placeWords } from './words.ts';

/** Lamps that stand in pictures as lamps. */
const PRACTICALS: ReadonlySet<string> = new Set(['bulb', 'lantern', 'tube']);
const MOST_OUTLINE = 200;

/**
 * Cards, frames and housings that stand in the picture themselves, the one that is the background left out. What shines is the
 * matter of the check of flare, a lamp in the picture that of practicals.
 */
export function checkThingsInFrame(study: FrameStudy): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, set, view, limits } = study.input;
  const grid = study.grid();
  const backgroundId = study.backgroundPlace()?.recordId;
  const things = [...scene.grip, ...scene.fixtures.filter(({ kind }) => !PRACTICALS.has(kind))].filter(
    ({ id }) => id !== backgroundId,
  );
  const cellsOf = new Map<string, number[]>(things.map(({ id }) => [id, []]));
  grid.firstSurface.forEach((surface, cell) => {
    if (surface >= 0 && grid.lampSurface[cell] < 0) cellsOf.get(set.surfaces[surface].recordId)?.push(cell);
  });
  const shares: Record<string, number> = {};
  const findings = things.flatMap(({ id, positionM }): Finding[] => {
    const cells = cellsOf.get(id) ?? [];
    if (cells.length === 0) return [];
    const share = cells.length / grid.totalNits.length;
    shares[id] = share;
    const uvs = cells.map((cell) => cellUv(grid, cell));
    const { frame } = boxOfUvs(uvs);
    const place = placeWords(frame?.u ?? 0.5, frame?.v ?? 0.5);
    return [
      {
        id: `thingsInFrame:${id}`,
        check: 'thingsInFrame',
        grade: share >= limits.thingInFrameCareShare ? 'care' : 'note',
        subject: id,
        value: share,
        unit: 'share of the frame',
        limit: limits.thingInFrameCareShare,
        summary: `${nameOfRecord(scene, id)} stands in the picture, ${place}, over ${percentWords(share)} of it.`,
        where: { frame, outlineUv: uvs.slice(0, MOST_OUTLINE), pointM: positionM, raysM: [[view.originM, positionM]] },
        remedies: [],
      },
    ];
  });
  return { findings, figures: { inFrameShare: shares } };
}
