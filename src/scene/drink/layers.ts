import type { Diagnostic } from '../../core/diagnostic.ts';
import type { DrinkBody } from '../glassware/drinkBody.ts';
import { underSurfaceM3 } from '../glassware/drinkBody.ts';
import { type GlassBody, type GlassPart, piecesOf } from '../glassware/glassBody.ts';
import { cannotMake } from '../problems.ts';
import {
  lineBetween,
  type ProfilePiece,
  profilePoint,
  revolvedVolumeM3,
  splitProfileAtHeight,
} from '../profile/index.ts';

/** One band of drink from the floor up: what of the inside it wets. */
export interface DrinkBand {
  readonly wet: readonly GlassPart[];
}

export interface LayeredDrink {
  /** Lowest first: the drink itself, then its layers. */
  readonly bands: readonly DrinkBand[];
  /** Level discs between bands, lowest first; fronts up. */
  readonly interfaces: readonly ProfilePiece[];
  readonly diagnostics: readonly Diagnostic[];
}

/** The lowest drink keeps at least this share. */
const LEAST_BASE_SHARE = 0.02;
/** A layer's surface stays this far under the level of the drink. */
const LEAST_LAYER_M = 0.0004;

/**
 * Parts a drink into layers by share of the room under its surface (sunken ice is taken to be spread evenly). Between two
 * layers there is one level surface, from wall to axis.
 */
export function layerDrink(
  recordId: string,
  body: GlassBody,
  drink: DrinkBody,
  layers: readonly { readonly share: number }[],
): LayeredDrink {
  const whole: LayeredDrink = { bands: [{ wet: drink.wet }], interfaces: [], diagnostics: [] };
  if (layers.length === 0) return whole;
  const above = layers.reduce((sum, layer) => sum + layer.share, 0);
  if (above > 1 - LEAST_BASE_SHARE) {
    return {
      ...whole,
      diagnostics: [
        cannotMake(
          recordId,
          'layers-over-full',
          'drink.layers',
          above,
          'drink.layers take more than all that is poured: keep the sum of their share under 0.98. They are left out.',
        ),
      ],
    };
  }
  const allM3 = underSurfaceM3(drink);
  const bands: DrinkBand[] = [];
  const interfaces: ProfilePiece[] = [];
  let rest = drink.wet;
  let upTo = 1 - above;
  for (const layer of layers) {
    const heightYM = heightOfVolumeYM(body, upTo * allM3, drink.levelYM - LEAST_LAYER_M);
    const parted = splitProfileAtHeight(rest, heightYM);
    const edge = parted.below[0].piece.from;
    interfaces.push(lineBetween(edge, profilePoint(0, edge.yM)));
    bands.push({ wet: parted.below });
    rest = parted.above;
    upTo += layer.share;
  }
  return { bands: [...bands, { wet: rest }], interfaces, diagnostics: [] };
}

/** Height under which a volume lies with a flat top, at most `mostYM`. By bisection on the closed form. */
export function heightOfVolumeYM(body: GlassBody, volumeM3: number, mostYM: number): number {
  let lo = body.floorYM;
  let hi = mostYM;
  for (let i = 0; i < 44; i++) {
    const mid = (lo + hi) / 2;
    if (roomUnderM3(body, mid) < volumeM3) lo = mid;
    else hi = mid;
  }
  return hi;
}

/** Room inside a vessel under a height. */
export const roomUnderM3 = (body: GlassBody, yM: number): number =>
  -revolvedVolumeM3(piecesOf(splitProfileAtHeight(body.inside, yM).below));
