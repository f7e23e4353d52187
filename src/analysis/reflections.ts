import type { Vec3 } from '../core/vec3.ts';
import { glassGroupOfRole } from '../scene/roles.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { GLASS_CLIP_CARE_SHARE, REFLECTION_NOTE_STOPS, REFLECTION_VISIBLE_SHARE } from './limits.ts';
import { solveClearGlass } from './solvers/clearGlass.ts';
import { solveClearReflection } from './solvers/clearReflection.ts';
import { brightPart, createSeenMasks, lookCloser, type SeenMasks } from './specular/brightPart.ts';
import { floodRegions } from './specular/floodRegions.ts';
import { type ArrivalGroup, probeGroup } from './specular/frameGrid.ts';
import { cellUv, type FrameRegion, measureRegion } from './specular/frameRegion.ts';
import { planarMirrors } from './specular/planarMirrors.ts';
import { seedSmallSources } from './specular/seedSmallSources.ts';
import type { FrameStudy } from './study.ts';
import { clippingWords, gradeAbove, nameOfRecord, pieceOf, placeWords, stopsWords, surfaceWords } from './words.ts';

export interface ReflectionOptions {
  /** Look for moves that clear each graded mirror image; true when left out. */
  readonly remedies?: boolean;
}

/** Regions of one group that are measured; smaller ones beyond count in the figures only. */
const MAX_REGIONS = 4;
const MAX_RAYS = 3;

/**
 * Which lights, bounce cards and diffusion cloths the camera sees by way of mirror-like and clear surfaces: where, how
 * large, how far over their surroundings and over clipping.
 *
 * A plain mirror image in a set piece is graded by `reflectionCareStops` and `reflectionStopStops` over its surroundings
 * when it covers a visible share of the frame. What shows in or through glass is a note, unless it clips over a large
 * area. See docs/checks/reflections.md.
 */
export function checkReflections(
  study: FrameStudy,
  { remedies = true }: ReflectionOptions = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const tracer = study.tracer();
  const grid = study.grid();
  seedSmallSources(tracer, grid, study.light, planarMirrors(study.input));
  lookCloser(study, (group) => !isPlainImage(study, group));
  const masks = createSeenMasks(study);
  const findings: Finding[] = [];
  for (const group of grid.groups) {
    if (!isPlainImage(study, group)) {
      const finding = findGlassLight(study, group, masks, remedies);
      if (finding) findings.push(finding);
      continue;
    }
    const parts = floodRegions(masks.of(group), grid.columns, grid.rows);
    parts.slice(0, MAX_REGIONS).forEach((cells, index) => {
      // The edge of a blurred image is no finer than the grid.
      const refine = study.table.isRough[group.firstSurface] === 0;
      const region = measureRegion(study.outlineTracer(), grid, group, cells, masks.ofSource(group), refine);
      const finding = findPlainImage(study, group, region, index, remedies);
      if (finding) findings.push(finding);
    });
  }
  return {
    findings,
    figures: { reflectionCount: findings.length, reflectionGridColumns: grid.columns, reflectionGridRows: grid.rows },
  };
}

/** One bounce off something that is not a glass piece and not so rough that it shows a sheen only. */
const isPlainImage = (study: FrameStudy, group: ArrivalGroup): boolean =>
  group.direct &&
  !group.transmitted &&
  !isSheen(study, group) &&
  pieceOf(study.input.scene, firstId(study, group))?.kind !== 'glass';

const isSheen = ({ table }: FrameStudy, { firstSurface, direct }: ArrivalGroup): boolean =>
  direct && table.mirrorLike[firstSurface] === 0;

const sourceId = (study: FrameStudy, group: ArrivalGroup): string => study.table.recordIds[group.sourceRecord];
const firstId = (study: FrameStudy, group: ArrivalGroup): string => study.table.recordIds[group.firstRecord];

const stopsOver = (study: FrameStudy, region: FrameRegion): number =>
  Math.log2(region.meanNits / Math.max(region.surroundingsNits, study.blackNits));
const stopsPastClipping = (study: FrameStudy, nits: number): number => Math.log2(nits / study.clippingNits);

function findPlainImage(
  study: FrameStudy,
  group: ArrivalGroup,
  region: FrameRegion,
  index: number,
  withRemedies: boolean,
): Finding | null {
  const { scene, limits } = study.input;
  const value = stopsOver(study, region);
  if (!(value >= REFLECTION_NOTE_STOPS)) return null;
  const graded = gradeAbove(value, limits.reflectionCareStops, limits.reflectionStopStops);
  const grade: Grade = region.share < REFLECTION_VISIBLE_SHARE || graded === 'ok' ? 'note' : graded;
  // Further patches of the same image only where they count by themselves.
  if (index > 0 && grade === 'note') return null;
  const [source, first] = [sourceId(study, group), firstId(study, group)];
  const around = region.onSameRecord ? 'the base' : 'what is round it';
  const base = pieceOf(scene, first)?.kind === 'wall' ? 'the wall' : around;
  const remedies: Remedy[] =
    withRemedies && (grade === 'care' || grade === 'stop') ? solveClearReflection(study, source, first) : [];
  return {
    id: `reflections:${source}:in:${first}${index > 0 ? `:${index}` : ''}`,
    check: 'reflections',
    grade,
    subject: source,
    value,
    unit: 'stops over surroundings',
    limit: grade === 'stop' ? limits.reflectionStopStops : limits.reflectionCareStops,
    summary:
      `${nameOfRecord(scene, source)} shows in the ${surfaceWords(scene, first)}, ` +
      `${placeWords(region.centreU, region.centreV)}, ${stopsWords(value)} over ${base} and ` +
      `${clippingWords(stopsPastClipping(study, region.peakNits))}.`,
    where: placeOf(study, group, region),
    remedies,
  };
}

