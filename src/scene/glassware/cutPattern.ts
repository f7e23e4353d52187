import type { Diagnostic } from '../../core/diagnostic.ts';
import { compose, fromAxes, type RigidTransform } from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { cross, type Vec3 } from '../../core/vec3.ts';
import { lensBar, lensDisc } from '../parts/lens.ts';
import type { SolidPart } from '../parts/solidPart.ts';
import { cannotMake, inMm } from '../problems.ts';
import { directionAlong, distanceToProfileM, type ProfilePiece, pieceLengthM, pointAlong } from '../profile/index.ts';
import type { GlassCut } from '../records.ts';
import { facetSleeve } from './facets.ts';
import { type GlassBody, piecesOf } from './glassBody.ts';

export interface CutResult {
  readonly parts: readonly SolidPart[];
  /** Glass laid on, or air cut in. */
  readonly adds: boolean;
  readonly diagnostics: readonly Diagnostic[];
}

/** The flat back of a bar or a hollow stands this far off the face of the glass, inside or outside of it. */
const BACK_CLEAR_M = 0.00006;
/** Glass left under the deepest hollow. Common practice, no source. */
const THINNEST_UNDER_CUT_M = 0.0004;
/** Share of the pitch that a bar or hollow takes; the rest is a land between. */
const WIDTH_SHARE = 0.94;

/**
 * A pattern on the outside of a turned glass that leaves its inside turned. Every bar, groove or dent is a small closed
 * body of exact faces: bars of the glass's own medium sunk a little into the wall; grooves, dents and the
 * sleeve of all facets of air that rank over the glass. Bars, grooves and facets need a straight wall; dents may lie on any.
 */
export function buildCutPattern(
  recordId: string,
  body: GlassBody,
  cut: GlassCut,
  worldFromGlass: RigidTransform,
): CutResult {
  const refuse = (field: keyof GlassCut, mend: string): CutResult => ({
    parts: [],
    adds: cut.style === 'ribs',
    diagnostics: [
      cannotMake(
        recordId,
        'cut-does-not-fit',
        `cut.${field}`,
        cut[field],
        `cut.${field} ${mend} The pattern is left out.`,
      ),
    ],
  });
  if (cut.topM <= cut.bottomM + 0.003) return refuse('topM', `must be over cut.bottomM by 3 mm or more.`);
  const walls = piecesOf(body.outside.filter((p) => p.role === 'outer wall'));
  const inside = piecesOf(body.inside);
  if (cut.style !== 'ribs') {
    const thinM = leastThicknessM(walls, inside, cut);
    if (thinM - cut.depthM < THINNEST_UNDER_CUT_M) {
      return refuse(
        'depthM',
        `cuts through the wall: keep it under ${inMm(Math.max(0, thinM - THINNEST_UNDER_CUT_M))}.`,
      );
    }
  }
  if (cut.style === 'hammered') return { parts: dents(walls, cut, worldFromGlass), adds: false, diagnostics: [] };

  const wall = walls.find((p) => p.type === 'line' && p.from.yM <= cut.bottomM + 1e-9 && p.to.yM >= cut.topM - 1e-9);
  if (!wall) return refuse('bottomM', `to cut.topM must lie on one straight part of the wall.`);
  const atY = (yM: number): number =>
    wall.from.rM + ((wall.to.rM - wall.from.rM) * (yM - wall.from.yM)) / (wall.to.yM - wall.from.yM);
  if (cut.style === 'facets') {
    const sleeve: SolidPart = { role: 'cut', shape: facetSleeve(atY, cut), worldFromLocal: worldFromGlass };
    return { parts: [sleeve], adds: false, diagnostics: [] };
  }
  const leastRM = Math.min(atY(cut.bottomM), atY(cut.topM));
  const halfWidthM = leastRM * Math.sin((WIDTH_SHARE * Math.PI) / cut.count);
  const sagM = leastRM - Math.sqrt(leastRM ** 2 - halfWidthM ** 2);
  const adds = cut.style === 'ribs';
  const backM = BACK_CLEAR_M + (adds ? sagM : 0);
  const heightM = cut.depthM + backM;
  if (heightM > 0.9 * halfWidthM)
    return refuse(
      'depthM',
      `is too much for so narrow a bar: keep it under ${inMm(Math.max(0, 0.9 * halfWidthM - backM))}, or lower cut.count.`,
    );
  if (adds && backM > leastThicknessM(walls, inside, cut) - BACK_CLEAR_M)
    return refuse('count', `makes bars so wide that their backs come through the wall: raise it.`);
  const u = directionAlong(wall, 0.5);
  const lengthM = (cut.topM - cut.bottomM) / u.yM - 2 * halfWidthM;
  if (lengthM <= 0) return refuse('topM', `leaves bars shorter than they are wide: raise it, or raise cut.count.`);
  const middleYM = (cut.bottomM + cut.topM) / 2;
  const parts = Array.from({ length: cut.count }, (_, i) => {
    const phi = (2 * Math.PI * i) / cut.count;
    const frame = surfaceFrame(atY(middleYM), middleYM, u, phi, adds ? -backM : BACK_CLEAR_M, adds);
    return lensBar('cut', { halfWidthM, heightM, lengthM }, compose(worldFromGlass, frame));
  });
  return { parts: parts.flat(), adds, diagnostics: [] };
}

