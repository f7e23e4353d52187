import { IDENTITY, type RigidTransform, translation } from '../../core/rigid.ts';
import type { AzimuthRange, MeshShape } from '../../core/shape.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { createMeshBuilder } from '../parts/mesh.ts';
import { arcAbout, lineBetween, type ProfilePiece, profilePoint, shapeFromPiece } from '../profile/index.ts';
import type { Garnish } from '../records.ts';
import type { GarnishPart } from './garnishPart.ts';
import { CITRUS } from './looks.ts';
import { layPulp } from './pulp.ts';

export type CitrusWheel = Extract<Garnish, { kind: 'citrusWheel' }>;

/** Shares of the wheel's radius. */
const FLESH_TO = 0.86;
const CORE = 0.07;
const SKIN = 0.022;

/**
 * A slice about local y, its middle at the origin. With a slit (half gap `slitM` over 0) it is open from rind to core
 * toward azimuth 0. Peel and pith are turned; flesh and skins are flat meshes, each face a thin translucent sheet.
 */
export function citrusWheelParts(wheel: CitrusWheel, slitM: number): GarnishPart[] {
  const look = CITRUS[wheel.fruit];
  const radiusM = wheel.diameterM / 2;
  const halfM = wheel.thicknessM / 2;
  const gap = slitM > 0 ? Math.asin(Math.min(0.9, slitM / radiusM)) : 0;
  const azimuth: AzimuthRange | undefined = gap > 0 ? { startRad: gap, endRad: 2 * Math.PI - gap } : undefined;
  const turned = (role: string, piece: ProfilePiece, finish: GarnishPart['finish']): GarnishPart => ({
    role,
    shape: azimuth ? { ...shapeFromPiece(piece), azimuth } : shapeFromPiece(piece),
    worldFromLocal: IDENTITY,
    finish,
  });
  const edgeM = Math.min(0.0007, halfM * 0.8);
  const peelRM = radiusM - edgeM;
  const ringM = FLESH_TO * radiusM;
  const parts: GarnishPart[] = [
    turned('peel', arcAbout(profilePoint(peelRM, -halfM + edgeM), edgeM, -Math.PI / 2, 0), look.peel),
    turned('peel', lineBetween(profilePoint(radiusM, -halfM + edgeM), profilePoint(radiusM, halfM - edgeM)), look.peel),
    turned('peel', arcAbout(profilePoint(peelRM, halfM - edgeM), edgeM, 0, Math.PI / 2), look.peel),
    turned('pith', lineBetween(profilePoint(ringM, -halfM), profilePoint(peelRM, -halfM)), look.pith),
    turned('pith', lineBetween(profilePoint(peelRM, halfM), profilePoint(ringM, halfM)), look.pith),
  ];
  for (const side of [1, -1] as const) {
    const placement: RigidTransform = translation([0, side * halfM, 0]);
    const { flesh, skins } = faceMeshes(look.segments, ringM, radiusM * CORE, radiusM * SKIN, slitM, side);
    parts.push({ role: 'flesh', shape: flesh, worldFromLocal: placement, finish: look.flesh });
    parts.push({ role: 'skins', shape: skins, worldFromLocal: placement, finish: look.membrane });
  }
  if (gap > 0) {
    for (const side of [1, -1] as const) {
      parts.push({
        role: 'cut',
        shape: {
          type: 'quad',
          originM: [radiusM * CORE, -halfM, side * slitM],
          edgeUM: [(radiusM - edgeM) * Math.cos(gap) - radiusM * CORE, 0, 0],
          edgeVM: [0, wheel.thicknessM, 0],
        },
        worldFromLocal: IDENTITY,
        finish: look.flesh,
      });
    }
  }
  return parts;
}

/** Outline of a segment from its tip out one side: share of its half angle, share of its length. */
const SIDE: readonly (readonly [a: number, b: number])[] = [
  [0, 0],
  [0.8, 0.05],
  [1, 0.2],
  [1, 0.45],
  [1, 0.7],
  [0.99, 0.84],
  [0.92, 0.94],
  [0.72, 0.99],
  [0.4, 1],
];
const CORNER = 6;
/** Pulp stands a little proud of the skins. */
const BULGE_M = 0.00035;