/** What shows in or through glass, and what a mirror shows by way of other things, as one finding. */
function findGlassLight(
  study: FrameStudy,
  group: ArrivalGroup,
  masks: SeenMasks,
  withRemedies: boolean,
): Finding | null {
  const { scene } = study.input;
  const grid = study.grid();
  const { totalNits } = grid;
  const cellCount = grid.columns * grid.rows;
  const part = brightPart(study, group, masks);
  if (part.cells / cellCount < REFLECTION_VISIBLE_SHARE) return null;
  const { stops: value } = part;
  const [largest] = floodRegions(part.mask, grid.columns, grid.rows);
  const region = measureRegion(study.outlineTracer(), grid, group, largest, masks.ofSource(group), false);
  let clipped = 0;
  masks.of(group).forEach((isSeen, cell) => {
    if (isSeen && totalNits[cell] >= study.clippingNits) clipped++;
  });
  const clippedShare = clipped / cellCount;
  const [source, first] = [sourceId(study, group), firstId(study, group)];
  const manner = group.transmitted ? 'through' : 'in';
  const indirect = !group.transmitted && !group.direct;
  const words = mannerWords(study, group, region.peakCell);
  const clippedWords = `${(clippedShare * 100).toFixed(2)} % of the frame`;
  const past = stopsPastClipping(study, region.peakNits);
  const clips =
    clippedShare === 0
      ? ''
      : past > 0
        ? `, clipping over ${clippedWords}`
        : `; smaller parts clip over ${clippedWords}`;
  const id = `reflections:${source}:${manner}:${first}${indirect ? ':indirect' : ''}${group.transmitted && group.direct ? ':once' : ''}`;
  const isUnwanted = study.input.marks?.some((mark) => mark.findingId === id && !mark.wanted) ?? false;
  return {
    id,
    check: 'reflections',
    // A sheen has no outline that could be taken for a lamp.
    grade: clippedShare > GLASS_CLIP_CARE_SHARE && !isSheen(study, group) ? 'care' : 'note',
    subject: source,
    value,
    unit: 'stops over surroundings',
    limit: null,
    summary:
      `${nameOfRecord(scene, source)} shows ${words}, ${placeWords(region.centreU, region.centreV)}, ` +
      `${stopsWords(value)} over what is round it and ${clippingWords(past)}${clips}.`,
    where: placeOf(study, group, region),
    remedies: isUnwanted && withRemedies ? solveClearGlass(study, group) : [],
  };
}

/** 'through the glass', 'in the ice of the glass', 'in the gloss sheet through the bottle': where the light was mirrored last. */
function mannerWords(study: FrameStudy, group: ArrivalGroup, cell: number): string {
  const { scene, set } = study.input;
  const first = surfaceWords(scene, firstId(study, group));
  if (isSheen(study, group)) return `as a sheen on the ${first}`;
  const { mirrorSurface } = probeGroup(study.outlineTracer(), group.id, ...cellUv(study.grid(), cell));
  if (mirrorSurface < 0) return `${group.transmitted ? 'through' : 'in'} the ${first}`;
  const { recordId, role } = set.surfaces[mirrorSurface];
  if (recordId !== firstId(study, group)) {
    const other = `in the ${surfaceWords(scene, recordId)}`;
    return group.transmitted
      ? `${other} through the ${first}`
      : `in the ${first} by way of the ${surfaceWords(scene, recordId)}`;
  }
  if (pieceOf(scene, recordId)?.kind !== 'glass') return `in the ${first}`;
  const part = glassGroupOfRole(role);
  if (part === 'ice') return `in the ice of the ${first}`;
  if (part === 'drink') return `in the drink in the ${first}`;
  if (!group.transmitted) return group.direct ? `in the ${first}` : `in the ${first} by way of its inside`;
  return `in the far wall of the ${first}`;
}

/** Evidence: the chains through the middle, the brightest cell and the two ends of the region. */
function placeOf(study: FrameStudy, group: ArrivalGroup, region: FrameRegion): Finding['where'] {
  const tracer = study.outlineTracer();
  const grid = study.grid();
  const { cells, centreCell, peakCell } = region;
  const raysM: (readonly Vec3[])[] = [];
  for (const cell of new Set([centreCell, peakCell, cells[0], cells[cells.length - 1]])) {
    if (raysM.length >= MAX_RAYS) break;
    const { chainM } = probeGroup(tracer, group.id, ...cellUv(grid, cell));
    if (chainM) raysM.push(chainM);
  }
  return {
    frame: { u: region.centreU, v: region.centreV, widthU: region.widthU, heightV: region.heightV },
    outlineUv: region.outlineUv,
    ...(raysM.length > 0 ? { pointM: raysM[0][1], raysM } : {}),
  };
}
