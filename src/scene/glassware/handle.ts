import type { Diagnostic } from '../../core/diagnostic.ts';
import { compose, fromAxes, type RigidTransform } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import { levelDirection, type SolidPart } from '../parts/solidPart.ts';
import { cannotMake, inMm } from '../problems.ts';
import { radiusAtHeightM } from '../profile/index.ts';
import type { GlassProfile } from '../records.ts';
import { type GlassBody, piecesOf } from './glassBody.ts';

export type MugProfile = Extract<GlassProfile, { shape: 'mug' }>;

export interface HandleResult {
  readonly parts: readonly SolidPart[];
  readonly diagnostics: readonly Diagnostic[];
}

/** The flat ends of the bar stay this far off both faces of the wall that they are sunk in. */
const SUNK_CLEAR_M = 0.00015;

/**
 * A mug's handle: a round bar that leaves the wall level, bends down, comes back and enters the wall again. Its flat ends
 * lie inside the wall, so bar and wall are one glass; it is a body of its own with the same medium. Exact: three
 * cylinders, two quarter rings, two discs.
 */
export function buildHandle(
  recordId: string,
  body: GlassBody,
  { handle, wallM }: MugProfile,
  worldFromGlass: RigidTransform,
): HandleResult {
  const radiusM = handle.thicknessM / 2;
  const topYM = handle.middleM + handle.spanM / 2;
  const bottomYM = handle.middleM - handle.spanM / 2;
  const outside = piecesOf(body.outside);
  const inside = piecesOf(body.inside);
  const roots = [topYM, bottomYM].map((yM) => rootRadiusM(yM, radiusM, outside, inside));
  const problem = (code: string, field: string, value: number, mend: string): HandleResult => ({
    parts: [],
    diagnostics: [cannotMake(recordId, code, `profile.handle.${field}`, value, `profile.handle.${field} ${mend}`)],
  });
  if (handle.spanM < 3 * handle.thicknessM) {
    return problem(
      'handle-too-tight',
      'spanM',
      handle.spanM,
      `leaves no room between the roots: use ${inMm(3 * handle.thicknessM)} or more.`,
    );
  }
  const [topRM, bottomRM] = roots;
  if (topRM === undefined || bottomRM === undefined) {
    return problem(
      'handle-off-wall',
      'middleM',
      handle.middleM,
      `puts a root of the handle where the wall (${inMm(wallM)}) can't hold it: keep both roots beside the straight wall and clear of rim and foot, make the bar thinner or the wall thicker.`,
    );
  }
  const gripRM = Math.max(topRM, bottomRM) + handle.reachM;
  const bendM = Math.min(handle.spanM / 2 - radiusM * 0.2, handle.reachM * 0.7);
  if (bendM < radiusM * 1.2) {
    return problem(
      'handle-too-near',
      'reachM',
      handle.reachM,
      `is too short for so thick a bar: use ${inMm(radiusM * 1.8)} or more.`,
    );
  }
  const out = levelDirection(radFromDeg(handle.azimuthDeg));
  const side: readonly [number, number, number] = [-out[2], 0, out[0]];
  // In the plane of the handle: x out, y up, z across.
  const plane = compose(worldFromGlass, fromAxes(out, [0, 1, 0], side, [0, 0, 0]));
  const parts: SolidPart[] = [];
  const bar = (from: readonly [number, number], to: readonly [number, number]): void => {
    const l = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const [ux, uy] = [(to[0] - from[0]) / l, (to[1] - from[1]) / l];
    parts.push({
      role: 'handle',
      shape: { type: 'revolvedLine', r0M: radiusM, y0M: 0, r1M: radiusM, y1M: l },
      worldFromLocal: compose(plane, fromAxes([uy, -ux, 0], [ux, uy, 0], [0, 0, 1], [from[0], from[1], 0])),
    });
  };
  const end = (xM: number, yM: number): void => {
    // A disc that looks back toward the axis of the mug.
    parts.push({
      role: 'handle',
      shape: { type: 'revolvedLine', r0M: 0, y0M: 0, r1M: radiusM, y1M: 0 },
      worldFromLocal: compose(plane, fromAxes([0, -1, 0], [1, 0, 0], [0, 0, 1], [xM, yM, 0])),
    });
  };
  const bend = (xM: number, yM: number, up: boolean): void => {
    // Ring about the plane's z: local y is z, azimuth 0 is x and 90 degrees is -y of the plane.
    parts.push({
      role: 'handle',
      shape: {
        type: 'revolvedArc',
        centreRM: bendM,
        centreYM: 0,
        radiusM,
        angle0Rad: 0,
        angle1Rad: 2 * Math.PI,
        azimuth: up ? { startRad: -Math.PI / 2, endRad: 0 } : { startRad: 0, endRad: Math.PI / 2 },
      },
      worldFromLocal: compose(plane, fromAxes([1, 0, 0], [0, 0, 1], [0, -1, 0], [xM, yM, 0])),
    });
  };
  end(topRM, topYM);
  bar([topRM, topYM], [gripRM - bendM, topYM]);
  bend(gripRM - bendM, topYM - bendM, true);
  if (topYM - bendM - (bottomYM + bendM) > 1e-6) bar([gripRM, topYM - bendM], [gripRM, bottomYM + bendM]);
  bend(gripRM - bendM, bottomYM + bendM, false);
  bar([gripRM - bendM, bottomYM], [bottomRM, bottomYM]);
  end(bottomRM, bottomYM);
  return { parts, diagnostics: [] };
}

/** Where the flat end of a bar may lie, over its whole round: outside the inner face and inside the outer one. */
function rootRadiusM(
  yM: number,
  barM: number,
  outside: Parameters<typeof radiusAtHeightM>[0],
  inside: Parameters<typeof radiusAtHeightM>[0],
): number | undefined {
  let most = Number.POSITIVE_INFINITY;
  let least = 0;
  for (const share of [-1, -0.5, 0, 0.5, 1]) {
    const outerRM = radiusAtHeightM(outside, yM + share * barM);
    const innerRM = radiusAtHeightM(inside, yM + share * barM) ?? 0;
    if (outerRM === undefined) return undefined;
    const across = barM * Math.sqrt(1 - share * share);
    if (outerRM <= across) return undefined;
    most = Math.min(most, Math.sqrt(outerRM ** 2 - across ** 2) - SUNK_CLEAR_M);
    least = Math.max(least, innerRM + SUNK_CLEAR_M);
  }
  return least < most ? (least + most) / 2 : undefined;
}
