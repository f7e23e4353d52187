import type { Diagnostic } from '../../core/diagnostic.ts';
import type { Finish } from '../../materials/finish.ts';
import type { Medium } from '../../materials/surface.ts';
import type { DrinkBody } from '../glassware/drinkBody.ts';
import type { GlassPart } from '../glassware/glassBody.ts';
import { inMm, madeWithin } from '../problems.ts';
import { arcAbout, lineBetween, type ProfilePiece, profilePoint, splitProfileAtHeight } from '../profile/index.ts';
import type { Foam } from '../records.ts';

export interface FoamBody {
  /** Inside of the glass that the head touches, and what stays dry above it. */
  readonly touched: readonly GlassPart[];
  readonly dry: readonly GlassPart[];
  /** From the wall in to the axis, front up. */
  readonly top: ProfilePiece;
  readonly topYM: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** The head stays this far under the inner edge of the rim, at the wall. */
const FREEBOARD_M = 0.0005;

/** A head of foam on a drink: touches its whole surface and the glass, with a level or gently domed top. */
export function layFoam(recordId: string, drink: DrinkBody, foam: Foam): FoamBody | undefined {
  const diagnostics: Diagnostic[] = [];
  const mostYM = drink.dry.length > 0 ? drink.dry[0].piece.from.yM - FREEBOARD_M : drink.contact.yM;
  let edgeYM = drink.contact.yM + foam.heightM;
  if (edgeYM > mostYM) {
    edgeYM = mostYM;
    diagnostics.push(
      madeWithin(
        recordId,
        'foam-over-rim',
        'drink.foam.heightM',
        foam.heightM,
        `drink.foam.heightM would stand over the rim: it is kept at ${inMm(Math.max(0, mostYM - drink.contact.yM))}. Lower it, or fill less.`,
      ),
    );
  }
  if (edgeYM - drink.contact.yM < 0.0002) return undefined;
  const { below, above } = splitProfileAtHeight(drink.dry, edgeYM);
  const edge = below[0].piece.from;
  const domeM = Math.min(foam.domeM, 0.5 * edge.rM);
  const top =
    domeM < 1e-5 ? lineBetween(edge, profilePoint(0, edge.yM)) : { ...domeArc(edge.rM, edge.yM, domeM), from: edge };
  return { touched: below, dry: above, top, topYM: edgeYM + domeM, diagnostics };
}

/** Part of a ball over a ring: radius (r^2 + h^2) / 2h. */
function domeArc(rM: number, yM: number, heightM: number): ProfilePiece {
  const radiusM = (rM * rM + heightM * heightM) / (2 * heightM);
  const centreYM = yM + heightM - radiusM;
  return arcAbout(profilePoint(0, centreYM), radiusM, Math.atan2(yM - centreYM, rM), Math.PI / 2);
}

/** Wet foam is mostly gas; chosen for a faint sheen. Invented. */
const FOAM_INDEX = 1.1;

/**
 * Medium of a cloudy head. Its scattering is even all round; absorption is set so that a thick head gives back the tint
 * of diffuse light: R = (1 - s)(1 - 0.139 s)/(1 + 1.17 s), s^2 = 1 - albedo (H. C. van de Hulst, Multiple Light Scattering,
 * 1980; from memory, good to a per cent for even scattering), solved for s.
 */
export function foamMedium(foam: Foam): Medium {
  const absorption = foam.tintRgb.map((tint) => {
    const albedo = albedoOfReflectance(Math.min(0.995, tint));
    return (foam.scatteringPerM * (1 - albedo)) / albedo;
  });
  return {
    index: FOAM_INDEX,
    absorptionPerM: [absorption[0], absorption[1], absorption[2]],
    scatteringPerM: [foam.scatteringPerM, foam.scatteringPerM, foam.scatteringPerM],
  };
}

/** Single-scattering albedo of a thick layer that reflects this share of diffuse light. */
export function albedoOfReflectance(reflectance: number): number {
  let lo = 0;
  let hi = 1;
  for (let i = 0; i < 50; i++) {
    const s = (lo + hi) / 2;
    if (((1 - s) * (1 - 0.139 * s)) / (1 + 1.17 * s) > reflectance) lo = s;
    else hi = s;
  }
  return 1 - hi * hi;
}

export const foamFinish = (foam: Foam): Finish =>
  foam.look === 'matte' ? { type: 'matte', reflectanceRgb: foam.tintRgb } : { type: 'clear', roughness: 0 };
