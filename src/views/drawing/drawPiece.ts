import type { OpticalSurface } from '../../materials/surface.ts';
import type { Piece, Turntable } from '../../scene/records.ts';
import { circle } from './circle.ts';
import { drawGlass, isQuadTowardReader } from './drawGlass.ts';
import { convexHull, polygonAreaM2 } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { nearestM, type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { SheetItem, SheetLine } from './sheet.ts';
import { hullPoints, surfaceOutlines } from './surfaceOutline.ts';

/** A face that covers this share of the outline is the outline. */
const WHOLE_OF_BOX = 0.9;

/** A set piece as true outlines: glass in section lines, boxes by their edges, the table dashed. */
export function drawPiece(piece: Piece, surfaces: readonly OpticalSurface[], projection: Projection): SheetItem {
  const points = surfaces.filter(isOutside).flatMap(hullPoints);
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

/** Ice, drink and the inside of a glass never reach past its outside. */
const isOutside = ({ role }: OpticalSurface): boolean => !/^(ice|liquid|meniscus|inner)/.test(role);

function linesOfPiece(
  piece: Piece,
  surfaces: readonly OpticalSurface[],
  projection: Projection,
  hull: readonly SheetPoint[],
): SheetLine[] {
  switch (piece.kind) {
    case 'glass':
      return drawGlass(surfaces, projection);
    case 'tabletop':
      return [{ points: hull, closed: hull.length > 2, weight: 'thin', dash: 'dashed' }];
    case 'sheet':
    case 'plinthBox':
    case 'wall':
      return [...boxFaceLines(surfaces, projection, hull), { points: hull, closed: hull.length > 2, weight: 'thin' }];
    default:
      return mergeLines(surfaces.flatMap((s) => surfaceOutlines(s, projection))).map(
        (line): SheetLine => ({ ...line, weight: 'thin' }),
      );
  }
}

/** Faces that a box turns to the reader, unless one of them is all that is seen of it. */
function boxFaceLines(
  surfaces: readonly OpticalSurface[],
  projection: Projection,
  hull: readonly SheetPoint[],
): SheetLine[] {
  const outlines = surfaces
    .filter((s) => isQuadTowardReader(s, projection))
    .flatMap((s) => surfaceOutlines(s, projection))
    .filter(({ points }) => polygonAreaM2(points) < WHOLE_OF_BOX * polygonAreaM2(hull));
  return mergeLines(outlines).map((line) => ({ ...line, weight: 'hair' }));
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
    name: 'Turntable',
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
