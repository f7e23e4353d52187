import type { Diagnostic } from '../../core/diagnostic.ts';
import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import { rodProfile } from '../parts/rod.ts';
import { type SolidPart, turnedParts } from '../parts/solidPart.ts';
import { cannotMake } from '../problems.ts';
import { lineBetween, type ProfilePiece, profilePoint, radiusAtHeightM, roundCorner } from '../profile/index.ts';
import type { Stopper } from '../records.ts';
import { type GlassBody, piecesOf } from './glassBody.ts';

/** Invented, from natural cork. */
const CORK: Finish = { type: 'matte', reflectanceRgb: [0.5, 0.33, 0.19] };
/** Between stopper and neck. */
const FIT_M = 0.00008;

export interface StopperResult {
  readonly parts: readonly SolidPart[];
  /** Left out for clear glass. */
  readonly finish?: Finish;
  readonly diagnostics: readonly Diagnostic[];
}

/** A cork, or a ground glass plug with a round head, in the mouth of a vessel. Closed, fronts outward. */
export function buildStopper(
  recordId: string,
  body: GlassBody,
  stopper: Stopper,
  worldFromGlass: RigidTransform,
): StopperResult {
  const inside = piecesOf(body.inside);
  const mouthYM = body.rimYM;
  let radiusM = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= 16; k++) {
    const yM = mouthYM - (stopper.insertM * k) / 16;
    radiusM = Math.min(radiusM, radiusAtHeightM(inside, Math.min(yM, inside[0].from.yM)) ?? 0);
  }
  radiusM -= FIT_M;
  if (radiusM < 0.001 || mouthYM - stopper.insertM < body.floorYM + 0.001) {
    return {
      parts: [],
      diagnostics: [
        cannotMake(
          recordId,
          'stopper-too-long',
          'stopper.insertM',
          stopper.insertM,
          'stopper.insertM reaches the floor of the vessel: make it shorter. The stopper is left out.',
        ),
      ],
    };
  }
  const placement = compose(worldFromGlass, translation([0, mouthYM - stopper.insertM, 0]));
  const heightM = stopper.insertM + stopper.heightM;
  if (stopper.kind === 'cork') {
    return {
      parts: turnedParts('stopper', rodProfile(radiusM, heightM, 0.0008), placement),
      finish: CORK,
      diagnostics: [],
    };
  }
  const rim = body.outside.filter((p) => p.role === 'rim');
  const headRM = 1.15 * Math.max(radiusM + 0.001, ...rim.map((p) => Math.max(p.piece.from.rM, p.piece.to.rM)));
  const seatYM = stopper.insertM + FIT_M;
  const headM = Math.min(stopper.heightM - FIT_M, 2 * headRM);
  const corner = profilePoint(headRM, seatYM + headM);
  const seat = profilePoint(headRM, seatYM);
  const round = roundCorner(seat, corner, profilePoint(0, corner.yM), 0.98 * Math.min(headRM, headM));
  const profile: ProfilePiece[] = [
    lineBetween(profilePoint(0, 0), profilePoint(radiusM, 0)),
    lineBetween(profilePoint(radiusM, 0), profilePoint(radiusM, seatYM)),
    lineBetween(profilePoint(radiusM, seatYM), seat),
    lineBetween(seat, round.from),
    round,
    lineBetween(round.to, profilePoint(0, corner.yM)),
  ];
  return { parts: turnedParts('stopper', profile, placement), diagnostics: [] };
}
