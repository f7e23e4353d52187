import { compose, type RigidTransform, translation } from '../../../core/rigid.ts';
import { createRandom } from '../../../core/rng.ts';
import type { MeshShape } from '../../../core/shape.ts';
import { addScaled, type Vec3 } from '../../../core/vec3.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import { openingFace } from './blocks.ts';
import { createFaceMesh, type FaceMesh } from './faceMesh.ts';
import { addLeaf, createFoliage, leafAreaM2 } from './foliage.ts';
import { rodSides } from './screens.ts';
import { dressSides, type Side } from './side.ts';

/** Bars hang this far behind the card, so that the two never lie in one plane. */
const BAR_BEHIND_M = 0.002;
const LEG_RADIUS_M = 0.008;

/**
 * Card with a window or doorway cut out, as one thin sheet that stops light from both sides, with bars behind the opening
 * and two legs under it.
 */
export function buildWindowCutter(piece: DressingOf<'windowCutter'>, placement: RigidTransform): Built {
  const { widthM, heightM, openingWidthM, openingHeightM, head } = piece;
  const radiusM = head === 'round' ? openingWidthM / 2 : 0;
  const problem = (code: string, field: string, value: number, message: string): Built =>
    leftOut([cannotMake(piece.id, code, field, value, message)]);
  if (openingWidthM >= widthM || openingHeightM >= heightM) {
    const wide = openingWidthM >= widthM;
    return problem(
      'opening-too-large',
      wide ? 'openingWidthM' : 'openingHeightM',
      wide ? openingWidthM : openingHeightM,
      `The opening is as large as the card: keep ${wide ? 'openingWidthM' : 'openingHeightM'} under ${inMm(wide ? widthM : heightM)}.`,
    );
  }
  if (openingHeightM <= radiusM) {
    return problem(
      'opening-too-low',
      'openingHeightM',
      openingHeightM,
      `openingHeightM is less than half the width of a round opening: make it more than ${inMm(radiusM)}, or the head flat.`,
    );
  }
  const barRoomM = Math.min(openingWidthM / piece.columns, openingHeightM / piece.rows);
  if (piece.barM >= barRoomM && (piece.columns > 1 || piece.rows > 1)) {
    return problem('bars-too-wide', 'barM', piece.barM, `barM leaves no panes: keep it under ${inMm(barRoomM)}.`);
  }
  const sillM = piece.shape === 'window' ? (heightM - openingHeightM) / 2 : 0;
  const card = createFaceMesh();
  const face = openingFace(
    {
      widthM,
      lowYM: sillM,
      highYM: heightM,
      openingWidthM,
      springYM: sillM + openingHeightM - radiusM,
    },
    head,
  );
  for (const polygon of face) card.polygon(polygon);
  if (sillM > 0) {
    const w = widthM / 2;
    card.polygon([
      [-w, 0, 0],
      [w, 0, 0],
      [w, sillM, 0],
      [-w, sillM, 0],
    ]);
  }
  const hung = compose(placement, translation([0, piece.standM + BOARD_LIFT_M, 0]));
  const sides: Side[] = [{ role: 'card', shape: card.build(), worldFromLocal: hung }];
  if (piece.columns > 1 || piece.rows > 1) {
    sides.push({ role: 'bars', shape: barsOf(piece, sillM, radiusM), worldFromLocal: hung });
  }
  sides.push(...legSides(piece, placement));
  return builtOf(dressSides(piece.id, sides, piece.finish));
}

/** Bars of a window: uprights the whole height, up to the curve of a round head; cross bars between them. */
function barsOf(piece: DressingOf<'windowCutter'>, sillM: number, radiusM: number): MeshShape {
  const { openingWidthM, openingHeightM, columns, rows, barM } = piece;
  const mesh = createFaceMesh();
  const a = openingWidthM / 2;
  const spring = sillM + openingHeightM - radiusM;
  const headAt = (x: number): number =>
    radiusM > 0 ? spring + Math.sqrt(Math.max(0, radiusM ** 2 - x ** 2)) : sillM + openingHeightM;
  const paneM = openingWidthM / columns;
  for (let i = 1; i < columns; i++) {
    const x = -a + i * paneM;
    // To the higher side of the curve: the corner that is too long hides behind the card.
    const top = headAt(Math.max(0, Math.abs(x) - barM / 2));
    rectangle(mesh, x - barM / 2, x + barM / 2, sillM, top);
  }
  for (let j = 1; j < rows; j++) {
    const y = sillM + (openingHeightM * j) / rows;
    for (let i = 0; i < columns; i++) {
      const x0 = -a + i * paneM + (i > 0 ? barM / 2 : 0);
      const x1 = -a + (i + 1) * paneM - (i + 1 < columns ? barM / 2 : 0);
      rectangle(mesh, x0, x1, y - barM / 2, y + barM / 2);
    }
  }
  return mesh.build();
}

