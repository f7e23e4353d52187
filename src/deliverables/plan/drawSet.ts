import { applyToPoint } from '../../core/rigid.ts';
import { fixtureFrame } from '../../fixtures/placement.ts';
import type { Fixture, GripItem } from '../../fixtures/records.ts';
import { convexHull, type DrawingSide, type Outline, outlineSet, type SheetPoint } from '../../scene/outline.ts';
import type { Piece } from '../../scene/records.ts';
import { TURNTABLE_ID } from '../../scene/turntable.ts';
import type { FrameSet } from '../frameSet.ts';
import { isBackdrop, isTable } from '../pieceRoles.ts';
import { drawCamera } from './drawCamera.ts';
import type { DrawnItem, DrawnLine } from './drawnItem.ts';
import { projectToSheet, sheetFromOutline } from './projectToSheet.ts';
import { CAMERA_RECORD_ID } from './standPlaces.ts';

/** Everything that stands on the set as true outlines from one side, ground first, the camera last. */
export function drawSet({ scene, set, view }: FrameSet, side: DrawingSide): DrawnItem[] {
  const byRecord = new Map<string, Outline[]>();
  for (const drawn of outlineSet(set, side)) {
    const own = byRecord.get(drawn.recordId);
    if (own) own.push(drawn);
    else byRecord.set(drawn.recordId, [drawn]);
  }
  const of = (id: string): Outline[] =>
    (byRecord.get(id) ?? []).map((drawn) => ({
      ...drawn,
      pointsM: drawn.pointsM.map((p) => sheetFromOutline(side, p)),
    }));
  const items: DrawnItem[] = [
    ...[...scene.pieces].sort((a, b) => drawingOrder(a) - drawingOrder(b)).map((p) => drawPiece(p, of(p.id), side)),
    ...(scene.turntable ? [drawTurntable(of(TURNTABLE_ID))] : []),
    ...scene.grip.map((item) => drawGrip(item, of(item.id), side)),
    ...scene.fixtures.map((fixture) => drawFixture(fixture, of(fixture.id), facesOf(set, fixture.id), side)),
    drawCamera(scene.camera, view, byRecord.get(CAMERA_RECORD_ID) ?? [], side),
  ];
  return items.filter(({ hullM }) => hullM.length > 0);
}

/** Tables and backdrops, which the rest stands on or before. */
const isGround = (piece: Piece): boolean => isTable(piece) || isBackdrop(piece);
const drawingOrder = (piece: Piece): number =>
  piece.kind === 'sheet' ? 1 : isGround(piece) ? 0 : piece.kind === 'glass' ? 3 : 2;

/** A thing of more parts than this (leaves, reeds) is drawn as one outline. */
const MOST_OUTLINES = 40;

function drawPiece(piece: Piece, outlines: readonly Outline[], side: DrawingSide): DrawnItem {
  const lines =
    piece.kind === 'glass'
      ? glassLines(outlines, side)
      : outlines.length > MOST_OUTLINES
        ? [pieceLine(piece, { pointsM: hullOf(outlines), closed: true })]
        : outlines.map((drawn) => pieceLine(piece, drawn));
  return {
    recordId: piece.id,
    kind: 'piece',
    name: piece.name,
    lines,
    hullM: hullOf(outlines),
    isGround: isGround(piece),
  };
}

const pieceLine = (piece: Piece, { pointsM, closed }: Pick<Outline, 'pointsM' | 'closed'>): DrawnLine => ({
  pointsM,
  closed,
  weight: piece.kind === 'tabletop' || piece.kind === 'sheet' ? 'thin' : 'medium',
});

/** Rings of a vessel as the plan shows them, and how; what is not listed lies hidden under them. */
const PLAN_RINGS: Readonly<Record<string, Pick<DrawnLine, 'weight' | 'dash'>>> = {
  'outer wall': { weight: 'medium' },
  rim: { weight: 'thin' },
  'inner wall': { weight: 'hair' },
  foot: { weight: 'hair', dash: 'dashed' },
};
const isIce = (role: string): boolean => role.startsWith('ice');

function glassLines(outlines: readonly Outline[], side: DrawingSide): DrawnLine[] {
  if (side !== 'plan') {
    // The first is the body of the glass in section; then the drink's own top, and the ice.
    return outlines.map(({ pointsM, closed }, i) => ({ pointsM, closed, weight: i === 0 ? 'medium' : 'hair' }));
  }
  return outlines.flatMap(({ role, pointsM, closed }): DrawnLine[] => {
    if (isIce(role)) return [{ pointsM, closed, weight: 'hair' }];
    const look = PLAN_RINGS[role];
    return look ? [{ pointsM, closed, ...look }] : [];
  });
}

