import { compose, fromAxes, type RigidTransform, translation } from '../../../core/rigid.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import { type Built, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import { buildSolid } from '../solid.ts';
import { createFaceMesh } from './faceMesh.ts';
import { quadSide, type Side } from './side.ts';

/** Steps as one closed block. Sides and back are cut at every tread, so that all edges meet edge to edge. */
export function buildStep(piece: DressingOf<'step'>, placement: RigidTransform): Built {
  const { widthM, treadM, riserM, steps } = piece;
  if (riserM <= BOARD_LIFT_M) {
    return leftOut([
      cannotMake(piece.id, 'riser-too-low', 'riserM', riserM, 'riserM is too low for a step: use 1 mm or more.'),
    ]);
  }
  const half = widthM / 2;
  const frontZ = (steps * treadM) / 2;
  const height = (i: number): number => (i === 0 ? BOARD_LIFT_M : i * riserM);
  const across: Vec3 = [widthM, 0, 0];
  const sides: Side[] = [];
  const quad = (role: string, originM: Vec3, u: Vec3, v: Vec3): void => {
    sides.push(quadSide(role, originM, u, v, placement));
  };
  const backZ = frontZ - steps * treadM;
  for (let i = 0; i < steps; i++) {
    const z = frontZ - i * treadM;
    const up: Vec3 = [0, height(i + 1) - height(i), 0];
    quad('riser', [-half, height(i), z], across, up);
    quad('tread', [-half, height(i + 1), z], across, [0, 0, -treadM]);
    quad('underside', [-half, height(0), z], [0, 0, -treadM], across);
    quad('back', [half, height(i), backZ], [-widthM, 0, 0], up);
    for (let j = 0; j <= i; j++) {
      const rise: Vec3 = [0, height(j + 1) - height(j), 0];
      quad('left side', [-half, height(j), z - treadM], [0, 0, treadM], rise);
      quad('right side', [half, height(j), z], [0, 0, -treadM], rise);
    }
  }
  return buildSolid(piece.id, sides, piece);
}

/** Chords of a round head: they lie inside the opening, so the face covers the edge of the exact soffit everywhere. */
export const HEAD_CHORDS = 64;

/**
 * Face round an opening in the plane z = 0, front toward +z: everything of the rectangle but the opening, which stands on
 * the lower edge. As polygons that meet corner to corner.
 */
export function openingFace(
  sizes: {
    readonly widthM: number;
    readonly lowYM: number;
    readonly highYM: number;
    readonly openingWidthM: number;
    /** Where the head begins: the spring of a round head, the height of a flat one. */
    readonly springYM: number;
  },
  head: 'round' | 'flat',
): Vec3[][] {
  const { lowYM, highYM, springYM } = sizes;
  const w = sizes.widthM / 2;
  const a = sizes.openingWidthM / 2;
  const topLeft: Vec3 = [-w, highYM, 0];
  const topRight: Vec3 = [w, highYM, 0];
  const curve: Vec3[] =
    head === 'flat'
      ? [
          [-a, springYM, 0],
          [a, springYM, 0],
        ]
      : Array.from({ length: HEAD_CHORDS + 1 }, (_, i): Vec3 => {
          const phi = Math.PI * (1 - i / HEAD_CHORDS);
          return [a * Math.cos(phi), springYM + a * Math.sin(phi), 0];
        });
  const middle = head === 'flat' ? 0 : HEAD_CHORDS / 2;
  const polygons: Vec3[][] = [
    [[-w, lowYM, 0], [-a, lowYM, 0], [-a, springYM, 0], topLeft],
    [[w, lowYM, 0], topRight, [a, springYM, 0], [a, lowYM, 0]],
    [topLeft, curve[middle], topRight],
  ];
  for (let i = 0; i + 1 < curve.length; i++) polygons.push([i < middle ? topLeft : topRight, curve[i], curve[i + 1]]);
  return polygons;
}