const rectangle = (mesh: FaceMesh, x0: number, x1: number, y0: number, y1: number): void =>
  mesh.polygon([
    [x0, y0, -BAR_BEHIND_M],
    [x1, y0, -BAR_BEHIND_M],
    [x1, y1, -BAR_BEHIND_M],
    [x0, y1, -BAR_BEHIND_M],
  ]);

function legSides(piece: { readonly widthM: number; readonly standM: number }, placement: RigidTransform): Side[] {
  const lengthM = piece.standM - 2 * BOARD_LIFT_M;
  if (lengthM <= 0) return [];
  const radiusM = Math.min(LEG_RADIUS_M, piece.widthM / 8);
  return [-1, 1].flatMap((side) => {
    const foot: Vec3 = [side * (piece.widthM / 2 - radiusM), BOARD_LIFT_M, 0];
    return rodSides('leg', foot, [0, 1, 0], lengthM, radiusM, placement);
  });
}

export const MOST_LEAVES = 2500;
const MOST_COVER = 0.97;

/** Leaves on twigs, or a card with oval holes. */
export function buildDappleCutter(piece: DressingOf<'dappleCutter'>, placement: RigidTransform): Built {
  const hung = compose(placement, translation([0, piece.standM + BOARD_LIFT_M, 0]));
  const legs = legSides(piece, placement);
  if (piece.cut === 'holes') {
    const grid = holeGrid(piece);
    if (grid.columns * grid.rows > MOST_LEAVES) return tooMany(piece, grid.columns * grid.rows);
    const card: Side = { role: 'card', shape: holedCard(piece, grid), worldFromLocal: hung };
    return builtOf(dressSides(piece.id, [card, ...legs], piece.finish));
  }
  const count = leafCount(piece);
  if (count > MOST_LEAVES) return tooMany(piece, count);
  const leaves: Side = { role: 'leaves', shape: strewnLeaves(piece, count), worldFromLocal: hung };
  return builtOf(dressSides(piece.id, [leaves, ...twigSides(piece, hung), ...legs], piece.finish));
}

const tooMany = (piece: DressingOf<'dappleCutter'>, count: number): Built =>
  leftOut([
    cannotMake(
      piece.id,
      'too-many-leaves',
      'sizeM',
      piece.sizeM,
      `${count} leaves or holes are more than can be made: make sizeM larger or the card smaller.`,
    ),
  ]);

/** Mean of the cosine of leaves that lean up to 60 degrees from the card, even in angle: sin 60 / (60 in radians). */
const MEAN_FACING = Math.sin(Math.PI / 3) / (Math.PI / 3);

/** Leaves at random cover 1 - exp(-n A / area); this many cover the share asked for. */
function leafCount({ widthM, heightM, sizeM, cover }: DressingOf<'dappleCutter'>): number {
  const eachM2 = leafAreaM2('broad', sizeM) * MEAN_FACING * MEAN_SIZE_SQUARED;
  const { halfXM, halfYM } = strewnRoom({ widthM, heightM, sizeM });
  return Math.ceil((-Math.log(1 - Math.min(cover, MOST_COVER)) * 4 * halfXM * halfYM) / eachM2);
}

/** Where the middles of leaves may lie, so that even a large leaf keeps within the size of the cutter. */
function strewnRoom({ widthM, heightM, sizeM }: { widthM: number; heightM: number; sizeM: number }) {
  const reachM = 0.65 * sizeM;
  const least = 0.1 * sizeM;
  return { halfXM: Math.max(least, widthM / 2 - reachM), halfYM: Math.max(least, heightM / 2 - reachM) };
}

/** Leaves are 0.7 to 1.3 of their size: mean square 1 + 0.3^2 / 3. */
const MEAN_SIZE_SQUARED = 1.03;

function strewnLeaves(piece: DressingOf<'dappleCutter'>, count: number): MeshShape {
  const random = createRandom(piece.seed);
  const foliage = createFoliage();
  const { halfXM, halfYM } = strewnRoom(piece);
  for (let i = 0; i < count; i++) {
    const middle: Vec3 = [
      (2 * random() - 1) * halfXM,
      piece.heightM / 2 + (2 * random() - 1) * halfYM,
      (random() - 0.5) * 0.6 * piece.sizeM,
    ];
    const turn = 2 * Math.PI * random();
    const lean = (2 * random() - 1) * (Math.PI / 3);
    const towards = 2 * Math.PI * random();
    const lengthM = piece.sizeM * (0.7 + 0.6 * random());
    const along: Vec3 = [Math.cos(turn), Math.sin(turn), 0];
    const facing: Vec3 = [Math.sin(lean) * Math.cos(towards), Math.sin(lean) * Math.sin(towards), Math.cos(lean)];
    const baseM = addScaled(middle, along, -lengthM / 2);
    addLeaf(foliage, 'broad', { baseM, along, facing, lengthM, droop: 0.25 * random() });
  }
  return foliage.build();
}