/**
 * Frame on the outside of the glass: y up along the wall, x off the wall (out for `outward`, else in), its origin `offM`
 * outside the face.
 */
function surfaceFrame(
  rM: number,
  yM: number,
  u: { rM: number; yM: number },
  phi: number,
  offM: number,
  outward: boolean,
): RigidTransform {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  const up: Vec3 = [u.rM * c, u.yM, u.rM * s];
  const out: Vec3 = [u.yM * c, -u.rM, u.yM * s];
  const x: Vec3 = outward ? out : [-out[0], -out[1], -out[2]];
  return fromAxes(x, up, cross(x, up), [rM * c + out[0] * offM, yM + out[1] * offM, rM * s + out[2] * offM]);
}

interface Dent {
  readonly centreM: Vec3;
  readonly baseM: number;
}

/** A dent squeezed to less than this share of its size is left out. */
const SMALLEST_DENT_SHARE = 0.6;

/** Radius that a dent at a place may have so as not to touch another. */
const roomBesideM = ({ centreM, baseM }: Dent, placeM: Vec3): number =>
  0.98 * Math.hypot(placeM[0] - centreM[0], placeM[1] - centreM[1], placeM[2] - centreM[2]) - baseM;

/** Round dents in rows, each row turned against the next by chance. */
function dents(walls: readonly ProfilePiece[], cut: GlassCut, worldFromGlass: RigidTransform): SolidPart[] {
  const random = createRandom(cut.seed);
  const widestRM = walls.reduce((most, p) => Math.max(most, p.from.rM, p.to.rM), 0);
  const pitchM = (2 * Math.PI * widestRM) / cut.count;
  const heightM = cut.depthM + BACK_CLEAR_M;
  const parts: SolidPart[] = [];
  let toNextM = pitchM / 2;
  let turned = 0;
  let rowBefore: Dent[] = [];
  for (const piece of walls) {
    const lengthM = pieceLengthM(piece);
    for (; toNextM <= lengthM; toNextM += 0.88 * pitchM) {
      const t = toNextM / lengthM;
      const p = pointAlong(piece, t);
      if (p.yM < cut.bottomM + pitchM / 2 || p.yM > cut.topM - pitchM / 2) continue;
      const u = directionAlong(piece, t);
      const round = Math.max(3, Math.floor((2 * Math.PI * p.rM) / pitchM + 1e-9));
      turned += Math.PI / round + 0.1 * (random() - 0.5);
      const row: Dent[] = [];
      for (let i = 0; i < round; i++) {
        const wishedM = (pitchM / 2) * (0.86 + 0.13 * random());
        const frame = surfaceFrame(p.rM, p.yM, u, turned + (2 * Math.PI * i) / round, BACK_CLEAR_M, false);
        // Where rows close in over a shoulder, dents would run into one another.
        const baseM = Math.min(wishedM, ...[...rowBefore, ...row].map((dent) => roomBesideM(dent, frame.translationM)));
        if (baseM < SMALLEST_DENT_SHARE * wishedM) continue;
        row.push({ centreM: frame.translationM, baseM });
        // The lens stands on its y axis: turn the frame's x up into it.
        const upright = fromAxes([0, -1, 0], [1, 0, 0], [0, 0, 1], [0, 0, 0]);
        parts.push(
          ...lensDisc('cut', baseM, Math.min(heightM, 0.8 * baseM), compose(worldFromGlass, compose(frame, upright))),
        );
      }
      rowBefore = row;
    }
    toNextM -= lengthM;
  }
  return parts;
}

/** Thinnest glass behind the cut part of the outside. */
function leastThicknessM(walls: readonly ProfilePiece[], inside: readonly ProfilePiece[], cut: GlassCut): number {
  let least = Number.POSITIVE_INFINITY;
  for (const piece of walls) {
    for (let k = 0; k <= 24; k++) {
      const p = pointAlong(piece, k / 24);
      if (p.yM < cut.bottomM - 1e-9 || p.yM > cut.topM + 1e-9) continue;
      least = Math.min(least, distanceToProfileM(inside, p));
    }
  }
  return least;
}