/** Block with a doorway. The soffit of a round head is half an exact cylinder. */
export function buildArch(piece: DressingOf<'arch'>, placement: RigidTransform): Built {
  const { widthM, heightM, depthM, openingWidthM, openingHeightM, head } = piece;
  const radiusM = openingWidthM / 2;
  const springYM = head === 'round' ? openingHeightM - radiusM : openingHeightM;
  const problem = (code: string, field: string, value: number, message: string): Built =>
    leftOut([cannotMake(piece.id, code, field, value, message)]);
  if (openingWidthM >= widthM) {
    return problem(
      'opening-too-wide',
      'openingWidthM',
      openingWidthM,
      `openingWidthM leaves no block beside the opening: keep it under ${inMm(widthM)}.`,
    );
  }
  if (openingHeightM >= heightM) {
    return problem(
      'opening-too-high',
      'openingHeightM',
      openingHeightM,
      `openingHeightM leaves no block over the opening: keep it under ${inMm(heightM)}.`,
    );
  }
  if (springYM <= BOARD_LIFT_M) {
    return problem(
      'opening-too-low',
      'openingHeightM',
      openingHeightM,
      `openingHeightM is less than half the width of a round opening: make it more than ${inMm(radiusM)}, or the head flat.`,
    );
  }
  const w = widthM / 2;
  const a = radiusM;
  const front = depthM / 2;
  const lift = BOARD_LIFT_M;
  const polygons = openingFace({ widthM, lowYM: lift, highYM: heightM, openingWidthM, springYM }, head);
  const face = createFaceMesh();
  for (const polygon of polygons) face.polygon(polygon);
  const shape = face.build();
  // The back is the same face turned half round the vertical.
  const turned = fromAxes([-1, 0, 0], [0, 1, 0], [0, 0, -1], [0, 0, -front]);
  const inward: Vec3 = [0, 0, -depthM];
  const outward: Vec3 = [0, 0, depthM];
  const quad = (role: string, originM: Vec3, u: Vec3, v: Vec3): Side => quadSide(role, originM, u, v, placement);
  const sides: Side[] = [
    { role: 'front', shape, worldFromLocal: compose(placement, translation([0, 0, front])) },
    { role: 'back', shape, worldFromLocal: compose(placement, turned) },
    quad('left side', [-w, lift, -front], outward, [0, heightM - lift, 0]),
    quad('right side', [w, lift, front], inward, [0, heightM - lift, 0]),
    quad('top', [-w, heightM, front], [widthM, 0, 0], inward),
    quad('underside', [-w, lift, front], inward, [w - a, 0, 0]),
    quad('underside', [a, lift, front], inward, [w - a, 0, 0]),
    quad('reveal left', [-a, lift, front], inward, [0, springYM - lift, 0]),
    quad('reveal right', [a, lift, -front], outward, [0, springYM - lift, 0]),
  ];
  if (head === 'flat') {
    sides.push(quad('soffit', [-a, springYM, front], inward, [openingWidthM, 0, 0]));
  } else {
    // Local y runs back along -z; azimuth 0 is +x, 90 degrees is up. Walked down, it faces its axis.
    const axis = fromAxes([1, 0, 0], [0, 0, -1], [0, 1, 0], [0, springYM, 0]);
    sides.push({
      role: 'soffit',
      shape: {
        type: 'revolvedLine',
        r0M: a,
        y0M: front,
        r1M: a,
        y1M: -front,
        azimuth: { startRad: 0, endRad: Math.PI },
      },
      worldFromLocal: compose(placement, axis),
    });
  }
  return buildSolid(piece.id, sides, piece);
}

/** A whole ball. It stands BOARD_LIFT_M over what it lies on, and is exactly as large as its record says. */
export function buildSphere(piece: DressingOf<'sphere'>, placement: RigidTransform): Built {
  const radiusM = piece.diameterM / 2;
  const ball: Side = {
    role: 'sphere',
    shape: {
      type: 'revolvedArc',
      centreRM: 0,
      centreYM: radiusM + BOARD_LIFT_M,
      radiusM,
      angle0Rad: -Math.PI / 2,
      angle1Rad: Math.PI / 2,
    },
    worldFromLocal: placement,
  };
  return buildSolid(piece.id, [ball], piece);
}
