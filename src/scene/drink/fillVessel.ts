import type { RigidTransform } from '../../core/rigid.ts';
import { type DrinkBody, fillGlassBody } from '../glassware/drinkBody.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import { FLOATING_SHARE_ABOVE } from '../ice/floating.ts';
import { type PackedIce, packIce } from '../ice/packIce.ts';
import type { PlacedBox } from '../ice/roundedBoxGap.ts';
import type { Drink, Ice } from '../records.ts';

export interface FilledVessel {
  readonly drink?: DrinkBody;
  readonly ice: readonly PackedIce[];
}

const ROUNDS = 3;
const CLOSE_M3 = 1e-7;

/**
 * Drink and ice of a vessel together. A drink poured by volume stands higher round its ice: the level is found with all
 * ice afloat, the ice packed, and both repeated until what lies under the surface is right to a tenth of a millilitre. Ice
 * that falls another way every time is held after three rounds, and the level alone settles.
 */
export function fillVessel(
  recordId: string,
  body: GlassBody,
  { drink, ice }: { readonly drink?: Drink; readonly ice?: Ice },
  standing: readonly PlacedBox[] = [],
): FilledVessel {
  const usable = ice && ice.count > 0 && ice.bevelM <= ice.edgeM / 2 ? ice : undefined;
  if (!drink) return { ice: usable ? packIce(body, usable, undefined, standing) : [] };
  let filled = fillGlassBody(recordId, body, drink);
  if (!usable) return { drink: filled, ice: [] };
  let packed = packIce(body, usable, filled.levelYM, standing);
  if (drink.fillMl === undefined) return { drink: filled, ice: packed };
  let displacedM3 = packed.reduce((sum, p) => sum + p.body.volumeM3, 0) * (1 - FLOATING_SHARE_ABOVE);
  for (let round = 0; round < 2 * ROUNDS; round++) {
    filled = fillGlassBody(recordId, body, drink, displacedM3);
    // The last rounds hold the ice where it is.
    if (round < ROUNDS) packed = packIce(body, usable, filled.levelYM, standing);
    const nowM3 = sunkenIceM3(packed, filled.levelYM);
    if (Math.abs(nowM3 - displacedM3) < CLOSE_M3) break;
    displacedM3 = nowM3;
  }
  return { drink: filled, ice: packed };
}

export const iceVolumeM3 = (pieces: readonly PackedIce[]): number =>
  pieces.reduce((sum, p) => sum + p.body.volumeM3, 0);

/** Ice under a level; what crosses it by even sampling, to half a per cent of the piece. */
export const sunkenIceM3 = (pieces: readonly PackedIce[], levelYM: number): number =>
  pieces.reduce((sum, { body, placement }) => sum + body.volumeM3 * shareUnder(body.samples, placement, levelYM), 0);

function shareUnder(samples: Float64Array, { rotation, translationM }: RigidTransform, levelYM: number): number {
  const n = samples.length / 3;
  let under = 0;
  for (let i = 0; i < n; i++) {
    const y =
      rotation[3] * samples[3 * i] +
      rotation[4] * samples[3 * i + 1] +
      rotation[5] * samples[3 * i + 2] +
      translationM[1];
    if (y <= levelYM) under++;
  }
  return under / n;
}