/**
 * Flesh and skins of one face in the plane y = 0, front toward `side` of y. Segments have rounded corners; skins fill all
 * between them, from the core to the ring. Skins beside the slit are as thick as its half gap.
 */
function faceMeshes(
  segments: number,
  ringM: number,
  coreM: number,
  skinM: number,
  slitM: number,
  side: 1 | -1,
): { flesh: MeshShape; skins: MeshShape } {
  const flesh = createMeshBuilder();
  const skins = createMeshBuilder();
  const at = (r: number, phi: number, y = 0): Vec3 => [r * Math.cos(phi), side * y, r * Math.sin(phi)];
  // Azimuth grows from +x to +z: seen from +y that runs clockwise, so faces toward +y take their corners in reverse.
  const put = (mesh: typeof flesh, a: number, b: number, c: number): void =>
    side > 0 ? mesh.triangle(a, c, b) : mesh.triangle(a, b, c);
  const step = (2 * Math.PI) / segments;
  const tipM = coreM * 1.15;
  const outM = 0.965 * ringM;
  // Segments beside the slit begin where it is narrower than they are.
  const lateTipM = Math.max(tipM, (slitM + skinM / 2) / Math.sin(0.45 * step));
  const outline = (i: number): { phi: number; r: number }[] => {
    const middle = (i + 0.5) * step;
    const fromM = slitM > 0 && (i === 0 || i === segments - 1) ? lateTipM : tipM;
    const point = (sign: 1 | -1, [a, b]: readonly [number, number]) => {
      const r = fromM + (outM - fromM) * b;
      const besideSlit = slitM > 0 && ((i === 0 && sign < 0) || (i === segments - 1 && sign > 0));
      const skin = besideSlit ? slitM + skinM / 2 : skinM / 2;
      const most = Math.max(0.02, step / 2 - Math.asin(Math.min(0.9, skin / r)));
      return { phi: middle + sign * a * most, r };
    };
    const left = SIDE.map((p) => point(-1, p));
    const right = SIDE.map((p) => point(1, p));
    return [...left, { phi: middle, r: outM }, ...right.slice(1).reverse()];
  };
  const loops = Array.from({ length: segments }, (_, i) => outline(i));
  for (const loop of loops) {
    const hub = at(loop[0].r + 0.62 * (outM - loop[0].r), loop[0].phi);
    layPulp(
      flesh,
      loop.map((p) => at(p.r, p.phi)),
      { hub, rise: [0, side * BULGE_M, 0] },
      (a, b, c) => put(flesh, a, b, c),
    );
  }
  const corner = (p: { phi: number; r: number }): number => skins.corner(at(p.r, p.phi));
  const strip = (lower: readonly number[], upper: readonly number[]): void => {
    // lower at the smaller azimuth.
    for (let k = 0; k + 1 < lower.length; k++) {
      put(skins, lower[k], lower[k + 1], upper[k + 1]);
      put(skins, lower[k], upper[k + 1], upper[k]);
    }
  };
  const centre = skins.corner([0, 0, 0]);
  loops.forEach((loop, i) => {
    // The outer edge of the segment against the ring, from its left corner round to its right.
    const outer = loop.slice(CORNER, loop.length - CORNER + 1);
    const inner = outer.map(corner);
    const onRing = outer.map((p) => corner({ phi: p.phi, r: ringM }));
    for (let k = 0; k + 1 < inner.length; k++) {
      put(skins, inner[k], onRing[k], onRing[k + 1]);
      put(skins, inner[k], onRing[k + 1], inner[k + 1]);
    }
    const next = loops[(i + 1) % segments];
    const lastSkin = i === segments - 1;
    if (!(lastSkin && slitM > 0)) {
      const turn = lastSkin ? 2 * Math.PI : 0;
      const right = [loop[0], ...loop.slice(loop.length - CORNER).reverse()];
      const left = next.slice(0, CORNER + 1).map((p) => ({ ...p, phi: p.phi + turn }));
      const a = right.map(corner);
      const b = left.map(corner);
      a.push(corner({ phi: right[right.length - 1].phi, r: ringM }));
      b.push(corner({ phi: left[left.length - 1].phi, r: ringM }));
      strip(a, b);
    }
    if (!(lastSkin && slitM > 0)) put(skins, centre, corner(loop[0]), corner(next[0]));
  });
  return { flesh: flesh.build('smooth'), skins: skins.build('smooth') };
}
