import type { OpticalSurface } from '../../materials/surface.ts';
import type { Piece, Turntable } from '../../scene/records.ts';
import { convexHull } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { nearestM, type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { SheetItem, SheetLine } from './sheet.ts';
import { hullPoints, surfaceOutlines } from './surfaceOutline.ts';

const CIRCLE_SIDES = 96;

/** A set piece as true outlines: glass in section lines, boxes by their edges, the table dashed. */
export function drawPiece(piece: Piece, surfaces: readonly OpticalSurface[], projection: Projection): SheetItem {
  const points = surfaces.flatMap(hullPoints);
  const hull = convexHull(points.map((p) => projectToSheet(projection, p)));
  const anchor = projectToSheet(projection, piece.positionM);
  const backdrop = piece.kind === 'tabletop' || piece.kind === 'sweep' || piece.kind === 'wall';
  return {
    recordId: piece.id,
    collection: 'pieces',
    name: piece.name,
    areas: [],
    lines: linesOfPiece(piece, surfaces, projection, hull),
    hull: hull.length > 0 ? hull : [anchor],
    heldInside: !backdrop && piece.kind !== 'sheet',
    anchor,
    aim: null,
    lit: true,
    // Tables and backdrops lie under everything that stands on or before them.
    nearM: backdrop ? -1e3 : nearestM(points, projection),
  };
}

function linesOfPiece(
  piece: Piece,
  surfaces: readonly OpticalSurface[],
  projection: Projection,
  hull: readonly SheetPoint[],
): SheetLine[] {
  switch (piece.kind) {
    case 'glass':
      return projection === 'plan' ? glassPlan(piece, surfaces) : glassElevation(surfaces, projection);
    case 'tabletop':
      return [{ points: hull, closed: hull.length > 2, weight: 'thin', dash: 'dashed' }];
    case 'sheet':
    case 'plinthBox':
    case 'wall':
      return [
        ...mergeLines(surfaces.flatMap((s) => surfaceOutlines(s, projection))).map(
          (line): SheetLine => ({ ...line, weight: 'hair' }),
        ),
        { points: hull, closed: hull.length > 2, weight: 'thin' },
      ];
    case 'sweep':
    case 'plinthCylinder':
      return mergeLines(surfaces.flatMap((s) => surfaceOutlines(s, projection))).map(
        (line): SheetLine => ({ ...line, weight: 'thin' }),
      );
  }
}

/** Rim inside and out, the widest part, the foot (dashed where the bowl hides it), and the ice. */
function glassPlan(piece: Extract<Piece, { kind: 'glass' }>, surfaces: readonly OpticalSurface[]): SheetLine[] {
  const { profile } = piece;
  // The turntable may have carried the glass off its own record's position.
  const centre = surfaces.find(({ shape }) => shape.type !== 'mesh')?.worldFromLocal.translationM ?? piece.positionM;
  const ring = (diameterM: number, rest: Pick<SheetLine, 'weight' | 'dash'>): SheetLine => ({
    points: circle([centre[0], centre[2]], diameterM / 2),
    closed: true,
    ...rest,
  });
  const lines = surfaces
    .filter(({ shape }) => shape.type === 'mesh')
    .flatMap((s) => surfaceOutlines(s, 'plan'))
    .map((line): SheetLine => ({ ...line, weight: 'hair' }));
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
      lines.push(ring(profile.rimDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.rimDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      if (Math.abs(profile.baseDiameterM - profile.rimDiameterM) > 0.001) {
        lines.push(ring(profile.baseDiameterM, { weight: 'hair', dash: 'dashed' }));
      }
      return lines;
    case 'coupe':
    case 'conicalStemmed':
    case 'flute':
    case 'wine':
      lines.push(ring(profile.rimDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.rimDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      lines.push(ring(profile.footDiameterM, { weight: 'hair', dash: 'dashed' }));
      if (profile.bowlDiameterM) lines.push(ring(profile.bowlDiameterM, { weight: 'thin' }));
      return lines;
    case 'bottle':
      lines.push(ring(profile.bodyDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.neckDiameterM, { weight: 'thin' }));
      lines.push(ring(profile.neckDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      return lines;
  }
}

/** The section: both sides of every wall, the surface of the drink, the ice. */
function glassElevation(surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] {
  const outside = (s: OpticalSurface): boolean =>
    /outer|outside|foot|stem|rim/i.test(s.role) && s.shape.type !== 'mesh';
  const lineOf = (weight: SheetLine['weight'], some: readonly OpticalSurface[]): SheetLine[] =>
    mergeLines(some.flatMap((s) => surfaceOutlines(s, projection))).map((line) => ({ ...line, weight }));
  return [
    ...lineOf(
      'hair',
      surfaces.filter((s) => !outside(s)),
    ),
    ...lineOf('medium', surfaces.filter(outside)),
  ];
}

/** The turning plate, dashed: it lies under what it carries. */
export function drawTurntable(turntable: Turntable, projection: Projection): SheetItem {
  const { centreM, diameterM, thicknessM } = turntable;
  const centre = projectToSheet(projection, centreM);
  const r = diameterM / 2;
  const hull =
    projection === 'plan'
      ? circle(centre, r)
      : ([
          [centre[0] - r, centre[1]],
          [centre[0] + r, centre[1]],
          [centre[0] + r, centre[1] + thicknessM],
          [centre[0] - r, centre[1] + thicknessM],
        ] as const);
  return {
    recordId: 'turntable',
    collection: null,
    name: 'turntable',
    areas: [],
    lines: [{ points: hull, closed: true, weight: 'hair', dash: 'dashed' }],
    hull,
    heldInside: false,
    anchor: centre,
    aim: null,
    lit: true,
    nearM: nearestM([centreM], projection) - 0.001,
  };
}

export const circle = (centre: SheetPoint, radiusM: number): SheetPoint[] =>
  Array.from({ length: CIRCLE_SIDES }, (_, i): SheetPoint => {
    const a = (2 * Math.PI * i) / CIRCLE_SIDES;
    return [centre[0] + radiusM * Math.cos(a), centre[1] + radiusM * Math.sin(a)];
  });
