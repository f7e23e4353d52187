import { describe, expect, it } from 'vitest';
import { applyToPoint } from '../../src/core/rigid.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { FLOATING_SHARE_ABOVE } from '../../src/scene/ice/floating.ts';
import { faceRecessionMPerS, ICE_DENSITY_KG_PER_M3, meltIce } from '../../src/scene/ice/meltIce.ts';
import { type PackedIce, packIce } from '../../src/scene/ice/packIce.ts';
import { cutSolid, solidVolumeM3 } from '../../src/scene/parts/convexSolid.ts';
import { defaultGlassProfile } from '../../src/scene/pieceDefaults.ts';
import type { GlassProfile, Ice } from '../../src/scene/records.ts';

const bodyOf = (profile: GlassProfile) => {
  const result = buildGlassBody('glass', profile);
  if (!result.ok) throw new Error(result.error.map((d) => d.message).join(' '));
  return result.value;
};
/** A wide straight vessel in which one piece floats free. */
const BASIN: GlassProfile = {
  shape: 'tumbler',
  heightM: 0.2,
  rimDiameterM: 0.24,
  baseDiameterM: 0.24,
  wallM: 0.002,
  baseThicknessM: 0.01,
  footRadiusM: 0,
  floorFilletM: 0,
  rim: 'flat',
};
const LEVEL_M = 0.17;

/** Share of a piece over the level, by a way of its own for each form: a ball cap, a cut solid, a fine grid. */
function shareOver({ body, placement }: PackedIce, levelM: number): number {
  if (body.broken) {
    const normal: Vec3 = [placement.rotation[3], placement.rotation[4], placement.rotation[5]];
    const under = cutSolid(body.broken, { normal, offsetM: levelM - placement.translationM[1] });
    return 1 - solidVolumeM3(under) / solidVolumeM3(body.broken);
  }
  const [hx, hy, hz] = body.halfM;
  const r = body.bevelM;
  if (hx === r && hy === r && hz === r) {
    const h = placement.translationM[1] + r - levelM;
    return (Math.PI * h * h * (3 * r - h)) / 3 / ((4 / 3) * Math.PI * r ** 3);
  }
  const n = 70;
  let all = 0;
  let over = 0;
  const past = (v: number, half: number): number => Math.max(0, Math.abs(v) - (half - r));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < n; k++) {
        const p: Vec3 = [
          ((2 * (i + 0.5)) / n - 1) * hx,
          ((2 * (j + 0.5)) / n - 1) * hy,
          ((2 * (k + 0.5)) / n - 1) * hz,
        ];
        if (past(p[0], hx) ** 2 + past(p[1], hy) ** 2 + past(p[2], hz) ** 2 > r * r) continue;
        all++;
        if (applyToPoint(placement, p)[1] > levelM) over++;
      }
    }
  }
  return over / all;
}