function twigSides(piece: DressingOf<'dappleCutter'>, hung: RigidTransform): Side[] {
  const random = createRandom(piece.seed ^ 0x9e37);
  const radiusM = Math.max(0.001, piece.sizeM * 0.03);
  return Array.from({ length: 3 }, (_, i) => {
    const x0 = ((i + 0.3 + 0.4 * random()) / 3 - 0.5) * piece.widthM;
    const lean = 0.5 * (random() - 0.5);
    const along: Vec3 = [Math.sin(lean), Math.cos(lean), 0];
    return rodSides('twig', [x0, radiusM, -0.35 * piece.sizeM], along, piece.heightM - radiusM, radiusM, hung);
  }).flat();
}

interface HoleGrid {
  readonly columns: number;
  readonly rows: number;
  readonly longM: number;
}

/** Mean of the short half-axis over the long one. */
const MEAN_OVAL = 0.75;

/** One hole a cell; cells as large as the open share asks for, and large enough to keep card between the holes. */
function holeGrid({ widthM, heightM, sizeM, cover }: DressingOf<'dappleCutter'>): HoleGrid {
  const open = Math.max(0.02, 1 - cover);
  const areaM2 = Math.PI * (sizeM / 2) ** 2 * MEAN_OVAL;
  const cellM = Math.max(sizeM * 1.06, Math.sqrt(areaM2 / open));
  const columns = Math.max(1, Math.round(widthM / cellM));
  const rows = Math.max(1, Math.round(heightM / cellM));
  return { columns, rows, longM: Math.min(sizeM / 2, 0.47 * Math.min(widthM / columns, heightM / rows)) };
}

const OVAL_CORNERS = 28;

function holedCard(piece: DressingOf<'dappleCutter'>, { columns, rows, longM }: HoleGrid): MeshShape {
  const random = createRandom(piece.seed);
  const mesh = createFaceMesh();
  const half: readonly [number, number] = [piece.widthM / columns / 2, piece.heightM / rows / 2];
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < rows; j++) {
      const short = longM * (0.5 + 0.5 * random());
      const turn = Math.PI * random();
      const slack = [half[0] * 0.98 - longM, half[1] * 0.98 - longM];
      const offset: readonly [number, number] = [(2 * random() - 1) * slack[0], (2 * random() - 1) * slack[1]];
      const middle: Vec3 = [-piece.widthM / 2 + (2 * i + 1) * half[0], (2 * j + 1) * half[1], 0];
      addHoledCell(mesh, middle, half, { offset, longM, shortM: short, turn });
    }
  }
  return mesh.build();
}

/** The rectangle round an oval, as quadrilaterals between the two along rays from the oval's middle. */
function addHoledCell(
  mesh: FaceMesh,
  middle: Vec3,
  half: readonly [number, number],
  oval: {
    readonly offset: readonly [number, number];
    readonly longM: number;
    readonly shortM: number;
    readonly turn: number;
  },
): void {
  const [ox, oy] = oval.offset;
  const corners = [
    Math.atan2(half[1] - oy, half[0] - ox),
    Math.atan2(half[1] - oy, -half[0] - ox),
    Math.atan2(-half[1] - oy, -half[0] - ox),
    Math.atan2(-half[1] - oy, half[0] - ox),
  ];
  const rays = [
    ...Array.from({ length: OVAL_CORNERS }, (_, k) => (2 * Math.PI * (k + 0.5)) / OVAL_CORNERS - Math.PI),
    ...corners,
  ];
  rays.sort((p, q) => p - q);
  const points = rays.map((phi): readonly [Vec3, Vec3] => {
    const [c, s] = [Math.cos(phi), Math.sin(phi)];
    const [u, v] = [Math.cos(phi - oval.turn) / oval.longM, Math.sin(phi - oval.turn) / oval.shortM];
    const inner = 1 / Math.hypot(u, v);
    const reachX = c > 0 ? (half[0] - ox) / c : c < 0 ? (-half[0] - ox) / c : Number.POSITIVE_INFINITY;
    const reachY = s > 0 ? (half[1] - oy) / s : s < 0 ? (-half[1] - oy) / s : Number.POSITIVE_INFINITY;
    const outer = Math.min(reachX, reachY);
    const at = (r: number): Vec3 => [middle[0] + ox + r * c, middle[1] + oy + r * s, 0];
    return [at(inner), at(outer)];
  });
  for (let k = 0; k < points.length; k++) {
    const [i0, o0] = points[k];
    const [i1, o1] = points[(k + 1) % points.length];
    mesh.polygon([i0, o0, o1, i1]);
  }
}
