import type { Fixture, GripItem } from '../../fixtures/records.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { hasBeam } from '../resources/hasBeam.ts';
import { convexHull } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { nearestM, type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { SheetItem, SheetLine } from './sheet.ts';
import { hullPoints, surfaceOutlines } from './surfaceOutline.ts';

type Part = 'face' | 'fitting' | 'housing';

function partOf(surface: OpticalSurface): Part {
  if (surface.emission) return 'face';
  return /^(barn door|gobo|snoot)/.test(surface.role) ? 'fitting' : 'housing';
}

/** A light: its housing in a heavy outline, the emitting face thick, what is fitted to it, and the line that its beam runs along. */
export function drawFixture(fixture: Fixture, surfaces: readonly OpticalSurface[], projection: Projection): SheetItem {
  const flat = (some: readonly OpticalSurface[]): SheetPoint[] =>
    some.flatMap(hullPoints).map((p) => projectToSheet(projection, p));
  const of = (part: Part): OpticalSurface[] => surfaces.filter((s) => partOf(s) === part);
  const body = convexHull(flat([...of('housing'), ...of('face')]));
  const fittings = mergeLines(of('fitting').flatMap((s) => surfaceOutlines(s, projection)));
  const face = faceLine(flat(of('face')));
  const anchor = projectToSheet(projection, fixture.positionM);
  const aim = projectToSheet(projection, fixture.aimM);
  const lines: SheetLine[] = [
    ...(hasBeam(fixture) ? [beamLine([anchor, aim])] : []),
    ...fittings.map((line): SheetLine => ({ ...line, weight: 'thin' })),
    { points: body, closed: body.length > 2, weight: 'heavy' },
  ];
  if (face) lines.push(face);
  const hull = convexHull(flat(surfaces));
  return {
    recordId: fixture.id,
    collection: 'fixtures',
    name: fixture.name,
    areas: body.length > 2 ? [body] : [],
    lines,
    hull: hull.length > 0 ? hull : [anchor],
    heldInside: true,
    anchor,
    aim,
    lit: fixture.on,
    nearM: nearestM(surfaces.flatMap(hullPoints), projection),
  };
}

const beamLine = (points: readonly SheetPoint[]): SheetLine => ({
  points,
  closed: false,
  weight: 'hair',
  dash: 'chain',
});

/** Edge-on the face is one thick stroke; seen from before or behind, its outline. */
function faceLine(points: readonly SheetPoint[]): SheetLine | null {
  if (points.length === 0) return null;
  const hull = convexHull(points);
  return { points: hull, closed: hull.length > 2, weight: 'face' };
}

/** Flag, card or diffusion frame: the sheet itself at true size. Diffusion is dashed, as light goes through. */
export function drawGripItem(item: GripItem, surfaces: readonly OpticalSurface[], projection: Projection): SheetItem {
  const points = surfaces.flatMap(hullPoints);
  const hull = convexHull(points.map((p) => projectToSheet(projection, p)));
  const anchor = projectToSheet(projection, item.positionM);
  const outline: SheetLine = { points: hull, closed: hull.length > 2, weight: 'heavy' };
  return {
    recordId: item.id,
    collection: 'grip',
    name: item.name,
    areas: hull.length > 2 && item.kind === 'flag' ? [hull] : [],
    lines: [item.kind === 'diffusionFrame' ? { ...outline, dash: 'dashed' } : outline],
    hull: hull.length > 0 ? hull : [anchor],
    heldInside: true,
    anchor,
    aim: projectToSheet(projection, item.aimM),
    lit: true,
    nearM: nearestM(points, projection),
  };
}