describe('floating ice', () => {
  it('stands 8.3 % of its volume over the water: 916.7 over 999.84 kg/m3 (CRC Handbook, from memory)', () => {
    expect(FLOATING_SHARE_ABOVE).toBeCloseTo(1 - 916.7 / 999.84, 12);
    expect(FLOATING_SHARE_ABOVE * 100).toBeCloseTo(8.3, 1);
    expect(ICE_DENSITY_KG_PER_M3).toBe(916.7);
  });

  it.each([
    ['cube', { edgeM: 0.03, bevelM: 0.003 }, 0.005],
    ['block', { edgeM: 0.04, bevelM: 0.004, lengthM: 0.06 }, 0.005],
    ['sphere', { edgeM: 0.05, bevelM: 0.003 }, 0.005],
    ['spear', { edgeM: 0.03, bevelM: 0.002, lengthM: 0.12 }, 0.005],
    ['cracked', { edgeM: 0.035, bevelM: 0 }, 0.01],
    ['crushed', { edgeM: 0.02, bevelM: 0 }, 0.01],
  ] as const)(
    'a %s of %o alone floats as Archimedes says, within %f of its volume, over 12 seeds',
    (form, size, slack) => {
      const body = bodyOf(BASIN);
      for (let seed = 0; seed < 12; seed++) {
        const ice: Ice = { form, count: 1, seed, ...size };
        const [piece] = packIce(body, ice, LEVEL_M);
        expect(Math.abs(shareOver(piece, LEVEL_M) - FLOATING_SHARE_ABOVE)).toBeLessThan(slack);
      }
    },
  );

  it('a stack of three cubes in a narrow glass is lifted as one: 8.3 % of all of it is out, not of each', () => {
    const body = bodyOf({
      ...defaultGlassProfile('highball'),
      rimDiameterM: 0.048,
      baseDiameterM: 0.048,
    } as GlassProfile);
    const ice: Ice = { count: 3, edgeM: 0.027, bevelM: 0.003, seed: 4 };
    const pieces = packIce(body, ice, 0.11);
    expect(pieces).toHaveLength(3);
    const shares = pieces.map((piece) => shareOver(piece, 0.11)).sort((a, b) => b - a);
    expect(shares.reduce((sum, s) => sum + s, 0) / 3).toBeCloseTo(FLOATING_SHARE_ABOVE, 2);
    expect(shares[0]).toBeGreaterThan(0.2);
    expect(shares[2]).toBe(0);
  });

  it('a spear too long for its drink stands on the floor', () => {
    const body = bodyOf(defaultGlassProfile('highball'));
    const ice: Ice = { form: 'spear', count: 1, edgeM: 0.028, bevelM: 0.002, lengthM: 0.12, seed: 1 };
    const [{ placement }] = packIce(body, ice, 0.05);
    const foot = Math.min(
      ...[-1, 1].flatMap((x) => [-1, 1].map((z) => applyToPoint(placement, [x * 0.012, -0.058, z * 0.012])[1] - 0.002)),
    );
    expect(foot - body.floorYM).toBeGreaterThan(0);
    expect(foot - body.floorYM).toBeLessThan(0.004);
  });
});

describe('melting', () => {
  // Lumped estimate with a receding face: time rho L (a / 2) / (h dT). A 30 mm cube in air, h 10 W/m2 K, 25 K: 18 345.9 s;
  // in moving liquid, h 1000, 5 K: three times 305.765 s. Computed from 916.7 kg/m3 and 333.55 kJ/kg.
  it('takes a 30 mm cube 18 346 s in still air and 917 s in stirred liquid', () => {
    expect(0.015 / faceRecessionMPerS(10, 25)).toBeCloseTo(18345.9, 0);
    expect(0.015 / faceRecessionMPerS(1000, 5)).toBeCloseTo(3 * 305.765, 1);
  });

  it('shrinks the edge and rounds it, until there is nothing left', () => {
    const ice: Ice = { count: 1, edgeM: 0.03, bevelM: 0.002, seed: 1 };
    const fresh = meltIce(ice, true);
    const later = meltIce({ ...ice, meltMin: 20 }, true);
    if (!fresh || !later) throw new Error('still there');
    expect(fresh.halfM).toEqual([0.015, 0.015, 0.015]);
    const lostM = faceRecessionMPerS(300, 3) * 1200;
    expect(later.halfM[0]).toBeCloseTo(0.015 - lostM, 12);
    expect(later.bevelM).toBeCloseTo(0.002 + 2 * lostM, 12);
    expect(meltIce({ ...ice, meltMin: 240 }, true)).toBeUndefined();
    // Slower in air.
    expect(meltIce({ ...ice, meltMin: 20 }, false)?.halfM[0]).toBeGreaterThan(later.halfM[0]);
  });

  it('never leaves more rounding than half an edge: a cube ends as a ball', () => {
    const ball = meltIce({ count: 1, edgeM: 0.02, bevelM: 0.002, seed: 1, meltMin: 30 }, true);
    expect(ball?.bevelM).toBe(ball?.halfM[0]);
  });
});
