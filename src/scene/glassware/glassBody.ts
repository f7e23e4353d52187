import type { Diagnostic } from '../../core/diagnostic.ts';
import { fail, ok, type Result } from '../../core/result.ts';
import { cannotMake, inMm } from '../problems.ts';
import { joinPieces, leastGapM, type ProfilePiece, pieceLengthM } from '../profile/index.ts';

export type GlassRole =
  | 'underside'
  | 'foot edge'
  | 'foot'
  | 'stem'
  | 'outer wall'
  | 'rim'
  | 'inner wall'
  | 'inner floor';

export interface GlassPart {
  readonly role: GlassRole;
  readonly piece: ProfilePiece;
}

/**
 * The glass of one vessel as a closed profile round the axis, foot at y = 0, walked counter-clockwise: `outside` from the
 * axis under the foot, up and over the rim, then `inside` from the rim down to the axis on the floor. Ends are shared.
 */
export interface GlassBody {
  readonly outside: readonly GlassPart[];
  readonly inside: readonly GlassPart[];
  /** Lowest point of the inside and topmost point of the rim. */
  readonly floorYM: number;
  readonly rimYM: number;
  /** Up to here the inside is convex, so that ice can be judged by its corners; the rim where nothing narrows concavely. */
  readonly convexUpToYM: number;
}

export type GlassResult = Result<GlassBody, readonly Diagnostic[]>;

/** Glass thinner than this at any place breaks in the hand and is a slip in the sizes. Common practice, no source. */
const THINNEST_GLASS_M = 0.0003;

export const part = (role: GlassRole, piece: ProfilePiece): GlassPart => ({ role, piece });
export const piecesOf = (parts: readonly GlassPart[]): ProfilePiece[] => parts.map((p) => p.piece);

/** Shares the ends of all neighbouring parts and checks that there is glass everywhere between outside and inside. */
export function closeGlassBody(
  recordId: string,
  outside: readonly GlassPart[],
  inside: readonly GlassPart[],
  sizes: { readonly floorYM: number; readonly rimYM: number; readonly convexUpToYM?: number },
  thin: { readonly field: string; readonly mend: string } = {
    field: 'profile.baseThicknessM',
    mend: 'raise profile.baseThicknessM, or make the rounding of the foot smaller.',
  },
): GlassResult {
  const all = [...outside, ...inside];
  const kept = all.filter((p) => pieceLengthM(p.piece) > 1e-10);
  const joined = joinPieces(piecesOf(kept)).map((piece, i) => part(kept[i].role, piece));
  const insideRoles = new Set<GlassRole>(['inner wall', 'inner floor']);
  const body: GlassBody = {
    outside: joined.filter((p) => !insideRoles.has(p.role)),
    inside: joined.filter((p) => insideRoles.has(p.role)),
    floorYM: sizes.floorYM,
    rimYM: sizes.rimYM,
    convexUpToYM: sizes.convexUpToYM ?? sizes.rimYM,
  };
  const walls = piecesOf(body.outside.filter((p) => p.role !== 'rim'));
  const gapM = leastGapM(piecesOf(body.inside), walls);
  if (gapM < THINNEST_GLASS_M) {
    return fail([
      cannotMake(
        recordId,
        'glass-too-thin',
        thin.field,
        gapM,
        `The glass is only ${inMm(gapM)} thick at its thinnest: ${thin.mend}`,
      ),
    ]);
  }
  return ok(body);
}