/** Dashed: it lies under what it carries. */
const drawTurntable = (outlines: readonly Outline[]): DrawnItem => ({
  recordId: TURNTABLE_ID,
  kind: 'turntable',
  name: 'Turntable',
  lines: [{ pointsM: hullOf(outlines), closed: true, weight: 'thin', dash: 'dashed' }],
  hullM: hullOf(outlines),
  isGround: true,
});

/** What is hung on a light: barn doors, snoot, gobo, a lantern's shade. */
const isFitted = ({ role }: Outline): boolean => /^(barn door|snoot|gobo|shade)/.test(role);

/** Housing in a heavy outline, the emitting face thick, what is fitted thin, and the axis as a chain line to the aim. */
function drawFixture(
  fixture: Fixture,
  outlines: readonly Outline[],
  faceRoles: ReadonlySet<string>,
  side: DrawingSide,
): DrawnItem {
  const [fitted, body] = [outlines.filter(isFitted), outlines.filter((outline) => !isFitted(outline))];
  const face = body.filter(({ role }) => faceRoles.has(role));
  const hull = hullOf(body);
  const faceHull = hullOf(face);
  return {
    recordId: fixture.id,
    kind: 'fixture',
    name: fixture.name,
    lines: [
      axisLine(fixture, side),
      ...fitted.map(({ pointsM, closed }): DrawnLine => ({ pointsM, closed, weight: 'thin' })),
      { pointsM: hull, closed: hull.length > 2, weight: 'heavy' },
      { pointsM: faceHull, closed: faceHull.length > 2, weight: isThin(faceHull) ? 'face' : 'medium' },
    ],
    hullM: hullOf(outlines),
    isGround: false,
  };
}

/** What shines, by the names of its parts. */
const facesOf = (set: FrameSet['set'], fixtureId: string): ReadonlySet<string> =>
  new Set(set.surfaces.filter((s) => s.recordId === fixtureId && s.emission).map(({ role }) => role));

/** Flags and cards solid, diffusion dashed, as light goes through it. */
function drawGrip(item: GripItem, outlines: readonly Outline[], side: DrawingSide): DrawnItem {
  const hull = hullOf(outlines);
  const outline: DrawnLine = { pointsM: hull, closed: hull.length > 2, weight: 'heavy' };
  return {
    recordId: item.id,
    kind: 'grip',
    name: item.name,
    lines: [item.kind === 'diffusionFrame' ? { ...outline, dash: 'dashed' } : outline, ...crossOfFlag(item, side)],
    hullM: hull,
    isGround: false,
  };
}

/** A black flag is crossed through from corner to corner, so that it is not taken for a white card. */
function crossOfFlag(item: GripItem, side: DrawingSide): DrawnLine[] {
  if (item.kind !== 'flag') return [];
  const frame = fixtureFrame(item);
  const corner = (x: number, y: number): SheetPoint =>
    projectToSheet(side, applyToPoint(frame, [(x * item.widthM) / 2, (y * item.heightM) / 2, 0]));
  return [
    { pointsM: [corner(-1, -1), corner(1, 1)], closed: false, weight: 'hair' },
    { pointsM: [corner(-1, 1), corner(1, -1)], closed: false, weight: 'hair' },
  ];
}

const axisLine = ({ positionM, aimM }: Fixture, side: DrawingSide): DrawnLine => ({
  pointsM: [projectToSheet(side, positionM), projectToSheet(side, aimM)],
  closed: false,
  weight: 'hair',
  dash: 'chain',
});

const hullOf = (outlines: readonly Outline[]): SheetPoint[] => convexHull(outlines.flatMap(({ pointsM }) => pointsM));

/** Seen edge on: no wider than a few millimetres one way. */
function isThin(hull: readonly SheetPoint[]): boolean {
  if (hull.length < 3) return true;
  let area = 0;
  let longest = 0;
  hull.forEach((p, i) => {
    const q = hull[(i + 1) % hull.length];
    area += p[0] * q[1] - p[1] * q[0];
    for (const other of hull) longest = Math.max(longest, Math.hypot(p[0] - other[0], p[1] - other[1]));
  });
  return Math.abs(area) / 2 / longest < 0.006;
}
