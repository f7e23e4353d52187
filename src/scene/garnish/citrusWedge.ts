import { fromAxes, IDENTITY, type RigidTransform } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { createMeshBuilder } from '../parts/mesh.ts';
import { ovalProfile } from '../parts/rod.ts';
import { type ProfilePoint, pointAlong, shapeFromPiece } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import type { GarnishPart } from './garnishPart.ts';
import { CITRUS } from './looks.ts';
import { layPulp } from './pulp.ts';

export type CitrusWedge = Extract<Garnish, { kind: 'citrusWedge' }>;

/** Length of the fruit over its width. */
const STRETCH: Readonly<Record<CitrusWedge['fruit'], number>> = { lemon: 1.25, lime: 1.1, orange: 1, grapefruit: 0.95 };
const PITH_SHARE = 0.1;
/** Pulp stands a little proud of the pith. */
const BULGE_M = 0.0006;

/**
 * A wedge: part of the turn of an oval about local y, its sharp edge on the axis, its peel toward +x. Peel is exact; the
 * two cut faces are flat meshes of flesh and pith.
 */
export function citrusWedgeParts(wedge: CitrusWedge): GarnishPart[] {
  const look = CITRUS[wedge.fruit];
  const radiusM = wedge.diameterM / 2;
  const half = radFromDeg(wedge.spanDeg) / 2;
  const profile = ovalProfile(radiusM, radiusM * STRETCH[wedge.fruit]);
  const azimuth = { startRad: -half, endRad: half };
  const parts: GarnishPart[] = profile.map((piece) => ({
    role: 'peel',
    shape: { ...shapeFromPiece(piece), azimuth },
    worldFromLocal: IDENTITY,
    finish: look.peel,
  }));
  const outline = profile.flatMap((piece) => Array.from({ length: 8 }, (_, k) => pointAlong(piece, k / 8)));
  outline.push(pointAlong(profile[profile.length - 1], 1));
  for (const side of [1, -1] as const) {
    const phi = side * half;
    // In the cut plane: x away from the axis, y along it, z out of the wedge.
    const out: Vec3 = [-Math.sin(phi) * side, 0, Math.cos(phi) * side];
    const x: Vec3 = [Math.cos(phi), 0, Math.sin(phi)];
    const face: RigidTransform =
      side > 0 ? fromAxes(x, [0, -1, 0], out, [0, 0, 0]) : fromAxes(x, [0, 1, 0], out, [0, 0, 0]);
    const { flesh, pith } = cutFace(outline, radiusM);
    parts.push({ role: 'flesh', shape: flesh, worldFromLocal: face, finish: look.flesh });
    parts.push({ role: 'pith', shape: pith, worldFromLocal: face, finish: look.pith });
  }
  return parts;
}

/**
 * One cut face in the plane z = 0: pulp on a mound, pale pith between it and the peel.
 */
function cutFace(outline: readonly ProfilePoint[], radiusM: number) {
  const flesh = createMeshBuilder();
  const pith = createMeshBuilder();
  const inM = PITH_SHARE * radiusM;
  const topM = outline[outline.length - 1].yM;
  const shrink = (topM - 1.6 * inM) / topM;
  const inner = outline.map((p): Vec3 => [Math.max(0.6 * inM, p.rM * (1 - PITH_SHARE) - 0.0002), p.yM * shrink, 0]);
  const hub: Vec3 = [0.45 * radiusM, 0, 0];
  layPulp(flesh, inner, { hub, rise: [0, 0, BULGE_M] }, (a, b, c) => flesh.triangle(a, b, c));
  const edge = inner.map((p) => pith.corner(p));
  const rind = outline.map((p) => pith.corner([p.rM, p.yM, 0]));
  const n = inner.length;
  for (let k = 0; k < n; k++) {
    const next = (k + 1) % n;
    // The last side runs down the axis, where the skins of the fruit meet.
    if (k + 1 < n) pith.quad(edge[k], rind[k], rind[next], edge[next]);
    else pith.quad(edge[k], rind[k], rind[0], edge[0]);
  }
  return { flesh: flesh.build('smooth'), pith: pith.build('smooth') };
}
